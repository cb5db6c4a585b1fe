"""Forgetting a customer: every body measure goes, from the book's bytes and from its copies.

A draft and its undo go whole, since what is in them is the wizard's own business. Of a revision
stays what stands on the strongback: what was worked out with the body repeats its measures, so only
what is named here as the boat's own is kept.
"""

import json
import sqlite3
import tomllib
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from sizer.book.book import now
from sizer.book.connection import connect, patient
from sizer.book.copies import DAMAGED, UNFINISHED, copy_folder, kept_copies
from sizer.book.form import FORM, bring_to
from sizer.book.jobs import row_of
from sizer.book.refusals import BUSY, BookRefused

MARK = "forgotten"
THE_BOATS = ("base", "design", "use", "status", "size", "boat_parts", "setting_up", "stations",
             "bench", "frames", "recut", "odd")  # of an answer; the last three of a dry fit's
THE_BENCHS = ("pattern_status", "fairness_status", "fairness", "strongback_mm", "risers", "marks",
              "stringers", "materials", "weights", "plywood")  # the seat's gear follows the legs


@dataclass(frozen=True)
class Forgotten:
    codes: tuple[str, ...]  # of the customer's jobs
    copies: tuple[Path, ...]  # kept copies of the book, cleared as well
    removed: tuple[Path, ...]  # copies that cannot be read, parts of copies: removed whole
    sisters: tuple[str, ...]  # codes of other customers' jobs copied from these, as they were


def forget(book, key):
    """Forgets the customer of a job, in all jobs of that customer; returns a Forgotten. Raises
    NotInBook; BookRefused, where another program holds the file: then call it again."""
    with book.writing() as db:
        row_of(db, key)
        keys = [row[0] for row in db.execute(
            "SELECT key FROM jobs WHERE customer = (SELECT customer FROM jobs WHERE key = ?)",
            (key,))]
        _clear(db, keys)
        codes = tuple(row_of(db, one).code for one in keys)
        sisters = tuple(row[0] for row in db.execute(
            f"SELECT code FROM jobs WHERE copied_from IN ({_places(keys)}) AND key NOT IN "
            f"({_places(keys)})", (*keys, *keys)))
    _wipe(book)
    cleared, removed = _clear_copies(book.path, keys)
    return Forgotten(codes, cleared, removed, sisters)


def _clear(db, keys):
    """Takes the measures out of the tables."""
    theirs = f"IN (SELECT id FROM jobs WHERE key IN ({_places(keys)}))"
    db.execute("UPDATE customers SET mark = ?, notes = '' WHERE id IN (SELECT customer FROM jobs "
               f"WHERE key IN ({_places(keys)}))", (MARK, *keys))
    # a design says whom it was drawn for; what a launch taught the shop says nothing of anybody
    db.execute(f"DELETE FROM designs WHERE job {theirs}", keys)
    db.execute(f"UPDATE launches SET job = NULL, date = '' WHERE job {theirs}", keys)
    db.execute("UPDATE drafts SET draft = '', history = '', by = '', version = version + 1, "
               f"touched = ? WHERE job {theirs}", (now(), *keys))
    standing = db.execute("SELECT id, request, base_text, answer FROM revisions WHERE "
                          f"forgotten = 0 AND job {theirs}", keys).fetchall()
    for one in standing:
        request = json.loads(one["request"])
        db.execute("UPDATE revisions SET mark = ?, request = ?, base_text = ?, answer = ?, draft = "
                   "'', forgotten = 1 WHERE id = ?",
                   (MARK, json.dumps({name: value for name, value in request.items()
                                      if name != "paddler"}),
                    _impersonal(one["base_text"], request.get("paddler", {})),
                    json.dumps(_boats_own(json.loads(one["answer"]))), one["id"]))


def _boats_own(answer):
    """The figures of an answer that do not repeat a body measure."""
    kept = {name: answer[name] for name in THE_BOATS if name in answer}
    if "bench" in kept:
        kept["bench"] = {name: kept["bench"][name] for name in THE_BENCHS if name in kept["bench"]}
    return kept


def _impersonal(base_text, paddler):
    """The text of a base design; "" where it was drawn for this very paddler."""
    try:
        drawn = tomllib.loads(base_text).get("drawn_for", {})
    except tomllib.TOMLDecodeError:
        return ""
    measures = {value for value in paddler.values() if isinstance(value, (int, float))}
    return "" if measures & {one for one in drawn.values() if isinstance(one, (int, float))} \
        else base_text


def _wipe(book):
    """Writes the file anew without free pages, and leaves nothing in its log."""
    try:
        with book.apart() as db:
            patient(db, "VACUUM")
            still_read = patient(db, "PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    except BookRefused as error:
        raise BookRefused(book.path, error.reason, "the measures are taken out, but the file could "
                          "not be written anew without them: make room, close other programs, and "
                          "forget again") from error
    if still_read:
        raise BookRefused(book.path, BUSY, "the measures are taken out, but another program still "
                          "reads what was: close it and forget again")


def _clear_copies(path, keys):
    """(copies cleared, copies removed because they could not be)."""
    if path is None:
        return (), ()
    cleared, removed = [], []
    folder = copy_folder(path)
    for one in (*folder.glob(f"*{UNFINISHED}"), *folder.glob(f"*{DAMAGED}*"),
                *path.parent.glob(f"{path.name}{UNFINISHED}*")):
        one.unlink(missing_ok=True)
        removed.append(one)
    for one in kept_copies(path):
        try:
            with closing(connect(one)) as db:
                db.execute("BEGIN IMMEDIATE")
                bring_to(db, FORM)
                _clear(db, keys)
                db.execute("COMMIT")
                db.execute("VACUUM")
            cleared.append(one)
        except sqlite3.Error:
            one.unlink()
            removed.append(one)
    return tuple(cleared), tuple(removed)


def _places(keys):
    return ", ".join("?" for _ in keys)
