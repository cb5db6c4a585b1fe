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


OFTEN = ("day-boat", "load-carrier", "long-tourer", "steady-boat")  # bases that are ever offered
EVERY_BASE = asked("small-cruiser", 150, 1780, 520)  # is tried for these, OFTEN for the others
WRONG = (
    EVERY_BASE,
    asked("day-boat", 82, 1780, 385, fixed={"beam_mm": 600}),
    asked("day-boat", 82, 1780, 385, fixed={"beam_mm": 590, "depth_mm": 240}),
    asked("day-boat", 86, 1780, 400, gear_kg=120),
    asked("small-cruiser", 60, 1700, 375, gear_kg=90),
    asked("steady-boat", 74, 1715, 392),
    asked("surf-runner", 160, 1900, 430, gear_kg=100),
    asked("day-boat", 108, 1820, 420),
    asked("small-cruiser", 110, 1820, 420))


def by_hand(given, remedy, base_lines):
    """(Request, Lines), changed as the words say."""
    given, lines = dict(given), base_lines[given["base"]]
    if remedy.kind == "gear":
        given["gear_kg"] = float(re.search(r"\(then (\d+) kg\)", remedy.words)[1])
    elif remedy.words == "let go of every held size":
        given.pop("fixed")
    elif remedy.kind == "hold":
        name = remedy.words.removeprefix("let go of the held ")
        given["fixed"] = {key: size for key, size in given["fixed"].items()
                          if key != f"{name}_mm"}
    elif remedy.kind == "base":
        name = remedy.words.removeprefix("take ")
        given["base"], lines = next((key, one) for key, one in base_lines.items()
                                    if one.design.name == name)
        given.pop("fixed", None)
    elif remedy.kind == "sticks":
        lines = fair_lines(with_sticks(lines.design, remedy.words))
    else:
        limits = lines.design.limits
        for side, mm in re.findall(r"its (\w+) to (\d+) mm", remedy.words):
            name = f"cockpit_{side}_m"
            low, _ = getattr(limits, name)
            limits = replace(limits, **{name: (low, float(mm) / 1000.0)})
        lines = fair_lines(replace(lines.design, limits=limits))
    return read_request(given), lines


def with_sticks(design, words):
    """A BaseDesign with the sticks as deep and the seat's plates as thick as the words say."""
    deep = {name: float(mm) / 1000.0
            for name, mm in re.findall(r"the ([a-z ]+) (\d+) mm \([^)]*\) deep", words)}
    thick = re.search(r"the seat's plates (\d+) mm \([^)]*\) thick", words)
    assert deep or thick
    seat = replace(design.seat, thickness_m=float(thick[1]) / 1000.0) if thick else design.seat
    return replace(design, seat=seat, stringers=tuple(
        replace(one, depth_m=deep.get(one.name, one.depth_m)) for one in design.stringers))


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


@pytest.fixture(scope="module")
def followed_once():
    """Pairs of a remedy's kind and status that were followed."""
    return set()


def offered_for(given, base_lines):
    request, lines = read_request(given), base_lines[given["base"]]
    try:
        fitted = run(request, lines).fitted
    except SizerError:
        fitted = None
    others = {key: base_lines[key] for key in (base_lines if given == EVERY_BASE else OFTEN)
              if key != given["base"]}
    return fitted, remedies(request, lines, fitted, others)


@pytest.mark.parametrize("given", WRONG, ids=lambda given: f"{given['base']}-{given['paddler']}")
def test_every_remedy_gives_what_it_promises(given, offered, base_lines, followed_once):
    """The words name the very request and base that was tried; what became of it is worked out
    anew for one of each kind and status."""
    fitted, found = offered(given)
    assert fitted is None or fitted.status != "pass"
    assert found
    for remedy in found:
        request, lines = by_hand(given, remedy, base_lines)
        assert request == remedy.request
        assert repr(lines.design) == repr(remedy.lines.design)
        if (remedy.kind, remedy.status) in followed_once:
            continue
        followed_once.add((remedy.kind, remedy.status))
        followed = run(request, lines).fitted
        assert followed.status == remedy.status, remedy.sentence
        assert remedy.left == tuple(check.name for check in followed.checks if
                                    remedy.status != "pass" and check.status == remedy.status)


def test_a_boat_that_passes_needs_no_remedy(offered):
    fitted, found = offered(asked("day-boat", 82, 1780, 385))
    assert fitted.status == "pass"
    assert found == ()


def test_another_base_is_not_offered_where_none_helps(base_lines):
    """The only other base fails too: its opening is as narrow."""
    given = asked("small-cruiser", 76, 1780, 540)
    request, lines = read_request(given), base_lines["small-cruiser"]
    found = remedies(request, lines, run(request, lines).fitted,
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


@pytest.mark.parametrize(("base", "weight"), [("day-boat", 108), ("small-cruiser", 110)])
def test_sticks_under_the_seat_are_no_deeper_than_it_takes(base, weight, offered, base_lines):
    """Each millimetre less of any of them, and the boat no longer passes."""
    given = asked(base, weight, 1820, 420)
    _, found = offered(given)
    sticks, = [one for one in found if one.kind == "sticks"]
    assert sticks.status == "pass"
    design, deeper = base_lines[base].design, sticks.lines.design
    changed = [one.name for one in deeper.stringers
               if one.depth_m != design.stringer(one.name).depth_m]
    assert set(changed) <= set(design.seat.stands_on)
    for name in changed:
        less = replace(deeper, stringers=tuple(
            replace(one, depth_m=one.depth_m - 0.001) if one.name == name else one
            for one in deeper.stringers))
        fitted = run(read_request(given), fair_lines(less)).fitted
        assert fitted.check("seat-bears").status == "caution"
        assert fitted.status == "caution"


def test_an_inch_told_is_no_less_than_its_millimetres(offered):
    _, found = offered(asked("small-cruiser", 110, 1820, 420))
    sticks, = [one for one in found if one.kind == "sticks"]
    told = re.findall(r"(\d+) mm \((?:(\d+) )?(\d+)/(\d+) in\) (?:deep|thick)",
                      sticks.words)
    assert told
    for mm, whole, part, of in told:
        inches = int(whole or 0) + int(part) / int(of)
        assert 0.0 <= inches * 25.4 - float(mm) < 25.4 / 16.0


def test_slats_too_thin_are_told_thicker(base_lines):
    design = base_lines["steady-boat"].design
    thin = replace(design, seat=replace(design.seat, thickness_m=0.010))
    lines = fair_lines(thin)
    request = read_request(asked("steady-boat", 92, 1800, 410, use="sheltered-day"))
    fitted = run(request, lines).fitted
    assert fitted.check("seat-bears").too == "small"
    found = remedies(request, lines, fitted, {})
    sticks, = [one for one in found if one.kind == "sticks"]
    mm = float(re.search(r"the seat's slats (\d+) mm", sticks.words)[1])
    thick = fair_lines(replace(thin, seat=replace(thin.seat, thickness_m=mm / 1000.0)))
    followed = run(request, thick).fitted
    assert followed.check("seat-bears").status == "pass"
    assert followed.status == sticks.status


def test_every_held_size_is_let_go_of_where_no_single_one_mends_it(offered):
    """The same paddler's boat passes where nothing is held."""
    held = {"length_mm": 5100.0, "beam_mm": 690.0, "depth_mm": 285.0}
    given = asked("day-boat", 52, 1580, 350, fixed=held)
    _, free = offered(asked("day-boat", 52, 1580, 350))
    assert free == ()
    _, found = offered(given)
    alone = [one for one in found if one.words.startswith("let go of the held")]
    assert all(one.status != "pass" for one in alone)
    assert ("let go of every held size", "pass") in [(one.words, one.status) for one in found]
