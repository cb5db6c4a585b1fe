"""The shop's book with bytes changed anywhere, and jobs carried between books: read, or refused in
a sentence; never a traceback, and nothing taken in by halves."""

import json
import tempfile
from contextlib import closing
from functools import cache
from pathlib import Path

import pytest
from hypothesis import event, example, given
from hypothesis import strategies as st

from sizer.book.book import Book
from sizer.book.exchange import export_jobs, import_jobs
from sizer.book.jobs import jobs, new_job
from sizer.book.opening import open_book
from sizer.book.revisions import issue, revisions
from sizer.errors import BadInput
from sizer.web import keeping
from sizer.web.history import History
from tests.knocks.conftest import answered, knocks
from tests.knocks.test_odd_jobs import VALUES, places, saved, sealed


@cache
def filled():
    """Bytes of a closed book with drafts, their undo and a revision."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.sqlite3"
        book = open_book(path)
        one, history = saved(), History(saved())
        for weight in ("70", "75", "80"):
            history = history.step(one.enter("weight_kg", weight))
        for number in range(3):
            light = {id(step): (step, *keeping._light(step)) for step in history.past}
            row = new_job(book, one.model_dump_json(), f"mark {number} 舟",
                          history_json=keeping._steps_text(history, light))
        issue(book, row.key, "{}", "name = 'x'", "{}", "1", "{}", one.model_dump_json(),
              "2026-11-28")
        book.close()
        return path.read_bytes()


def broken(raw, breaks):
    """The bytes with some overwritten, each a (share along them, bytes, bits to flip)."""
    raw = bytearray(raw)
    for share, put, flip in breaks:
        at = min(int(share * len(raw)), len(raw) - 1)
        raw[at] ^= flip
        raw[at + 1:at + 1 + len(put)] = put[:max(0, len(raw) - at - 1)]
    return bytes(raw)


BREAKS = st.lists(st.tuples(st.floats(0.0, 1.0), st.binary(max_size=12), st.integers(0, 255)),
                  min_size=1, max_size=6)


@knocks(40)
@given(BREAKS, st.none() | st.floats(0.0, 1.0))
@example([(filled().index(b"answer TEXT") / len(filled()), b"", 1)], None)  # a column's name
@example([(filled().index(b"files TEXT") / len(filled()), b"", 1)], None)
def test_a_book_with_bytes_changed_is_read_or_refused(breaks, cut):
    raw = broken(filled(), breaks)
    with tempfile.TemporaryDirectory() as folder, pytest.MonkeyPatch.context() as patch:
        path = Path(folder) / "book.sqlite3"
        path.write_bytes(raw if cut is None else raw[:int(cut * len(raw))])
        book, refused = answered(open_book, path)
        if refused:
            assert isinstance(refused, BadInput)
            event("refused")
            return
        patch.setattr(keeping, "shop_book", lambda: (book, ""))
        try:
            listed, refused = answered(jobs, book)
            for row in listed or ():
                for work, *given_to in ((keeping.opened, row.key), (revisions, book, row.key),
                                        (export_jobs, book, [row.key])):
                    _, refused = answered(work, *given_to)
                    event("refused in part" if refused else "read")
                    assert refused is None or str(refused)
        finally:
            book.close()


def exported():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "book.sqlite3"
        path.write_bytes(filled())
        book = open_book(path)
        text = export_jobs(book)
        book.close()
        return text


EXPORTED = exported()


@knocks(60)
@given(places(EXPORTED), VALUES, st.booleans())
@example(["jobs", 0, "mark"], "\ud800", False)
@example(["jobs", 0, "put_away"], True, False)
def test_jobs_sealed_over_odd_values_are_taken_in_whole_or_refused(path, value, remove):
    with closing(Book.in_memory()) as book:
        taken_in_whole_or_refused(book, sealed(EXPORTED, path, value, remove))


def taken_in_whole_or_refused(book, text):
    came, refused = answered(import_jobs, book, text)
    held = (*jobs(book), *jobs(book, put_away=True))
    if refused:
        event("refused")
        assert isinstance(refused, BadInput)
        assert str(refused).encode()
        assert held == ()
        return
    event("taken in")
    assert len(held) == len(came.came)
    assert len(json.loads(export_jobs(book))["jobs"]) == len(held)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(keeping, "shop_book", lambda: (book, ""))
        for row in held:
            _, refused = answered(keeping.opened, row.key)
            assert refused is None or row.code in str(refused)
