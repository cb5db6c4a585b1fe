"""Sections, opening and frames of boats at the corners of their base's limits."""

from itertools import product

import numpy as np
import pytest
from shapely.geometry import Polygon

from sizer.hull.bending import tightest_bend
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import closed_rings, half_section_at

EMPTY_M2 = 1e-8  # a section no larger than this is a stem's edge, not an outline


@pytest.fixture(scope="module")
def corner_boats(lines):
    """Boats at every corner of length, beam, depth, crown, opening and leg stretch."""
    limits = lines.design.limits
    return [
        scaled_boat(lines, Scaling(*factors, cockpit_length_m=opening[0],
                                   cockpit_width_m=opening[1]))
        for *factors, opening in product(
            limits.length, limits.beam, limits.depth, limits.crown, (0.88, 1.12),
            zip(limits.cockpit_length_m, limits.cockpit_width_m, strict=True))]


def signed_areas_m2(rings):
    y, z = rings[..., 0], rings[..., 1]
    return 0.5 * np.sum(y[:, :-1] * z[:, 1:] - y[:, 1:] * z[:, :-1], axis=1)


def test_rings_close_run_one_way_round_and_mirror(corner_boats):
    for boat in corner_boats:
        rings = closed_rings(boat.sections)
        assert rings.shape == (boat.sections.x_m.size, 2 * boat.sections.y_m.shape[1] - 1, 2)
        assert np.array_equal(rings[:, 0], rings[:, -1])
        assert np.array_equal(rings[:, ::-1] * (-1.0, 1.0), rings)
        assert signed_areas_m2(rings).min() >= -1e-9


def test_rings_are_simple_polygons(corner_boats):
    for boat in corner_boats:
        for x, ring in zip(boat.sections.x_m, closed_rings(boat.sections), strict=True):
            apart = np.concatenate([[True], np.abs(np.diff(ring, axis=0)).max(axis=1) > 1e-9])
            outline = ring[apart]
            if len(outline) > 3:
                polygon = Polygon(outline)
                assert polygon.is_valid or polygon.area < EMPTY_M2, (boat.scaling, x)


def test_lines_keep_their_order_and_side(corner_boats):
    for boat in corner_boats:
        sections = boat.sections
        assert sections.y_m.min() >= 0.0
        assert np.diff(sections.x_m).min() > 0.0
        assert np.diff(sections.z_m[:, : sections.sheer + 1], axis=1).min() >= -0.0005
        assert sections.z_m[:, -1] == pytest.approx(
            np.maximum(sections.z_m[:, -1], sections.z_m[:, sections.sheer]), abs=0.0005)


def test_widest_opening_lies_inside_the_gunwales_as_drawn(lines):
    """On a narrowed boat it may not; the check of side deck beside the opening says so then."""
    limits = lines.design.limits
    for length in limits.cockpit_length_m:
        boat = scaled_boat(lines, Scaling(cockpit_length_m=length,
                                          cockpit_width_m=limits.cockpit_width_m[1]))
        x = boat.sections.x_m
        inside = (x > boat.opening.front_x_m) & (x < boat.opening.back_x_m)
        room = boat.sections.y_m[:, boat.sections.sheer] - boat.opening.half_width_m(x)
        assert room[inside].min() > 0.0, length


def test_sections_stand_exactly_at_both_ends_of_the_opening(corner_boats):
    """Ridges end there: a section a hair off would cost a stick its last stretch."""
    for boat in corner_boats:
        for end in (boat.opening.front_x_m, boat.opening.back_x_m):
            assert np.count_nonzero(boat.sections.x_m == end) == 1, boat.scaling


def test_frames_stay_in_order(corner_boats):
    for boat in corner_boats:
        assert np.diff(boat.frame_x_m).min() > 0.05, boat.scaling
        assert 0.0 < boat.frame_x_m[0] < boat.frame_x_m[-1] < boat.length_m


def test_opening_has_the_size_asked_for_and_closes_at_both_ends(lines):
    boat = scaled_boat(lines, Scaling(length=1.04, cockpit_length_m=0.70, cockpit_width_m=0.41))
    opening = boat.opening
    x = np.linspace(opening.front_x_m, opening.back_x_m, 2001)
    half = opening.half_width_m(x)
    assert opening.length_m == pytest.approx(0.70, abs=1e-12)
    assert 2.0 * half.max() == pytest.approx(0.41, abs=1e-5)
    assert half[[0, -1]] == pytest.approx([0.0, 0.0], abs=1e-9)
    assert np.all(opening.half_width_m([opening.front_x_m - 0.1, opening.back_x_m + 0.1]) == 0.0)
    turn = int(half.argmax())
    assert np.all(np.diff(half[: turn + 1]) >= 0.0)
    assert np.all(np.diff(half[turn:]) <= 0.0)


def test_rim_keeps_its_height_over_the_deck(lines):
    """The lips that the file draws at both ends stay as they are on a deeper boat."""
    plain, deep = (scaled_boat(lines, Scaling(depth=depth)) for depth in (1.0, 1.1))
    for boat in (plain, deep):
        lips = np.subtract(boat.opening.rim_z_m, boat.opening.deck_z_m)
        assert lips == pytest.approx(np.subtract(plain.opening.rim_z_m, plain.opening.deck_z_m))
        assert lips.min() > 0.0
    drawn = lines.design.cockpit.rim_front_z_m, lines.design.cockpit.rim_back_z_m
    assert plain.opening.rim_z_m == pytest.approx(drawn, abs=1e-9)


def test_ring_is_closed_at_the_rim_over_the_opening(boat):
    opening, sections = boat.opening, boat.sections
    inside = (sections.x_m > opening.front_x_m) & (sections.x_m < opening.back_x_m)
    assert sections.z_m[inside, -1] == pytest.approx(opening.rim_height_m(sections.x_m[inside]))
    assert sections.y_m[inside, -2] == pytest.approx(opening.half_width_m(sections.x_m[inside]))
    ends = np.isin(sections.x_m, (opening.front_x_m, opening.back_x_m))
    assert np.count_nonzero(ends) == 2


def test_section_between_two_is_straight_between_them(boat):
    x = boat.sections.x_m
    y, z = half_section_at(boat.sections, x)
    assert y == pytest.approx(boat.sections.y_m, abs=1e-12)
    assert z == pytest.approx(boat.sections.z_m, abs=1e-12)
    y, _ = half_section_at(boat.sections, 0.25 * x[60] + 0.75 * x[61])
    expected = 0.25 * boat.sections.y_m[60] + 0.75 * boat.sections.y_m[61]
    assert y == pytest.approx(expected, abs=1e-12)


def finest_bend_ratio(boat):
    """Least radius over thickness of all sticks from divided differences of fine scaled points."""
    worst = np.inf
    for line in boat.lines.lines:
        one = line.stringer
        base_x = np.linspace(line.start_x_m, line.end_x_m, 4001)
        x = boat.map(base_x)[:, None]
        points = line.curve(base_x) * (boat.scaling.beam, boat.scaling.depth)
        bend = np.abs(np.diff(np.diff(points, axis=0) / np.diff(x, axis=0), axis=0)
                      / (0.5 * (x[2:] - x[:-2])))
        flat = one.role in ("keel", "ridge")
        thick = (one.width_m, one.depth_m) if flat else (one.depth_m, one.width_m)
        worst = min(worst, 1.0 / (bend * thick).max())
    return worst


@pytest.mark.parametrize("scaling", [Scaling(), Scaling(length=0.92, beam=1.08, legs=1.06),
                                     Scaling(length=1.05, depth=1.1, legs=0.94)])
def test_tightest_bend_is_that_of_the_scaled_curve(lines, scaling):
    boat = scaled_boat(lines, scaling)
    # 121 places catch the tightest one to 3 %; curvature runs straight between frames
    assert tightest_bend(boat).ratio == pytest.approx(finest_bend_ratio(boat), rel=0.03)
