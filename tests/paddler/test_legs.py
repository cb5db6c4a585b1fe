"""The legs that the frames have to let through agree with the room that the deck has to leave."""

import numpy as np
import pytest

from sizer.design.records import SIT_AHEAD_M
from sizer.paddler.body import predict
from sizer.paddler.legs import legs_of
from sizer.paddler.measures import Measured
from sizer.paddler.room import room_needed

BODIES = (Measured(48.0, 1.53, 0.35), Measured(76.0, 1.72, 0.39), Measured(125.0, 1.95, 0.47))


@pytest.mark.parametrize("measured", BODIES)
def test_legs_reach_from_the_sitting_bones_to_the_heels(measured):
    body = predict(measured)
    legs, room = legs_of(body, -0.02), room_needed(body, "sit")
    assert legs.ahead_m[0] == SIT_AHEAD_M
    assert np.all(np.diff(legs.ahead_m) > 0.0)
    assert legs.heel_m < legs.sole_m == room.foot_rest_ahead_m
    assert np.all(legs.top_m > legs.under_m)
    assert np.all(legs.apart_m >= legs.half_width_m - 1e-9)  # one leg stays on its own side


@pytest.mark.parametrize("measured", BODIES)
def test_no_leg_is_taller_than_the_room_it_is_given(measured):
    body = predict(measured)
    legs, room = legs_of(body, -0.02), room_needed(body, "sit")
    assert legs.top_m.max() <= max(room.thigh_height_m, room.knee_top_m)
    assert legs.top_m[0] == pytest.approx(body.thigh_clearance.value_m)
    hips = 2.0 * (legs.apart_m[0] + legs.half_width_m[0])
    assert hips == pytest.approx(body.hip_sitting.value_m)


def test_ovals_touch_upper_and_under_side():
    legs = legs_of(predict(BODIES[1]), -0.02)
    places = np.linspace(legs.ahead_m[0], legs.heel_m, 7)
    outline = legs.outlines_m(places, seat_m=0.04)
    assert outline[..., 1].max(axis=1) == pytest.approx(
        0.04 + np.interp(places, legs.ahead_m, legs.top_m))
    assert outline[..., 1].min(axis=1) == pytest.approx(
        0.04 + np.interp(places, legs.ahead_m, legs.under_m))
    assert outline[..., 0].max(axis=1) == pytest.approx(np.interp(
        places, legs.ahead_m, legs.apart_m) + np.interp(places, legs.ahead_m, legs.half_width_m))
