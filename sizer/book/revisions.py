"""Issued revisions: A, B, ... of a job, each frozen with all that its sheets were made from."""

import json
from dataclasses import dataclass

from sizer.book.drafts import draft_of
from sizer.book.form import STATES
from sizer.book.jobs import row_of, touch
from sizer.book.refusals import NotInBook
from sizer.errors import BadInput, Fault
from sizer.units import LENGTH_UNITS

FIELDS = ("letter", "date", "code", "mark", "request", "base_text", "limits", "version", "answer",
          "draft", "stock", "files", "forgotten", "measured")


@dataclass(frozen=True)
class Revision:
    """One issued revision; it never changes, unless its customer is forgotten."""

    job_key: str
    letter: str  # A, B, ..., Z, AA, ...
    date: str  # YYYY-MM-DD
    code: str  # the job's, as issued
    mark: str  # the customer's, as issued
    request: str  # JSON of the request; without its paddler once forgotten
    base_text: str  # of the base design's file
    limits: str  # JSON of the limits in force
    version: str  # of the program
    answer: str  # JSON of every figure; the boat's alone once forgotten
    draft: str  # JSON it came from; "" once forgotten
    stock: str  # JSON of the stock, cloth and sheets that the bench was drawn for
    files: str  # JSON {file name: SHA-256}; "{}" where no files were made
    forgotten: bool
    measured: str  # JSON of the dry fit that it re-issues frames for; "" where it is the design's
    replaces: str  # letter of the revision before, or ""

    @property
    def lengths(self):
        """The unit that the job was made in, "mm", "cm" or "in"."""
        return lengths_of(self.draft)


@dataclass(frozen=True)
class Due:
    """What the sheets of a job's next revision will bear."""

    code: str
    mark: str
    letter: str
    replaces: str  # letter of the revision before, or ""
    lengths: str = "mm"  # as of Revision


def due(book, key):
    """The Due of a job; raises NotInBook."""
    with book.reading() as db:
        return _due(db, key)


def issue(book, key, request, base_text, limits, version, answer, draft_json, date, stock="{}",
          files="{}", stamped=None, measured=""):
    """Freezes a revision of a job, which is issued from then on; returns it.

    Parameters
    ----------
    request, limits, answer, draft_json, stock, files : str, JSON
    base_text : str, the text of the base design's file
    version : str, the program's
    date : str, YYYY-MM-DD
    stamped : the Due that its sheets bear, where they are made already
    measured : JSON of a dry fit, as `sizer.export.built_answer.measured_files` reads it

    Raises
    ------
    BadInput, where that is due no more; NotInBook, BookRefused.
    """
    with book.writing() as db:
        next_one = _due(db, key)
        if stamped not in (None, next_one):
            raise BadInput([Fault("revision", stamped.letter, "the job was issued or marked anew "
                                  "while its files were made: make them again")])
        insert_revision(db, key, {
            "letter": next_one.letter, "date": date, "code": next_one.code, "mark": next_one.mark,
            "request": request, "base_text": base_text, "limits": limits, "version": version,
            "answer": answer, "draft": draft_json, "stock": stock, "files": files,
            "forgotten": False, "measured": measured})
        if STATES.index(row_of(db, key).state) < STATES.index("issued"):
            db.execute("UPDATE jobs SET state = 'issued' WHERE key = ?", (key,))
        touch(db, key)
        return revisions_of(db, key)[-1]


def revisions(book, key):
    """Every Revision of a job, the first first; raises NotInBook."""
    with book.reading() as db:
        return revisions_of(db, key)


def revision(book, key, letter):
    """The Revision of a letter; raises NotInBook."""
    every = revisions(book, key)
    for one in every:
        if one.letter == letter.strip().upper():
            return one
    letters = ", ".join(one.letter for one in every)
    raise NotInBook("revision", letter, f"of this job there are {letters}" if letters else
                    "of this job none was issued yet: `book issue` makes the first")


def insert_revision(db, key, values):
    """Writes a revision of FIELDS by name."""
    db.execute(f"INSERT INTO revisions (job, {', '.join(FIELDS)}) SELECT id, "
               f"{', '.join('?' for _ in FIELDS)} FROM jobs WHERE key = ?",
               (*(values[name] for name in FIELDS), key))


def revisions_of(db, key):
    """Every Revision of a job, in a transaction; raises NotInBook."""
    row_of(db, key)
    found, before = [], ""
    for row in db.execute(f"SELECT {', '.join(f'revisions.{name}' for name in FIELDS)} FROM "
                          "revisions JOIN jobs ON jobs.id = job WHERE key = ? ORDER BY "
                          "revisions.id", (key,)):
        found.append(Revision(**{**dict(row), "forgotten": bool(row["forgotten"])}, job_key=key,
                              replaces=before))
        before = row["letter"]
    return tuple(found)


def _due(db, key):
    row, issued = row_of(db, key), revisions_of(db, key)
    return Due(row.code, row.mark, _letter(len(issued)), issued[-1].letter if issued else "",
               lengths_of(draft_of(db, key).draft_json))


def lengths_of(draft_json):
    """The unit of lengths of a draft's JSON, "mm" where it says none that sheets can be in."""
    try:
        said = json.loads(draft_json).get("length_unit")
    except (ValueError, AttributeError):  # a draft is the wizard's own, or forgotten
        said = None
    return said if said in LENGTH_UNITS else LENGTH_UNITS[0]


def _letter(number):
    """A to Z, then AA, AB, ..."""
    first, last = divmod(number, 26)
    return (_letter(first - 1) if first else "") + chr(ord("A") + last)
