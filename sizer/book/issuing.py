"""From a request to an issued revision with its files, and the same files again years later."""

import hashlib
import json
from dataclasses import dataclass

from sizer import __version__
from sizer.book.jobs import tell
from sizer.book.revisions import due, issue
from sizer.book.settings import shop_text
from sizer.book.summary import summary_of
from sizer.border import table_of
from sizer.design.read import read_design
from sizer.errors import BadInput, Fault
from sizer.fit.request import read_request
from sizer.fit.uses import USES
from sizer.hull.lines import fair_lines
from sizer.job import run
from sizer.shop.settings import SHOP, read_shop
from sizer.stamp import Stamp


@dataclass(frozen=True)
class Change:
    """A figure that is no longer what it was; None where it is missing on that side."""

    place: str  # keys and numbers into the answer, such as "stations.2.x_mm"
    was: object
    now: object


@dataclass(frozen=True)
class Printed:
    """A revision's package made again."""

    files: dict[str, bytes]
    differing: tuple[str, ...]  # names of the files that are not byte for byte as issued
    changes: tuple[Change, ...]  # figures and limits that are not as they were
    remark: str  # on both, for a person


def issue_files(book, key, request, base_text, draft_json, date, shop=SHOP):
    """Fits a request, makes the whole package and freezes the revision it belongs to: (Revision,
    {file name: bytes}). The list of jobs says of that boat from then on.

    Parameters
    ----------
    request : dict, as `sizer.fit.request.read_request` takes it
    base_text : str, the text of the base design's file
    draft_json : str, what the request came from
    date : str, YYYY-MM-DD

    Raises
    ------
    BadInput, WillNotFloat, NotSolved, NotInBook, BookRefused; then nothing was issued.
    """
    stamped = due(book, key)
    job = job_of(request, base_text, shop)
    files = _made(job, stamp_of(stamped, date))
    made = freeze(book, key, stamped, request, base_text, draft_json, date, files, shop)
    tell(book, key, summary_of(job))
    return made, files


def freeze(book, key, stamped, request, base_text, draft_json, date, files, shop=SHOP,
           measured=""):
    """Freezes the revision of a package that was made already; returns it. Parameters as
    `issue_files`, the `Due` that the files were stamped with, and where they are those of a dry fit
    what was `measured`, as `issue`."""
    return issue(book, key, _text(request), base_text, _text(limits_in_force(request["use"])),
                 __version__, _answer(files), draft_json, date,
                 shop_text(shop), _text(_sums(files)), stamped, measured)


def print_again(revision):
    """The Printed package of a Revision, from what was frozen with it and nothing else; raises
    BadInput, where its customer was forgotten."""
    if revision.forgotten:
        raise BadInput([Fault("revision", f"{revision.code} {revision.letter}",
                              "its customer was forgotten: the boat's figures stand in `book show`,"
                              " but without the body it cannot be drawn again")])
    request, answer = json.loads(revision.request), json.loads(revision.answer)
    files = _made(job_of(request, revision.base_text, read_shop(revision.stock)),
                  stamp_of(revision, revision.date), revision.measured)
    was, now = json.loads(revision.files), _sums(files)
    differing = tuple(name for name in {**was, **now} if was.get(name) != now.get(name))
    found = (*changes(json.loads(revision.limits), limits_in_force(request["use"]), "limits"),
             *changes(answer, json.loads(_answer(files))))
    return Printed(files, differing, found, _remark(revision, differing, found))


def changes(was, now, place=""):
    """Every Change between two JSON-like values, in their order.

    `place` is where the values stand, before each Change's own place.
    """
    if isinstance(was, dict) and isinstance(now, dict):
        pairs = [(key, was.get(key), now.get(key)) for key in {**was, **now}]
    elif isinstance(was, list) and isinstance(now, list):
        pairs = [(at, *(side[at] if at < len(side) else None for side in (was, now)))
                 for at in range(max(len(was), len(now)))]
    else:
        return () if was == now else (Change(place, was, now),)
    found = []
    for key, before, after in pairs:
        found += changes(before, after, f"{place}.{key}" if place else str(key))
    return tuple(found)


def job_of(request, base_text, shop=SHOP):
    """The Job of a request as a JSON-like dict, on the text of its base design, for a Shop; raises
    as `sizer.job.run`."""
    return run(read_request(request), fair_lines(read_design(base_text, request["base"])),
               shop=shop)


def limits_in_force(use):
    """What a use asks of a boat now, as a JSON-like dict; each check's window is in the answer."""
    return table_of(USES[use], {})


def stamp_of(due_one, date):
    """The Stamp of a Due or a Revision, of a date."""
    return Stamp(due_one.code, due_one.mark, due_one.letter, date, due_one.replaces,
                 due_one.lengths)


def _answer(files):
    from sizer.export.package import ANSWER  # the writers load only where files are made

    return next(data for name, data in files.items() if name.endswith(ANSWER)).decode("utf-8")


def _made(job, stamp, measured=""):
    if measured:
        from sizer.export.built_answer import measured_files

        return measured_files(job.stamped(stamp), measured)
    from sizer.export.package import package

    return package(job, job.shop, stamp)


def _remark(revision, differing, found):
    issued = f"{revision.code} revision {revision.letter}, issued {revision.date}"
    if not differing and not found:
        return f"{issued}: every file byte for byte as issued."
    by = ("by the same version of the program, changed since" if revision.version == __version__
          else f"by version {revision.version}; this is {__version__}")
    return (f"{issued} {by}: {len(differing)} of its files and {len(found)} of its figures and "
            "limits are not as they were. Do not mix these sheets with those issued.")


def _sums(files):
    return {name: hashlib.sha256(data).hexdigest() for name, data in files.items()}


def _text(content):
    return json.dumps(content, ensure_ascii=False)
