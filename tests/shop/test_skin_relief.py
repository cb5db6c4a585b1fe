"""Frames that pressed-in skin touches: against the pattern's own plywood and the skin by hand."""

import numpy as np
import pytest

from sizer.fit.assess import assess
from sizer.fit.person import drawn_person
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.scale import Scaling
from sizer.shop.frames import frame_patterns
from sizer.shop.ring import edges_m
from sizer.shop.skin_relief import CLEAR_M, skin_under_water


@pytest.fixture(scope="module")
def assessed(lines):
    return assess(lines, Scaling(), drawn_person(lines.design), SECTION_COUNT)


@pytest.fixture(scope="module")
def found(assessed):
    return skin_under_water(assessed.boat, assessed.particulars, assessed.person.water)


def test_touches_are_where_slack_skin_goes_deeper_than_the_pattern(assessed, found):
    """Each strip's parabola, 40 points, against how far the sawn edge stands behind the chord."""
    touched = {(one.frame, one.place) for one in found.touches}
    density, frames = assessed.person.water.density_kgpm3, 0
    for pattern in frame_patterns(assessed.boat, assessed.particulars):
        points, notches = pattern.section.skin_m, pattern.section.notches
        for row in range(pattern.section.sheer):
            low, high = points[row], points[row + 1]
            share = np.linspace(0.0, 1.0, 41)
            chord = low + share[:, None] * (high - low)
            depth = np.maximum(pattern.water_z_m - chord[:, 1], 0.0)
            width = np.hypot(*(high - low))
            pressure = density * 9.80665 * np.trapezoid(depth, share)
            pressed = 4.0 * share * (1.0 - share) * pressure * width**2 / (8.0 * 500.0)
            edge = edges_m(pattern.section)[row]
            across = np.array([-(high - low)[1], (high - low)[0]]) / width
            drawn = (edge - low) @ across
            over = pressed.max() - np.max(drawn)
            place = f"between {notches[row].stringer} and {notches[row + 1].stringer}"
            if abs(over) > 0.0002:  # else the two ways of meaning the pressure may differ
                assert ((pattern.name, place) in touched) == (over > 0.0), place
            frames += 1
    assert frames > 10


def test_relief_asked_for_clears_the_slack_skin(found):
    for one in found.touches:
        assert one.slack_m > one.drawn_m
        assert one.needed_m == pytest.approx(one.slack_m + CLEAR_M)
        assert one.tight_m == pytest.approx(one.slack_m / 4.0)
        assert f"{one.frame}, {one.place}: stand the plywood back" in found.says


def test_says_litres_and_depth_for_both(found):
    for one in (found.slack, found.tight):
        assert f"{one.lost_l:.1f} litres" in found.says
    assert ("stays clear" in found.says) == (not found.touches)
