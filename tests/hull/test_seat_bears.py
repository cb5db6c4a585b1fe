"""What bears the seat, against beams and sections worked out by hand or added up from bits."""

from types import SimpleNamespace

import numpy as np
import pytest

from sizer.design.read import read_design
from sizer.design.records import SIT_AHEAD_M, Seat
from sizer.design.woods import WOODS
from sizer.fit.assess import assess
from sizer.fit.checks import BY_KEY, checks_of
from sizer.fit.facts import facts_of
from sizer.fit.person import drawn_person, person
from sizer.fit.solve import fit
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.seat_bears import RUNS_ON, bears_ratio, bent_m, shares
from sizer.paddler.measures import Measured
from tests.hull.test_seat import CORNERS, chine_inner_face_m

GRAVITY = 9.80665
FRAMES_M, THICK_M = np.array([1.60, 2.00, 2.565, 3.00]), 0.012
SEAT_X_M, SEAT_LONG_M = 2.45, 0.33


def prism(kind="panel", stands_on=("keel", "chine"), keel=("western red cedar", 0.020, 0.018),
          chine=("western red cedar", 0.019, 0.022)):
    """What of a boat with one section all along bears a seat; sticks as wood, width, depth."""
    sticks = {name: SimpleNamespace(name=name, wood=wood, width_m=wide, depth_m=deep)
              for name, (wood, wide, deep) in (("keel", keel), ("chine", chine))}
    design = SimpleNamespace(
        seat=Seat(kind, 0.012, 0.30, SEAT_LONG_M, stands_on, 0.015), stringer=sticks.get,
        frames=[SimpleNamespace(name=name, thickness_m=THICK_M) for name in "ABCD"])
    hull_sticks = {"keel": (0, keel[2]), "chine": (1, chine[2])}
    return SimpleNamespace(design=design, lines=SimpleNamespace(hull_sticks=hull_sticks),
                           frame_x_m=FRAMES_M, seat_x_m=SEAT_X_M)


def simple_moment_nm(span_m, start_m, patch_m, force_n):
    """Greatest moment of a beam under many small loads side by side, one added to the other."""
    x = np.linspace(0.0, span_m, 4001)
    moment = np.zeros_like(x)
    loads = 2000
    for at in start_m + (np.arange(loads) + 0.5) * patch_m / loads:
        part = force_n / loads
        moment += np.where(x < at, part * (span_m - at) / span_m * x,
                           part * at / span_m * (span_m - x))
    return moment.max()


def leaning_stress_pa(wide_m, deep_m, lean, moment_nm):
    """Greatest stress of a leaning stick under a load straight down, by its section cut up small:
    it bends about both its own axes, the neutral line where that leaves it."""
    out, up = (np.linspace(-0.5, 0.5, 401)[:, None] * wide_m,
               np.linspace(-0.5, 0.5, 401)[None, :] * deep_m)
    area = np.ones((401, 401)) / 401**2 * wide_m * deep_m
    stress = (moment_nm * np.cos(lean) * up / (area * up**2).sum()
              + moment_nm * np.sin(lean) * out / (area * out**2).sum())
    return np.abs(stress).max()


def test_a_keel_bears_what_its_summed_up_beam_bears():
    """A keel of wet cedar breaks at 0.8 x 35.9 N/mm2; 20 x 18 mm hold 31.0 Nm at that."""
    span = FRAMES_M[2] - FRAMES_M[1] - THICK_M
    whole = 2.0 * 0.8 * 80.0 * GRAVITY
    keel = 1.0 - 0.065 / chine_inner_face_m()[0]
    moment = 0.7 * simple_moment_nm(
        span, SEAT_X_M - SEAT_LONG_M - FRAMES_M[1] - THICK_M, SEAT_LONG_M, keel * whole)
    holds = 0.8 * 35.9e6 * 0.020 * 0.018**2 / 6.0
    assert holds == pytest.approx(31.0, abs=0.05)
    assert bears_ratio(prism(), 80.0, CORNERS)[0] == pytest.approx(holds / moment, rel=1e-4)


def test_a_chine_bends_both_ways_under_a_load_straight_down():
    """The keel of ash as deep as a hand is broad, so that the chine breaks first."""
    strong = ("white ash", 0.030, 0.080)
    y, z = chine_inner_face_m()
    lean = np.arctan2(CORNERS[1, 0] - y, z - CORNERS[1, 1])
    span = FRAMES_M[2] - FRAMES_M[1] - THICK_M
    one_side = 0.5 * 2.0 * 0.8 * 80.0 * GRAVITY * 0.065 / y
    moment = 0.7 * simple_moment_nm(
        span, SEAT_X_M - SEAT_LONG_M - FRAMES_M[1] - THICK_M, SEAT_LONG_M, one_side)
    stress = leaning_stress_pa(0.019, 0.022, lean, moment)
    assert bears_ratio(prism(keel=strong), 80.0, CORNERS)[1] == pytest.approx(
        0.8 * 35.9e6 / stress, rel=6e-3)


def test_a_plate_is_a_beam_from_the_keels_edge_to_the_chine_under_one_bone():
    """12 mm, 200 of it along the boat; three plies of five along the grain, cut up small, of wet
    wood that breaks at 0.8 x 36 N/mm2."""
    up = (np.arange(5000) + 0.5) / 5000 - 0.5
    along = np.isin(np.floor((up + 0.5) * 5.0), (0, 2, 4))
    share = (up[along] ** 2).sum() / (up**2).sum()
    span = chine_inner_face_m()[0] - 0.010
    moment = simple_moment_nm(span, 0.065 - 0.010 - 0.050, 0.100, 2.0 * 0.8 * 80.0 * GRAVITY / 2.0)
    holds = 0.8 * share * 36.0e6 * 0.200 * 0.012**2 / 6.0
    assert bears_ratio(prism(), 80.0, CORNERS)[-1] == pytest.approx(holds / moment, rel=1e-3)
    assert len(bears_ratio(prism(), 80.0, CORNERS)) == 3


def test_slats_are_beams_that_end_at_their_two_frames():
    """0.7 of 300 mm, 12 thick, of cedar; the one under a bone bears a quarter more."""
    moment = simple_moment_nm(FRAMES_M[2] - FRAMES_M[1] - THICK_M,
                              SEAT_X_M - SEAT_LONG_M - FRAMES_M[1] - THICK_M, SEAT_LONG_M,
                              2.0 * 0.8 * 80.0 * GRAVITY)
    holds = 0.8 * 35.9e6 * 0.7 * 0.300 * 0.012**2 / 6.0 / 1.25
    assert bears_ratio(prism("slats", ("B", "C")), 80.0, CORNERS) == pytest.approx(
        holds / moment, rel=1e-4)


def test_a_sling_and_wood_of_unknown_strength_have_nothing_to_measure():
    assert np.isnan(bears_ratio(prism("sling", ("B", "C")), 80.0, CORNERS)).all()
    assert np.isnan(bears_ratio(prism(keel=("okoume plywood", 0.020, 0.018)), 80.0, CORNERS)[0])


def test_a_seat_over_a_frame_bends_each_span_by_its_own_share():
    """A patch from mid-span to mid-span over a support: half the load on the near half of each."""
    start, end = np.array([0.0, 0.6]), np.array([0.6, 1.2])
    both = bent_m(start, end, 0.3, 0.9)
    assert both == pytest.approx([simple_moment_nm(0.6, 0.3, 0.3, 0.5)] * 2, rel=1e-4)
    assert bent_m(0.0, 0.6, 0.3 - 1e-9, 0.3 + 1e-9) == pytest.approx(0.6 / 4.0)  # F l / 4
    assert bent_m(0.0, 0.6, 0.0, 0.6) == pytest.approx(0.6 / 8.0)  # F l / 8


def test_the_bones_weight_goes_to_the_two_sticks_beside_them():
    """65 mm off in a bay of 239: what a boatbuilder reckoned by the lever, 73 % on the keel."""
    assert shares(np.array([0.0, 0.239])) == pytest.approx([0.728, 0.272], abs=5e-4)
    assert shares(np.array([0.0, 0.130, 0.210])) == pytest.approx([0.5, 0.5, 0.0])
    assert shares(np.array([0.0, 0.050, 0.080])) == pytest.approx([0.0, 0.5, 0.5])
    assert shares(np.array([0.0, 0.040])) == pytest.approx([0.0, 1.0])


def test_a_thin_keel_under_a_seated_paddler_has_the_stress_that_a_boatbuilder_reckoned():
    """75 kg sitting still on 20 x 18 mm, 553 mm between frames: 39 Nm, 36 N/mm2, a simple beam."""
    moment = 0.8 * 75.0 * GRAVITY * 0.728 * bent_m(0.0, 0.553, 0.1115, 0.4415)
    assert moment == pytest.approx(39.0, rel=0.08)
    assert moment / (0.020 * 0.018**2 / 6.0) / 1e6 == pytest.approx(36.0, rel=0.08)


def frames_beam_moment_nm(supports_m, front_m, back_m):
    """Greatest moment, per force on the patch, of one beam over stiff supports: slopes and
    deflections of many small pieces (stiffness 1), the supports held."""
    x = np.unique(np.concatenate([supports_m, np.linspace(supports_m[0], supports_m[-1], 1201)]))
    stiff, load = np.zeros((2 * x.size, 2 * x.size)), np.zeros(2 * x.size)
    pieces = []
    for at, long in enumerate(np.diff(x)):
        piece = np.array([[12, 6 * long, -12, 6 * long],
                          [6 * long, 4 * long**2, -6 * long, 2 * long**2],
                          [-12, -6 * long, 12, -6 * long],
                          [6 * long, 2 * long**2, -6 * long, 4 * long**2]]) / long**3
        rows = slice(2 * at, 2 * at + 4)
        stiff[rows, rows] += piece
        inside = front_m <= 0.5 * (x[at] + x[at + 1]) <= back_m
        force = long / (back_m - front_m) * inside
        load[2 * at] += 0.5 * force
        load[2 * at + 2] += 0.5 * force
        pieces.append((rows, piece))
    held = 2 * np.searchsorted(x, supports_m)
    free = np.setdiff1d(np.arange(2 * x.size), held)
    moved = np.zeros(2 * x.size)
    moved[free] = np.linalg.solve(stiff[np.ix_(free, free)], load[free])
    return max(abs((piece @ moved[rows])[[1, 3]]).max() for rows, piece in pieces)


def test_running_on_is_told_on_the_safe_side(lines):
    """Stiff frames that only hold the stick up and down leave less bending than is reckoned with;
    a beam that ends at both frames has more."""
    boat = scaled_boat(lines, Scaling())
    front, back = boat.seat_x_m - lines.design.seat.length_m, boat.seat_x_m
    thick = np.array([frame.thickness_m for frame in lines.design.frames])
    alone = bent_m(boat.frame_x_m[:-1] + thick[:-1], boat.frame_x_m[1:], front, back).max()
    over = frames_beam_moment_nm(boat.frame_x_m + 0.5 * thick, front, back)
    assert 0.5 * alone < over < RUNS_ON * alone < alone


def fitted(lines, weight_kg, stature_m, hip_width_m):
    drawn = drawn_person(lines.design)
    return fit(lines, person(Measured(weight_kg, stature_m, hip_width_m), drawn.use.key,
                             drawn.gear_kg, drawn.water), explained=False)


def drawn_check(lines):
    checks = checks_of(facts_of(assess(lines, Scaling(), drawn_person(lines.design), 61)))
    return next(check for check in checks if check.key == "seat-bears")


def test_every_base_bears_whom_it_is_drawn_for(lines):
    assert drawn_check(lines).status == "pass"


def test_a_thin_keel_of_cedar_fails_and_the_words_say_what_mends_it(base_texts):
    text = base_texts["surf-runner"].replace(
        'width_mm = 25\ndepth_mm = 22\nwood = "Douglas-fir"',
        'width_mm = 20\ndepth_mm = 18\nwood = "western red cedar"')
    assert text != base_texts["surf-runner"]
    check = drawn_check(fair_lines(read_design(text, "thin")))
    assert (check.status, check.too) == ("fail", "small")
    assert "stronger wood" in check.remedy


@pytest.mark.parametrize("base", ["load-carrier", "steady-boat"])
def test_large_bases_bear_heavy_paddlers(base, base_lines):
    assert fitted(base_lines[base], 110.0, 1.90, 0.44).status == "pass"


def test_the_search_makes_no_other_boat_for_the_sake_of_its_sticks(base_lines, monkeypatch):
    """Stouter sticks mend it: a flatter boat would too, and must not be found for it."""
    lines = base_lines["small-cruiser"]
    weak = fitted(lines, 76.0, 1.75, 0.39)
    monkeypatch.setattr("sizer.fit.assess.bears_ratio", lambda *_: np.array([9.0]))
    strong = fitted(lines, 76.0, 1.75, 0.39)
    assert [weak.check("seat-bears").status, strong.check("seat-bears").status] == [
        "caution", "pass"]
    assert weak.assessed.boat.scaling == strong.assessed.boat.scaling


def test_twice_the_weight_is_borne_half_as_well(boat):
    sit = np.array([boat.seat_x_m - SIT_AHEAD_M])
    near = np.abs(boat.sections.x_m - sit).argmin()
    skin = np.stack([boat.sections.y_m[near], boat.sections.z_m[near]], axis=-1)
    light, heavy = (bears_ratio(boat, kg, skin) for kg in (50.0, 100.0))
    assert light == pytest.approx(2.0 * heavy)
    assert (heavy > 0.0).all()


def test_wet_wood_is_weaker_than_dry():
    for wood in WOODS.values():
        if wood.rupture_stress_mpa is not None:
            assert 0.45 < wood.wet_rupture_stress_mpa / wood.rupture_stress_mpa < 0.75


def test_it_is_wanted_with_the_margin_of_nine_pieces_in_ten():
    """One in ten of a normal spread is 1.28 standard deviations under its mean: 1 - 0.205."""
    assert BY_KEY["seat-bears"].wanted_from(None) == pytest.approx(1.0 / 0.795, abs=2e-3)


def test_it_fails_where_a_usual_piece_breaks_without_the_margins():
    """Three margins of the model undone: 0.6 for 0.7, and twice 1.15."""
    assert BY_KEY["seat-bears"].fails_below(None) == pytest.approx(
        0.6 / 0.7 / 1.15**2, abs=0.01)
