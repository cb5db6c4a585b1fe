"""The form of a book's file: its tables, and the steps that bring an older file up to date.

Times are UTC, ISO 8601, for people to read; nothing is ordered by them, since a clock may be set
back: ids and `turn` count on. JSON stays text: what a draft holds is the
wizard's own business, what a revision holds is never changed.
"""

import sqlite3
from contextlib import closing

APPLICATION_ID = 0x53697A72  # "Sizr", in the head of the file
FORM = 4  # user_version
STATES = ("asked", "fitted", "issued", "dry fit", "built", "launched")

_STATES = ", ".join(f"'{state}'" for state in STATES)
TABLES = f"""
CREATE TABLE customers (
    id INTEGER PRIMARY KEY,
    mark TEXT NOT NULL,
    notes TEXT NOT NULL
);
CREATE TABLE jobs (
    id INTEGER PRIMARY KEY,
    key TEXT NOT NULL UNIQUE,
    code TEXT NOT NULL UNIQUE,
    customer INTEGER NOT NULL REFERENCES customers,
    state TEXT NOT NULL CHECK (state IN ({_STATES})),
    put_away INTEGER NOT NULL DEFAULT 0,
    base TEXT NOT NULL,
    size TEXT NOT NULL,
    status TEXT NOT NULL,
    copied_from TEXT NOT NULL DEFAULT '',
    created TEXT NOT NULL,
    touched TEXT NOT NULL
);
CREATE TABLE drafts (
    job INTEGER PRIMARY KEY REFERENCES jobs,
    draft TEXT NOT NULL,
    history TEXT NOT NULL,
    version INTEGER NOT NULL,
    touched TEXT NOT NULL
);
CREATE TABLE revisions (
    id INTEGER PRIMARY KEY,
    job INTEGER NOT NULL REFERENCES jobs,
    letter TEXT NOT NULL,
    date TEXT NOT NULL,
    code TEXT NOT NULL,
    mark TEXT NOT NULL,
    request TEXT NOT NULL,
    base_text TEXT NOT NULL,
    limits TEXT NOT NULL,
    version TEXT NOT NULL,
    answer TEXT NOT NULL,
    draft TEXT NOT NULL,
    stock TEXT NOT NULL,
    files TEXT NOT NULL,
    forgotten INTEGER NOT NULL DEFAULT 0,
    UNIQUE (job, letter)
);
CREATE TABLE settings (
    key TEXT PRIMARY KEY,
    value TEXT NOT NULL
);
CREATE TRIGGER revisions_stand BEFORE UPDATE ON revisions
WHEN NOT (OLD.forgotten = 0 AND NEW.forgotten = 1)
BEGIN
    SELECT RAISE(ABORT, 'an issued revision is never changed');
END;
CREATE TRIGGER revisions_stay BEFORE DELETE ON revisions
BEGIN
    SELECT RAISE(ABORT, 'an issued revision is never deleted');
END;
"""
WHO_AND_ORDER = """
ALTER TABLE drafts ADD COLUMN by TEXT NOT NULL DEFAULT '';
CREATE INDEX jobs_by_touch ON jobs (put_away, touched);
CREATE INDEX jobs_by_customer ON jobs (customer);
"""
BUILT = """
ALTER TABLE revisions ADD COLUMN measured TEXT NOT NULL DEFAULT '';
CREATE TABLE designs (
    id INTEGER PRIMARY KEY,
    job INTEGER NOT NULL REFERENCES jobs,
    name TEXT NOT NULL,
    lineage TEXT NOT NULL,
    date TEXT NOT NULL,
    text TEXT NOT NULL
);
CREATE TABLE launches (
    id INTEGER PRIMARY KEY,
    job INTEGER UNIQUE REFERENCES jobs,
    date TEXT NOT NULL,
    off TEXT NOT NULL
);
"""
TURN = """
ALTER TABLE jobs ADD COLUMN turn INTEGER NOT NULL DEFAULT 0;
UPDATE jobs SET turn = place FROM (
    SELECT id AS one, row_number() OVER (ORDER BY touched, id) AS place FROM jobs
) WHERE id = one;
DROP INDEX jobs_by_touch;
CREATE INDEX jobs_by_turn ON jobs (put_away, turn);
"""
# What leads to this form from the one before.
STEPS = {1: TABLES, 2: WHO_AND_ORDER, 3: BUILT, 4: TURN}


def bring_to(db, form):
    """Takes a file, in a transaction of its caller, from the form it has to a later one."""
    begun = db.execute("PRAGMA user_version").fetchone()[0]
    for step in range(begun + 1, form + 1):
        for statement in _statements(STEPS[step]):
            db.execute(statement)
    db.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    db.execute(f"PRAGMA user_version = {form}")


def has_its_columns(db, form):
    """Whether a file has every table and column of the form that its head names."""
    with closing(sqlite3.connect(":memory:")) as fresh:
        bring_to(fresh, form)
        return _columns(fresh) <= _columns(db)


def _columns(db):
    return {tuple(row) for row in db.execute(
        "SELECT held.name, part.name FROM sqlite_master held, pragma_table_info(held.name) part")}


def _statements(script):
    """Single statements; a trigger's body keeps its semicolons."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            yield statement
            statement = ""
