"""The line that every file says of itself, and the stamp of a boat that does not pass."""

import datetime
from dataclasses import replace

import pytest

from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.stamp import NO_JOB, Stamp, failed_words, no_job

STAMP = Stamp("AB-1234", "blue paddle", "B", "2026-11-28", "A")
PADDLER = {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}
LARGE = {"weight_kg": 143.7, "stature_mm": 1913, "hip_width_mm": 523}


def job_of(base, lines, paddler=PADDLER):
    return run(read_request({"base": base, "use": "coastal-day", "paddler": paddler}), lines)


@pytest.fixture(scope="module")
def passing(base_lines):
    return job_of("day-boat", base_lines["day-boat"])


@pytest.fixture(scope="module")
def bench(passing):
    return bench_of(passing)


@pytest.fixture(scope="module")
def failing(base_lines):
    return job_of("small-cruiser", base_lines["small-cruiser"], LARGE)


def test_the_line_names_job_mark_revision_day_and_boat_in_one(passing):
    boat = passing.fitted.assessed.boat
    assert passing.stamped(STAMP).imprint.line == (
        "AB-1234 · blue paddle · REV B: replaces A · 2026-11-28 · "
        f"day-boat {boat.length_m:.2f} m x {boat.beam_m:.2f} m")
    first = replace(STAMP, mark="", revision="A", replaces="")
    assert first.words == "AB-1234 · REV A · 2026-11-28"


def test_without_a_job_it_says_so_and_the_day(passing):
    today = datetime.date.today()
    assert no_job() == Stamp(NO_JOB, "", "", today.isoformat(), "")
    assert passing.imprint.line.startswith("no job · 20")
    assert no_job().named("frames/F1.dxf") == "frames/F1.dxf"


def test_a_base_from_a_file_is_told_by_its_own_name_never_by_its_path(passing):
    trip = replace(passing.request.trip, base="/somewhere/else/hips-385.toml")
    words = replace(passing, request=replace(passing.request, trip=trip)).imprint.boat
    assert words.startswith(f"{passing.fitted.assessed.boat.design.name} ")


@pytest.mark.parametrize(("code", "revision", "lead"), [
    ("AB-1234", "B", "AB-1234-rev-B-"), ("AB 12/../34", "", "AB-12-34-"),
    ("no job", "B", ""), ("Ä", "", "")])
def test_names_of_files_and_folders_begin_with_code_and_revision_alone(code, revision, lead):
    stamp = Stamp(code, "hips 385", revision, "2026-11-28", "")
    assert stamp.named("frames/F1.dxf") == f"{lead}frames/{lead}F1.dxf"


def test_whatever_is_typed_stays_on_one_line(passing):
    mark = "one\n# unit: two\x00three\u2028four"
    assert replace(STAMP, mark=mark, revision="").words == (
        "AB-1234 · one # unit: two three four · 2026-11-28")


def test_a_boat_that_passes_has_no_refusal(passing, bench):
    assert passing.fitted.status != "fail"
    assert passing.stamped(STAMP, bench).imprint.refusal == ""


def test_a_boat_that_does_not_pass_names_its_first_failed_check_without_figures(failing):
    failed = [check for check in failing.fitted.checks if check.status == "fail"]
    words = failing.imprint.refusal
    assert words.startswith(f"DOES NOT PASS: {failed[0].name}, too ")
    assert words.endswith(f"(and {len(failed) - 1} more)")
    assert not any(letter.isdigit() for letter in words.split("(")[0])


def test_a_failure_is_told_by_its_side_and_a_question_by_its_answer(failing):
    low, high = (replace(failing.fitted.checks[0], value_si=value,
                         window_si=(0.0, 0.0, 1.0, 1.0)) for value in (-1.0, 2.0))
    assert failed_words(low) == f"{low.name}, too little"
    assert failed_words(high) == f"{high.name}, too much"
    assert failed_words(replace(low, row=replace(low.row, unit="of 1"))) == f"{low.name}: no"


def test_what_fails_on_the_bench_alone_is_a_refusal_too(passing, bench):
    check = replace(bench.checks[0], value=-9e9, sense="at least", hard=True)
    told = passing.stamped(STAMP, replace(bench, checks=(check,))).imprint.refusal
    assert told == f"DOES NOT PASS: {check.frame}, {check.place}: {check.name}"


def test_a_status_of_failing_is_never_without_a_refusal(passing):
    told = replace(passing, fitted=replace(passing.fitted, status="fail")).imprint.refusal
    assert told.startswith("DOES NOT PASS: ")


def test_answers_tell_whose_they_are_by_the_keys_that_readers_know():
    assert replace(STAMP, lengths="in").told == {
        "code": STAMP.code, "mark": STAMP.mark, "revision": STAMP.revision, "date": STAMP.date,
        "replaces": STAMP.replaces}
