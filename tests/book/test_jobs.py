"""Jobs and drafts: made, found, changed by two, never overwritten unseen."""

import re
from dataclasses import replace

import pytest

from sizer.book.book import Book
from sizer.book.drafts import draft, draft_version, save_draft
from sizer.book.jobs import (
    Summary,
    copy_job,
    job,
    job_by_code,
    jobs,
    new_job,
    put_away,
    rename,
    set_state,
)
from sizer.book.opening import open_book
from sizer.book.refusals import BookRefused, Changed, NotInBook
from sizer.book.settings import set_setting, setting
from sizer.errors import BadInput

BOAT = Summary("day-boat", "4.52 m × 0.56 m", "pass")


@pytest.fixture(params=["in a file", "in memory"])
def any_book(request, path):
    opened = open_book(path) if request.param == "in a file" else Book.in_memory()
    yield opened
    opened.close()


def test_a_new_job_is_there_as_it_was_made(any_book):
    made = new_job(any_book, '{"a": 1}', "Mark 7", BOAT, "[]", notes="red")
    assert job(any_book, made.key) == job_by_code(any_book, made.code.lower()) == made
    assert (made.mark, made.notes, made.state, made.base) == ("Mark 7", "red", "asked", "day-boat")
    kept = draft(any_book, made.key)
    assert (kept.draft_json, kept.history_json, kept.version) == ('{"a": 1}', "[]", 1)


def test_it_is_there_after_closing_and_opening(path):
    book = open_book(path)
    made = new_job(book, "{}", "Mark 7")
    save_draft(book, made.key, '{"b": 2}', "[1]", 1)
    book.close()
    again = open_book(path)
    assert jobs(again)[0].key == made.key
    assert draft(again, made.key).draft_json == '{"b": 2}'
    again.close()


def test_keys_are_long_and_codes_have_no_look_alikes(any_book):
    made = [new_job(any_book, "{}") for _ in range(200)]
    assert all(len(one.key) >= 22 for one in made)  # 128 bits as base 64
    assert len({one.key for one in made}) == len({one.code for one in made}) == 200
    assert all(re.fullmatch(r"[^\WBGIOQSZ\d_a-z]{2}[2-9]{4}", one.code) for one in made)


def test_a_code_that_is_taken_is_drawn_again(any_book, monkeypatch):
    codes = iter(["AA2222", "AA2222", "AA2222", "CC3333"])
    monkeypatch.setattr("sizer.book.jobs._drawn_code", lambda: next(codes))
    assert [new_job(any_book, "{}").code for _ in range(2)] == ["AA2222", "CC3333"]


@pytest.mark.parametrize(("find", "found"), [
    ("", "bao"), ("öst", "o"), ("ÖSTEN", "o"), ("4.5", "ba"), ("4.52 day-boat", "a"),
    ("built", "b"), ("caution", "b"), ("nowhere", ""), ("%", ""), ("_", ""), ("'", "")])
def test_jobs_are_found_by_every_word_the_last_touched_first(any_book, find, found):
    made = {"o": new_job(any_book, "{}", "östen", replace(BOAT, size="5.1 m", status="")),
            "a": new_job(any_book, "{}", "berg", BOAT),
            "b": new_job(any_book, "{}", "berg", Summary("steady-boat", "4.51 m", "caution"))}
    put_away(any_book, new_job(any_book, "{}", "östen 4.52 built caution").key)
    set_state(any_book, made["b"].key, "built")
    assert [one.key for one in jobs(any_book, find)] == [made[letter].key for letter in found]


def test_a_code_finds_its_job_and_no_more_are_given_than_asked_for(any_book):
    made = [new_job(any_book, "{}") for _ in range(5)]
    assert jobs(any_book, made[2].code.lower()) == (made[2],)
    assert len(jobs(any_book, most=3)) == 3


def test_putting_away_and_bringing_back(any_book):
    made = new_job(any_book, "{}")
    assert put_away(any_book, made.key).put_away
    assert (jobs(any_book), len(jobs(any_book, put_away=True))) == ((), 1)
    assert not put_away(any_book, made.key, False).put_away
    assert len(jobs(any_book)) == 1


def test_a_second_writer_overwrites_nothing_and_is_told_what_stands(any_book):
    made = new_job(any_book, "{}")
    assert save_draft(any_book, made.key, "first", "[]", 1, by="screen 1") == 2
    with pytest.raises(Changed) as told:
        save_draft(any_book, made.key, "second", "[]", 1, by="screen 2")
    assert told.value.present == draft(any_book, made.key)
    assert told.value.present.draft_json == "first"
    assert "by screen 1" in str(told.value)
    assert save_draft(any_book, made.key, "second", "[]", 2) == 3
    assert draft_version(any_book, made.key) == 3


def test_a_sister_boat_takes_the_draft_and_goes_its_own_way(any_book):
    one = new_job(any_book, "held", "first", BOAT, "past")
    set_state(any_book, one.key, "built")
    other = copy_job(any_book, one.key)
    assert (other.mark, other.state, other.copied_from) == ("first", "fitted", one.key)
    assert other.size == BOAT.size
    save_draft(any_book, other.key, "changed", "", 1)
    rename(any_book, other.key, "second")
    assert draft(any_book, one.key).draft_json == "held"
    assert [job(any_book, each.key).mark for each in (one, other)] == ["first", "second"]


def test_a_name_is_changed_and_its_notes_stay(any_book):
    made = new_job(any_book, "{}", "before", notes="red")
    after = rename(any_book, made.key, "after")
    assert (after.mark, after.notes) == ("after", "red")


@pytest.mark.parametrize("deed", [
    lambda book: job(book, "nobody"), lambda book: draft(book, "nobody"),
    lambda book: save_draft(book, "nobody", "", "", 1), lambda book: put_away(book, "nobody"),
    lambda book: copy_job(book, "nobody"), lambda book: job_by_code(book, "ZZ0000"),
    lambda book: rename(book, "nobody", "x")])
def test_a_job_that_is_not_there_is_told(any_book, deed):
    with pytest.raises(NotInBook, match=r"nobody|ZZ0000"):
        deed(any_book)


def test_an_unknown_state_is_refused_with_those_there_are(any_book):
    made = new_job(any_book, "{}")
    with pytest.raises(BadInput, match="dry fit, built"):
        set_state(any_book, made.key, "sunk")
    assert job(any_book, made.key) == made


def test_a_setting_stays_as_set(any_book):
    assert setting(any_book, "shop", "none yet") == "none yet"
    for name in ("One", "Two"):
        set_setting(any_book, "shop", name)
    assert setting(any_book, "shop") == "Two"


def test_a_mark_is_one_line_that_a_sheet_can_bear(any_book):
    made = new_job(any_book, "{}", f" {'x' * 60} ")
    assert made.mark == "x" * 60
    with pytest.raises(BadInput, match="at most 60 letters"):
        rename(any_book, made.key, "x" * 61)
    with pytest.raises(BadInput, match="at most 60 letters"):
        new_job(any_book, "{}", "x" * 61)
    assert jobs(any_book) == (made,)
    assert rename(any_book, made.key, "two\nlines,\u00a0a bell \a").mark == "two lines, a bell"


def test_half_a_letter_is_refused_and_the_book_goes_on(any_book):
    made = new_job(any_book, "kept")
    with pytest.raises(BadInput, match="type it again"):
        save_draft(any_book, made.key, "half \udc80", "", 1)
    with pytest.raises(BadInput, match="type it again"):
        jobs(any_book, "half \udc80")
    assert draft(any_book, made.key).draft_json == "kept"
    assert save_draft(any_book, made.key, "then", "", 1) == 2


def test_a_job_whose_draft_is_gone_from_the_file_is_damage_told_in_a_sentence(book):
    """As one changed byte of a file left it, among twenty thousand."""
    made = new_job(book, "{}", "Mark 8", BOAT, "[]")
    with book.writing() as db:
        db.execute("DELETE FROM drafts")
    for work in (draft, draft_version):
        with pytest.raises(BookRefused, match="damaged"):
            work(book, made.key)
