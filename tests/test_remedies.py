"""Every remedy is followed by hand, from its words alone, and gives what it promises."""

import json
import re
from dataclasses import replace

import pytest

from sizer.errors import SizerError
from sizer.fit.request import read_request
from sizer.hull.lines import fair_lines
from sizer.job import run
from sizer.remedies import remedies


def asked(base, weight, stature, hips, **more):
    return {"base": base, "use": "coastal-day", "paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}} | more


WRONG = (
    asked("small-cruiser", 150, 1780, 520),
    asked("surf-runner", 150, 1780, 520),
    asked("surf-runner", 150, 1950, 560),
    asked("day-boat", 82, 1780, 385, fixed={"beam_mm": 600}),
    asked("day-boat", 82, 1780, 385, fixed={"beam_mm": 590, "depth_mm": 240}),
    asked("day-boat", 86, 1780, 400, gear_kg=120),
    asked("small-cruiser", 60, 1700, 375, gear_kg=90),
    asked("steady-boat", 74, 1715, 392),
    asked("surf-runner", 160, 1900, 430, gear_kg=100),
    asked("long-tourer", 84, 1850, 400, gear_kg=150))


def by_hand(given, remedy, base_lines):
    """The job of a request changed as the words say."""
    given, lines = dict(given), base_lines[given["base"]]
    if remedy.kind == "gear":
        given["gear_kg"] = float(re.search(r"\(then (\d+) kg\)", remedy.words)[1])
    elif remedy.kind == "hold":
        name = remedy.words.removeprefix("let go of the held ")
        given["fixed"] = {key: size for key, size in given["fixed"].items()
                          if key != f"{name}_mm"}
    elif remedy.kind == "base":
        name = remedy.words.removeprefix("take ")
        given["base"], lines = next((key, one) for key, one in base_lines.items()
                                    if one.design.name == name)
        given.pop("fixed", None)
    else:
        limits = lines.design.limits
        for side, mm in re.findall(r"its (\w+) to (\d+) mm", remedy.words):
            name = f"cockpit_{side}_m"
            low, _ = getattr(limits, name)
            limits = replace(limits, **{name: (low, float(mm) / 1000.0)})
        lines = fair_lines(replace(lines.design, limits=limits))
    return run(read_request(given), lines).fitted


@pytest.fixture(scope="module")
def offered(base_lines):
    """By `offered(given)`, (Fitted or None, remedies) of a request: worked out once."""
    kept = {}

    def asked_once(given):
        key = json.dumps(given)
        if key not in kept:
            kept[key] = offered_for(given, base_lines)
        return kept[key]

    return asked_once


def offered_for(given, base_lines):
    request, lines = read_request(given), base_lines[given["base"]]
    try:
        fitted = run(request, lines).fitted
    except SizerError:
        fitted = None
    others = {key: one for key, one in base_lines.items() if key != given["base"]}
    return fitted, remedies(request, lines, fitted, others)


@pytest.mark.parametrize("given", WRONG, ids=lambda given: f"{given['base']}-{given['paddler']}")
def test_every_remedy_gives_what_it_promises(given, offered, base_lines):
    fitted, found = offered(given)
    assert fitted is None or fitted.status != "pass"
    assert found
    for remedy in found:
        followed = by_hand(given, remedy, base_lines)
        assert followed.status == remedy.status, remedy.sentence
        assert remedy.left == tuple(check.name for check in followed.checks if
                                    remedy.status != "pass" and check.status == remedy.status)


def test_a_boat_that_passes_needs_no_remedy(offered):
    fitted, found = offered(asked("day-boat", 82, 1780, 385))
    assert fitted.status == "pass"
    assert found == ()


def test_another_base_is_not_offered_where_none_helps(offered, base_lines):
    """The only other base fails too: its opening is as narrow."""
    given = asked("small-cruiser", 76, 1780, 540)
    request, lines = read_request(given), base_lines["small-cruiser"]
    found = remedies(request, lines, offered(given)[0],
                     {"surf-runner": base_lines["surf-runner"]})
    assert found
    assert {one.kind for one in found} == {"opening"}
    assert run(read_request(given | {"base": "surf-runner"}),
               base_lines["surf-runner"]).fitted.status == "fail"


def test_less_gear_is_no_less_than_it_takes(offered, base_lines):
    given = asked("small-cruiser", 60, 1700, 375, gear_kg=90)
    _, found = offered(given)
    gear, = [one for one in found if one.kind == "gear"]
    more = given | {"gear_kg": gear.request.trip.gear_kg + 1.0}
    assert run(read_request(more), base_lines["small-cruiser"]).fitted.status != gear.status
