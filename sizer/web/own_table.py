"""A builder's own design under work as a draft keeps it: the table's file as text, and back."""

import json

from sizer.design.cells import Unread, sound
from sizer.web.figures import DesignText, Part, Short

_UNREAD = ("unread", "was", "allowed")  # keys of an Unread in JSON


class OwnTable(Part):
    file: DesignText  # `file_json` of it
    good: DesignText = ""  # the last one without fault, where this one has any
    text: DesignText = ""  # the file that was opened, whose comments are kept
    frame: Short | None = None  # name of the frame that was worked on

    def name(self):
        return sound(json_file(self.file)["name"])

    def frames(self):
        return {sound(row["name"]): row for row in json_file(self.file)["frame"]}


def file_json(file):
    """A design file, as sizer.design.edit has it, as JSON."""
    return json.dumps(file, ensure_ascii=False, default=lambda one: dict(
        zip(_UNREAD, (one.text, one.was, one.allowed), strict=True)))


def json_file(text):
    """The design file of `file_json`."""
    return json.loads(text, object_hook=_or_unread)


def _or_unread(part):
    """An Unread where a table is one; a boat's own tables hold no text by these three names."""
    if tuple(part) == _UNREAD and isinstance(part["unread"], str):
        return Unread(part["unread"], part["was"], part["allowed"])
    return part
