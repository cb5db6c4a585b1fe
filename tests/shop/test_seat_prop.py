"""The block under the keel while somebody sits in the frame on its strongback."""

import re

import pytest

from sizer.export.plan_work import told_figures
from sizer.shop import work
from sizer.shop.blocks import prop_words, seat_prop
from sizer.units import MM_PER_M
from tests.conftest import BASE_NAMES

FOOT_M = 0.10  # of a riser from its frame's mark, and a hand's room


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def told(job, bench):
    return {step.key: step.do for step in work.filled(told_figures(job, bench))}


def test_the_block_stands_between_the_frames_beside_the_bones_as_high_as_the_keel_is(job):
    """The keel lies in one fair sweep: between two stations it sags under their straight line by no
    more than the bottom is rounded there."""
    boat, up = job.fitted.assessed.boat, job.setting_up
    prop = seat_prop(boat)
    if boat.design.seat.kind != "panel":
        assert prop is None
        return
    names = [one.name for one in up.stations]
    fore, aft = (up.stations[names.index(name)] for name in (prop.fore_frame, prop.aft_frame))
    assert names.index(aft.name) == names.index(fore.name) + 1
    assert fore.strongback_m + FOOT_M < prop.tape_m < aft.strongback_m - FOOT_M
    bones = boat.seat_x_m - 0.100 - up.strongback_start_x_m
    assert prop.tape_m == pytest.approx(bones)
    share = (prop.tape_m - fore.strongback_m) / (aft.strongback_m - fore.strongback_m)
    straight = (1.0 - share) * fore.keel_height_m + share * aft.keel_height_m
    assert straight - 0.004 < prop.high_m < straight + 0.0005


def test_the_step_of_the_dry_trial_tells_it_and_only_where_the_keel_bears(job, middle_bench):
    boat = job.fitted.assessed.boat
    step = told(job, middle_bench(job.request.trip.base))["sit"]
    prop = seat_prop(boat)
    if prop is None:
        assert "no water holds the keel up" not in step
        return
    assert prop_words(boat) in step
    tape, high, block = re.search(
        r"at tape (\d+\.\d) mm .*?, where its outer face is (\d+\.\d) mm .*?, a block "
        r"(\d+\.\d) mm .*?, two wedges on it", step).groups()
    assert (float(tape), float(high)) == pytest.approx(
        (prop.tape_m * MM_PER_M, prop.high_m * MM_PER_M), abs=0.051)
    assert float(high) - float(block) == pytest.approx(20.0, abs=0.101), "room for the wedges"


def test_the_seat_tells_how_often_it_bears_its_paddler(job, middle_bench):
    seat, check = middle_bench(job.request.trip.base).seat, job.fitted.check("seat-bears")
    said = next(one for one in seat.says if "sitting down hard" in one)
    *times, wanted, most = map(float, re.findall(r"\d\.\d+", said))
    assert len(times) == (2 if seat.kind == "panel" else 1)
    assert (min(times), wanted, most) == pytest.approx(
        (check.value, check.window[1], check.window[0]), abs=0.0051)
    assert ("its plates" in said) == (seat.kind == "panel")
    assert any("face grain runs athwart" in one for one in seat.says) == (seat.kind == "panel")
    assert all(name in said for name in (
        ("slats",) if seat.kind == "slats" else seat.stands_on))


def test_the_footbrace_is_pushed_on_the_soft_floor_which_holds_the_keel_up():
    """In the one step where somebody sits in the frame with the pedals in: off the strongback,
    before the skin."""
    steps = {one.key: one for one in work.steps()}
    order = list(steps)
    assert order.index("outfit") < order.index("lift-off") < order.index("skin")
    assert "pushed against them with all your weight" in steps["lift-off"].check
    assert "soft floor" in steps["lift-off"].do
    assert not any("all your weight" in one.check + one.do for key, one in steps.items()
                   if key != "lift-off")
