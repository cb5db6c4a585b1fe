"""A clock that is set back between two entries: what came later still counts as later."""

import os
from datetime import datetime, timedelta

import pytest

from sizer.book import book as book_module
from sizer.book import copies
from sizer.book.built import KeptDesign, designs, keep_design
from sizer.book.drafts import draft, save_draft
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.jobs import jobs, new_job, rename
from sizer.book.opening import open_book
from sizer.book.refusals import Changed
from sizer.book.revisions import due, issue, revisions

START = datetime(2026, 3, 31, 12)
BACK = timedelta(days=40)


@pytest.fixture
def clock(monkeypatch):
    """A clock that is set by `set_to` and otherwise stands: each place of a book that reads it."""
    class Clock(datetime):
        at = START

        @classmethod
        def now(cls, zone=None):
            return cls.at.replace(tzinfo=zone)

    for module in (book_module, copies):
        monkeypatch.setattr(module, "datetime", Clock)
    monkeypatch.setattr(copies.time, "time", lambda: Clock.at.timestamp())
    return Clock


@pytest.fixture
def book(tmp_path, clock):
    opened = open_book(tmp_path / "shop.sqlite3")
    yield opened
    opened.close()


def keys(book):
    return [one.key for one in jobs(book)]


def test_the_job_touched_last_stands_first(book, clock, tmp_path):
    first, second, third = (new_job(book, "{}").key for _ in range(3))
    clock.at -= BACK
    rename(book, first, "later")
    assert keys(book) == [first, third, second]
    clock.at -= BACK
    save_draft(book, second, '{"later": 1}', "", 1)
    newest = new_job(book, "{}").key
    assert keys(book) == [newest, second, first, third]
    other = open_book(tmp_path / "other.sqlite3")
    import_jobs(other, export_jobs(book))
    assert keys(other) == [newest, second, first, third]
    other.close()


def test_the_draft_kept_last_stands_and_an_older_one_does_not_replace_it(book, clock):
    key = new_job(book, "first").key
    clock.at -= BACK
    assert save_draft(book, key, "second", "of both", 1) == 2
    with pytest.raises(Changed):
        save_draft(book, key, "from the first", "", 1)
    kept = draft(book, key)
    assert (kept.draft_json, kept.history_json, kept.version) == ("second", "of both", 2)


def test_revisions_and_designs_follow_each_other_as_they_were_made(book, clock):
    key = new_job(book, "{}").key
    for word in ("one", "two", "three"):
        issue(book, key, "{}", word, "{}", "0", "{}", "{}", f"{clock.at:%Y-%m-%d}")
        keep_design(book, key, KeptDesign(word, "", f"{clock.at:%Y-%m-%d}", word))
        clock.at -= BACK
    found = revisions(book, key)
    assert [(one.letter, one.base_text, one.replaces) for one in found] == [
        ("A", "one", ""), ("B", "two", "A"), ("C", "three", "B")]
    assert [one.date for one in found] == ["2026-03-31", "2026-02-19", "2026-01-10"]
    assert (due(book, key).letter, due(book, key).replaces) == ("D", "C")
    assert [one.name for one in designs(book)] == ["three", "two", "one"]


def test_two_copies_of_one_moment_are_two(book, clock):
    """A clock set back may come to the very moment of an older copy: that is never written over."""
    key = new_job(book, "first").key
    with book.apart() as db:
        copies.keep_copy(db, book.path)
    save_draft(book, key, "second", "", 1)
    with book.apart() as db:
        copies.keep_copy(db, book.path)
    older, newer = copies.kept_copies(book.path)
    assert copies.last_good(book.path) == newer
    for path, held in ((older, "first"), (newer, "second")):
        kept = open_book(path)
        assert draft(kept, key).draft_json == held
        kept.close()


def test_the_copy_made_after_the_clock_was_set_back_is_the_newest(book, clock):
    key = new_job(book, "first").key
    with book.apart() as db:
        copies.keep_copy(db, book.path)
    clock.at -= BACK
    save_draft(book, key, "second", "", 1)  # a copy of that day goes before it
    save_draft(book, key, "third", "", 2)
    assert len(copies.kept_copies(book.path)) == 2
    assert copies.last_good(book.path).name.startswith("2026-02-19")
    copies.restore(book.path)  # the book there is put aside, under a name of that day
    aside, = copies.copy_folder(book.path).glob("*.damaged")
    assert aside.name.startswith("2026-02-19")


def test_a_part_from_before_the_clock_was_set_back_does_not_stay(book, clock):
    new_job(book, "{}")
    with book.apart() as db:
        copies.keep_copy(db, book.path)
        left, fresh = (copies.copy_folder(book.path) / f"{name}.sqlite3.part"
                       for name in ("left", "fresh"))
        for part, age in ((left, -BACK), (fresh, timedelta(seconds=1))):
            part.write_bytes(b"part")
            moment = (clock.at - age).timestamp()
            os.utime(part, (moment, moment))
        copies.keep_copy(db, book.path)
    assert not left.exists()
    assert fresh.exists()
