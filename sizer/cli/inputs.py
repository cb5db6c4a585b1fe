"""What the command line reads: a base design, a request, a list of people. Readers of options."""

import errno
import sys
from contextlib import nullcontext
from dataclasses import dataclass
from pathlib import Path

from sizer.border import typed_json
from sizer.cli.options import Option, needed
from sizer.crowd.people import read_people, text_lines
from sizer.design.library import read_base
from sizer.errors import BadInput, Fault, caught, file_trouble
from sizer.fit.cautions import standing_cautions
from sizer.fit.request import Request, drawn_request, read_request
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import Lines, fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.shop.settings import SHOP
from sizer.stamp import Imprint, boat_words

EXAMPLE_REQUEST = (
    '{"base": "day-boat", "use": "coastal-day", "paddler": '
    '{"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}')
MOST_BYTES = 1_000_000  # of a request or of what was measured


@dataclass(frozen=True, eq=False)
class Given:
    """A base design, and the request to be fitted to it where one was given."""

    base: str  # shipped name or path
    lines: Lines
    request: Request | None = None

    def job(self, shop=SHOP):
        """The Job of the request, or of the base's own paddler with nothing scaled."""
        return run(self.request or drawn_request(self.base, self.lines), self.lines, shop=shop)

    def boat(self, stamp):
        """(Boat, Imprint) of the request's fitted boat, or of the base as drawn."""
        if self.request:
            job = self.job().stamped(stamp)
            return job.fitted.assessed.boat, job.imprint
        boat = scaled_boat(self.lines, Scaling())
        return boat, Imprint(stamp, boat_words(self.base, boat), "", standing_cautions())


def base(text, _place="base", _given=None):
    """The Given of a base design, by its shipped name or its path; raises BadInput."""
    return Given(text, fair_lines(read_base(text)))


def request(text, _place="request", _given=None):
    """The Given of a request file, or of standard input for "-"; raises BadInput."""
    given, faults = _json(text), []
    named = given.get("base") if isinstance(given, dict) else None
    named = named.strip() if isinstance(named, str) else ""
    lines = caught(lambda: fair_lines(read_base(named)), faults) if named else None
    asked = caught(lambda: read_request(given), faults)
    if faults:
        raise BadInput(faults)
    return Given(asked.trip.base, lines, asked)


def design(text, _place="design", _given=None):
    """The Given of a request where `text` names one, else of a base; raises BadInput."""
    return request(text) if text == "-" or text.endswith(".json") else base(text)


def people(text, place="people", _given=None):
    """Every row of a list of people, the bad ones too, as a tuple; raises BadInput."""
    kind = "jsonl" if text.endswith((".jsonl", ".json")) else "csv"
    return _of_file(text, place, lambda file: tuple(read_people(text_lines(file), kind)))


def opened(path):
    """A binary file for `with`; standard input for "-", which stays open."""
    if path == "-" and sys.stdin is None:
        raise OSError(errno.EBADF, "standard input is closed")
    return nullcontext(sys.stdin.buffer) if path == "-" else Path(path).open("rb")


def unread(place, path, error):
    return BadInput([Fault(place, path, f"cannot be read: {file_trouble(error)}")])


def _of_file(path, place, read):
    """What a function reads of an open binary file; raises BadInput where that cannot be."""
    try:
        with opened(path) as file:
            return read(file)
    except OSError as error:
        raise unread(place, path, error) from error


def file_bytes(path, place, _given=None):
    return _of_file(path, place, lambda file: file.read())


def small_bytes(path, place, usual):
    """The bytes of a file that is to be small; `usual` says how small, in a fault."""
    raw = _of_file(path, place, lambda file: file.read(MOST_BYTES + 1))
    if len(raw) > MOST_BYTES:
        raise BadInput([Fault(place, "over 1 MB", usual)])
    return raw


def json_of(raw, place):
    try:
        return typed_json(raw)
    except UnicodeDecodeError as error:
        raise BadInput([Fault(place, "not UTF-8 text", "save it as UTF-8 JSON")]) from error
    except ValueError as error:
        raise BadInput([Fault(place, f"not JSON: {error}", "mend that place")]) from error


def _json(path):
    raw = small_bytes(path, "request", "a request is a few hundred bytes of JSON")
    if not raw.strip():
        raise BadInput([Fault("request", "empty", f"JSON such as {EXAMPLE_REQUEST}")])
    return json_of(raw, "request")


REQUEST = Option("request", "a file, or - for standard input", request,
                 {"metavar": "REQUEST.json"})
DESIGN = Option("design", "a shipped base, a .toml design file, or a request .json (or -) for its "
                "fitted boat", design, {"metavar": "DESIGN"})
BASE = needed("--base", "a shipped base, or a .toml design file", base)
