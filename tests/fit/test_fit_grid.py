"""The fit over a grid of people, uses and bases.

People: 5th, 50th and 95th percentile women and men of ANSUR II (Gordon et al. 2014: weight,
stature, sitting hip breadth, each its own percentile) and odd builds between those bounds.
"""

import json
from collections import defaultdict

import pytest

from sizer.design.library import shipped_names
from sizer.export.answer import full_answer, job_answer
from sizer.export.numbers import json_text
from sizer.fit.request import read_request
from sizer.fit.solve import only_fitted
from sizer.fit.study import study
from sizer.fit.uses import USES
from sizer.job import run, searched_for

PEOPLE = {
    "small woman": (51.3, 1525, 348), "middle woman": (66.8, 1626, 397),
    "large woman": (87.1, 1740, 456), "small man": (64.4, 1648, 333),
    "middle man": (84.6, 1755, 378), "large man": (110.7, 1870, 431),
    "light and tall": (60.0, 1840, 345), "heavy and short": (98.0, 1560, 450),
    "slight": (51.3, 1640, 333), "broad hips": (80.0, 1600, 456),
}


def request_of(base, use, person, **more):
    weight, stature, hips = person
    return {"base": base, "use": use, **more, "paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}}


@pytest.fixture(scope="module")
def jobs(base_lines):
    """{(base, use, person): the job}: every base with every use, and every person in three bases
    or more, for three uses or more."""
    grid = {(base, use, list(PEOPLE)[(3 * at + of) % len(PEOPLE)])
            for at, base in enumerate(shipped_names()) for of, use in enumerate(USES)}
    for name in PEOPLE:
        for part in (0, 1):
            assert len({key[part] for key in grid if key[2] == name}) >= 3, name
    return {(base, use, name): run(read_request(request_of(base, use, PEOPLE[name])),
                                   base_lines[base]) for base, use, name in sorted(grid)}


@pytest.fixture(scope="module")
def answers(jobs):
    """{(base, use, person): its answer as JSON text}."""
    return {key: json_text(job_answer(job)) for key, job in jobs.items()}


def refuse_constant(text):
    raise AssertionError(f"{text} in JSON")


def test_every_answer_is_valid_json_with_finite_numbers(answers):
    for text in answers.values():
        assert json.loads(text, parse_constant=refuse_constant)["status"] in (
            "pass", "caution", "fail")


def test_buoyancy_carries_the_load(answers):
    for key, text in answers.items():
        answer = json.loads(text)
        total = answer["load"]["total_kg"]
        assert answer["flotation"]["displacement_kg"] == pytest.approx(total, rel=5e-4), key
        parts = sum(answer["load"][part] for part in ("paddler_kg", "gear_kg", "boat_kg"))
        assert parts == pytest.approx(total, abs=1e-3), key
        assert sum(part["mass_kg"] for part in answer["boat_parts"]) == pytest.approx(
            answer["load"]["boat_kg"], abs=0.01), key


def test_every_dimension_is_inside_the_limits(answers, base_lines):
    for (base, use, person), text in answers.items():
        answer, limits = json.loads(text), base_lines[base].design.limits
        for name, (low, high) in (("length", limits.length), ("beam", limits.beam),
                                  ("depth", limits.depth), ("deck_crown", limits.crown)):
            assert low - 1e-4 <= answer["factors"][name] <= high + 1e-4, (base, use, person, name)
        for name in ("cockpit_length", "cockpit_width"):
            low, high = getattr(limits, f"{name}_m")
            assert low * 1000 - 0.1 <= answer["size"][f"{name}_mm"] <= high * 1000 + 0.1


def status_by_hand(check):
    """From a value and its window in the JSON."""
    value = check["value"]
    low, from_, to, high = (check[side] for side in (
        "fails_below", "wanted_from", "wanted_to", "fails_above"))
    if (low is not None and value < low) or (high is not None and value > high):
        return "fail"
    if (from_ is not None and value < from_) or (to is not None and value > to):
        return "caution"
    return "pass"


def test_statuses_agree_with_values_and_windows(answers):
    for key, text in answers.items():
        answer = json.loads(text)
        for check in answer["checks"]:
            assert check["status"] == status_by_hand(check), (key, check["key"])
            assert (check["remedy"] is None) == (check["status"] == "pass"), (key, check["key"])
            if check["limit"] is not None:
                inside = check["value"] - check["limit"]
                margin = inside if check["sense"] == "at least" else -inside
                assert check["margin"] == pytest.approx(margin, abs=2e-4), (key, check["key"])
                assert (margin < 0.0) == (check["status"] != "pass"), (key, check["key"])
        worst = {check["status"] for check in answer["checks"]}
        expected = next(one for one in ("fail", "caution", "pass") if one in worst)
        assert answer["status"] == expected, key


def serves(lines, raw):
    """Whether a base serves somebody; what fails before it is sawn is not sawn."""
    request = read_request(raw)
    afloat = only_fitted(searched_for([request], lines), explained=False)
    return afloat.status != "fail" and run(request, lines).fitted.status != "fail"


def test_nearly_everybody_is_served_for_each_use(answers, base_lines):
    served = defaultdict(set)
    for (_, use, person), text in answers.items():
        if json.loads(text)["status"] != "fail":
            served[use].add(person)
    for use in USES:
        for person in set(PEOPLE) - served[use]:  # some base beyond those of the grid may serve
            if any(serves(base_lines[base], request_of(base, use, PEOPLE[person]))
                   for base in shipped_names() if (base, use, person) not in answers):
                served[use].add(person)
        assert len(served[use]) >= 0.95 * len(PEOPLE), (use, set(PEOPLE) - served[use])


def test_the_unserved_are_told_what_could_not_be_met(answers):
    failing = [json.loads(text) for text in answers.values()]
    failing = [answer for answer in failing if answer["status"] == "fail"]
    for answer in failing:
        for check in answer["checks"]:
            if check["status"] == "fail":
                assert any(check["name"] in caution and check["remedy"] in caution
                           for caution in answer["cautions"])


def test_cautions_and_stations_travel_with_every_answer(answers):
    for text in answers.values():
        answer = json.loads(text)
        assert any("PFD" in caution for caution in answer["cautions"])
        assert any("float bags" in caution for caution in answer["cautions"])
        marks = [station["strongback_mm"] for station in answer["stations"]]
        assert marks == sorted(marks)
        assert set(answer["set_by"]) == {"length_mm", "beam_mm", "depth_mm", "deck_crown",
                                         "cockpit_length_mm", "cockpit_width_mm",
                                         "seat_shift_mm"}


@pytest.mark.parametrize("base", shipped_names())
def test_what_the_water_does_is_finite_too(base, jobs):
    job, = (job for (own, use, _), job in jobs.items() if (own, use) == (base, "camp-touring"))
    more = study(job.fitted.assessed, job.mishaps.rigid)
    answer = full_answer(job, more)
    again = json.loads(json_text(answer), parse_constant=refuse_constant)
    assert len(again["stability"]["paddler_rigid"]["gz_mm"]) == 37
    assert len(again["sensitivity"]) == 5
    paddled = again["wind"]["under_way"]
    for name, ways in more.under_way.items():
        for row, one in zip(paddled[name], ways, strict=True):
            assert row["says"] == one.says
            assert row["lead_percent_of_waterline"] == pytest.approx(
                (row["water_x_mm"] - row["wind_x_mm"])
                / again["flotation"]["waterline_length_mm"] * 100.0, abs=0.05)
            assert row["skeg_low_m2"] <= row["skeg_m2"] <= row["skeg_high_m2"] < 0.1
    for row in again["drag"]["curve"]:
        assert row["total_n"] == pytest.approx(row["friction_n"] + row["wave_n"], abs=3e-4)
    kept = again["flooded"]["float_bags"]["with_bags"]["rim_clearance_mm"]
    assert kept >= again["flooded"]["float_bags"]["margin_mm"] - 1e-6
