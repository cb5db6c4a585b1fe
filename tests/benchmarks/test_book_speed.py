"""How long a book of 100, 1,000 and 4,000 jobs takes: its list, a find, an entry, to open.

Run with `.venv/bin/python -m pytest tests/benchmarks/test_book_speed.py -s`; nothing here asserts a
time. Each job has a draft of 3 kB with an undo of 60 kB, and each third a revision of 100 kB, as
those of a shipped base are.
"""

import pytest

from sizer.book.copies import backup
from sizer.book.drafts import draft, save_draft
from sizer.book.exchange import export_jobs
from sizer.book.jobs import Summary, jobs, new_job
from sizer.book.opening import open_book
from sizer.book.revisions import issue

DRAFT, UNDO, ANSWER = "d" * 3_000, "u" * 60_000, "a" * 100_000
BASES = ("day-boat", "steady-boat", "long-tourer")


@pytest.fixture(scope="module", params=[100, 1000, 4000])
def kept(request, tmp_path_factory):
    """(count of jobs, Path of the book that holds them)."""
    path = tmp_path_factory.mktemp("book") / "book.sqlite3"
    book = open_book(path)
    for number in range(request.param):
        boat = Summary(BASES[number % 3], f"{4200 + number} x 560 x 250 mm", "pass")
        key = new_job(book, DRAFT, f"customer {number}", boat, UNDO).key
        if number % 3 == 0:
            issue(book, key, "{}", "b" * 8_000, "{}", "1", ANSWER, DRAFT, "2026-01-01")
    book.close()
    return request.param, path


@pytest.fixture
def book(kept):
    opened = open_book(kept[1])
    yield opened
    opened.close()


@pytest.mark.parametrize("find", ["", "c", "customer 7", "steady 42 pass", "nobody"])
def test_find(benchmark, kept, book, find):
    benchmark.group = f"finding among {kept[0]} jobs"
    benchmark(jobs, book, find)


def test_an_entry(benchmark, kept, book):
    benchmark.group = f"keeping an entry among {kept[0]} jobs"
    key = jobs(book, most=1)[0].key
    versions = iter(range(draft(book, key).version, 1_000_000))
    benchmark(lambda: save_draft(book, key, DRAFT, UNDO, next(versions)))


def test_opening_with_its_check(benchmark, kept):
    benchmark.group = f"opening a book of {kept[0]} jobs"
    benchmark.pedantic(lambda: open_book(kept[1]).close(), rounds=5)
    print(f"\n{kept[0]} jobs: {kept[1].stat().st_size / 1e6:.0f} MB")


def test_a_backup(benchmark, kept, book, tmp_path):
    benchmark.group = f"a checked backup of {kept[0]} jobs"
    names = iter(range(100))
    benchmark.pedantic(lambda: backup(book, tmp_path / f"{next(names)}.sqlite3"), rounds=2)


def test_an_export(benchmark, kept, book):
    benchmark.group = f"an export of {kept[0]} jobs"
    benchmark.pedantic(export_jobs, (book,), rounds=1)
