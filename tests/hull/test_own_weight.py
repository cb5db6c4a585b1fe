"""The boat's own weight, from its parts."""

import math
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from sizer.design.woods import WOODS
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.weight import own_weight, seat_slid, stick_steps

LENGTH_M = 0.0002


def stringer_length_m(boat, name):
    return float(stick_steps(boat, name)[0].sum())


def drawn_length_m(line):
    """Length along the unscaled curve by adaptive quadrature."""
    breaks = [x for x in line.curve.x if line.start_x_m < x < line.end_x_m]

    def speed(x):
        return math.hypot(1.0, *line.curve(x, 1))

    places = [line.start_x_m, *breaks, line.end_x_m]
    return sum(quad(speed, a, b)[0] for a, b in pairwise(places))


def test_stringer_lengths_match_the_arc_of_the_curve(boat):
    for line in boat.lines.lines:
        name = line.stringer.name
        assert stringer_length_m(boat, name) == pytest.approx(
            drawn_length_m(line), abs=LENGTH_M), name


@pytest.mark.parametrize("scaling", [
    Scaling(length=1.07, beam=1.05, depth=0.95, legs=0.96, cockpit_length_m=0.70),
    Scaling(length=0.93, beam=0.95, depth=1.1, legs=1.05, cockpit_length_m=0.80)])
def test_stringer_lengths_match_a_fine_polyline_of_the_scaled_boat(lines, scaling):
    boat = scaled_boat(lines, scaling)
    for line in lines.lines:
        start, end = line.start_x_m, line.end_x_m
        if line.stringer.start.kind == "coaming":
            start = float(boat.map.base_x_m(boat.opening.back_x_m))
        if line.stringer.end.kind == "coaming":
            end = float(boat.map.base_x_m(boat.opening.front_x_m))
        base_x = np.linspace(start, end, 20001)
        points = np.column_stack([
            boat.map(base_x), line.curve(base_x) * (scaling.beam, scaling.depth)])
        fine = np.linalg.norm(np.diff(points, axis=0), axis=1).sum()
        name = line.stringer.name
        assert stringer_length_m(boat, name) == pytest.approx(fine, abs=LENGTH_M), name


def test_own_weight_is_the_sum_of_its_parts_and_lies_inside_the_hull(boat):
    weight = own_weight(boat)
    masses = [part.mass_kg for part in weight.parts]
    assert weight.mass_kg == pytest.approx(sum(masses))
    assert min(masses) > 0.0
    moment = sum(part.mass_kg * part.x_m for part in weight.parts)
    assert weight.lcg_m == pytest.approx(moment / weight.mass_kg)
    for part in weight.parts:
        assert 0.0 <= part.x_m <= boat.length_m, part.name
        assert 0.0 <= part.z_m <= boat.sections.z_m.max(), part.name
    assert 0.4 * boat.length_m < weight.lcg_m < 0.6 * boat.length_m
    assert 0.0 < weight.vcg_m < boat.depth_m


def test_every_stringer_frame_and_stem_is_weighed_once(boat):
    names = [part.name for part in own_weight(boat).parts]
    design = boat.design
    for name in (*(one.name for one in design.stringers),
                 *(f"frame {one.name}" for one in design.frames),
                 "bow stem", "stern stem", "skin", "coaming",
                 *(f"spacers {fore.name} to {aft.name}" for fore, aft in pairwise(design.frames)
                   if fore.kind == aft.kind == "cockpit")):
        assert names.count(name) == 1, name


def test_a_stringers_mass_is_its_stock_times_its_arc(boat):
    parts = {part.name: part for part in own_weight(boat).parts}
    for line in boat.lines.lines:
        one = line.stringer
        sticks = 1 if one.role in ("keel", "ridge") else 2
        mass = (sticks * one.width_m * one.depth_m * drawn_length_m(line)
                * WOODS[one.wood].density_kgpm3)
        assert parts[one.name].mass_kg == pytest.approx(mass, rel=1e-3)


def test_stock_does_not_scale(lines):
    """A wider, deeper boat has longer sticks of the same stock."""
    plain, large = (scaled_boat(lines, one) for one in (Scaling(), Scaling(beam=1.1, depth=1.1)))
    before, after = ({part.name: part.mass_kg for part in own_weight(boat).parts}
                     for boat in (plain, large))
    for one in lines.design.stringers:
        per_m = [masses[one.name] / stringer_length_m(boat, one.name)
                 for masses, boat in ((before, plain), (after, large))]
        assert per_m[1] == pytest.approx(per_m[0], rel=1e-9), one.name


def test_longer_boat_weighs_more(lines):
    short, long = (own_weight(scaled_boat(lines, Scaling(length=length))).mass_kg
                   for length in (0.95, 1.05))
    assert long > short


@pytest.mark.parametrize("shift_m", [-0.06, 0.045])
def test_a_slid_seat_weighs_in_as_one_built_there(lines, shift_m):
    there = scaled_boat(lines, Scaling(seat_shift_m=shift_m))
    slid = seat_slid(own_weight(scaled_boat(lines, Scaling())), there)
    built = own_weight(there)
    assert slid.mass_kg == pytest.approx(built.mass_kg, abs=1e-9)
    assert slid.lcg_m == pytest.approx(built.lcg_m, abs=1e-9)
    assert [part.x_m for part in slid.parts] == pytest.approx(
        [part.x_m for part in built.parts], abs=1e-9)
