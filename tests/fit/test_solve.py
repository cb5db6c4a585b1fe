"""The fit's promises: the base given back, both sides, held sizes, honest failures, no chance."""

from dataclasses import replace
from itertools import cycle, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize
from scipy.special import ndtri

from sizer.design.library import shipped_names
from sizer.errors import BadInput, WillNotFloat
from sizer.export.answer import job_answer
from sizer.export.numbers import json_text
from sizer.fit.assess import assess, assess_many
from sizer.fit.check import CLEAN_ODDS, overall
from sizer.fit.checks import TOGETHER, checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts
from sizer.fit.odds import odds_all_hard
from sizer.fit.person import drawn_person, legs_stretch, person, person_of
from sizer.fit.request import read_request
from sizer.fit.search import SOUGHT_ODDS, merit, terms_at
from sizer.fit.solve import fit, fit_many, searched
from sizer.fit.sought import FACTORS, Wishes
from sizer.fit.uses import USES
from sizer.hull.boat import SECTION_COUNT, scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.water import water_at
from sizer.job import _freely, run
from sizer.paddler.measures import Measured
from sizer.rows import side_by_side

pytestmark = pytest.mark.usefixtures("unsawn")
BASES = shipped_names()
SIZES = ("length_m", "beam_m", "depth_m")


def request_for(base="day-boat", use="coastal-day", weight=82.0, stature=1780.0, hips=385.0,
                **more):
    return read_request({"base": base, "use": use, **more, "paddler": {
        "weight_kg": weight, "stature_mm": stature, "hip_width_mm": hips}})


def fitted(base_lines, request):
    return fit(base_lines[request.trip.base], person_of(request), request.fixed, request.wishes,
               request.follow)


def someone(lines, weight, stature, hips, **more):
    """A Person for the use, gear and water that a base was drawn for, or another use or gear."""
    drawn = drawn_person(lines.design)
    return person(Measured(weight, stature, hips), more.get("use", drawn.use.key),
                  more.get("gear_kg", drawn.gear_kg), drawn.water)


def sizes_of(answer):
    return np.array([getattr(answer.assessed.boat, name) for name in SIZES])


@pytest.mark.parametrize("base", BASES)
def test_whoever_the_base_was_drawn_for_gets_it_back(base, base_lines):
    lines = base_lines[base]
    answer = fit(lines, drawn_person(lines.design))
    assert answer.status == "pass", [check.name for check in answer.checks
                                     if check.status != "pass"]
    for name in FACTORS:
        assert getattr(answer.assessed.boat.scaling, name) == pytest.approx(1.0, abs=0.005), name
    cockpit = lines.design.cockpit
    opening = answer.assessed.boat.opening
    assert opening.length_m == pytest.approx(cockpit.length_m, abs=0.001)
    assert opening.width_m == pytest.approx(cockpit.width_m, abs=0.001)


@pytest.mark.parametrize("base", BASES)
def test_lighter_people_get_smaller_boats_and_heavier_ones_larger(base, base_lines):
    """Along bodies that grow alike: stature and hips as the cube root of weight."""
    lines = base_lines[base]
    drawn = lines.design.drawn_for
    people = []
    for share in (0.80, 0.9, 1.0, 1.1, 1.2):
        grown = share ** (1.0 / 3.0)
        people.append(someone(lines, share * drawn.weight_kg, grown * drawn.stature_m,
                              grown * drawn.hip_width_m))
    found = [sizes_of(one) for one in fit_many(lines, people)]
    assert np.all(np.diff(found, axis=0) > 0.0)


@pytest.mark.parametrize("base", BASES)
def test_one_persons_boat_is_told_to_be_too_much_or_too_little_for_another(base, base_lines):
    """50 kg in the boat fitted to 110 kg, and the reverse: a failed check, several cautions, each
    with what mends it."""
    lines = base_lines[base]
    small, large = someone(lines, 50.0, 1.56, 0.355), someone(lines, 110.0, 1.86, 0.435)
    for owner, other, side in ((large, small, "loose"), (small, large, "tight")):
        boat = fit(lines, owner, explained=False).assessed.boat
        try:
            one = assess(lines, replace(boat.scaling, seat_shift_m=0.0), other, SECTION_COUNT)
        except WillNotFloat:
            assert side == "tight"
            continue
        checks = checks_of(replace(facts_of(one), mishap=mishap_facts(one)))
        short = [check for check in checks if check.status != "pass"]
        assert any(check.status == "fail" for check in short), side
        assert len(short) >= 3, (side, [check.key for check in short])
        assert all(check.remedy for check in short)
        if side == "loose":
            assert any((check.key in ("load", "freeboard") and check.too == "small")
                       or (check.key in ("hips", "freeboard") and check.too == "large")
                       for check in short)


@pytest.mark.parametrize(("base", "weight"), list(zip(BASES, cycle((55.0, 95.0)), strict=False)))
def test_a_tenth_of_a_kilogram_moves_no_size_far(base, weight, base_lines):
    lines = base_lines[base]
    stature, hips = (1.62, 0.37) if weight < 70.0 else (1.82, 0.41)
    people = [someone(lines, weight + 0.1 * step, stature, hips) for step in range(61)]
    sizes = np.array([sizes_of(one) for one in fit_many(lines, people)])
    moved = np.abs(np.diff(sizes, axis=0)).max(axis=0)
    assert moved[1] < 0.002
    assert moved.max() < 0.006  # length and depth, where legs and stiffness hold from two sides


@pytest.mark.parametrize("base", BASES)
def test_wider_hips_widen_the_opening_and_never_narrow_the_boat(base, base_lines):
    lines = base_lines[base]
    people = [someone(lines, 82.0, 1.76, hips) for hips in np.linspace(0.36, 0.48, 7)]
    boats = [one.assessed.boat for one in fit_many(lines, people)]
    opening, beam = np.array([(boat.opening.width_m, boat.beam_m) for boat in boats]).T
    assert np.all(np.diff(opening) >= 0.0)
    assert opening[-1] - opening[0] > 0.08
    assert np.all(np.diff(beam) > -0.006)  # hips too narrow for a base ask for a fuller boat


@pytest.mark.parametrize("base", BASES)
def test_a_touring_load_sinks_the_boat_and_never_makes_it_deeper(base, base_lines):
    lines = base_lines[base]
    drawn = lines.design.drawn_for
    plain = someone(lines, drawn.weight_kg, drawn.stature_m, drawn.hip_width_m,
                    use="camp-touring")
    laden = replace(plain, gear_kg=drawn.gear_kg + 25.0)
    light, heavy = (fit(lines, who, explained=False) for who in (plain, laden))
    assert heavy.assessed.particulars.freeboard_m < light.assessed.particulars.freeboard_m - 0.008
    assert heavy.assessed.boat.depth_m < light.assessed.boat.depth_m + 0.002


def test_a_steadier_boat_can_be_wished_where_the_base_is_less_steady_than_allowed(base_lines):
    """Her boat stands at the least steadiness already: livelier moves nothing, steadier does."""
    who = person(Measured(52.0, 1.580, 0.330), "sheltered-day", 5.0, water_at("fresh", 10.0))
    lively, plain, steady = (
        fit(base_lines["surf-runner"], who, wishes=Wishes(steadiness=value), explained=False)
        for value in (-1.0, 0.0, 1.0))
    gm_m = [one.assessed.day.gm_m for one in (lively, plain, steady)]
    assert gm_m[0] == pytest.approx(gm_m[1], abs=1e-6)
    assert gm_m[2] > gm_m[1] + 0.002
    assert steady.status == plain.status


def test_wishes_move_what_is_sought(base_lines):
    lines = base_lines["day-boat"]
    who = someone(lines, 82.0, 1.78, 0.385)

    def with_wish(**wish):
        return fit(lines, who, wishes=Wishes(**wish), explained=False).assessed

    for wish, read in (("steadiness", lambda one: one.day.gm_m),
                       ("length", lambda one: one.boat.length_m / one.day.volume_m3 ** (1 / 3)),
                       ("room", lambda one: one.space.thigh_height_m + one.space.hip_width_m)):
        less, more = (read(with_wish(**{wish: value})) for value in (-1.0, 1.0))
        assert more > less + 0.004, wish


def sought_of(facts):
    """The checks that the search heeds: not what stouter sticks mend."""
    return [one for one in checks_of(facts) if one.row.sought]


@pytest.mark.parametrize(("base", "body"), [(base, body) for base, bodies in zip(BASES, cycle((
    ((56.0, 1.64, 0.372), (92.0, 1.84, 0.405)), ((74.0, 1.72, 0.385), (104.0, 1.80, 0.425)))),
    strict=False) for body in bodies])
def test_no_boat_of_a_grid_passes_as_surely_nearer_to_what_is_sought(base, body, base_lines):
    """Brute force round the answer, with the distance worked out by hand from the printed aims.

    As surely: as the answer, or as DEVELOPERS.md says that all limits together are sought.
    """
    lines = base_lines[base]
    who = someone(lines, *body)
    answer = fit(lines, who)
    walls = [one for one in answer.checks if one.row.sought and one.row != TOGETHER]
    assert [one.name for one in walls if one.status != "pass"] == []
    odds = odds_all_hard(walls, answer.sure)
    wanted = {one.aim.key: one.wanted for one in answer.sought}
    scaling = answer.assessed.boat.scaling
    best = distance(answer.assessed, wanted)
    wider = ndtri(SOUGHT_ODDS) / ndtri(CLEAN_ODDS)  # the search asks more than a pass
    sure = {"spread": {key: wider * sd for key, sd in answer.assessed.spread.items()}}
    grid = list(product((0.96, 0.98, 1.0, 1.02, 1.04), (0.97, 0.985, 1.0, 1.015, 1.03),
                        (0.96, 0.98, 1.0, 1.02, 1.04)))
    tried = assess_many(scaled_boat(lines, side_by_side([
        replace(scaling, length=scaling.length * length, beam=scaling.beam * beam,
                depth=scaling.depth * depth, seat_shift_m=0.0)
        for length, beam, depth in grid]), SECTION_COUNT), who)
    assert tried.floats.all()
    for index in np.flatnonzero(distance(tried, wanted) < best - 0.3):
        one = tried.one(index)
        if overall(sought_of(replace(facts_of(one), **sure))) == "pass":
            checks = sought_of(replace(facts_of(one), mishap=mishap_facts(one), **sure))
            surely = odds_all_hard(checks, answer.sure) >= min(SOUGHT_ODDS, odds)
            assert not surely or overall(checks) != "pass", grid[index]


@pytest.mark.parametrize(("base", "body"), [
    ("day-boat", (48.0, 1.55, 0.35)), ("load-carrier", (62.0, 1.66, 0.372)),
    ("surf-runner", (48.0, 1.55, 0.35))])
def test_scipys_simplex_finds_no_better_boat_from_there(base, body, base_lines):
    """Far from whom the base was drawn for, where one round of the search is not enough."""
    lines = base_lines[base]
    found = searched(lines, (someone(lines, *body),))
    problem, (answer,) = found.problem, found.logs

    def merit_at(logs):
        terms = terms_at(problem, np.clip(logs, problem.low[0], problem.high[0])[None])
        return float(merit(*terms.parts)[0]) if terms.known[0] else np.inf

    corners = answer + np.vstack([np.zeros(4), np.diag(np.where(
        answer + 0.01 < problem.high[0], 0.01, -0.01))])
    best = minimize(merit_at, answer, method="Nelder-Mead",
                    options={"initial_simplex": corners, "xatol": 1e-4, "fatol": 1e-4})
    assert merit_at(answer) - best.fun < 2e-4 * (1.0 + best.fun)


def distance(one, wanted):
    """What DEVELOPERS.md says is made small, written out."""
    day, boat, space, room = one.day, one.boat, one.space, one.room
    got = {"hip-room": (space.hip_width_m - room.hip_width_m, 0.020),
           "thigh-room": (space.thigh_height_m - room.thigh_height_m, 0.020),
           "knee-room": (space.knee_height_m - room.knee_top_m, 0.020),
           "foot-room": (space.foot_height_m - room.foot_height_m, 0.025),
           "lines": (day.draft_m - boat.design.drawn_for.draft_m * boat.scaling.depth, 0.003),
           "freeboard": (day.freeboard_m, 0.008), "gm": (day.gm_m, 0.008),
           "slenderness": (boat.length_m / np.cbrt(day.volume_m3), 0.12)}
    assert set(got) == set(wanted)
    scaling = boat.scaling
    proportions = (np.log(scaling.length / scaling.beam) / 0.03,
                   np.log(scaling.beam / scaling.depth) / 0.03, np.log(scaling.crown) / 0.12)
    return sum(((value - wanted[key]) / scale) ** 2 for key, (value, scale) in got.items()) + sum(
        value**2 for value in proportions)


@pytest.fixture(scope="module")
def free(base_lines):
    """The answer to who holds nothing."""
    return job_answer(run(request_for(), base_lines["day-boat"]))


@pytest.mark.parametrize("key", ["length_mm", "beam_mm", "depth_mm", "cockpit_length_mm",
                                 "cockpit_width_mm", "deck_crown"])
def test_a_held_size_stays_and_moves_no_other_unless_asked(key, free, base_lines):
    was = {**free["size"], "deck_crown": free["factors"]["deck_crown"]}
    put = round(was[key] * 1.02, 3)
    held = job_answer(run(request_for(fixed={key: put}), base_lines["day-boat"]))
    now = {**held["size"], "deck_crown": held["factors"]["deck_crown"]}
    for name, value in was.items():
        assert now[name] == pytest.approx(put if name == key else value,
                                          abs=0.01 if name == key else 0.02), name
    assert held["set_by"][key] == "held by you"


def test_other_sizes_follow_a_held_one_where_asked(free, base_lines):
    put = free["size"]["beam_mm"] - 25.0
    follows = job_answer(run(request_for(fixed={"beam_mm": put}, follow=True),
                             base_lines["day-boat"]))
    assert follows["size"]["beam_mm"] == pytest.approx(put, abs=0.02)
    assert abs(follows["size"]["depth_mm"] - free["size"]["depth_mm"]) > 1.0


def test_held_crown_and_seat_stay_where_they_were_put(base_lines):
    for shift in (-20.0, 15.0):
        answer = job_answer(run(request_for(fixed={"deck_crown": 1.2, "seat_shift_mm": shift}),
                                base_lines["day-boat"]))
        assert answer["factors"]["deck_crown"] == pytest.approx(1.2, abs=1e-6)
        assert answer["cockpit"]["seat_shift_mm"] == pytest.approx(shift, abs=0.01)
        assert answer["set_by"]["deck_crown"] == answer["set_by"]["seat_shift_mm"] == "held by you"


def test_a_seat_held_further_aft_floats_deeper_by_the_stern(base_lines):
    held = {"length_mm": 4700.0, "beam_mm": 600.0, "depth_mm": 255.0, "deck_crown": 1.0}
    forward, aft = (job_answer(run(request_for(gear_kg=0.0, fixed=held | {"seat_shift_mm": shift}),
                                   base_lines["day-boat"])) for shift in (-20.0, 20.0))
    moment_Nm = forward["load"]["paddler_kg"] * 9.80665 * 0.040
    expected = moment_Nm / forward["flotation"]["moment_to_trim_nm_per_deg"]
    assert aft["flotation"]["trim_deg"] - forward["flotation"]["trim_deg"] == pytest.approx(
        expected, rel=0.03)


def test_a_seat_held_where_it_slid_to_floats_the_same(base_lines):
    held = {"length_mm": 4900.0, "beam_mm": 600.0, "depth_mm": 255.0, "deck_crown": 1.0}
    short = {"stature": 1650.0, "gear_kg": 0.0}
    slid = job_answer(run(request_for(**short, fixed=held), base_lines["day-boat"]))
    shift = slid["cockpit"]["seat_shift_mm"]
    assert abs(shift) > 1.0
    same = job_answer(run(request_for(**short, fixed=held | {"seat_shift_mm": shift}),
                          base_lines["day-boat"]))
    assert same["flotation"]["trim_deg"] == pytest.approx(slid["flotation"]["trim_deg"], abs=2e-4)
    assert same["flotation"]["freeboard_mm"] == pytest.approx(
        slid["flotation"]["freeboard_mm"], abs=2e-3)


@pytest.mark.parametrize(("key", "value"), [("deck_crown", 3.0), ("seat_shift_mm", 400.0)])
def test_held_crown_or_seat_outside_the_base_is_refused(key, value, base_lines):
    with pytest.raises(BadInput, match=f"fixed.{key}: .*this base allows"):
        run(request_for(fixed={key: value}), base_lines["day-boat"])


def test_a_job_asked_among_others_has_the_boat_it_has_alone(base_lines):
    free, longer = request_for(), request_for(fixed={"length_mm": 4900.0})
    aft = request_for(fixed={"seat_shift_mm": 15.0, "beam_mm": 590.0})
    alone = {one: fitted(base_lines, one) for one in (free, longer, aft)}
    for one in (longer, free, aft, longer, free, aft):
        found = run(one, base_lines["day-boat"]).fitted
        assert found.assessed.boat.scaling == alone[one].assessed.boat.scaling
        assert found.assessed.upright.gm_m == alone[one].assessed.upright.gm_m
        assert found.set_by == alone[one].set_by


def test_all_held_needs_no_search(base_lines):
    held = {"length_mm": 4700.0, "beam_mm": 600.0, "depth_mm": 255.0,
            "cockpit_length_mm": 760.0, "cockpit_width_mm": 420.0}
    answer = job_answer(run(request_for(fixed=held), base_lines["day-boat"]))
    assert answer["size"] == pytest.approx(held, abs=0.01)


def test_held_outside_the_base_is_refused_with_its_range(base_lines):
    request = request_for(fixed={"beam_mm": 900.0, "cockpit_width_mm": 700.0})
    with pytest.raises(BadInput) as caught:
        fitted(base_lines, request)
    first = caught.value.faults[0]
    assert first.place == "fixed.cockpit_width_mm"
    low, high = base_lines["day-boat"].design.limits.cockpit_width_m
    assert f"{low * 1000:.0f} to {high * 1000:.0f} mm" in first.allowed


def test_unfit_paddler_gets_the_nearest_boat_marked_failing(base_lines):
    request = request_for(weight=150.0, stature=1900.0, hips=540.0)
    answer = fitted(base_lines, request)
    assert answer.status == "fail"
    failing = [check for check in answer.checks if check.status == "fail"]
    assert "way-out-wide" in {check.key for check in failing}
    assert len(answer.unmet) == len(failing)
    for check, sentence in zip(failing, answer.unmet, strict=True):
        assert sentence.startswith(check.name)
        assert sentence.endswith(check.remedy)


def test_what_cannot_float_gives_no_number(base_lines):
    request = request_for(weight=200.0, stature=1900.0, hips=500.0, gear_kg=150.0, fixed={
        "length_mm": 4200.0, "beam_mm": 540.0, "depth_mm": 220.0})
    with pytest.raises(WillNotFloat, match="will not float this"):
        fitted(base_lines, request)


def test_small_teenager_and_large_man_are_answered(base_lines):
    for weight, stature, hips in ((45.0, 1500.0, 320.0), (140.0, 1850.0, 470.0)):
        request = request_for("steady-boat", "sheltered-day", weight, stature, hips)
        answer = fitted(base_lines, request)
        assert answer.status in ("pass", "caution", "fail")


def test_short_legs_move_the_footbrace_nearer(base_lines):
    def foot(inseam):
        request = read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
            "weight_kg": 80, "stature_mm": 1750, "hip_width_mm": 390, "inseam_mm": inseam}})
        return fitted(base_lines, request).assessed.boat.map.legs
    assert foot(740) < foot(840)


PEOPLE = st.tuples(st.floats(50, 115), st.floats(1530, 1900), st.floats(340, 450))


@settings(max_examples=3, deadline=None, derandomize=True)
@given(PEOPLE, st.sampled_from(BASES), st.sampled_from(tuple(USES)))
def test_the_same_request_gives_the_same_bytes(base_lines, body, base, use):
    request = request_for(base, use, *body)

    def text():
        _freely.cache_clear()  # so that it is searched for anew
        answer = job_answer(run(request, base_lines[base]))
        assert answer.pop("solve_ms") > 0
        return json_text(answer)

    assert text() == text()


@settings(max_examples=12, deadline=None, derandomize=True)
@given(PEOPLE, st.sampled_from(BASES))
def test_section_count_does_not_matter(base_lines, body, base):
    """Twice the sections move the displacement at a given water level by under 0.1 %."""
    request = request_for(base, "coastal-day", *body)
    lines, who = base_lines[base], person_of(request)
    scaling = Scaling(legs=legs_stretch(lines.design, who.body))
    coarse = assess(lines, scaling, who, SECTION_COUNT).particulars
    fine = assess(lines, scaling, who, 2 * SECTION_COUNT).particulars
    more_kg = (fine.draft_m - coarse.draft_m) * 100.0 * fine.kg_per_cm
    assert abs(more_kg) < 1e-3 * coarse.displacement_kg


def test_reasons_name_what_is_sought_or_a_check(base_lines):
    answer = job_answer(run(request_for(weight=105.0), base_lines["day-boat"]))
    names = {check["name"] for check in answer["checks"]} | {
        one["name"] for one in answer["sought"]} | {
        "proportion of length to beam", "proportion of beam to depth"}
    assert answer["set_by"]["length_mm"] in names
    assert answer["set_by"]["cockpit_width_mm"].startswith("room to get in and out")


def test_a_use_that_the_base_does_not_suit_is_a_caution_that_says_why(base_lines):
    for base, lines in base_lines.items():
        for place, use in enumerate(sorted(set(USES) - set(lines.design.suits))):
            who = someone(lines, 82.0, 1.78, 0.385, use=use)
            checks = checks_of(facts_of(assess(lines, Scaling(), who, SECTION_COUNT)))
            if place == 0:  # a fit's are the same, told as fully
                checks = fit(lines, who).checks
            check = next(one for one in checks if one.key == "suits")
            assert check.status == "caution", (base, use)
            assert lines.design.lacks[use] in check.meaning


def test_people_whom_no_base_fits_are_answered(base_lines):
    """Two bodies that once crashed the fit."""
    for use, gear, body in (("coastal-day", 150.0, Measured(60.9, 1.25, 0.414)),
                            ("fitness-paddling", 3.0, Measured(87.0, 1.715, 0.250))):
        for lines in base_lines.values():
            try:
                answer = fit(lines, person(body, use, gear, water_at("fresh", 10.0)))
            except WillNotFloat:
                continue
            assert answer.status in ("pass", "caution", "fail")
