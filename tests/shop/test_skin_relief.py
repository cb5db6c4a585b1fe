"""Frames that pressed-in skin touches: against the pattern's own plywood and the skin by hand."""

import re
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from shapely.geometry import LineString, Point

from sizer.fit.assess import assess
from sizer.fit.person import drawn_person
from sizer.hull.boat import SECTION_COUNT
from sizer.hull.scale import Scaling
from sizer.shop.frames import frame_patterns
from sizer.shop.pattern_checks import pattern_checks
from sizer.shop.ring import edges_m
from sizer.shop.skin_relief import skin_under_water

WIDE_M = 0.120  # a narrower strip is pressed in little, and its middle is near two notches


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
    for pattern in frame_patterns(
            assessed.boat, assessed.particulars, assessed.person.water):
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


def test_skin_touches_frames_of_the_cockpit_alone_and_nothing_is_taken_off_them(assessed, found):
    kinds = {frame.name: frame.kind for frame in assessed.boat.design.frames}
    for one in found.touches:
        assert kinds[one.frame] == "cockpit"
        assert one.slack_m > one.sawn_m
        assert one.tight_m == pytest.approx(one.slack_m / 4.0)
        sawn = f"{1000.0 * one.sawn_m:.0f}"
        told = re.search(rf"{one.frame}\b[^;:]*, {one.place}, sawn back {sawn} mm "
                         r'\([\d /]+"\)[^:]*: pressed in (\d+) mm', found.says)
        assert int(told[1]) >= 1000.0 * one.slack_m
    assert len(re.findall("sawn back", found.says)) == len({
        (one.place, f"{1000.0 * one.sawn_m:.0f}", one.tight_m > one.sawn_m)
        for one in found.touches})
    assert ("TAKE NOTHING OFF" in found.says) == bool(found.touches)
    assert "stand the plywood back" not in found.says


def test_frames_outside_the_cockpit_are_sawn_clear_of_slack_skin_and_keep_their_width(assessed):
    """Their wood across the middle of each wide strip, by a ray square to it: 2 mm of room to the
    pressed skin, and as much wood behind as a cockpit's floor has."""
    density, sawn_back = assessed.person.water.density_kgpm3, 0
    plain = frame_patterns(assessed.boat, assessed.particulars)
    for pattern, before in zip(frame_patterns(
            assessed.boat, assessed.particulars, assessed.person.water), plain, strict=True):
        if pattern.kind == "cockpit":
            assert pattern.wood.equals(before.wood)
            continue
        for low, high in pairwise(pattern.section.skin_m[:pattern.section.sheer + 1]):
            width = np.hypot(*(high - low))
            if width < WIDE_M:
                continue
            share = np.linspace(0.0, 1.0, 41)
            depth = np.maximum(pattern.water_z_m - (low[1] + share * (high - low)[1]), 0.0)
            pressed = density * 9.80665 * np.trapezoid(depth, share) * width**2 / (8.0 * 500.0)
            middle = 0.5 * (low + high)
            inward = np.array([(low - high)[1], (high - low)[0]]) / width
            wood = LineString([middle, middle + 0.06 * inward]).intersection(pattern.wood)
            assert pressed == 0.0 or wood.distance(Point(middle)) > pressed + 0.0018
            assert wood.length > 0.017
        sawn_back += not pattern.wood.equals(before.wood)
    assert sawn_back or assessed.boat.design.name != "Long tourer"


def test_a_floor_sawn_back_for_the_skin_would_be_found_too_thin(base_lines):
    """What papers once asked of the long tourer's floors: 19 mm off 26 leaves 7."""
    base = base_lines["long-tourer"]
    heard = assess(base, Scaling(), drawn_person(base.design), SECTION_COUNT)
    pattern = next(one for one in frame_patterns(heard.boat) if one.name == "F6")
    thin = replace(pattern, section=replace(pattern.section, stands_back_m=(0.019,)))
    failed, = (one for one in pattern_checks([thin]) if one.status == "fail")
    assert (failed.name, failed.place) == ("plywood round the opening", "between keel and chine")
    assert failed.value == pytest.approx(7.0, abs=0.1)


def test_says_litres_and_depth_for_both(found):
    for one in (found.slack, found.tight):
        assert f"{one.lost_l:.1f} litres" in found.says
    assert ("stays clear" in found.says) == (not found.touches)
