"""What holds for any load and any size of the shipped bases."""

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.flotation import LEVER_TOLERANCE_M, VOLUME_TOLERANCE, Load, float_at
from sizer.hydro.immersion import full_outline, immersed, up_vectors
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import Water

bounded = settings(max_examples=12, deadline=None,
                   suppress_health_check=[HealthCheck.function_scoped_fixture])
SALT = Water("salt", 15.0, 1025.976, 1.1892e-6)
masses = st.floats(60.0, 160.0)
heights = st.floats(0.12, 0.35)
offsets = st.floats(-0.10, 0.10)  # of the load's centre, in x, from where the base has it


@bounded
@given(mass=masses, height=heights, more=st.floats(0.5, 20.0))
def test_heavier_sinks_deeper(boat, drawn_load, mass, height, more):
    light, heavy = (float_upright(boat.sections, Load(m, drawn_load.lcg_m, height), SALT)
                    for m in (mass, mass + more))
    assert heavy.sinkage_m > light.sinkage_m
    assert heavy.freeboard_m < light.freeboard_m
    assert heavy.rim_freeboard_m < light.rim_freeboard_m


@bounded
@given(mass=masses, factors=st.tuples(st.floats(0.9, 1.12), st.floats(0.9, 1.12)))
def test_a_wider_boat_is_steadier_under_the_same_load(lines, drawn_load, mass, factors):
    narrow, wide = sorted(factors)
    if wide - narrow < 0.005:
        wide = narrow + 0.005
    load = Load(mass, drawn_load.lcg_m, drawn_load.vcg_m)
    gms = [float_upright(scaled_boat(lines, Scaling(beam=beam)).sections, load, SALT).gm_m
           for beam in (narrow, wide)]
    assert gms[1] > gms[0]


@bounded
@given(mass=masses, height=heights, offset=offsets)
def test_settles_at_every_heel_with_weight_over_buoyancy(boat, drawn_load, mass, height, offset):
    heel = np.arange(0.0, 181.0, 10.0)
    centre = np.array([drawn_load.lcg_m + offset, 0.0, height])
    afloat = float_at(boat.sections, Load(mass, centre[0], height), SALT, heel)
    up = up_vectors(heel, afloat.trim_deg)
    wet = immersed(full_outline(boat.sections), up, afloat.level_m)
    volume = mass / SALT.density_kgpm3
    assert wet.volume_m3 == pytest.approx(volume, rel=2 * VOLUME_TOLERANCE)
    ahead = np.array([1.0, 0.0, 0.0]) - up[:, :1] * up
    ahead /= np.linalg.norm(ahead, axis=1)[:, None]
    lever = np.einsum("pi,pi->p", wet.moment_m4 / wet.volume_m3[:, None] - centre, ahead)
    assert np.abs(lever).max() < 2 * LEVER_TOLERANCE_M


@bounded
@given(mass=masses, height=heights)
def test_raising_the_load_lowers_gm_by_as_much(boat, drawn_load, mass, height):
    low, high = (float_upright(boat.sections, Load(mass, drawn_load.lcg_m, z), SALT)
                 for z in (height, height + 0.02))
    # the load's lever along the slightly trimmed hull shifts with height: 0.1 mm
    assert low.gm_m - high.gm_m == pytest.approx(0.02, abs=1e-4)
    assert low.draft_m == pytest.approx(high.draft_m, abs=5e-4)


@bounded
@given(mass=masses, shift=st.floats(0.005, 0.10))
def test_weight_moved_aft_puts_the_stern_deeper(boat, drawn_load, mass, shift):
    before, after = (
        float_upright(boat.sections, Load(mass, drawn_load.lcg_m + x, 0.2), SALT)
        for x in (0.0, shift))
    assert after.trim_deg > before.trim_deg
    assert after.stern_freeboard_m < before.stern_freeboard_m
    assert after.bow_freeboard_m > before.bow_freeboard_m
