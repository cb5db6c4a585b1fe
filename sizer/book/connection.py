"""One connection to a book's file: how it is opened, and how a transaction begins."""

import sqlite3

BUSY_S = 5.0  # SQLite itself waits so long for another writer
TRIES = 6  # so often we let it
PRAGMAS = ("foreign_keys=ON", "synchronous=FULL", "secure_delete=ON", "temp_store=MEMORY")


def connect(path, uri=False):
    """A connection in autocommit; ":memory:" for one without a file. Raises sqlite3.Error.

    Nothing is written yet: a file of another program stays as it is.
    """
    db = sqlite3.connect(path, timeout=BUSY_S, isolation_level=None, check_same_thread=False,
                         uri=uri)
    try:
        db.row_factory = sqlite3.Row
        db.text_factory = bytes.decode  # strict, and its error bears no word of the text
        db.create_function("folded", 1, str.casefold, deterministic=True)
        for pragma in PRAGMAS:
            db.execute(f"PRAGMA {pragma}")
    except BaseException:
        db.close()
        raise
    return db


def patient(db, statement):
    """Executes a statement that may have to wait for another writer; returns its cursor."""
    for left in range(TRIES - 1, -1, -1):
        try:
            return db.execute(statement)
        except sqlite3.OperationalError as error:
            if not left or not error.sqlite_errorname.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
                raise
    return None


def pragma(db, name):
    return db.execute(f"PRAGMA {name}").fetchone()[0]
