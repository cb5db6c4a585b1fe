"""Finding and opening a book; a file that is no whole book of ours is refused and left as it is."""

import os
import sqlite3
from contextlib import contextmanager
from pathlib import Path

from platformdirs import user_data_path

from sizer.book import copies
from sizer.book.book import Book
from sizer.book.connection import connect, patient, pragma
from sizer.book.form import APPLICATION_ID, FORM, bring_to, has_its_columns
from sizer.book.refusals import CUT, DAMAGED, FOREIGN, MISSING, NEWER, BookRefused, in_words

NAME = "book.sqlite3"
ELSEWHERE = "SIZER_BOOK"  # environment variable that names another file
GONE = ("the file is gone, and its copies are there: put it back. To begin anew, take the folder "
        "of copies away. Nothing was changed")
NONE_YET = "there is no such book; the wizard, `book save` or `book import` begins one"


def book_path(path=None):
    """The Path of a book: as given, else as SIZER_BOOK says, else in the user's data folder."""
    given = path or os.environ.get(ELSEWHERE)
    path = Path(given).expanduser() if given else user_data_path("sizer", appauthor=False) / NAME
    return Path(os.path.realpath(path))  # one book has one log and one folder of copies


def open_book(path=None, begin=True):
    """Opens a book, checks it, brings an older form up to date; with `begin`, makes one where there
    is none. A path as `book_path` has it.

    Raises
    ------
    BookRefused: missing, not writable, damaged or cut short, of a newer form, or another program's.
    Its `copy` names the last good copy where there is one; nothing was changed.
    """
    path = book_path(path)
    with _with_copy(path), in_words(path):
        _not_lost(path)
        if not begin and not path.exists():
            raise BookRefused(path, MISSING, NONE_YET)
        copies.private_folder(path.parent)
        copies.private_file(path)
        db = _checked(path)
        try:
            copies.only_owners(path)
            patient(db, "PRAGMA journal_mode=WAL")
            _up_to_date(db, path)
        except BaseException:
            db.close()
            raise
    return Book(path, db)


@contextmanager
def _with_copy(path):
    """Adds the last good copy to a refusal of a damaged book."""
    try:
        yield
    except BookRefused as error:
        if error.reason != DAMAGED:
            raise
        raise BookRefused(path, error.reason, error.allowed, copies.last_good(path)) from error


def _not_lost(path):
    """Refuses to begin a new book where there was one.

    Looks at the file last: another program may just be making it, and fills it before its log.
    """
    logged, there = _logged(path), copies.kept_copies(path)
    if there and not path.exists():
        raise BookRefused(path, DAMAGED, GONE)
    if (logged or there) and path.is_file() and not path.stat().st_size:
        raise BookRefused(path, DAMAGED, CUT)


def _checked(path):
    """A connection to a whole book of a form we know, or to an empty file; refuses all else."""
    try:
        db = connect(path)
        try:
            _check(db, path)
        except BaseException:
            db.close()
            raise
    except sqlite3.OperationalError as error:
        if error.sqlite_errorname != "SQLITE_ERROR":
            raise
        raise BookRefused(path, DAMAGED, CUT) from error  # such as "unsupported file format"
    return db


def _check(db, path):
    size = path.stat().st_size  # before its pages: another program may just be making it
    pages, tables = pragma(db, "page_count"), db.execute("SELECT 1 FROM sqlite_master").fetchone()
    if not size or (pages and not tables and not pragma(db, "application_id")):
        return  # new, or ended before its first table
    if not pages or _ends_within_a_page(db, path):
        raise BookRefused(path, DAMAGED, CUT)
    if pragma(db, "application_id") != APPLICATION_ID:
        raise BookRefused(path, FOREIGN, "a file of another program, or with a damaged head: name "
                          "another with --book. Nothing was changed", copies.last_good(path))
    form = pragma(db, "user_version")
    if form > FORM:
        raise BookRefused(path, NEWER, f"form {form}, written by a newer program, or the head is "
                          f"damaged; this program reads up to form {FORM}: update it. Nothing was "
                          "changed", copies.last_good(path))
    if form < 1 or pragma(db, "quick_check") != "ok" or not has_its_columns(db, form):
        raise BookRefused(path, DAMAGED, CUT)


def _ends_within_a_page(db, path):
    """Whether the file is cut where no log makes up for it."""
    return not _logged(path) and path.stat().st_size % pragma(db, "page_size")


def _logged(path):
    """Whether there is something in the log of a book's file."""
    try:
        return path.with_name(f"{path.name}-wal").stat().st_size > 0
    except OSError:
        return False


def _up_to_date(db, path):
    """Makes the tables of a new book; of an older one a copy is kept first."""
    form = pragma(db, "user_version")
    if form == FORM:
        return
    if form:
        copies.keep_copy(db, path, f"-form-{form}")
    patient(db, "BEGIN IMMEDIATE")
    try:
        bring_to(db, FORM)  # from the form it has now: another may have been quicker
        db.execute("COMMIT")
    finally:
        if db.in_transaction:
            db.execute("ROLLBACK")
