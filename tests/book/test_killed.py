"""SIGKILL at random moments of a busy session: what was kept is there, and the file is whole.

SIZER_KILLS asks for more moments than the few of every run.
"""

import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from sizer.book.copies import KEPT_COPIES, copy_folder, kept_copies
from sizer.book.drafts import draft
from sizer.book.forget import MARK
from sizer.book.jobs import job, jobs
from sizer.book.opening import open_book
from sizer.book.revisions import revisions

KILLS = int(os.environ.get("SIZER_KILLS", "15"))
LONGEST_S = 0.5  # from the first entry to the end


def told_by(killed_after_s, path, seed):
    """What a busy session said it had kept, until it was killed: a list of records."""
    session = subprocess.Popen(
        [sys.executable, str(Path(__file__).with_name("busy_session.py")), str(path), str(seed)],
        stdout=subprocess.PIPE)
    lines = [session.stdout.readline()]
    time.sleep(killed_after_s)
    session.kill()
    lines += session.stdout.read().splitlines(keepends=True)
    assert session.wait() == -signal.SIGKILL
    session.stdout.close()
    return [json.loads(line) for line in lines if line.endswith(b"\n")]


@pytest.mark.skipif(os.name == "nt", reason="there is no SIGKILL")
def test_no_entry_that_was_kept_is_lost_and_the_file_stays_whole(path):
    moment = random.Random(20)
    versions, issued, marks, forgotten = {}, {}, {}, set()
    for seed in range(KILLS):
        for what, key, value in told_by(moment.uniform(0.0, LONGEST_S), path, seed):
            {"draft": versions, "issued": issued, "mark": marks}.get(what, {})[key] = value
            forgotten |= {key} if what == "forgotten" else set()
        book = open_book(path)
        with book.apart() as db:
            assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
            assert not db.execute("PRAGMA foreign_key_check").fetchall()
        for key, version in versions.items():
            kept = draft(book, key)
            # what was being kept as the end came may be there as well, but whole
            assert kept.version >= version
            assert kept.draft_json == "" or kept.draft_json.startswith(f"{key} {kept.version} ")
            assert key not in forgotten or kept.draft_json == ""
            versions[key] = kept.version
        for key, letter in issued.items():
            assert letter in [one.letter for one in revisions(book, key)]
        for key, mark in marks.items():
            assert job(book, key).mark == MARK or int(job(book, key).mark) >= mark
        book.close()
    assert len(versions) > KILLS
    assert issued
    assert len(kept_copies(path)) <= KEPT_COPIES
    for copy in kept_copies(path):
        with closing(sqlite3.connect(copy)) as db:
            assert db.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_the_busy_session_tells_what_it_kept(path):
    told = told_by(1.0, path, 0)
    book = open_book(path)
    assert {key for what, key, _ in told if what == "draft"} <= {
        one.key for one in jobs(book, most=100_000)}
    assert {"draft", "issued", "mark"} <= {what for what, _, _ in told}
    assert copy_folder(path).is_dir()
    book.close()
