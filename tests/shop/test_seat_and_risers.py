"""The seat is tried while the frames stand on their risers: these stand clear of it."""

from dataclasses import replace

import pytest
from shapely.geometry import Polygon, box

from sizer.export.feet import ground
from sizer.export.plan_work import told_figures
from sizer.export.seat_sheet import seat_sheet
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench_marks import risers_in_seat, seat_ties_hidden
from sizer.shop.frames import frame_patterns
from sizer.shop.outfit import backband, tie_round_m
from sizer.shop.risers import KINDS, risers
from sizer.shop.seat import seat_built
from sizer.shop.seat_parts import boards
from sizer.shop.work import filled
from tests.conftest import BASE_NAMES

CHEEK_M = 0.021


@pytest.fixture(scope="module", params=BASE_NAMES)
def job(request, middle_job):
    return middle_job(request.param)


def cheeks(job, one):
    """From above and across the boat, over the baseline, as far along as it reaches."""
    face = one.strongback_m + job.setting_up.strongback_start_x_m
    far = face - CHEEK_M if one.stands == "forward" else face + CHEEK_M
    base = job.setting_up.baseline_height_m
    plan = box(min(face, far), one.inner_m, max(face, far), one.outer_m)
    return plan, box(one.inner_m, one.low_m - base, one.outer_m, one.height_m - base)


@pytest.mark.parametrize("kind", KINDS)
def test_no_cheek_stands_where_the_seat_lies(job, kind):
    """Outlines from above overlap nowhere by more than they touch, and no cheek is on the bay's
    side of a frame that the seat stands on; where they did, sections there would not meet."""
    seat, up = job.patterns.seat, job.setting_up
    made = risers(up.stations, job.patterns.frames, up.baseline_height_m, kind)
    boat = job.fitted.assessed.boat
    for one in made:
        plan, across = cheeks(job, one)
        for board in seat.boards:
            shared = Polygon(board.plan_m).intersection(plan)
            if shared.area > 1e-9:
                for x in shared.bounds[::2]:
                    assert all(Polygon(there.section_m).disjoint(across)
                               for there in boards(boat, x)), (one.frame, kind)
    assert risers_in_seat(seat, up, made) == ()


def test_a_riser_moved_under_the_seat_is_found(job):
    seat, up = job.patterns.seat, job.setting_up
    made = risers(up.stations, job.patterns.frames, up.baseline_height_m)
    middle = 0.5 * (seat.front_x_m + seat.back_x_m) - up.strongback_start_x_m
    spot = seat.boards[0].plan_m[:, 1]
    moved = replace(made[3], strongback_m=middle, inner_m=spot.min(), outer_m=spot.max(),
                    low_m=0.0, height_m=seat.top_m + up.baseline_height_m)
    assert risers_in_seat(seat, up, (*made[:3], moved, *made[4:])) == (moved.frame,)
    low = replace(moved, height_m=up.baseline_height_m)
    assert risers_in_seat(seat, up, (low,)) == ()


def test_the_trial_says_that_the_seat_goes_in_beside_the_risers(job, middle_bench):
    bench = middle_bench(job.request.trip.base)
    trial = next(step for step in filled(told_figures(job, bench)) if step.key == "sit")
    words = "clear of every riser" if bench.seat.kind == "panel" else (
        f"floors of {' and '.join(bench.seat.stands_on)}, beside the risers' cheeks: only the "
        "clamps")
    assert words in trial.do


def test_the_backbands_ties_are_as_long_as_their_way_round_the_plywood(base_lines):
    """Measured by ruler on the sheets of this boat: 42 mm in beside the gunwale and
    12.5 mm aft from the loop's middle, 12 mm through the plywood, 433 mm on to the band's eye."""
    job = run(read_request({"base": "load-carrier", "use": "camp-touring", "gear_kg": 26,
                            "paddler": {"weight_kg": 91, "stature_mm": 1830,
                                        "hip_width_mm": 405}}), base_lines["load-carrier"])
    band = backband(job.fitted.assessed.boat)
    assert tie_round_m(band, frame_patterns(job.fitted.assessed.boat)) == pytest.approx(
        0.487, abs=0.004)
    assert band.tie_m == pytest.approx(0.466, abs=0.002)  # straight through it
    cord = next(one for one in seat_built(job.fitted.assessed).items
                if one.what.startswith("cord 4 mm"))
    assert cord.quantity == pytest.approx(2 * (0.487 + 0.500), abs=0.008)  # half a metre for knots
    assert any("cases a tie of the backband" in one.what
               for one in seat_built(job.fitted.assessed).items)


def test_lashings_of_slats_behind_cheeks_wait_until_the_boat_is_lifted(job, bench):
    """A cord 3.2 mm in its hole with 3 mm beside it goes up a floor's face, at the hole's own
    half-breadth, where no cheek stands; both are measured on outlines, to starboard."""
    seat = job.patterns.seat
    made, waits = {one.frame: one for one in bench.marks.risers}, 0
    for board in seat.boards if seat.kind == "slats" else ():
        corner = board.plan_m.min(axis=0)
        for along, out in board.holes_m:
            x = corner[0] + along
            near = min(bench.frames, key=lambda one: abs(one.x_m - x))
            _, across = cheeks(job, made[near.name])
            cord = box(corner[1] + out - 0.0046, -1.0, corner[1] + out + 0.0046, 2.0)
            waits += 2 * cord.intersects(across)
    found = seat_ties_hidden(seat, bench.marks.risers)
    assert 2 * sum(map(len, found.values())) == waits
    said = {step.key: step for step in filled(told_figures(job, bench))}
    assert (f"leave {waits} untied now" in said["outfit"].do) == (waits > 0)
    sheet = " ".join(one.getPlainText() for one in seat_sheet(ground(job, "A4"), bench).blocks
                     if hasattr(one, "getPlainText"))
    assert (f"leave {waits} untied now" in sheet) == (waits > 0)
    assert (f"Tie the seat's {waits} lashings that were left" in said["lift-off"].do) == (waits > 0)
    away = [replace(one, inner_m=one.inner_m + 1.0, outer_m=one.outer_m + 1.0)
            for one in bench.marks.risers]
    assert seat_ties_hidden(seat, away) == {}
    if seat.kind == "slats":
        assert waits
