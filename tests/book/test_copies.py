"""Copies: one a day of use, the last ten kept, and backups of a book in use."""

import os
import stat
import threading

import pytest

from sizer.book import book as one_book
from sizer.book.copies import (
    KEPT_COPIES,
    backup,
    copy_folder,
    keep_copy,
    keep_daily_copy,
    kept_copies,
    last_good,
    restore,
)
from sizer.book.drafts import draft, save_draft
from sizer.book.jobs import jobs, new_job
from sizer.book.opening import open_book
from sizer.book.refusals import BookRefused
from sizer.errors import BadInput


def test_the_first_entry_of_a_day_is_preceded_by_a_copy_and_no_other_is(path, monkeypatch):
    book = open_book(path)
    key = new_job(book, "of today").key
    assert kept_copies(path) == ()  # of an empty book
    book.close()
    book = open_book(path)
    for version in (1, 2, 3):
        save_draft(book, key, f"then {version}", "", version)
    (copy,) = kept_copies(path)
    assert copy.name.startswith(draft(book, key).touched[:10])  # one calendar, that of UTC
    then = open_book(copy)
    assert draft(then, key).draft_json == "of today"
    then.close()
    monkeypatch.setattr(one_book, "now", lambda: "2999-01-01T00:00:00.000+00:00")
    save_draft(book, key, "of tomorrow", "", 4)
    assert len(kept_copies(path)) == 2
    book.close()


def test_the_copies_are_their_owners_alone(path):
    book = open_book(path)
    new_job(book, "{}")
    with book.apart() as db:
        keep_copy(db, path)
    assert stat.S_IMODE(copy_folder(path).stat().st_mode) == 0o700
    assert stat.S_IMODE(kept_copies(path)[0].stat().st_mode) == 0o600
    book.close()


def test_ten_are_kept_the_newest(path):
    book = open_book(path)
    new_job(book, "{}")
    made = []
    with book.apart() as db:
        for _ in range(KEPT_COPIES + 3):
            keep_copy(db, path)
            made.append(kept_copies(path)[-1])
    assert KEPT_COPIES == 10
    assert kept_copies(path) == tuple(made[-KEPT_COPIES:])
    assert [one.suffix for one in copy_folder(path).iterdir()] == [".sqlite3"] * KEPT_COPIES
    book.close()


def test_with_the_clock_set_back_the_copy_just_made_is_kept_and_the_last_good_one(path):
    book = open_book(path)
    new_job(book, "{}")
    with book.apart() as db:
        for number in range(KEPT_COPIES):
            keep_copy(db, path)
            made = kept_copies(path)[-1]
            made.rename(made.with_name(f"2999-01-{number + 1:02}T000000.000000.sqlite3"))
        earlier = kept_copies(path)
        keep_copy(db, path)
    newest = last_good(path)
    assert newest not in earlier
    assert kept_copies(path) == (*earlier[1:], newest)
    book.close()


def test_a_copy_that_fails_is_told_and_costs_no_entry(path, monkeypatch):
    book = open_book(path)
    key = new_job(book, "{}").key
    book.close()
    copy_folder(path).write_text("no folder")
    book = open_book(path)
    assert save_draft(book, key, "kept", "", 1) == 2
    assert str(copy_folder(path)) in book.copy_fault
    assert draft(book, key).draft_json == "kept"
    book.close()


def test_no_copy_is_no_last_good_one(path):
    assert last_good(path) is None
    book = open_book(path)
    with book.apart() as db:
        keep_daily_copy(db, path, "2026-01-01")
    assert last_good(path) is None
    book.close()


def test_a_backup_taken_while_others_write_is_whole(path, tmp_path):
    book = open_book(path)
    keys = [new_job(book, "0", history_json="x" * 20_000).key for _ in range(20)]
    stop, written = threading.Event(), []

    def write():
        version = 1
        while not stop.is_set():
            for key in keys:
                save_draft(book, key, str(version), "x" * 20_000, version)
            version += 1
        written.append(version)

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for number in range(3):
            copy = open_book(backup(book, tmp_path / f"{number}.sqlite3"))
            found = [int(draft(copy, key).draft_json) for key in keys]
            assert max(found) - min(found) <= 1  # one state of the book: a round is not torn
            assert sorted(found, reverse=True) == found
            copy.close()
    finally:
        stop.set()
        writer.join()
    assert written[0] > 1
    book.close()


def test_a_backup_never_replaces_a_file(book, tmp_path):
    there = tmp_path / "mine.txt"
    there.write_text("mine")
    with pytest.raises(BadInput, match="already"):
        backup(book, there)
    assert there.read_text() == "mine"


def test_a_book_in_memory_can_be_backed_up(tmp_path):
    book = one_book.Book.in_memory()
    key = new_job(book, "kept").key
    copy = open_book(backup(book, tmp_path / "out.sqlite3"))
    assert [one.key for one in jobs(copy)] == [key]
    copy.close()
    book.close()


def test_a_damaged_book_gives_way_to_its_last_good_copy_and_is_put_aside(path):
    book = open_book(path)
    key = new_job(book, "kept").key
    with book.apart() as db:
        keep_copy(db, path)
    save_draft(book, key, "since", "", 1)
    book.close()
    spoilt = path.read_bytes()[:9000]
    path.write_bytes(spoilt)
    path.with_name(path.name + "-wal").write_bytes(b"of the damaged")
    with pytest.raises(BookRefused) as told:
        open_book(path)
    copy, aside = restore(path)
    assert copy == told.value.copy
    assert aside.read_bytes() == spoilt
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    book = open_book(path)
    assert draft(book, key).draft_json == "kept"
    assert sorted(one.name for one in path.parent.iterdir() if one.suffix == ".part") == []
    book.close()
    assert kept_copies(path) == (copy,)  # what was put aside is no copy


def test_there_is_nothing_to_restore_from_without_a_copy(path):
    open_book(path).close()
    with pytest.raises(BadInput, match="no good copy"):
        restore(path)


def test_a_copy_is_good_in_a_folder_of_any_name(tmp_path):
    path = tmp_path / "shop #1 50%?ro" / "book.sqlite3"
    book = open_book(path)
    new_job(book, "{}")
    with book.apart() as db:
        keep_copy(db, path)
    assert last_good(path) == kept_copies(path)[0]
    book.close()


def test_a_part_left_by_a_program_that_was_ended_goes_with_the_next_copy(path):
    book = open_book(path)
    new_job(book, "{}")
    with book.apart() as db:
        keep_copy(db, path)
        old, fresh = (copy_folder(path) / f"{name}.sqlite3.part" for name in ("old", "fresh"))
        for part in (old, fresh):
            part.write_bytes(b"part")
        os.utime(old, (0, 0))
        keep_copy(db, path)
    assert not old.exists()
    assert fresh.exists()  # another program may be writing it
    book.close()


def test_a_copy_that_is_not_whole_is_never_kept(path, tmp_path, monkeypatch):
    book = open_book(path)
    new_job(book, "{}")
    monkeypatch.setattr("sizer.book.copies.pragma", lambda _db, _name: "row 3 missing")
    with pytest.raises(BookRefused, match="damaged"):
        backup(book, tmp_path / "out.sqlite3")
    assert list(tmp_path.glob("out*")) == []
    book.close()
