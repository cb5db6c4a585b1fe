"""The body in the boat against the plywood as sawn, by intersecting shapes.

Sixty people drawn from the survey with a seed of our own, each base with every seventh of them in
turn, so that each sits in one (all sixty at every base were tried once): legs, seat and skin of
each fitted boat.
"""

from dataclasses import dataclass, replace

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from sizer.crowd.population import Recipe, drawn_people
from sizer.fit.person import drawn_person, person
from sizer.fit.solve import fit_many
from sizer.hull.boat import sections_at
from sizer.hull.seat import sag_m
from sizer.hull.sections import closed_rings
from sizer.paddler.legs import legs_of
from sizer.paddler.measures import Measured
from sizer.shop.boards import sticks_at
from sizer.shop.frames import frame_patterns
from sizer.shop.leg_room import leg_checks
from sizer.shop.seat_parts import boards

PEOPLE, SEED, EVERY = 60, 20260, 7
LEGS_CLEAR_M, SKIN_CLEAR_M = 0.005, 0.012
SEAT_TOP_M = 0.0015
FINE_M = 1e-4


@dataclass(frozen=True)
class Seated:
    """One of the people in the boat fitted to them."""

    fitted: object
    patterns: tuple

    @property
    def boat(self):
        return self.fitted.assessed.boat


@pytest.fixture(scope="module")
def crowd(lines, base_lines):
    first = sorted(base_lines).index(next(n for n, one in base_lines.items() if one is lines))
    drawn = drawn_person(lines.design)
    people = [one.measures for one in drawn_people(Recipe(PEOPLE, SEED))][first % EVERY::EVERY]
    fits = fit_many(lines, [person(Measured(
        one["weight_kg"], one["stature_mm"] / 1e3, one["hip_width_mm"] / 1e3), drawn.use.key,
        drawn.gear_kg, drawn.water) for one in people])
    return [Seated(one, frame_patterns(one.assessed.boat)) for one in fits]


def outline_at(boat, x_m):
    """The skin all round at one place, as a polygon."""
    return Polygon(closed_rings(sections_at(boat, np.array([x_m])))[0])


def height_over(outline, y_m):
    """Lowest height of a shape over a half-breadth."""
    return outline.intersection(LineString([(y_m, -1.0), (y_m, 1.0)])).bounds[1]


def legs_in(seated):
    """The paddler's legs, heels on the skin where the soles are, 70 mm out."""
    assessed, boat = seated.fitted.assessed, seated.boat
    foot_x = boat.seat_x_m - assessed.room.foot_rest_ahead_m
    floor = height_over(outline_at(boat, foot_x), 0.070)
    return legs_of(assessed.person.body, floor - boat.seat_z_m)


def both_legs(legs, ahead_m, seat_z_m):
    oval = legs.outlines_m(np.array([ahead_m]), seat_m=seat_z_m)[0]
    return unary_union([Polygon(oval * (side, 1.0)) for side in (1.0, -1.0)])


def passed(seated):
    """(pattern, legs' shape at one of its faces) of every frame from sitting bones to heels."""
    legs, boat = legs_in(seated), seated.boat
    for pattern in seated.patterns:
        thick = pattern.thickness_m * (1.0 if pattern.reference_face == "forward" else -1.0)
        for face in (pattern.x_m, pattern.x_m + thick):
            ahead = boat.seat_x_m - face
            if legs.ahead_m[0] <= ahead <= legs.heel_m:
                yield pattern, both_legs(legs, ahead, boat.seat_z_m)


def test_legs_that_pass_their_check_clear_the_wood_of_every_frame(crowd):
    met = 0
    for seated in crowd:
        if seated.fitted.check("legs").status == "fail":
            continue
        for pattern, legs in passed(seated):
            met += 1
            assert not legs.intersects(pattern.wood)
            assert legs.distance(pattern.wood) >= LEGS_CLEAR_M - FINE_M, pattern.name
            assert pattern.opening.covers(legs)
    assert met >= 2 * len(crowd)


def test_the_frames_own_check_of_the_legs_measures_the_same(crowd):
    for seated in crowd[:4]:
        told = {check.frame: check.value / 1e3
                for check in leg_checks(seated.patterns, seated.fitted.assessed)}
        found = {}
        for pattern, legs in passed(seated):
            gap = legs.distance(pattern.wood)
            found[pattern.name] = min(gap, found.get(pattern.name, gap))
        assert told == pytest.approx(found, abs=FINE_M)


def test_legs_in_the_wood_are_told_by_how_far(crowd):
    """Lowered into the floor, so far as the legs were clear before and 20 mm more."""
    seated = crowd[0]
    assessed, boat = seated.fitted.assessed, seated.boat
    low = replace(assessed, boat=replace(boat, seat=replace(
        boat.seat, top_m=boat.seat_z_m - 0.060)))
    failed = [check for check in leg_checks(seated.patterns, low) if check.status == "fail"]
    assert failed
    assert all(-60.0 < check.value <= 5.0 for check in failed)


def near(boat, patterns, x_m, count=3):
    return sorted(patterns, key=lambda one: abs(one.x_m - x_m))[:count]


def through(places, values, x_m):
    """The curve of lowest degree through some frames' values, at a place between them."""
    return float(np.polyval(np.polyfit(np.asarray(places) - x_m, values, len(places) - 1), 0.0))


def panel_under_m(boat, patterns, sit_x_m, y_m):
    """Straight from the keel's inner corner to the middle of each chine's inner face, off the
    stock in the frames' notches, carried to the sitting place."""
    frames = near(boat, patterns, sit_x_m)
    rests = []
    for name in boat.design.seat.stands_on:
        found = []
        for pattern in frames:
            notch = next(one for one in pattern.section.notches if one.stringer == name)
            inner = np.asarray(notch.stock().exterior.coords)[2:4]
            found.append(inner[inner[:, 0].argmax()] if notch.central else inner.mean(axis=0))
        rests.append([through([one.x_m for one in frames], column, sit_x_m)
                      for column in np.array(found).T])
    rests = [*rests, (rests[-1][0] + 0.05, rests[-1][1])]
    top = Polygon([*rests, (rests[-1][0], 1.0), (rests[0][0], 1.0)])
    return height_over(top, y_m)


def slats_under_m(boat, patterns, sit_x_m, y_m):
    """Straight from floor to floor of the two frames as sawn."""
    stands = [one for one in patterns if one.name in boat.design.seat.stands_on]
    floors = [height_over(one.opening, y_m) for one in stands]
    return through([one.x_m for one in stands], floors, sit_x_m)


def test_the_seats_top_is_what_the_frames_and_sticks_hold_up(crowd):
    under = {"panel": panel_under_m, "slats": slats_under_m}
    for seated in crowd:
        boat, seat = seated.boat, seated.boat.design.seat
        sit_x = boat.seat_x_m - 0.100
        top = under[seat.kind](boat, seated.patterns, sit_x, 0.065) + seat.thickness_m
        assert boat.seat_z_m == pytest.approx(top, abs=SEAT_TOP_M)
        built = max(Polygon(board.section_m).intersection(
            LineString([(0.065, -1.0), (0.065, 1.0)])).bounds[3] for board in boards(boat)
            if board.section_m[:, 0].min() <= 0.065 <= board.section_m[:, 0].max())
        assert boat.seat_z_m == pytest.approx(built, abs=SEAT_TOP_M)


def test_the_seat_with_the_paddler_on_it_keeps_clear_of_the_skin(crowd):
    """Between its rests less all it sags at midspan; past the outermost, where a panel lies on its
    stick and sags no more, as it is."""
    for seated in crowd:
        if seated.fitted.check("seat-clear").status == "fail":
            continue
        boat, seat = seated.boat, seated.boat.design.seat
        sag = sag_m(seat, boat.seat.span_m, seated.fitted.assessed.person.body.weight_kg)
        for x in np.linspace(boat.seat_x_m - seat.length_m, boat.seat_x_m, 6):
            skin = outline_at(boat, x).exterior
            wood = unary_union([Polygon(one.section_m) for one in boards(boat, x)])
            free = wood.difference(sticks_at(boat, x))  # bevelled to lie on the sticks
            assert free.distance(skin) >= SKIN_CLEAR_M - FINE_M
            rest = np.interp(x, boat.seat.x_m, boat.seat.half_m[:, -1])
            assert free.intersection(box(0.0, -1.0, rest, 1.0)).distance(
                skin) - sag >= SKIN_CLEAR_M - FINE_M


def test_slats_lie_on_the_floors_as_sawn_beside_the_notches(crowd):
    """No wood of either frame stands in a slat, and none is far below one."""
    for seated in crowd:
        boat = seated.boat
        if boat.design.seat.kind != "slats":
            continue
        for pattern in seated.patterns:
            if pattern.name in boat.design.seat.stands_on:
                for board in boards(boat, pattern.x_m):
                    slat = Polygon(board.section_m)
                    assert slat.intersection(pattern.wood).area < 5e-6  # a tenth of a mm deep
                    assert slat.distance(pattern.wood) < 5e-4
