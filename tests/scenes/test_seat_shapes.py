"""The seat and the legs in the pictures are the ones that are checked."""

import numpy as np
import pytest
from shapely import LineString, Polygon

from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.seat import SIT_AHEAD_M, SIT_APART_M
from sizer.paddler.body import predict
from sizer.paddler.legs import legs_of
from sizer.paddler.measures import Measured
from sizer.scenes.figure import plan_figure, side_figure
from sizer.scenes.seat_shapes import backband_m, seat_across_m, seat_plan_m, seat_side_m

SCALING = Scaling(1.03, 1.02, 1.04, 1.1, 1.0)
KINDS = (("day-boat", "panel"), ("steady-boat", "slats"))


@pytest.mark.parametrize(("name", "kind"), KINDS)
def test_seat_stands_where_the_check_takes_it(base_lines, name, kind):
    boat = scaled_boat(base_lines[name], SCALING)
    assert boat.design.seat.kind == kind
    side = seat_side_m(boat)
    upper = side[len(side) // 2:][::-1]
    sit = boat.seat_x_m - SIT_AHEAD_M
    assert np.interp(sit, *upper.T) == pytest.approx(boat.seat_z_m, abs=5e-4)
    front, back = side[:, 0].min(), side[:, 0].max()
    if kind == "panel":
        assert back - front == pytest.approx(boat.design.seat.length_m)
    else:
        names = [frame.name for frame in boat.design.frames]
        fore, aft = (boat.frame_x_m[names.index(one)] for one in boat.design.seat.stands_on)
        assert front == pytest.approx(fore, abs=0.03)
        assert back == pytest.approx(aft, abs=0.03)


@pytest.mark.parametrize(("name", "kind"), KINDS)
def test_boards_lie_under_the_sitting_bones_on_both_sides(base_lines, name, kind):
    boat = scaled_boat(base_lines[name], SCALING)
    for side in (1.0, -1.0):
        bone = LineString([(side * SIT_APART_M, boat.seat_z_m - 0.04),
                           (side * SIT_APART_M, boat.seat_z_m + 0.04)])
        near = min(Polygon(board).distance(bone) for board in seat_across_m(boat))
        assert near < 0.012, kind  # a strap or a slat ends beside it at the most
    x, half = np.concatenate(seat_plan_m(boat)).T
    assert x.min() < boat.seat_x_m - SIT_AHEAD_M < x.max()
    assert half.min() == pytest.approx(-half.max())
    band, tie = backband_m(boat)
    assert band[:, 0].min() == pytest.approx(boat.seat_x_m)
    assert 0.5 * (band[:, 1].min() + band[:, 1].max()) == pytest.approx(
        boat.seat_z_m + boat.design.cockpit.backband_height_m)
    assert tie[1, 0] < boat.seat_x_m


@pytest.mark.parametrize("who", [(52, 1.55, 0.36), (76, 1.75, 0.38), (112, 1.90, 0.43)])
def test_legs_are_those_that_are_checked(who):
    body, floor = predict(Measured(*who)), -0.02
    legs = legs_of(body, floor)
    beside = Polygon(side_figure(body, "sit", floor).body_m).buffer(0.0)
    above = plan_figure(body, "sit").legs_m
    one_leg = Polygon(above[above[:, 1] >= 0.0]).buffer(0.0)
    for row in (2, 3, 4):  # over the knee and the calf; at the lap the belly hides it
        at = legs.ahead_m[row]
        below_hands = legs.top_m[row] + 0.05
        cut = beside.intersection(LineString([(at, -0.5), (at, below_hands)])).bounds
        assert cut[1] == pytest.approx(legs.under_m[row], abs=0.004)
        assert cut[3] == pytest.approx(legs.top_m[row], abs=0.004)
        cut = one_leg.intersection(LineString([(at, 0.0), (at, 0.5)])).bounds
        assert cut[1] == pytest.approx(legs.apart_m[row] - legs.half_width_m[row], abs=0.004)
        assert cut[3] == pytest.approx(legs.apart_m[row] + legs.half_width_m[row], abs=0.004)
