"""Revisions: lettered, frozen, never changed, and told where they would not be the same today."""

import json
import sqlite3

import pytest

from sizer.book.drafts import save_draft
from sizer.book.issuing import Change, changes, freeze, print_again, stamp_of
from sizer.book.jobs import job, new_job, rename, set_state
from sizer.book.refusals import NotInBook
from sizer.book.revisions import _letter, due, issue, revision, revisions
from sizer.errors import BadInput
from sizer.shop.settings import Shop


@pytest.fixture
def key(book):
    return new_job(book, "{}", "Mark 7").key


def issued(book, key, **more):
    return issue(book, key, '{"base": "day-boat"}', "text of the base", '{"limit_mm": 1}', "0.1.0",
                 '{"solve_ms": 1}', "draft", "2026-03-31", **more)


def test_a_revision_holds_what_it_was_made_from(book, key):
    made = issued(book, key, stock='{"stock_mm": 3600}', files='{"a.pdf": "sum"}')
    assert made == revision(book, key, "a") == revisions(book, key)[0]
    assert (made.letter, made.replaces, made.date, made.mark) == ("A", "", "2026-03-31", "Mark 7")
    assert (made.code, made.job_key) == (job(book, key).code, key)
    assert (made.base_text, made.version, made.draft) == ("text of the base", "0.1.0", "draft")
    assert (made.stock, made.files) == ('{"stock_mm": 3600}', '{"a.pdf": "sum"}')


def test_a_revision_is_in_the_unit_that_its_job_was_made_in(book):
    """From its draft as it stood then: what is chosen later changes the next one alone."""
    key = new_job(book, '{"length_unit": "in"}').key
    assert stamp_of(due(book, key), "2026-03-31").lengths == "in"
    issue(book, key, "{}", "", "{}", "", "{}", '{"length_unit": "in"}', "2026-03-31")
    save_draft(book, key, '{"length_unit": "cm"}', "", 1)
    assert stamp_of(revision(book, key, "A"), "2026-03-31").lengths == "in"
    assert due(book, key).lengths == "cm"


@pytest.mark.parametrize("draft", ["", "draft", "{}", "[]", '{"length_unit": "ell"}'])
def test_a_job_that_says_no_unit_is_in_mm(book, draft):
    assert due(book, new_job(book, draft).key).lengths == "mm"


def test_letters_follow_each_other_and_each_replaces_the_one_before(book, key):
    made = [issued(book, key) for _ in range(3)]
    assert [(one.letter, one.replaces) for one in made] == [("A", ""), ("B", "A"), ("C", "B")]
    assert [_letter(number) for number in (25, 26, 27, 52, 701, 702)] == [
        "Z", "AA", "AB", "BA", "ZZ", "AAA"]
    with pytest.raises(NotInBook, match="D"):
        revision(book, key, "D")


@pytest.mark.parametrize("column", ["request", "base_text", "limits", "version", "answer", "draft",
                                    "date", "letter", "code", "mark", "stock", "files", "job"])
def test_no_hand_changes_what_was_issued(book, key, column):
    issued(book, key)
    before = revisions(book, key)
    with pytest.raises(sqlite3.IntegrityError, match="never changed"), book.writing() as db:
        db.execute(f"UPDATE revisions SET {column} = 1")
    with pytest.raises(sqlite3.IntegrityError, match="never deleted"), book.writing() as db:
        db.execute("DELETE FROM revisions")
    assert revisions(book, key) == before


def test_a_later_name_is_not_on_what_was_issued(book, key):
    issued(book, key)
    rename(book, key, "another")
    assert revision(book, key, "A").mark == "Mark 7"
    assert due(book, key).mark == "another"


@pytest.mark.parametrize(("before", "after"), [("asked", "issued"), ("fitted", "issued"),
                                               ("built", "built"), ("launched", "launched")])
def test_issuing_takes_a_job_on_and_never_back(book, key, before, after):
    set_state(book, key, before)
    issued(book, key)
    assert job(book, key).state == after


@pytest.mark.parametrize("meanwhile", [
    lambda book, key: issued(book, key), lambda book, key: rename(book, key, "another")])
def test_sheets_with_a_stamp_that_is_due_no_more_are_not_issued(book, key, meanwhile):
    stamped = due(book, key)
    meanwhile(book, key)
    before = revisions(book, key)
    with pytest.raises(BadInput, match="make them again"):
        issued(book, key, stamped=stamped)
    assert revisions(book, key) == before


def test_a_package_made_elsewhere_is_frozen_with_the_sum_of_each_file(book, key):
    files = {"a.pdf": b"abc", "everything.json": b'{"solve_ms": 2.5}'}
    made = freeze(book, key, due(book, key), {"base": "day-boat", "use": "coastal-day"}, "text",
                  "draft", "2026-03-31", files,
                  Shop(sheet_m=(1.525, 1.22), stock_lengths_m=(2.4,), cloth_widths_m=(1.7,)))
    # SHA-256 of "abc": FIPS 180-2, appendix B.1
    assert json.loads(made.files)["a.pdf"] == (
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")
    held = json.loads(made.stock)
    assert (held["stock_lengths_mm"], held["cloth_widths_mm"], held["sheet_mm"]) == (
        [2400], [1700], [1525, 1220])
    assert json.loads(made.limits)["least_freeboard_mm"] == 110  # of coastal-day, in fit/uses.py
    assert json.loads(made.answer) == {"solve_ms": 2.5}


def test_a_damaged_frozen_base_is_told_when_it_is_printed(book, key):
    files = {"everything.json": b'{"solve_ms": 2.5}'}
    made = freeze(book, key, due(book, key), {
        "base": "day-boat", "use": "coastal-day",
        "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}},
        "no design", "draft", "2026-03-31", files)
    with pytest.raises(BadInput, match="day-boat"):
        print_again(made)


def test_changes_name_the_place_and_both_values():
    was = {"size": {"length_mm": 1.0, "beam_mm": 2.0}, "checks": [{"v": 1}, {"v": 2}],
           "gone": None, "left": 3}
    now = {"size": {"length_mm": 1.5, "beam_mm": 2.0}, "checks": [{"v": 1}, {"v": 3}, {"v": 4}],
           "new": 5}
    assert changes(was, now) == (
        Change("size.length_mm", 1.0, 1.5), Change("checks.1.v", 2, 3),
        Change("checks.2", None, {"v": 4}), Change("left", 3, None), Change("new", None, 5))
    assert changes(was, was) == ()
    assert changes([1], {"a": 1}, "at") == (Change("at", [1], {"a": 1}),)
