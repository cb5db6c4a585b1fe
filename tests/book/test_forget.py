"""Forgetting: no measure of the customer is left in the bytes of the book, its log, its copies."""

import json
import re
import threading

import pytest

from sizer.book import forget as forget_module
from sizer.book.book import Book
from sizer.book.copies import copy_folder, keep_copy, kept_copies
from sizer.book.drafts import draft, save_draft
from sizer.book.exchange import export_jobs
from sizer.book.forget import MARK, forget
from sizer.book.issuing import freeze
from sizer.book.jobs import Summary, copy_job, job, new_job, rename
from sizer.book.opening import open_book
from sizer.book.refusals import BUSY, BookRefused, Changed
from sizer.book.revisions import due, revisions
from sizer.design.library import shipped_text
from sizer.design.read import read_design
from sizer.export.answer import full_answer
from sizer.export.bench_answer import bench_answer
from sizer.fit.request import read_request
from sizer.fit.study import study
from sizer.hull.lines import fair_lines
from sizer.job import run
from sizer.shop.bench import bench_of

BODY = {"weight_kg": 82.37, "stature_mm": 1783.3, "hip_width_mm": 385.7, "inseam_mm": 851.9,
        "foot_length_mm": 262.3}
REQUEST = {"base": "day-boat", "use": "coastal-day", "gear_kg": 12.25,
           "fixed": {"beam_mm": 571.0}, "paddler": BODY}
DRESSED_KG = 82.37 + 5.0  # as the answer's load repeats the weight: README, `paddler_kg`
TRACES = [f"{value}".encode() for value in (*BODY.values(), DRESSED_KG)]
NAME = "Mark with a name"


@pytest.fixture(scope="module")
def answer():
    """Every figure of a job, as a package's JSON has it."""
    done = run(read_request(REQUEST), fair_lines(read_design(shipped_text("day-boat"))))
    assessed = done.fitted.assessed
    text = json.dumps(full_answer(done, study(assessed, done.mishaps.rigid))
                      | {"bench": bench_answer(bench_of(done))})
    assert all(trace.decode() in text for trace in TRACES)
    return text


def filled(book, answer):
    """The key of a job with drafts, undo, a revision, a past, and copies of the book."""
    key = new_job(book, json.dumps(REQUEST), NAME, Summary("day-boat", "4759 mm", "pass"),
                  notes="82.37 kg on the scale").key
    for version in range(1, 30):
        save_draft(book, key, json.dumps(REQUEST | {"n": version}),
                   json.dumps([REQUEST] * version), version, by=NAME)
    freeze(book, key, due(book, key), REQUEST, shipped_text("day-boat"), json.dumps(REQUEST),
           "2026-03-31", {"everything.json": answer.encode()})
    with book.apart() as db:
        keep_copy(db, book.path)
    return key


def traces(path):
    """{file: what of the customer its bytes hold} of the book, its log and its copies."""
    files = [*path.parent.glob("*.sqlite3*"), *copy_folder(path).glob("*")]
    found = {one.name: [trace for trace in (*TRACES, NAME.encode()) if trace in one.read_bytes()]
             for one in files}
    return {name: held for name, held in found.items() if held}


def test_no_trace_is_left_in_any_byte(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    assert any(len(held) == len(TRACES) + 1 for held in traces(path).values())  # it is found
    gone = forget(book, key)
    assert (gone.codes, gone.copies) == ((job(book, key).code,), kept_copies(path))
    assert traces(path) == {}
    book.close()
    assert traces(path) == {}


def test_what_is_the_boats_stays(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    forget(book, key)
    row, (one,) = job(book, key), revisions(book, key)
    assert (row.mark, row.notes, row.size) == (MARK, "", "4759 mm")
    assert (one.forgotten, one.mark, one.draft) == (True, MARK, "")
    assert json.loads(one.request) == {name: value for name, value in REQUEST.items()
                                       if name != "paddler"}
    was, now = json.loads(answer), json.loads(one.answer)
    for name in ("size", "stations", "setting_up"):
        assert now[name] == was[name]
    assert now["bench"]["stringers"] == was["bench"]["stringers"]
    assert one.base_text == shipped_text("day-boat")
    book.close()


def test_others_keep_everything(path, answer):
    book = open_book(path)
    key, other = filled(book, answer), filled(book, answer)
    kept = job(book, other), draft(book, other), revisions(book, other)
    text = export_jobs(book, [other])
    forget(book, key)
    assert kept == (job(book, other), draft(book, other), revisions(book, other))
    assert export_jobs(book, [other]) == text
    book.close()


def test_a_screen_still_open_cannot_write_the_measures_back(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    seen = draft(book, key).version
    forget(book, key)
    with pytest.raises(Changed):
        save_draft(book, key, json.dumps(REQUEST), "", seen)
    book.close()


def test_all_jobs_of_a_customer_are_forgotten_and_sisters_of_others_told(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    same = copy_job(book, key)
    sister = rename(book, copy_job(book, key).key, "somebody else")
    gone = forget(book, same.key)
    assert set(gone.codes) == {job(book, key).code, same.code}
    assert gone.sisters == (sister.code,)
    assert draft(book, key).draft_json == draft(book, same.key).draft_json == ""
    assert draft(book, sister.key).draft_json != ""
    forget(book, sister.key)
    assert traces(path) == {}
    book.close()


def test_a_design_drawn_for_the_customer_goes_too(path, answer):
    book = open_book(path)
    key = new_job(book, "{}").key
    own, found = re.subn(r"(?m)^weight_kg = .*$", f"weight_kg = {BODY['weight_kg']}",
                         shipped_text("day-boat"))
    assert found == 1
    freeze(book, key, due(book, key), REQUEST, own, "", "2026-03-31",
           {"everything.json": answer.encode()})
    forget(book, key)
    assert revisions(book, key)[0].base_text == ""
    book.close()


def test_a_copy_that_cannot_be_read_is_removed(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    bad = kept_copies(path)[-1]
    bad.write_bytes(bad.read_bytes()[:9000] + TRACES[0])
    assert forget(book, key).removed == (bad,)
    assert not bad.exists()
    assert traces(path) == {}
    book.close()


def test_forgetting_again_changes_nothing_more_and_a_part_of_a_copy_goes(path, answer):
    book = open_book(path)
    key = filled(book, answer)
    forget(book, key)
    before = revisions(book, key)
    for name in ("x.sqlite3.part", "x.sqlite3.damaged", "x.sqlite3.damaged-wal"):
        (copy_folder(path) / name).write_bytes(TRACES[0])
    path.with_name(path.name + ".part").write_bytes(TRACES[0])  # of a restore that was ended
    forget(book, key)
    assert revisions(book, key) == before
    assert traces(path) == {}
    book.close()


def test_a_reader_that_still_holds_what_was_is_told_of(path, answer, monkeypatch):
    monkeypatch.setattr("sizer.book.connection.TRIES", 1)
    monkeypatch.setattr("sizer.book.connection.BUSY_S", 0.05)
    book = open_book(path)
    key = filled(book, answer)
    other = open_book(path)
    with other.reading() as db:
        db.execute("SELECT draft FROM drafts").fetchone()
        with pytest.raises(BookRefused, match="forget again") as told:
            forget(book, key)
    assert told.value.reason == BUSY
    forget(book, key)
    assert traces(path) == {}
    for one in (book, other):
        one.close()


def test_an_entry_made_while_another_is_forgotten_is_kept(path, answer):
    book = open_book(path)
    key, mine = filled(book, answer), new_job(book, "0").key
    told = []

    def write():
        told.extend(save_draft(book, mine, str(version), "", version) for version in range(1, 40))

    writer = threading.Thread(target=write)
    writer.start()
    forget(book, key)
    writer.join()
    assert draft(book, mine).draft_json == "39"
    assert len(told) == 39
    book.close()


def test_forgetting_on_a_full_disk_says_what_is_done_and_what_is_not(path, answer, monkeypatch):
    book = open_book(path)
    key = filled(book, answer)
    with book.apart() as db:
        pages = db.execute("PRAGMA page_count").fetchone()[0]
    real = forget_module.patient

    def full(db, statement):
        if statement == "VACUUM":
            db.execute(f"PRAGMA max_page_count = {pages}")
            db.execute("CREATE TABLE more (x)")
            for _ in range(1000):
                db.execute("INSERT INTO more VALUES (zeroblob(100000))")
        return real(db, statement)

    monkeypatch.setattr(forget_module, "patient", full)
    with pytest.raises(BookRefused, match="forget again") as told:
        forget(book, key)
    assert "not kept" not in str(told.value)
    assert draft(book, key).draft_json == ""
    monkeypatch.undo()
    forget(book, key)
    assert traces(path) == {}
    book.close()


def test_a_book_in_memory_forgets_too():
    book = Book.in_memory()
    key = new_job(book, "draft", NAME).key
    assert forget(book, key).copies == ()
    assert (job(book, key).mark, draft(book, key).draft_json) == (MARK, "")
    book.close()
