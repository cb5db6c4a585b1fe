"""Drag against published and independently computed values.

Friction: printed table and worked example of the ITTC-57 line (Tupper, Introduction to Naval
Architecture, Table 8.3; Morrall, NPL Ship Report 142, 1970). Waves: Michell's integral for the
parabolic hull, worked out to five figures by closed form and by 30-digit quadrature.
"""

from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad

from sizer.errors import BadInput
from sizer.hydro.drag import (
    EFFORTS_W,
    FORM_FACTOR,
    drag_curve,
    drag_sections,
    friction_coefficient,
    pace,
    wetted,
)
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.hydro.waves import under_water, wave_drag_N
from sizer.units import KN_PER_MPS, STANDARD_GRAVITY_MPS2

SEA = water_at("salt", 15.0)
WETTED_SHARE = 0.148791  # of length squared, this hull at L/B 10, B/T 1.6
PRINTED_FRICTION = {1e5: 8.333, 5e5: 5.482, 1e6: 4.688, 5e6: 3.397, 1e7: 3.000, 5e7: 2.309,
                    5e8: 1.671}
WAVE_COEFFICIENT = {0.20: 0.8876, 0.25: 1.0639, 0.30: 2.1417, 0.35: 1.2479, 0.40: 2.7339,
                    0.45: 4.1543}


@pytest.mark.parametrize(("reynolds", "printed"), PRINTED_FRICTION.items())
def test_friction_matches_printed_ittc57_table(reynolds, printed):
    assert 1000.0 * float(friction_coefficient(reynolds)) == pytest.approx(printed, abs=6e-4)


def test_friction_matches_morralls_worked_example():
    assert 1000.0 * float(friction_coefficient(5.62e6)) == pytest.approx(3.325, abs=6e-4)


@pytest.mark.parametrize("reynolds", [9e4, 2e10, float("nan")])
def test_friction_refuses_what_no_table_covers(reynolds):
    with pytest.raises(BadInput):
        friction_coefficient(reynolds)


def coefficients(parabolic, count, points):
    """1000 C_w of the parabolic hull 5 m long at the tabled Froude numbers."""
    length, beam = 5.0, 0.5
    hull = under_water(parabolic(length, beam, beam / 1.6, 0.2, count, points), beam / 1.6, 0.0)
    speeds = np.array(list(WAVE_COEFFICIENT)) * np.sqrt(STANDARD_GRAVITY_MPS2 * length)
    pressure = 0.5 * SEA.density_kgpm3 * speeds**2 * WETTED_SHARE * length**2
    return 1000.0 * wave_drag_N(hull, SEA, speeds) / pressure


def test_waves_match_michells_integral_to_half_a_percent(parabolic):
    found = coefficients(parabolic, 401, 121)
    assert found == pytest.approx(list(WAVE_COEFFICIENT.values()), rel=0.005)


def test_waves_converge_with_the_square_of_the_spacing(parabolic):
    """Each halving of both spacings takes the change down about fourfold."""
    found = [coefficients(parabolic, count, points)
             for count, points in ((26, 16), (51, 31), (101, 61), (201, 121))]
    changes = [np.abs(fine / coarse - 1.0).max()
               for coarse, fine in pairwise(found)]
    assert 3.0 < changes[0] / changes[1] < 5.5
    assert 3.0 < changes[1] / changes[2] < 5.5


def test_waves_agree_with_straightforward_quadrature(parabolic):
    """The same integral by scipy for one speed, with the closed source integrals of this hull.

    y = (B/2)(1 - s^2)(1 - (z/T)^2), s = 2x/L: int dy/dx e^(ikl x) dx by parts in closed form.
    """
    length, beam, draft, speed = 5.0, 0.5, 0.3125, 2.2
    k = STANDARD_GRAVITY_MPS2 / speed**2

    def power(lam):
        p, q = 0.5 * k * lam * length, k * lam**2 * draft
        along = 4.0 * beam / length * (0.5 * length) * (np.sin(p) - p * np.cos(p)) / p**2
        # int from -T to 0 of (1 - (z/T)^2) e^(q z / T) dz
        deep = draft * (1.0 / q - 2.0 / q**3 + 2.0 * np.exp(-q) * (1.0 / q**2 + 1.0 / q**3))
        return (along * deep) ** 2

    whole = quad(lambda u: power(np.cosh(u)) * np.cosh(u) ** 2, 0.0, 6.0, limit=400)[0]
    drag = 4.0 * SEA.density_kgpm3 * STANDARD_GRAVITY_MPS2**2 / (np.pi * speed**2) * whole
    hull = under_water(parabolic(length, beam, draft, 0.2, 401, 121), draft, 0.0)
    assert float(wave_drag_N(hull, SEA, np.array([speed]))[0]) == pytest.approx(drag, rel=0.005)


def test_kayak_sized_bracket_without_form_factor(parabolic):
    """Friction and Michell on a parabolic hull 4.90 x 0.52 m, 110 kg, sea at 15 degrees:
    4.2, 9.1, 17.1, 24.8 N at 2 to 5 knots (computed; checks arithmetic, not truth)."""
    length, beam = 4.90, 0.52
    draft = 110.0 / SEA.density_kgpm3 * 9.0 / (4.0 * length * beam)
    sections = parabolic(length, beam, draft, 0.2, 401, 121)
    hull = wetted(sections, float_upright(sections, Load(110.0, length / 2.0, 0.2), SEA), SEA)
    assert hull.area_m2 == pytest.approx(2.06, abs=0.005)
    curve = drag_curve(hull, np.array([2.0, 3.0, 4.0, 5.0]) / KN_PER_MPS)
    plain = curve.friction_N / FORM_FACTOR + curve.wave_N
    assert plain == pytest.approx([4.2, 9.1, 17.1, 24.8], abs=0.06)


def test_every_base_is_in_the_bracket_for_a_single(boat, drawn_load):
    """Drag over speed squared at 3 knots is about 3 to 6 N s2/m2 (computed bracket)."""
    particulars = float_upright(boat.sections, drawn_load, SEA)
    hull = wetted(drag_sections(boat), particulars, SEA)
    speed = 3.0 / KN_PER_MPS
    curve = drag_curve(hull, [speed])
    assert 3.0 < curve.total_N[0] / speed**2 < 6.0
    found = pace(hull)
    assert list(found.speed_mps) == sorted(found.speed_mps)
    for effort, at in zip(EFFORTS_W, found.speed_mps, strict=True):
        assert drag_curve(hull, [at]).effort_w[0] == pytest.approx(effort, rel=0.01)


@pytest.mark.parametrize("speeds", [[], [0.1], [5.0], [float("nan")]])
def test_speeds_out_of_range_are_refused(parabolic, speeds):
    sections = parabolic(5.0, 0.5, 0.3, 0.2)
    hull = wetted(sections, float_upright(sections, Load(200.0, 2.5, 0.1), SEA), SEA)
    with pytest.raises(BadInput, match="speeds_mps"):
        drag_curve(hull, speeds)
