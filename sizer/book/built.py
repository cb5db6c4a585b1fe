"""What boats that stand and float taught the shop: base designs taken of them, and launches.

A launch holds only what the boat was off from what was calculated, as JSON of
`sizer.built.bias.Off` records: nothing in it is of a body, so it stays when its customer is
forgotten.
"""

from dataclasses import dataclass

from sizer.book.jobs import row_of, touch


@dataclass(frozen=True)
class KeptDesign:
    """A base design taken of a boat as it stands."""

    name: str
    lineage: str  # job, revision and base it comes from, in words
    date: str  # YYYY-MM-DD
    text: str  # of the design's file


@dataclass(frozen=True)
class KeptLaunch:
    """What one launch was off."""

    date: str  # YYYY-MM-DD; "" once its customer is forgotten
    off: str  # JSON


def keep_design(book, key, design):
    """Keeps a KeptDesign of a job's boat; raises NotInBook."""
    with book.writing() as db:
        row_of(db, key)
        insert_design(db, key, design)
        touch(db, key)


def designs(book):
    """Every KeptDesign of the book, the last one first."""
    with book.reading() as db:
        return tuple(KeptDesign(**dict(row)) for row in db.execute(
            "SELECT name, lineage, date, text FROM designs ORDER BY id DESC"))


def kept_of(book, key):
    """(KeptDesigns of a job, the last one last; its KeptLaunch or None)."""
    with book.reading() as db:
        return designs_of(db, key), launch_of(db, key)


def keep_launch(book, key, launch):
    """Keeps the KeptLaunch of a job, in place of an earlier one; raises NotInBook."""
    with book.writing() as db:
        row_of(db, key)
        insert_launch(db, key, launch)
        touch(db, key)


def launches(book):
    """Every KeptLaunch of the book, those of forgotten customers too, the first first."""
    with book.reading() as db:
        return tuple(KeptLaunch(**dict(row)) for row in db.execute(
            "SELECT date, off FROM launches ORDER BY id"))


def designs_of(db, key):
    """The KeptDesigns of a job, in a transaction."""
    return tuple(KeptDesign(**dict(row)) for row in db.execute(
        "SELECT name, lineage, date, text FROM designs JOIN jobs ON jobs.id = designs.job "
        "WHERE key = ? ORDER BY designs.id", (key,)))


def launch_of(db, key):
    """The KeptLaunch of a job, or None, in a transaction."""
    row = db.execute("SELECT date, off FROM launches JOIN jobs ON jobs.id = launches.job "
                     "WHERE key = ?", (key,)).fetchone()
    return row and KeptLaunch(**dict(row))


def insert_design(db, key, design):
    db.execute("INSERT INTO designs (job, name, lineage, date, text) SELECT id, :name, :lineage, "
               ":date, :text FROM jobs WHERE key = :key", {**vars(design), "key": key})


def insert_launch(db, key, launch):
    """Writes a KeptLaunch, in place of an earlier one of that job."""
    db.execute("INSERT OR REPLACE INTO launches (job, date, off) SELECT id, :date, :off FROM jobs "
               "WHERE key = :key", {**vars(launch), "key": key})
