"""The seat's height and clearance against drawings worked out by hand on a prism of a boat."""

from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest

from sizer.design.records import Seat
from sizer.hull.inside import FLOOR_M, squares
from sizer.hull.seat import SIT_APART_M, clear_of_skin_m, sag_m, seat_kg, seat_place
from sizer.hull.sections import Sections

# Keel, chine, gunwale, ridge of a boat with one section all along: bottom 70 up over 250 out.
CORNERS = np.array([(0.0, 0.0), (0.250, 0.070), (0.300, 0.250), (0.0, 0.280)])
KEEL_M, CHINE_M = (0.028, 0.020), (0.019, 0.022)  # width and depth of stock
FRAMES_M = (1.90, 2.50)
SEAT_X_M = 2.40


def prism():
    x = np.linspace(0.0, 4.0, 9)
    ones = np.ones((9, 1))
    return Sections(x, ones * CORNERS[:, 0], ones * CORNERS[:, 1], sheer=2)


def place_of(kind, stands_on, thickness_m=0.006, width_m=0.32, length_m=0.33, clear_m=0.015):
    seat = Seat(kind, thickness_m, width_m, length_m, stands_on, clear_m)
    keel = SimpleNamespace(name="keel", width_m=KEEL_M[0], depth_m=KEEL_M[1])
    design = SimpleNamespace(
        seat=seat, stringers=(keel,), stringer={"keel": keel}.get,
        frames=[SimpleNamespace(name="A"), SimpleNamespace(name="B")])
    sticks = {"keel": (0, KEEL_M[1]), "chine": (1, CHINE_M[1])}
    return design, seat_place(design, prism(), np.array(FRAMES_M), sticks, SEAT_X_M)


def chine_inner_face_m():
    """Middle of the chine's inner face: in along the bisector of the angle at the corner."""
    keel, chine, gunwale = (complex(*corner) for corner in CORNERS[:3])
    towards = (keel - chine) / abs(keel - chine) + (gunwale - chine) / abs(gunwale - chine)
    inner = chine + CHINE_M[1] * towards / abs(towards)
    return inner.real, inner.imag


def test_panel_lies_straight_from_keel_to_chine():
    design, place = place_of("panel", ("keel", "chine"))
    y, z = chine_inner_face_m()
    share = (SIT_APART_M - KEEL_M[0] / 2) / (y - KEEL_M[0] / 2)
    assert place.top_m == pytest.approx(KEEL_M[1] + share * (z - KEEL_M[1]) + 0.006, abs=1e-9)
    # square to the skin, whose bottom rises 70 in 250, the panel is nearest at the keel or chine
    slope = np.hypot(70.0, 250.0) / 250.0
    gaps = [(KEEL_M[1] + (z - KEEL_M[1]) * s - 0.28 * (KEEL_M[0] / 2 + (y - KEEL_M[0] / 2) * s))
            / slope for s in np.linspace(0.0, 1.0, 200)]
    assert clear_of_skin_m(design, place, 0.0) == pytest.approx(min(gaps), abs=4e-4)


def test_a_stick_that_others_have_blended_into_lies_as_if_they_were_not_there():
    """Bottom and side of the prism make an angle at its chine, which the stick halves."""
    alone = squares(CORNERS, 3)
    blended = squares(np.insert(CORNERS, 1, CORNERS[[1, 1]], axis=0), 5)
    bottom, side = (np.arctan2(*(end - start)[::-1]) for start, end in pairwise(
        CORNERS[:3]))
    middle = 0.5 * (bottom + side) + 0.5 * np.pi
    assert blended[1:4] == pytest.approx(np.tile([np.cos(middle), np.sin(middle)], (3, 1)))
    assert blended[[0, 1, 4]] == pytest.approx(alone)


def test_slats_lie_a_floors_width_off_the_skin():
    design, place = place_of("slats", ("A", "B"), thickness_m=0.012)
    slope = np.hypot(70.0, 250.0) / 250.0
    assert place.top_m == pytest.approx(0.28 * SIT_APART_M + FLOOR_M * slope + 0.012, abs=1e-6)
    assert clear_of_skin_m(design, place, 0.0) == pytest.approx(FLOOR_M, abs=1e-6)
    assert place.span_m == pytest.approx(FRAMES_M[1] - FRAMES_M[0])


def test_sling_hangs_as_far_off_the_skin_as_drawn_and_over_the_keel():
    _, place = place_of("sling", ("A", "B"), thickness_m=0.003, clear_m=0.015)
    assert place.top_m == pytest.approx(0.28 * SIT_APART_M + 0.015 + 0.003, abs=1e-9)
    _, low = place_of("sling", ("A", "B"), thickness_m=0.003, clear_m=0.002)
    assert low.top_m == pytest.approx(KEEL_M[1] + 0.006 + 0.003, abs=1e-9)


def test_sag_is_the_bent_line_of_an_evenly_laden_beam():
    """Slope and line summed up from M / (E I) along the slats, not from the formula."""
    seat = Seat("slats", 0.012, 0.30, 0.40, ("A", "B"), 0.015)
    span, weight = 0.45, 0.8 * 80.0 * 9.80665
    x = np.linspace(0.0, span, 20001)
    bending = weight / 2 * x - weight / span * x**2 / 2
    stiff = 7.7e9 * (0.7 * 0.30) * 0.012**3 / 12
    step = x[1] - x[0]
    slope = np.concatenate([[0.0], np.cumsum((bending[1:] + bending[:-1]) / 2)]) * step / stiff
    line = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2)]) * step
    chord = line[-1] * x / span
    assert sag_m(seat, span, 80.0) == pytest.approx((chord - line).max(), rel=1e-4)


def test_a_heavier_paddler_bends_the_seat_nearer_to_the_skin():
    design, place = place_of("panel", ("keel", "chine"))
    light, heavy = (clear_of_skin_m(design, place, kg) for kg in (50.0, 130.0))
    assert light > heavy > 0.0


def test_seat_weighs_what_its_stuff_weighs():
    design, place = place_of("panel", ("keel", "chine"))
    chine_y, _ = chine_inner_face_m()
    assert seat_kg(design, place) == pytest.approx(
        2.0 * chine_y * 0.33 * 0.006 * 450.0 + 0.15 + 0.35)
