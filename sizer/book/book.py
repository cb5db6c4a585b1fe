"""One open book, shared by any number of threads and processes."""

import os
import queue
import sqlite3
import threading
from contextlib import contextmanager
from datetime import UTC, datetime

from sizer.book.connection import connect, patient
from sizer.book.copies import keep_daily_copy
from sizer.book.form import FORM, bring_to
from sizer.book.refusals import KEPT, UNWRITABLE, BookRefused, in_words
from sizer.errors import SizerError

MOVED = f"the file was moved or replaced while it was open: start the program again. {KEPT}"
IDLE = 4  # connections that wait for the next who needs one


class Book:
    """A book's file, or one in memory; get one from `open_book` or `Book.in_memory`.

    `path` is None in memory; `copy_fault` says in words why today's copy could not be kept.
    Every thread borrows a connection for as long as it reads or writes; writers of one process
    wait for each other here, those of other processes at the file.
    """

    def __init__(self, path, first=None):
        self.path, self.copy_fault = path, ""
        self._copied_on, self._file = "", _identity(path)
        self._writer = threading.Lock()
        self._idle = queue.LifoQueue(1 if path is None else IDLE)
        if first:
            self._idle.put(first)

    @classmethod
    def in_memory(cls):
        """An empty book that is gone with the program, for want of a place to write."""
        db = connect(":memory:")
        bring_to(db, FORM)
        return cls(None, db)

    @contextmanager
    def reading(self):
        """A connection that sees one state of the book throughout."""
        with self.apart() as db:
            db.execute("BEGIN")
            try:
                yield db
            finally:
                _rolled_back(db)

    @contextmanager
    def writing(self):
        """A connection in a transaction: kept whole at the end, or not at all where one raises.
        Raises BookRefused, where it cannot be kept."""
        with self._writer:
            self._keep_todays_copy()
            with self.apart() as db:
                patient(db, "BEGIN IMMEDIATE")
                try:
                    yield db
                    db.execute("COMMIT")
                finally:
                    _rolled_back(db)

    @contextmanager
    def apart(self):
        """A connection in no transaction, for what a whole file is asked."""
        db = self._borrowed()
        try:
            with in_words(self.path):
                yield db
        except BaseException as error:
            meant = isinstance(error, SizerError) and not isinstance(error, BookRefused)
            self._back(db, meant or self.path is None)
            raise
        self._back(db)

    @property
    def moved(self):
        """Whether another file, or none, stands where its own was opened."""
        return _identity(self.path) != self._file

    def close(self):
        """Lets go of the file; the book is not to be used any more."""
        while not self._idle.empty():
            self._idle.get().close()

    def _borrowed(self):
        if self.path is None:
            return self._idle.get()
        if self.moved:  # else the entry went into a file without a name
            raise BookRefused(self.path, UNWRITABLE, MOVED)
        try:
            return self._idle.get_nowait()
        except queue.Empty:
            with in_words(self.path):
                return connect(self.path)

    def _back(self, db, sound=True):
        """A connection that failed is not lent again."""
        if not sound:
            db.close()
            return
        try:
            self._idle.put_nowait(db)
        except queue.Full:
            db.close()

    def _keep_todays_copy(self):
        """Before the first entry of a day; an entry is never lost over a copy that fails."""
        day = now()[:10]
        if self.path is None or self._copied_on == day:
            return
        self._copied_on, self.copy_fault = day, ""
        try:
            with self.apart() as db:
                keep_daily_copy(db, self.path, day)
        except (BookRefused, OSError, sqlite3.Error) as error:
            self.copy_fault = str(error)


def now():
    """This moment, as a book writes it: UTC, to the millisecond."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def _identity(path):
    """What tells a file from another of its name; None in memory and where there is none."""
    if path is None:
        return None
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _rolled_back(db):
    if db.in_transaction:
        db.execute("ROLLBACK")
