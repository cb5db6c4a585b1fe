"""The draft of a job: what is entered, with its undo, kept at each entry and never overwritten
unseen."""

from sizer.book.book import now
from sizer.book.jobs import row_of, touch
from sizer.book.records import KeptDraft
from sizer.book.refusals import Changed, as_sqlite


def draft(book, key):
    """The KeptDraft of a job; raises NotInBook."""
    with book.reading() as db:
        return draft_of(db, key)


def draft_version(book, key):
    """The version of a job's draft, to see quickly whether another changed it; raises NotInBook."""
    with book.reading() as db:
        row_of(db, key)
        return _row("version", db, key)[0]


def save_draft(book, key, draft_json, history_json, seen_version, by=""):
    """Keeps a draft made from the version that was seen; returns its new version. `by` is told to
    another screen. Raises Changed, where another version stands, and nothing was overwritten;
    NotInBook, BookRefused."""
    with book.writing() as db:
        present = draft_of(db, key)
        if present.version != seen_version:
            raise Changed(present, seen_version)
        db.execute("UPDATE drafts SET draft = ?, history = ?, version = version + 1, touched = ?, "
                   "by = ? WHERE job = (SELECT id FROM jobs WHERE key = ?)",
                   (draft_json, history_json, now(), by, key))
        touch(db, key)
        return seen_version + 1


def draft_of(db, key):
    """The KeptDraft of a job, in a transaction; raises NotInBook."""
    row_of(db, key)
    return KeptDraft(*_row("draft, history, version, drafts.touched, by", db, key))


def _row(columns, db, key):
    row = db.execute(f"SELECT {columns} FROM drafts JOIN jobs ON jobs.id = job WHERE key = ?",
                     (key,)).fetchone()
    if row is None:  # a job never stands without: bytes of the file were changed
        raise as_sqlite("SQLITE_CORRUPT", "a job without its draft")
    return row
