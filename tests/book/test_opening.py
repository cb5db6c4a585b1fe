"""Opening a book: made private, refused in a sentence where it is none, brought up to date."""

import os
import sqlite3
import stat
import subprocess
import sys
import tempfile
from contextlib import closing
from pathlib import Path

import pytest

from sizer.book import form
from sizer.book.copies import backup, keep_copy, kept_copies, restore
from sizer.book.drafts import draft
from sizer.book.jobs import jobs, new_job
from sizer.book.opening import ELSEWHERE, book_path, open_book
from sizer.book.refusals import DAMAGED, FOREIGN, NEWER, UNWRITABLE, BookRefused

HEAD = 100  # bytes of an SQLite file's header; sqlite.org/fileformat2.html, 1.3


def filled(path, count=30):
    """A closed book with jobs in it, and a good copy; gives what its drafts hold."""
    book = open_book(path)
    for number in range(count):
        new_job(book, f'{{"number": {number}, "text": "{"x" * 3000}"}}', f"mark {number}")
    held = content(book)
    with book.apart() as db:
        keep_copy(db, path)
    book.close()
    return held


def content(book):
    return {one.key: draft(book, one.key).draft_json for one in jobs(book)}


def refusal(path):
    """The refusal of a book, which leaves its bytes as they are."""
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(BookRefused) as told:
        open_book(path)
    assert (path.read_bytes() if path.is_file() else None) == before
    assert str(path) in str(told.value)
    return told.value


def test_a_new_book_is_its_owners_alone(path):
    book = open_book(path)
    new_job(book, "{}")
    modes = {one.name: stat.S_IMODE(one.stat().st_mode) for one in path.parent.iterdir()}
    assert set(modes.values()) == {0o600}
    assert len(modes) == 3  # with its log and the log's index
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    book.close()


def test_a_book_that_others_could_read_is_closed_to_them(path):
    filled(path)
    path.chmod(0o644)
    open_book(path).close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


def test_where_a_book_lies(monkeypatch, tmp_path):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv(ELSEWHERE, raising=False)
    if sys.platform == "linux":
        assert book_path() == tmp_path / "sizer" / "book.sqlite3"
    monkeypatch.setenv(ELSEWHERE, str(tmp_path / "mine"))
    assert book_path() == tmp_path / "mine"
    assert book_path(tmp_path / "given") == tmp_path / "given"


def opened_or_refused(path):
    try:
        return open_book(path), None
    except BookRefused as error:
        return None, error


def test_every_byte_of_the_head_flipped_is_refused_or_harms_nothing(path):
    held = filled(path)
    whole, refused = path.read_bytes(), 0
    for place in range(HEAD):
        path.write_bytes(whole[:place] + bytes([whole[place] ^ 0xFF]) + whole[place + 1:])
        book, error = opened_or_refused(path)
        if error:
            refused += 1
            assert error.reason in (DAMAGED, FOREIGN, NEWER), place
            assert error.copy == kept_copies(path)[-1], place
        else:
            assert content(book) == held, place
            book.close()
        for beside in ("-wal", "-shm"):
            path.with_name(path.name + beside).unlink(missing_ok=True)
    assert refused >= 16 + 2 + 4 + 4  # magic, page size, form and application at least


@pytest.mark.parametrize("left", [0, 1, 99, 100, 4096, 20_000, -4096, -1])
def test_a_book_cut_short_is_refused_and_the_last_good_copy_named(path, left):
    filled(path)
    path.write_bytes(path.read_bytes()[:left])
    told = refusal(path)
    assert (told.reason, told.copy) == (DAMAGED, kept_copies(path)[-1])
    assert "cut short" in str(told) or "damaged" in str(told)
    assert str(told.copy) in str(told)


def test_a_book_that_is_gone_beside_its_copies_is_told_not_begun_anew(path):
    filled(path)
    path.unlink()
    told = refusal(path)
    assert (told.reason, told.copy) == (DAMAGED, kept_copies(path)[-1])
    assert not path.exists()
    restore(path)
    book = open_book(path)
    assert len(jobs(book)) == 30
    book.close()


def test_a_book_by_another_name_is_the_same_book(path, tmp_path):
    held = filled(path)
    other = tmp_path / "link.sqlite3"
    other.symlink_to(path)
    book = open_book(other)
    assert book.path == path.resolve()
    assert content(book) == held
    book.close()


def test_a_book_emptied_beside_its_log_is_refused(path):
    """SQLite itself would take it for new, and remove the log."""
    book = open_book(path)
    new_job(book, "{}")
    log = path.with_name(path.name + "-wal")
    kept = log.read_bytes()
    book.close()
    path.write_bytes(b"")
    log.write_bytes(kept)
    assert refusal(path).reason == DAMAGED
    assert log.read_bytes() == kept


def test_the_named_copy_opens_with_what_was_kept(path):
    held = filled(path)
    path.write_bytes(b"SQLite format 3\0 and no more")
    book = open_book(refusal(path).copy)
    assert content(book) == held
    book.close()


def test_a_damaged_copy_is_passed_over(path):
    held = filled(path)
    book = open_book(path)
    with book.apart() as db:
        keep_copy(db, path)
    book.close()
    good, bad = kept_copies(path)
    bad.write_bytes(bad.read_bytes()[:5000])
    path.write_bytes(path.read_bytes()[:5000])
    assert refusal(path).copy == good
    assert held


def test_a_page_overwritten_in_the_middle_is_refused(path):
    filled(path)
    whole = path.read_bytes()
    path.write_bytes(whole[:4096] + b"\xff" * 4096 + whole[8192:])
    assert refusal(path).reason == DAMAGED


@pytest.mark.parametrize("journal", ["DELETE", "WAL"])
def test_a_book_that_was_begun_and_ended_before_its_tables_is_made_whole(path, journal):
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA journal_mode={journal}")
    book = open_book(path)
    assert new_job(book, "{}") == jobs(book)[0]
    book.close()


def test_a_newer_form_is_refused(path):
    filled(path)
    with closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA user_version = {form.FORM + 1}")
    told = refusal(path)
    assert told.reason == NEWER
    assert "update" in str(told)


@pytest.mark.parametrize("application", [0, 0x12345678])
def test_another_programs_file_is_refused_and_left_alone(path, application):
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as db:
        db.execute("CREATE TABLE music (title TEXT)")
        db.execute(f"PRAGMA application_id = {application}")
        db.commit()
    path.chmod(0o644)
    assert refusal(path).reason == FOREIGN
    assert stat.S_IMODE(path.stat().st_mode) == 0o644
    assert [one.name for one in path.parent.iterdir()] == [path.name]


def test_a_file_that_is_no_database_is_refused(path):
    path.parent.mkdir()
    path.write_text("Dear diary, " * 1000)
    assert refusal(path).reason == DAMAGED


@pytest.mark.parametrize("place", ["/proc/none/book.sqlite3", "/dev/null/book.sqlite3"])
def test_a_folder_that_cannot_be_is_refused(place):
    told = refusal(Path(place))
    assert told.reason == UNWRITABLE
    assert "--book" in str(told)


OPEN = """
import os
import sys
from sizer.book.jobs import new_job
from sizer.book.opening import open_book
from sizer.book.refusals import BookRefused
if os.geteuid() == 0:  # whom no folder is read-only to
    os.setgid(65534)
    os.setuid(65534)
try:
    new_job(open_book(sys.argv[1]), "{}")
except BookRefused as error:
    print(error.reason, error)
"""


@pytest.fixture
def shared():
    """The path of a book in a folder that anybody can reach."""
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        yield Path(folder) / "book.sqlite3"


@pytest.mark.parametrize("there", [True, False], ids=["a book there", "none there"])
def test_a_read_only_folder_is_told_and_what_was_there_stands(shared, there):
    held = filled(shared) if there else {}
    before = shared.read_bytes() if there else None
    if there:
        shared.chmod(0o444)
    shared.parent.chmod(0o555)
    done = subprocess.run([sys.executable, "-c", OPEN, str(shared)], capture_output=True, text=True,
                          check=False)
    assert done.stderr == ""
    assert done.stdout.startswith(f"{UNWRITABLE} book: {shared}: ")
    assert len(done.stdout.splitlines()) == 1
    shared.parent.chmod(0o755)
    assert (shared.read_bytes() if there else None) == before
    if there:
        book = open_book(shared)
        assert content(book) == held
        book.close()


def older(path):
    """A book of form 1 with one job, as that form wrote it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with closing(sqlite3.connect(path, isolation_level=None)) as db:
        db.execute("PRAGMA journal_mode=WAL")
        db.executescript(form.STEPS[1])
        db.execute("INSERT INTO customers VALUES (1, 'from before', 'note')")
        db.execute("INSERT INTO jobs (id, key, code, customer, state, base, size, status, created, "
                   "touched) VALUES (1, 'k', 'AC2345', 1, 'built', 'day-boat', '', '', 't', 't')")
        db.execute("INSERT INTO drafts VALUES (1, 'the draft', '', 5, 't')")
        db.execute(f"PRAGMA application_id = {form.APPLICATION_ID}")
        db.execute("PRAGMA user_version = 1")


def test_an_older_form_is_brought_up_to_date_and_a_copy_kept_first(path):
    older(path)
    book = open_book(path)
    with book.apart() as db:
        assert db.execute("PRAGMA user_version").fetchone()[0] == form.FORM
    assert jobs(book)[0].mark == "from before"
    assert (draft(book, "k").version, draft(book, "k").by) == (5, "")
    book.close()
    (copy,) = kept_copies(path)
    assert copy.name.endswith("-form-1.sqlite3")
    with closing(sqlite3.connect(copy)) as db:
        assert db.execute("PRAGMA user_version").fetchone()[0] == 1
        assert db.execute("SELECT draft FROM drafts").fetchone()[0] == "the draft"


def test_an_upgrade_that_fails_leaves_the_older_form_whole(path, monkeypatch):
    older(path)
    monkeypatch.setitem(form.STEPS, 2, form.WHO_AND_ORDER + "INSERT INTO nowhere VALUES (1);")
    with pytest.raises(sqlite3.OperationalError, match="nowhere"):
        open_book(path)
    monkeypatch.undo()
    book = open_book(path)
    assert draft(book, "k").draft_json == "the draft"
    book.close()


def test_an_upgraded_book_has_the_tables_of_a_new_one(path):
    def tables(where):
        open_book(where).close()
        with closing(sqlite3.connect(where)) as db:
            return db.execute("SELECT type, name, sql FROM sqlite_master ORDER BY name").fetchall()

    older(path)
    assert tables(path) == tables(path.with_name("new.sqlite3"))


FULL = """
import resource, sys
from sizer.book.jobs import jobs, new_job
from sizer.book.opening import open_book
from sizer.book.refusals import BookRefused
book = open_book(sys.argv[1])
resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[2]), int(sys.argv[2])))
kept = 0
try:
    while True:
        new_job(book, "x" * 5000)
        kept += 1
except BookRefused as error:
    print(error.reason, kept, error)
assert len(jobs(book, most=100000)) == kept + 30, "what was there is still read"
"""


def test_a_disk_that_takes_no_more_gives_a_sentence_and_keeps_what_was_there(path):
    """The limit on a file's size is the kernel's own refusal of a write."""
    held = filled(path)
    done = subprocess.run([sys.executable, "-c", FULL, str(path), "700000"], capture_output=True,
                          text=True, check=False)
    assert done.stderr == ""
    reason, kept, said = done.stdout.split(" ", 2)
    assert (reason, said.count("\n")) == (UNWRITABLE, 1)
    assert "make room" in said
    book = open_book(path)
    now = content(book)
    assert len(now) == len(held) + int(kept) > len(held)
    assert held.items() <= now.items()
    book.close()


def test_a_full_book_gives_a_sentence_and_takes_entries_again_when_there_is_room(path):
    held = filled(path)
    book = open_book(path)
    with book.apart() as db:
        pages = db.execute("PRAGMA page_count").fetchone()[0]
        db.execute(f"PRAGMA max_page_count = {pages + 2}")
    with pytest.raises(BookRefused, match="the disk is full: make room") as told:
        new_job(book, "x" * 50_000)
    assert told.value.reason == UNWRITABLE
    assert content(book) == held
    new_job(book, "x" * 50_000)  # on a connection that knows of no limit
    assert len(jobs(book)) == len(held) + 1
    book.close()


def test_a_backup_to_where_nothing_can_be_written_is_refused_and_leaves_nothing(path):
    filled(path)
    book = open_book(path)
    with pytest.raises(BookRefused) as told:
        backup(book, "/proc/none/copy.sqlite3")
    assert told.value.reason == UNWRITABLE
    assert len(jobs(book)) == 30
    book.close()
