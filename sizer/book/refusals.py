"""What a book refuses, in words: SQLite's errors never reach a person as they are."""

import sqlite3
from contextlib import contextmanager

from sizer.errors import BadInput, Fault, SizerError

KEPT = "This entry was not kept; what was there before stands"
UNWRITABLE, DAMAGED, NEWER, FOREIGN, BUSY = "unwritable", "damaged", "newer", "foreign", "busy"
MISSING = "missing"
CUT = "the file is damaged or cut short. Nothing was changed"
SAID = {  # how SQLite's name of an error begins: why, and what to do
    "SQLITE_FULL": (UNWRITABLE, f"the disk is full: make room on it. {KEPT}"),
    "SQLITE_IOERR": (UNWRITABLE, "the disk cannot be read or written: make room on it, or have it "
                     f"looked at. {KEPT}"),
    "SQLITE_READONLY": (UNWRITABLE, "may not be written: let yourself write the file and its "
                        f"folder, or name another with --book. {KEPT}"),
    "SQLITE_CANTOPEN": (UNWRITABLE, "cannot be opened for writing: let yourself write the file and "
                        "its folder, or name another with --book. Nothing was changed"),
    "SQLITE_BUSY": (BUSY, f"another program holds the book: close it, then try again. {KEPT}"),
    "SQLITE_LOCKED": (BUSY, f"another program holds the book: close it, then try again. {KEPT}"),
    "SQLITE_CORRUPT": (DAMAGED, CUT),
    "SQLITE_NOTADB": (DAMAGED, "the file is damaged, or no book of this program. Nothing was "
                      "changed"),
}


class BookRefused(BadInput):
    """A book that cannot be used, or could not take an entry.

    `reason` is one of UNWRITABLE, DAMAGED, NEWER, FOREIGN, BUSY and MISSING; `copy` the Path of the
    last good copy, where there is one.
    """

    def __init__(self, path, reason, allowed, copy=None):
        self.path, self.reason, self.allowed, self.copy = path, reason, allowed, copy
        if copy:
            allowed += f". The last good copy is {copy}; `book restore` puts it in its place"
        super().__init__([Fault("book", "in memory" if path is None else str(path), allowed)])


class NotInBook(BadInput):
    def __init__(self, place, value, what_is="`book list` says what is"):
        super().__init__([Fault(place, f"{value!r:.60}", f"not in this book; {what_is}")])


class Changed(SizerError):
    """The draft was written elsewhere since it was read; nothing was overwritten.

    `present` is the `KeptDraft` that stands, with who wrote it, when and its version; `seen` the
    version that the writer knew.
    """

    def __init__(self, present, seen):
        self.present, self.seen = present, seen
        by = f" by {present.by}" if present.by else ""
        super().__init__(f"This job was changed elsewhere{by} at {present.touched}: version "
                         f"{present.version} stands, you saw {seen}. Nothing was overwritten")


def as_sqlite(name, error):
    """An error as SQLite itself would raise it, for `in_words`."""
    found = sqlite3.OperationalError(str(error))
    found.sqlite_errorname = name
    return found


@contextmanager
def in_words(path):
    """Raises SQLite's errors as BookRefused; those that are bugs of ours stay as they are.

    Half a letter, as a broken console hands on, is BadInput.
    """
    try:
        yield
    except sqlite3.Error as error:
        name = getattr(error, "sqlite_errorname", "")
        for begins, (reason, allowed) in SAID.items():
            if name.startswith(begins):
                raise BookRefused(path, reason, allowed) from error
        raise
    except UnicodeDecodeError as error:
        raise BookRefused(path, DAMAGED, "a text in it cannot be read: the file is damaged. "
                          "Nothing was changed") from error
    except UnicodeEncodeError as error:
        raise BadInput([Fault("book", f"{error.object[error.start:error.end]!r:.20}",
                              f"no letter of a text: type it again. {KEPT}")]) from error
