"""The paddler in the pictures is built from the body's own measures."""

from math import pi

import numpy as np
import pytest
from shapely import LineString, Polygon, box

from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.scenes import poses
from sizer.scenes.figure import LEAN_DEG, plan_figure, side_figure, up_to
from sizer.scenes.flesh import girths_of
from sizer.scenes.holding import holding

LIGHT, MIDDLE, HEAVY = (58, 1.62, 0.36), (76, 1.75, 0.385), (118, 1.85, 0.44)
PEOPLE = (LIGHT, MIDDLE, HEAVY)


def figure(who):
    return side_figure(predict(Measured(*who)), "sit", -0.02)


def across_trunk(who, share):
    """How deep the trunk is, level, that share of the sitting height above the seat."""
    body = predict(Measured(*who))
    level = share * body.sitting_height.value_m
    cut = Polygon(figure(who).body_m).intersection(LineString([(-1.0, level), (0.4, level)]))
    return cut.length


def test_arms_as_cylinders_weigh_their_share_of_the_body():
    body = predict(Measured(*MIDDLE))
    girths, span = girths_of(body), body.arm_span.value_m
    # de Leva 1996, Table 4: upper arm 2.71 and 2.55 %, forearm 1.62 and 1.38 % of the body
    upper = pi * girths.upper_arm_m**2 * 0.172 * span * 1000.0
    fore = pi * girths.forearm_m**2 * 0.148 * span * 1000.0
    assert upper == pytest.approx(76 * 0.0263, rel=0.02)
    assert fore == pytest.approx(76 * 0.0150, rel=0.02)


def test_heavier_looks_heavier():
    light, heavy = (figure(who) for who in (LIGHT, HEAVY))
    assert across_trunk(HEAVY, 0.25) > 1.5 * across_trunk(LIGHT, 0.25)
    # twice the weight, a fourth broader in the shoulders: well over a third more from the side
    assert Polygon(heavy.body_m).area > 1.4 * Polygon(light.body_m).area
    same_height = [across_trunk((weight, 1.75, 0.40), 0.25) for weight in (60, 75, 90, 110)]
    assert (np.diff(same_height) > 0.015).all()


@pytest.mark.parametrize("who", PEOPLE)
def test_hands_hold_the_paddle_at_arms_length(who):
    body = predict(Measured(*who))
    held = holding(body, girths_of(body), LEAN_DEG)
    port, starboard = held.shaft_m
    along = (starboard - port) / np.linalg.norm(starboard - port)
    for side in (-1, 1):
        shoulder, elbow, _, grip = held.joints_m(side)
        assert np.linalg.norm(np.cross(grip - port, along)) < 1e-9
        assert np.linalg.norm(elbow - shoulder) == pytest.approx(
            0.172 * body.arm_span.value_m, abs=1e-6)
        assert np.linalg.norm(grip - elbow) == pytest.approx(
            0.148 * body.arm_span.value_m + 0.055, abs=1e-6)
        assert np.sign(grip[1]) == side
    assert held.blades_m[0][:, 2].min() < held.grips_m[0, 2] - 0.2  # the port blade dips


@pytest.mark.parametrize("who", PEOPLE)
def test_the_lap_has_no_step(who):
    """Closing every hollow narrower than a ball of 30 mm adds nothing between belly and knee."""
    ring = Polygon(figure(who).body_m)
    filled = ring.buffer(0.03).buffer(-0.03).difference(ring)
    reach = predict(Measured(*who)).buttock_knee.value_m
    assert filled.intersection(box(0.05, 0.05, reach, 0.40)).area < 2e-5


@pytest.mark.parametrize("who", PEOPLE)
def test_outlines_are_whole_and_the_cut_is_level(who):
    one = figure(who)
    assert Polygon(one.body_m).is_valid
    cut = up_to(one, 0.36)
    assert cut[[0, -1], 1] == pytest.approx([0.36, 0.36])
    assert cut[:, 1].max() <= 0.36 + 1e-9
    above = plan_figure(predict(Measured(*who)), "sit")
    assert Polygon(above.trunk_m).is_valid
    assert Polygon(above.trunk_m).contains(Polygon(above.head_m).centroid)


def test_poses_are_as_tall_and_wide_as_their_measures():
    outline, _ = poses.standing()
    assert outline[:, 1].max() == pytest.approx(1.0, abs=0.005)
    assert outline[:, 1].min() == pytest.approx(0.0, abs=0.005)
    shoulders = outline[np.abs(outline[:, 1] - 0.79) < 0.02]
    assert np.abs(shoulders[:, 0]).max() == pytest.approx(poses.SHOULDERS, abs=0.006)
    side, _ = poses.seated_side()
    assert side[:, 1].max() - poses.BENCH == pytest.approx(poses.SITTING, abs=0.005)
    front, _ = poses.seated_front()
    assert front[:, 1].max() - poses.BENCH == pytest.approx(poses.SITTING, abs=0.005)
    seat = front[(front[:, 1] > poses.BENCH + 0.04) & (front[:, 1] < poses.BENCH + 0.07)]
    assert np.abs(seat[:, 0]).max() == pytest.approx(poses.HIPS, abs=0.006)
