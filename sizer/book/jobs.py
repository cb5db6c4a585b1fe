"""The jobs of a book: made, found by typing, marked, put away."""

import secrets
import sqlite3
from operator import contains

from sizer.book.book import now
from sizer.book.form import STATES
from sizer.book.records import JobRow, KeptDraft, Summary, checked_mark
from sizer.book.refusals import NotInBook
from sizer.errors import BadInput, Fault

LETTERS = "ACDEFHJKLMNPRTUVWXY"  # without those that look like digits or like each other
DIGITS = "23456789"
CODE_SIGNS = (*(2 * (LETTERS,)), *(4 * (DIGITS,)))  # of a code, such as HK4729, in their order
MOST_FOUND = 200
NOTHING_YET = Summary()
COLUMNS = """SELECT jobs.key, code, mark, notes, state, put_away, base, size, status, created,
    jobs.touched, copied_from FROM jobs JOIN customers ON customers.id = jobs.customer"""
# One more than any: who was touched last, whatever the clock says.
NEXT_TURN = "(SELECT coalesce(max(turn), 0) + 1 FROM jobs)"
_TEXT = "folded(code || ' ' || mark || ' ' || base || ' ' || state || ' ' || size || ' ' || status)"


def new_job(book, draft_json, mark="", summary=NOTHING_YET, history_json="", state="asked",
            notes="", by=""):
    """Makes a job of a draft, version 1, with a customer of its own; returns its JobRow."""
    _known(state)
    with book.writing() as db:
        customer = new_customer(db, mark, notes)
        key = insert_job(db, customer, summary, state)
        insert_draft(db, key, KeptDraft(draft_json, history_json, 1, now(), by))
        return row_of(db, key)


def job(book, key):
    """The JobRow of a key; raises NotInBook."""
    with book.reading() as db:
        return row_of(db, key)


def job_by_code(book, code):
    """The JobRow of a code, in capitals or not; raises NotInBook."""
    with book.reading() as db:
        row = db.execute(f"{COLUMNS} WHERE code = ?", (code.strip().upper(),)).fetchone()
    if not row:
        raise NotInBook("code", code)
    return _job_row(row)


def jobs(book, find="", put_away=False, most=MOST_FOUND):
    """JobRows in which every word of `find` stands in code, mark, base, state, size or status, the
    one touched last first; `put_away` gives those put away, else the others."""
    words = find.casefold().split()
    where = "".join(f" AND instr({_TEXT}, ?)" for _ in words)
    with book.reading() as db:
        found = db.execute(f"{COLUMNS} WHERE put_away = ?{where} ORDER BY jobs.turn DESC "
                           "LIMIT ?", (int(put_away), *words, most))
        return tuple(map(_job_row, found))


def rename(book, key, mark):
    """Marks a job's customer anew; a customer of several jobs stays with the others as it is.
    Returns the JobRow."""
    with book.writing() as db:
        notes = row_of(db, key).notes
        customer = db.execute("SELECT customer FROM jobs WHERE key = ?", (key,)).fetchone()[0]
        others = db.execute("SELECT 1 FROM jobs WHERE customer = ? AND key <> ?", (customer, key))
        if others.fetchone():
            db.execute("UPDATE jobs SET customer = ? WHERE key = ?",
                       (new_customer(db, mark, notes), key))
        else:
            db.execute("UPDATE customers SET mark = ? WHERE id = ?",
                       (checked_mark(mark), customer))
        touch(db, key)
        return row_of(db, key)


def tell(book, key, summary):
    """What the list is to say of a job's boat, which is fitted from then on; returns the JobRow. It
    is no entry: the job counts as touched when it was."""
    with book.writing() as db:
        row_of(db, key)
        db.execute("UPDATE jobs SET base = ?, size = ?, status = ?, state = CASE state "
                   "WHEN 'asked' THEN 'fitted' ELSE state END WHERE key = ?",
                   (summary.base, summary.size, summary.status, key))
        return row_of(db, key)


def set_state(book, key, state):
    """Says how far a job is, one of STATES; returns the JobRow."""
    _known(state)
    return _set(book, key, "state", state)


def advance(book, key, state):
    """As `set_state`, where the job is not that far yet; never back."""
    _known(state)
    with book.writing() as db:
        if STATES.index(row_of(db, key).state) < STATES.index(state):
            db.execute("UPDATE jobs SET state = ? WHERE key = ?", (state, key))
            touch(db, key)
        return row_of(db, key)


def put_away(book, key, away=True):
    """Takes a job off the list, losing nothing, or puts it on again; returns the JobRow."""
    return _set(book, key, "put_away", int(away))


def copy_job(book, key):
    """The JobRow of a new job with the same draft and customer, for a sister boat; no revision goes
    with it."""
    with book.writing() as db:
        was = row_of(db, key)
        held = db.execute("SELECT jobs.id, customer, draft FROM jobs JOIN drafts ON job = jobs.id "
                          "WHERE key = ?", (key,)).fetchone()
        state = was.state if was.state in STATES[:2] else "fitted"
        new = insert_job(db, held["customer"], Summary(was.base, was.size, was.status), state, key)
        insert_draft(db, new, KeptDraft(held["draft"], "", 1, now(), ""))
        return row_of(db, new)


def row_of(db, key):
    """The JobRow of a key, in a transaction; raises NotInBook."""
    row = db.execute(f"{COLUMNS} WHERE jobs.key = ?", (key,)).fetchone()
    if not row:
        raise NotInBook("job", key)
    return _job_row(row)


def new_customer(db, mark, notes):
    """The id of a new customer; raises BadInput for a mark that no sheet could bear."""
    return db.execute("INSERT INTO customers (mark, notes) VALUES (?, ?)",
                      (checked_mark(mark), notes)).lastrowid


def insert_job(db, customer, summary, state, copied_from="", code=None, key=None):
    """The key of a new job; key and code are drawn where none is given."""
    key, moment = key or secrets.token_urlsafe(16), now()
    while True:
        try:
            db.execute(
                "INSERT INTO jobs (key, code, customer, state, base, size, status, copied_from, "
                f"created, touched, turn) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, {NEXT_TURN})",
                (key, code or _drawn_code(), customer, state, summary.base, summary.size,
                 summary.status, copied_from, moment, moment))
            return key
        except sqlite3.IntegrityError as error:
            if "jobs.code" not in str(error):
                raise
            code = None  # taken: another is drawn


def insert_draft(db, key, draft):
    """Writes the KeptDraft of a new job."""
    db.execute("INSERT INTO drafts (job, draft, history, version, touched, by) SELECT id, "
               ":draft_json, :history_json, :version, :touched, :by FROM jobs WHERE key = :key",
               {**vars(draft), "key": key})


def touch(db, key):
    db.execute(f"UPDATE jobs SET touched = ?, turn = {NEXT_TURN} WHERE key = ?", (now(), key))


def _set(book, key, column, value):
    with book.writing() as db:
        row_of(db, key)
        db.execute(f"UPDATE jobs SET {column} = ? WHERE key = ?", (value, key))
        touch(db, key)
        return row_of(db, key)


def _known(state):
    if state not in STATES:
        raise BadInput([Fault("state", f"{state!r:.60}", "one of " + ", ".join(STATES))])


def _drawn_code():
    return "".join(secrets.choice(signs) for signs in CODE_SIGNS)


def is_code(text):
    """Whether a text has the form of a code, in capitals or not."""
    text = text.strip().upper()
    return len(text) == len(CODE_SIGNS) and all(map(contains, CODE_SIGNS, text))


def _job_row(row):
    return JobRow(**{**dict(row), "put_away": bool(row["put_away"])})
