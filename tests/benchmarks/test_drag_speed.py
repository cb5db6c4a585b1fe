"""How long drag and the table of small changes take, beside plain scipy quadrature in the same run.

Run with `.venv/bin/python -m pytest tests/benchmarks`; nothing here asserts a time.
"""

import numpy as np
import pytest
from scipy.integrate import quad

from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.sensitivity import sensitivity
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.drag import drag_curve, drag_sections, pace, wetted
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.hydro.waves import sources_m2, wave_drag_N
from sizer.units import STANDARD_GRAVITY_MPS2

WATER = water_at("salt", 10.0)
SPEEDS_MPS = np.linspace(0.3, 4.0, 20)
QUAD_SPEEDS_MPS = SPEEDS_MPS[SPEEDS_MPS > 1.0]  # plain quadrature takes minutes below


@pytest.fixture(scope="module")
def boat(base_lines):
    return scaled_boat(base_lines["day-boat"], Scaling())


@pytest.fixture(scope="module")
def at_rest(boat):
    return float_upright(boat.sections, Load(115.0, 2.35, 0.28), WATER)


@pytest.fixture(scope="module")
def hull(boat, at_rest):
    return wetted(drag_sections(boat), at_rest, WATER)


def test_drag_curve_of_20_speeds_from_the_boat(benchmark, boat, at_rest):
    benchmark.group = "drag curve"

    def curve():
        return drag_curve(wetted(drag_sections(boat), at_rest, WATER), SPEEDS_MPS)
    assert np.all(benchmark(curve).total_N > 0.0)


def test_wave_drag_of_16_speeds(benchmark, hull):
    benchmark.group = "wave drag at 16 speeds over 1 m/s"
    assert np.all(benchmark(wave_drag_N, hull.under, WATER, QUAD_SPEEDS_MPS) > 0.0)


def quad_wave_drag_N(hull, speed):
    """Michell's integral as one would write it: quad outside, the trapezoid rule along x inside."""
    k = STANDARD_GRAVITY_MPS2 / speed**2
    x = hull.x_m

    def integrand(u):
        across = np.cosh(u)
        source = sources_m2(hull, [k * across**2])[0]
        return abs(k * across**2 * np.trapezoid(source * np.exp(1j * k * across * x), x)) ** 2
    whole = quad(integrand, 0.0, 3.0, epsrel=1e-3, limit=500)[0]
    return 4.0 * WATER.density_kgpm3 * STANDARD_GRAVITY_MPS2 * k / np.pi * whole


def test_wave_drag_of_16_speeds_by_scipy_quad(benchmark, hull):
    benchmark.group = "wave drag at 16 speeds over 1 m/s"

    def curve():
        return np.array([quad_wave_drag_N(hull.under, speed) for speed in QUAD_SPEEDS_MPS])
    plain = benchmark.pedantic(curve, rounds=1)
    # the plain rule along x is 1.5 % off at the slowest of these speeds
    assert plain == pytest.approx(wave_drag_N(hull.under, WATER, QUAD_SPEEDS_MPS), rel=0.02)


def test_pace_at_three_efforts(benchmark, hull):
    benchmark.group = "pace at three efforts"
    assert None not in benchmark(pace, hull).speed_mps


def test_sensitivity_table(benchmark, base_lines):
    benchmark.group = "sensitivity table"
    person = person_of(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 82.0, "stature_mm": 1760, "hip_width_mm": 395}}))
    table = benchmark(sensitivity, base_lines["day-boat"], Scaling(), person)
    assert len(table.changes) == 5
