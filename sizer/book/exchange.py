"""Jobs as one JSON text, to carry to another book; nothing there is ever overwritten.

Body measures are in it: keep it as you keep other customers' papers.
"""

import hashlib
import json
from dataclasses import dataclass, fields
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, create_model

from sizer import __version__
from sizer.book import built
from sizer.book.copies import part_damaged
from sizer.book.drafts import draft_of
from sizer.book.form import STATES
from sizer.book.jobs import insert_draft, insert_job, new_customer, row_of
from sizer.book.records import LONGEST_MARK, JobRow, KeptDraft, Summary
from sizer.book.revisions import FIELDS, insert_revision, revisions_of
from sizer.errors import BadInput, Fault
from sizer.fit.cautions import standing_cautions

KIND, FORMAT = "sizer_book", 2


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


def _model(record, **own):
    """A model with the fields of a record, strictly of its types but for `own`."""
    return create_model(f"_{record.__name__}", __base__=_Part, **{
        one.name: (one.type, ...) for one in fields(record)} | own)


def _text(pattern):
    return Annotated[str, Field(pattern=pattern)], ...


_Draft, _Launch, _Design = map(_model, (KeptDraft, built.KeptLaunch, built.KeptDesign))
_Revision = create_model("_Revision", __base__=_Part, **{
    name: (str, ...) for name in FIELDS} | {
    "letter": _text(r"^[A-Z]{1,3}$"), "forgotten": (bool, ...),
    "measured": (str, "")})  # since format 2, as all below without need


class _Job(_model(JobRow, key=_text(r"^[A-Za-z0-9_-]{16,64}$"), code=_text(r"^[A-Z]{2}[0-9]{4}$"),
                  mark=(Annotated[str, Field(max_length=LONGEST_MARK)], ...),
                  state=(Literal[STATES], ...))):
    draft: _Draft
    revisions: list[_Revision]
    launch: _Launch | None = None
    designs: Annotated[list[_Design], Field(default_factory=list)]

    def content(self):
        """All but what tells it from a job that was kept beside it."""
        return self.model_dump(exclude={"key", "code", "copied_from"})


class _Jobs(_Part):
    sizer_book: Literal[1, FORMAT]
    program: str
    cautions: list[str]
    jobs: list[_Job]


@dataclass(frozen=True)
class Imported:
    """What an import did, as JobRows."""

    came: tuple[JobRow, ...]  # new here
    same: tuple[JobRow, ...]  # were here already, alike in everything
    clashes: tuple[tuple[JobRow, JobRow], ...]  # here with other content, and what came beside it
    recoded: tuple[tuple[str, JobRow], ...]  # the code it had, which another job bears here


def export_jobs(book, keys=None):
    """JSON text of the jobs of these keys, or of all; raises NotInBook."""
    with book.reading() as db:
        if keys is None:
            keys = [row[0] for row in db.execute("SELECT key FROM jobs ORDER BY turn")]
        held = [_held(book, db, key).model_dump() for key in keys]
    content = {KIND: FORMAT, "program": __version__, "cautions": list(standing_cautions()),
               "jobs": held}
    return sealed(content)


def import_jobs(book, text):
    """Takes in the jobs of an exported text, all or none; returns an Imported.

    A job that is here with other content stays, and what came is kept beside it as a job of its
    own; a code that another job bears here is drawn anew.

    Raises
    ------
    BadInput, where the text is damaged, no export, or from a newer program; BookRefused.
    """
    given = _read(text)
    came, same, clashes, recoded = [], [], [], []
    with book.writing() as db:
        for one in given.jobs:
            here = db.execute("SELECT key FROM jobs WHERE key = :key OR copied_from = :key "
                              "ORDER BY id", {"key": one.key}).fetchall()
            like = [row["key"] for row in here
                    if _held(book, db, row["key"]).content() == one.content()]
            if like:
                same.append(row_of(db, like[0]))
                continue
            clash = any(row["key"] == one.key for row in here)
            row = _taken_in(db, one, clash)
            if clash:
                clashes.append((row_of(db, one.key), row))
            else:
                came.append(row)
                if row.code != one.code:
                    recoded.append((one.code, row))
    return Imported(tuple(came), tuple(same), tuple(clashes), tuple(recoded))


def _held(book, db, key):
    """One job with all that belongs to it; raises BookRefused where it cannot be read."""
    row, draft, launch = row_of(db, key), draft_of(db, key), built.launch_of(db, key)
    issued = [{name: getattr(one, name) for name in FIELDS} for one in revisions_of(db, key)]
    try:
        return _Job(**vars(row), draft=_Draft(**vars(draft)),
                    revisions=[_Revision(**one) for one in issued],
                    launch=launch and _Launch(**vars(launch)),
                    designs=[_Design(**vars(one)) for one in built.designs_of(db, key)])
    except ValidationError as error:
        raise part_damaged(book.path, f"job {row.code!r:.20}") from error


def _taken_in(db, one, clash):
    """The JobRow of a job written as it came; beside one of the same key under a new one."""
    key = insert_job(db, new_customer(db, one.mark, one.notes),
                     Summary(one.base, one.size, one.status), one.state,
                     one.key if clash else one.copied_from, one.code, None if clash else one.key)
    insert_draft(db, key, KeptDraft(**one.draft.model_dump()))
    db.execute("UPDATE jobs SET put_away = ?, created = ?, touched = ? WHERE key = ?",
               (one.put_away, one.created, one.touched, key))
    for revision in one.revisions:
        insert_revision(db, key, revision.model_dump())
    for design in one.designs:
        built.insert_design(db, key, built.KeptDesign(**design.model_dump()))
    if one.launch is not None:
        built.insert_launch(db, key, built.KeptLaunch(**one.launch.model_dump()))
    return row_of(db, key)


def _read(text):
    try:
        content = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise _refusal("damaged or no export", "a file of `book export`") from error
    if not isinstance(content, dict) or not isinstance(content.get(KIND), int):
        raise _refusal("not an export", "a file of `book export`")
    if content[KIND] > FORMAT:
        raise _refusal(f"format {content[KIND]}", f"written by a newer program; this one reads "
                       f"format {FORMAT}: update it")
    if content.pop("sum", None) != sum_of(content):
        raise _refusal("damaged", "the file was changed or cut short since it was written")
    try:
        return _Jobs.model_validate(content)
    except ValidationError as error:
        raise not_of_form("import", error) from error


def sealed(content):
    """A JSON-like dict as the text of a file, with a sum in it that tells a damaged one."""
    return json.dumps(content | {"sum": sum_of(content)}, ensure_ascii=False, indent=1) + "\n"


def sum_of(content):
    """The sum of a sealed text's content, without it."""
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def not_of_form(place, error):
    """The BadInput of what a file has that its model does not allow, for its ValidationError."""
    return BadInput([Fault(f"{place} {'.'.join(map(str, fault['loc']))}",
                           f"{fault['input']!r:.60}", fault["msg"]) for fault in error.errors()])


def _refusal(value, allowed):
    return BadInput([Fault("import", value, f"{allowed}. Nothing was changed")])
