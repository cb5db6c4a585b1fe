"""What a shop settles once, such as its name: texts by key."""


def setting(book, key, usual=""):
    """The text of a setting; `usual` where it was never set."""
    with book.reading() as db:
        row = db.execute("SELECT value FROM settings WHERE key = ?", (key,)).fetchone()
    return row["value"] if row else usual


def set_setting(book, key, value):
    """Sets a setting to a text."""
    with book.writing() as db:
        db.execute("INSERT INTO settings VALUES (?, ?) ON CONFLICT DO UPDATE SET value = excluded."
                   "value", (key, value))
