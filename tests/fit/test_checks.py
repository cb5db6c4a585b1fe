"""The one table of checks: windows in order, both sides told, arrays as good as numbers."""

import dataclasses

import numpy as np
import pytest

from sizer.fit.assess import assess
from sizer.fit.check import STATUSES, Check, codes_of, overall, values_of, windows_of
from sizer.fit.checks import BY_KEY, ROWS, checks_of
from sizer.fit.facts import Mishap, facts_of, room_left
from sizer.fit.person import drawn_person, person
from sizer.fit.uses import USES
from sizer.hull.scale import Scaling
from sizer.paddler.measures import Measured


def facts_for(lines, use, measured=None):
    drawn = drawn_person(lines.design)
    who = drawn if measured is None else person(measured, use, drawn.gear_kg, drawn.water)
    who = dataclasses.replace(who, use=USES[use])
    facts = facts_of(assess(lines, Scaling(), who, 61))
    return dataclasses.replace(facts, mishap=Mishap(66.0, 50.0, 0.045, 0.060, 0.050, 0.030))


def check_with(value, fails_below=-np.inf, wanted_from=-np.inf, wanted_to=np.inf,
               fails_above=np.inf, key="hips"):
    return Check(BY_KEY[key], value, (fails_below, wanted_from, wanted_to, fails_above))


def test_keys_and_titles_are_given_once():
    assert len({row.key for row in ROWS}) == len({row.title for row in ROWS}) == len(ROWS)


@pytest.mark.parametrize("use", USES)
def test_every_window_is_in_order(use, base_lines):
    for lines in base_lines.values():
        for body in (Measured(48.0, 1.53, 0.35), Measured(76.0, 1.70, 0.39),
                     Measured(125.0, 1.95, 0.47), Measured(160.0, 1.80, 0.57)):
            low, from_, to, high = windows_of(ROWS, facts_for(lines, use, body))
            assert (low <= np.maximum(low, from_)).all()
            assert (np.maximum(low, from_) <= np.minimum(to, high)).all()


@pytest.mark.parametrize(("value", "status", "too"), [
    (0.9, "fail", "small"), (1.0, "caution", "small"), (1.9, "caution", "small"),
    (2.0, "pass", ""), (3.0, "pass", ""), (3.1, "caution", "large"), (4.0, "caution", "large"),
    (4.1, "fail", "large")])
def test_status_on_each_side_of_a_window(value, status, too):
    check = check_with(value, 1.0, 2.0, 3.0, 4.0)
    assert (check.status, check.too) == (status, too)
    assert (check.margin < 0.0) == (status != "pass")
    assert bool(check.remedy) == (status != "pass")


def test_the_limit_told_is_the_one_missed_or_the_nearest():
    far = check_with(0.5, 1.0, 2.0, 3.0, 4.0)
    assert (far.limit, far.sense, far.margin) == pytest.approx((1000.0, "at least", -500.0))
    near = check_with(2.9, 1.0, 2.0, 3.0, 4.0)
    assert near.limit == pytest.approx(3000.0)
    assert near.sense == "at most"
    assert near.margin == pytest.approx(100.0)
    assert check_with(2.0).limit is None
    assert check_with(2.0).margin is None


def test_a_loose_fit_is_told_with_its_padding():
    """380 mm of hips need 404 with clothing; 560 mm of room is 78 mm a side too much."""
    loose = check_with(0.560, 0.404, wanted_to=0.534)
    assert loose.status == "caution"
    assert "take up 78 mm (3 1/16 in) a side of the hips" in loose.remedy
    pinched = check_with(0.390, 0.404, wanted_to=0.534)
    assert pinched.status == "fail"
    assert "wider" in pinched.remedy


def test_arrays_give_what_numbers_give(base_lines):
    """The same rows over three paddlers at once and one by one."""
    lines = base_lines["long-tourer"]
    bodies = (Measured(48.0, 1.53, 0.35), Measured(76.0, 1.70, 0.39), Measured(125.0, 1.95, 0.47))
    single = [facts_for(lines, "coastal-day", body) for body in bodies]

    def stacked(part, names):
        return dataclasses.replace(getattr(single[0], part), **{
            name: np.array([getattr(getattr(one, part), name) for one in single])
            for name in names})

    room = [field.name for field in dataclasses.fields(single[0].room)]
    space = [field.name for field in dataclasses.fields(single[0].space)
             if field.name != "footbrace_m"]
    water = [field.name for field in dataclasses.fields(single[0].water)]
    many = dataclasses.replace(
        single[0], stature_m=np.array([one.stature_m for one in single]),
        room=stacked("room", room), water=stacked("water", water),
        space=dataclasses.replace(stacked("space", space), footbrace_m=tuple(
            np.array([one.space.footbrace_m[end] for one in single]) for end in (0, 1))))
    codes = codes_of(values_of(ROWS, many), windows_of(ROWS, many))
    for index, one in enumerate(single):
        expected = {check.key: check.status for check in checks_of(one)}
        for row, code in zip(ROWS, codes[:, index], strict=True):
            if row.key in expected:  # a deck stringer's gap has nothing to measure on most bases
                assert STATUSES[code] == expected[row.key], row.key


def test_mishaps_are_left_out_where_they_were_not_worked_out(base_lines):
    facts = facts_for(base_lines["long-tourer"], "coastal-day")
    keys = {check.key for check in checks_of(dataclasses.replace(facts, mishap=None))}
    assert not keys & {row.key for row in ROWS if row.mishap}
    assert {row.key for row in ROWS if row.mishap} <= {check.key for check in checks_of(facts)}


def test_overall_is_the_worst():
    window = (1.0, 2.0, 3.0, 4.0)
    checks = [check_with(value, *window) for value in (2.5, 1.5, 0.5)]
    assert [overall(checks[:count]) for count in (1, 2, 3)] == ["pass", "caution", "fail"]


def test_room_left_beside_the_hips_is_half_of_what_is_over_the_need(base_lines):
    facts = facts_for(base_lines["long-tourer"], "coastal-day", Measured(60.0, 1.65, 0.340))
    over = facts.space.hip_width_m - facts.room.hip_width_m
    assert room_left(facts)["hips_each_side"] == pytest.approx(over / 2.0)
    assert over > 0.1


def test_light_load_and_heavy_load_in_one_hull_are_told_apart(base_lines):
    lines = base_lines["long-tourer"]
    status = {}
    for kg, stature, hips in ((40.0, 1.50, 0.33), (150.0, 1.85, 0.50)):
        checks = {check.key: check for check in checks_of(
            facts_for(lines, "coastal-day", Measured(kg, stature, hips)))}
        status[kg] = (checks["load"].too, checks["load"].remedy)
    assert status[40.0][0] == "small"
    assert "smaller" in status[40.0][1]
    assert status[150.0][0] == "large"
    assert "larger" in status[150.0][1]


def test_the_frames_that_the_cockpit_is_clear_of_are_those_that_do_not_move_with_it(base_lines):
    """Told so, and measured to them: a frame close before the opening is the cockpit's own."""
    close = 0
    for lines in base_lines.values():
        facts = facts_for(lines, lines.design.drawn_for.use)
        boat = assess(lines, Scaling(), drawn_person(lines.design), 61).boat
        front, back = boat.opening.front_x_m, boat.opening.back_x_m
        off = {frame.name: max(front - x, x - back)
               for frame, x in zip(lines.design.frames, boat.frame_x_m, strict=True)}
        own = [frame.name for frame in lines.design.frames if frame.kind == "cockpit"]
        check = next(one for one in checks_of(facts) if one.key == "frame-gap")
        assert check.value == pytest.approx(
            1000.0 * min(far for name, far in off.items() if name not in own))
        close += any(0.0 < off[name] < 0.1 for name in own)
    assert close > 0
    assert "none of the cockpit's own" in BY_KEY["frame-gap"].meaning
    assert "carry" not in BY_KEY["frame-gap"].meaning
