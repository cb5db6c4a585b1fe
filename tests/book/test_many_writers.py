"""Two processes with ten writers each on one book: none lost, none locked out, none mixed up."""

import json
import sqlite3
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from many_writers import TIMES, WRITERS

from sizer.book import book as one_book
from sizer.book.drafts import draft, save_draft
from sizer.book.jobs import job, jobs, new_job
from sizer.book.opening import open_book
from sizer.book.refusals import BUSY, BookRefused

PROCESSES = 2


def test_no_update_is_lost_and_nobody_is_told_of_a_lock(book, path):
    shared = new_job(book, "0").key
    script = Path(__file__).with_name("many_writers.py")
    running = [subprocess.Popen([sys.executable, str(script), str(path), shared, str(one)],
                                stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
               for one in range(PROCESSES)]
    ended = [one.communicate() for one in running]
    assert [said for _, said in ended] == [""] * PROCESSES
    told = {name: found for out, _ in ended for name, found in json.loads(out).items()}
    assert len(told) == PROCESSES * WRITERS
    assert draft(book, shared).draft_json == str(PROCESSES * WRITERS * TIMES)
    assert draft(book, shared).version == PROCESSES * WRITERS * TIMES + 1
    assert sum(met for _, met in told.values()) > 0  # they did get in each other's way
    for name, (own, _) in told.items():
        kept = draft(book, own)
        assert (kept.draft_json, kept.version, kept.by) == (f"{name} {TIMES}", TIMES + 1, name)
        assert job(book, own).mark == name


def test_twenty_threads_open_one_new_book_at_once(path):
    found, start = [], threading.Barrier(20)

    def enter(name):
        start.wait()
        book = open_book(path)
        found.append((new_job(book, name, name).key, name))
        book.close()

    threads = [threading.Thread(target=enter, args=(f"screen {one}",)) for one in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    book = open_book(path)
    assert {(one.key, one.mark) for one in jobs(book)} == set(found)
    assert len(found) == 20
    assert all(draft(book, key).draft_json == name for key, name in found)
    book.close()


def test_a_reader_sees_one_state_while_others_write(book):
    key = new_job(book, "0").key
    with book.reading() as db:
        before = db.execute("SELECT draft FROM drafts").fetchone()[0]
        save_draft(book, key, "1", "", 1)
        assert db.execute("SELECT draft FROM drafts").fetchone()[0] == before
    assert draft(book, key).draft_json == "1"


def test_a_book_that_another_holds_for_long_is_told_in_words(book, path, monkeypatch):
    """What SQLite calls locked never reaches a person as such."""
    key = new_job(book, "kept").key
    monkeypatch.setattr("sizer.book.connection.TRIES", 1)
    other = open_book(path)
    with book.apart() as db:
        db.execute("PRAGMA busy_timeout = 1")
    with other.writing(), pytest.raises(BookRefused) as told:
        save_draft(book, key, "lost", "", 1)
    assert told.value.reason == BUSY
    assert "another program holds the book" in str(told.value)
    assert "locked" not in str(told.value)
    assert draft(book, key).draft_json == "kept"
    assert save_draft(book, key, "then", "", 1) == 2
    other.close()


def half_done(book):
    with book.writing() as db:
        db.execute("DELETE FROM drafts")
        db.execute("DELETE FROM nowhere")


def test_an_entry_that_raises_is_not_kept_at_all(book):
    new_job(book, "kept")
    with pytest.raises(sqlite3.OperationalError, match="nowhere"):
        half_done(book)
    assert len(jobs(book)) == 1
    assert draft(book, jobs(book)[0].key).draft_json == "kept"


def test_a_program_holds_few_connections(book, monkeypatch):
    opened = []
    real = one_book.connect
    monkeypatch.setattr(one_book, "connect", lambda path: opened.append(path) or real(path))
    for _ in range(50):
        new_job(book, "{}")
        jobs(book)
    assert opened == []  # the first is lent over and over


def test_an_entry_never_goes_into_a_file_that_was_moved_away(book, path):
    key = new_job(book, "kept").key
    aside = path.with_name("aside.sqlite3")
    for back in (None, path):
        path.rename(aside)
        if back:
            path.write_bytes(b"another file")
        with pytest.raises(BookRefused, match="moved or replaced"):
            save_draft(book, key, "lost", "", 1)
        aside.rename(path)
    assert draft(book, key).draft_json == "kept"
    assert save_draft(book, key, "then", "", 1) == 2
