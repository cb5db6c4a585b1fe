"""Copies of a book: one a day of use, one before each upgrade, the last ten kept; and backups."""

import os
import sqlite3
import time
from contextlib import closing, contextmanager, suppress
from datetime import UTC, datetime, timedelta
from pathlib import Path

from sizer.book.connection import connect, pragma
from sizer.book.form import APPLICATION_ID, FORM
from sizer.book.refusals import DAMAGED as IS_DAMAGED
from sizer.book.refusals import BookRefused, as_sqlite, in_words
from sizer.errors import BadInput, Fault

KEPT_COPIES = 10
NAMED = "%Y-%m-%dT%H%M%S.%f"
ENDING, UNFINISHED, DAMAGED = ".sqlite3", ".part", ".damaged"
# So far from now a part of a copy was left by a program that was ended, ahead where the clock was
# set back since; our judgement.
LEFT_S = 3600.0


def copy_folder(path):
    """Where the copies of a book at a Path are kept."""
    return path.with_name(f"{path.stem}-copies")


def kept_copies(path):
    """Paths of the copies of a book, the oldest first.

    Those of days to come were made before the clock was set back, so before all others.
    """
    folder = copy_folder(path)
    now = _moment(folder)
    return tuple(sorted(folder.glob(f"*{ENDING}"),
                        key=lambda one: (one.name < now, one.name)))


def last_good(path):
    """Path of the newest copy of a book that is whole; None where there is none."""
    return next((one for one in reversed(kept_copies(path)) if _is_good(one)), None)


def part_damaged(path, what):
    """The BookRefused of a book of which some part cannot be read; `path` None in memory."""
    return BookRefused(path, IS_DAMAGED, f"{what} cannot be read: the file is damaged. Nothing "
                       "was changed", path and last_good(path))


def keep_copy(db, path, why=""):
    """Copies a book at a Path beside itself, of its present state, and lets the oldest copies go;
    `db` is in no transaction, `why` stands in the copy's name after day and time. Raises
    BookRefused, where the copy cannot be written."""
    folder = copy_folder(path)
    with in_words(folder):
        private_folder(folder)
        copied(db, folder / f"{_moment(folder)}{why}{ENDING}")
    with suppress(OSError):  # one too many does no harm
        left = [part for part in folder.glob(f"*{UNFINISHED}")
                if abs(time.time() - part.stat().st_mtime) > LEFT_S]
        for old in (*kept_copies(path)[:-KEPT_COPIES], *left):
            old.unlink(missing_ok=True)


def keep_daily_copy(db, path, day):
    """Copies a book with jobs in it, unless there is a copy of this day: YYYY-MM-DD, of UTC."""
    if not any(one.name.startswith(day) for one in kept_copies(path)) and \
            db.execute("SELECT 1 FROM jobs").fetchone():
        keep_copy(db, path)


def backup(book, target):
    """Writes a consistent copy of a book in use to a new file, checks it, and returns its Path.
    Raises BadInput, where the file is there already or cannot be written."""
    target = Path(target)
    if target.exists():
        raise BadInput([Fault("backup", str(target), "a new file; this one is there already")])
    with book.apart() as db, in_words(target):
        copied(db, target)
    return target


def restore(path):
    """Puts the last good copy of a book in its place, and the book there aside, among its copies:
    (Path of the copy, Path of what was put aside). Raises BadInput, where there is no good copy,
    and BookRefused, where nothing can be written."""
    copy, folder = last_good(path), copy_folder(path)
    aside = folder / f"{_moment(folder)}{ENDING}{DAMAGED}"
    if copy is None:
        raise BadInput([Fault("book", str(path), "there is no good copy of it")])
    part = path.with_name(f"{path.name}{UNFINISHED}")
    with in_words(path), closing(connect(copy)) as db:
        copied(db, part)
        with _as_sqlite():
            for log in ("-wal", "-shm", "-journal", ""):
                with suppress(FileNotFoundError):
                    os.replace(f"{path}{log}", f"{aside}{log}")
            os.replace(part, path)
    return copy, aside


def copied(db, target):
    """Copies a book to a new file of its owner only, whole or not at all; raises sqlite3.Error."""
    part = target.with_name(f"{target.name}{UNFINISHED}")
    try:
        with _as_sqlite():
            part.unlink(missing_ok=True)
            private_file(part)
            with closing(connect(part)) as other:
                db.backup(other)
                other.execute("PRAGMA journal_mode=DELETE")  # one file, without a log beside it
                if pragma(other, "integrity_check") != "ok":
                    raise as_sqlite("SQLITE_CORRUPT", "the copy is not whole")
            os.replace(part, target)
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def private_file(path):
    """Makes a file that only its owner may read, where there is none; raises sqlite3.Error."""
    with _as_sqlite():
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))


def only_owners(path):
    """Closes a file to all but its owner; raises sqlite3.Error."""
    with _as_sqlite():
        if path.stat().st_mode & 0o077:
            path.chmod(0o600)


def private_folder(path):
    """Makes a folder that only its owner may look into, if there is none; raises sqlite3.Error."""
    with _as_sqlite():
        path.mkdir(0o700, parents=True, exist_ok=True)


@contextmanager
def _as_sqlite():
    """Raises what the system says of a file as SQLite would."""
    try:
        yield
    except OSError as error:
        raise as_sqlite("SQLITE_CANTOPEN", error) from error


def _moment(folder):
    """UTC, as the names of copies begin, so that they sort by it; after a clock was set back it may
    come a second time: then the next one that no name in the folder has."""
    at = datetime.now(UTC)
    while any(folder.glob(f"{at:{NAMED}}*")):
        at += timedelta(microseconds=1)
    return f"{at:{NAMED}}"


def _is_good(path):
    try:
        with closing(connect(f"{path.as_uri()}?mode=ro&immutable=1", uri=True)) as db:
            return (pragma(db, "application_id") == APPLICATION_ID
                    and 1 <= pragma(db, "user_version") <= FORM
                    and pragma(db, "quick_check") == "ok")
    except sqlite3.Error:
        return False
