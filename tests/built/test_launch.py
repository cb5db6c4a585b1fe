"""What a launch teaches, from trials made up with a triangle mesh instead of the engine."""

import os
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from sizer.built.bias import Off, offs_of, over_plain, shop_bias, shop_biases
from sizer.built.departures import expected
from sizer.built.heights import heights_expected
from sizer.built.learnt import gm_spread_m, lesson
from sizer.built.steadiness import first_trial
from sizer.built.trial import MOST_HEEL_DEG, Freeboards, Heeled, Trial, gm_of_reading_m, read_trial
from sizer.built.trial_weights import heels_at_gm_deg, trial_place, trial_weights
from sizer.design.library import read_base
from sizer.errors import BadInput, NotSolved
from sizer.fit.assess import assess_boat
from sizer.fit.loading import together
from sizer.fit.person import drawn_person
from sizer.fit.shop_bias import ShopBias
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.sections import half_section_at
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from tests.conftest import BASE_NAMES
from tests.hydro.test_against_mesh import closed_mesh, under_water, up_of

TRIALS = int(os.environ.get("SIZER_TRIALS", "4"))
WEIGHTS = ((0.8, 0.25), (0.8, -0.25), (0.6, 0.25), (0.6, -0.25), (1.0, 0.20))  # kg, m


def test_gm_of_reading_matches_the_worked_example():
    """25 t shifted 15 m in 8000 t, plumb line of 4 m deflected 0.20 m: GM 0.94 m.

    Barrass and Derrett, Ship Stability, first example of the inclining experiment; from memory.
    """
    heel = np.degrees(np.arctan(0.20 / 4.0))
    assert round(float(gm_of_reading_m(25.0, 15.0, 8000.0, heel)), 2) == 0.94
    with pytest.raises(BadInput, match="above 0"):
        gm_of_reading_m(25.0, 15.0, 8000.0, 0.0)


@pytest.fixture(scope="module")
def assessed():
    boat = scaled_boat(fair_lines(read_base("day-boat")), Scaling())
    return assess_boat(boat, drawn_person(boat.design), seat_held=True)


@pytest.fixture(scope="module")
def mesh(assessed):
    return closed_mesh(scaled_boat(assessed.boat.lines, Scaling(), 61).sections)


def heel_by_mesh(mesh, loads, density, start, most=MOST_HEEL_DEG + 1.0):
    """Heel at which the mesh rests under loads (kg, x, y, z), at the trim of the start.

    Infinite where it does not come up again from `most` degrees.
    """
    level, trim = start
    mass = sum(one[0] for one in loads)
    centre = sum(one[0] * np.array(one[1:]) for one in loads) / mass

    def arm(heel):
        up = up_of(heel, trim)
        plane = brentq(lambda at: under_water(mesh, up, at)[0] * density - mass,
                       0.4 * level, 2.5 * level, xtol=1e-6)
        _, buoyant = under_water(mesh, up, plane)
        across = np.cross(up, (1.0, 0.0, 0.0))
        return (buoyant - centre) @ across / np.linalg.norm(across)

    if arm(-most) >= 0.0 or arm(most) <= 0.0:
        return np.inf  # farther over than is read, or capsized
    return brentq(arm, -most, most, xtol=1e-3)


def test_trial_weights_heel_the_mesh_as_told_and_the_safest_never_turns_it_over(assessed, mesh):
    gm, band = expected(assessed)["gm_m"]
    told = trial_weights(assessed, gm, band)
    load, water = assessed.loading, assessed.person.water

    def heel(kg, higher_m, most):
        parts = [(assessed.weight.mass_kg, assessed.weight.lcg_m, 0.0, assessed.weight.vcg_m)]
        parts += [(one.mass_kg, one.lcg_m, 0.0, one.vcg_m + up) for one, up in (
            (load.paddler, higher_m), *((heap, 0.0) for heap in load.gear))]
        place = told.place
        return heel_by_mesh(mesh, [*parts, (kg, place.x_m, place.off_centre_m, place.height_m)],
                            water.density_kgpm3, assessed.start, most)

    for deg, kg in told.steps:
        assert heel(kg, 0.0, 10.0) == pytest.approx(deg, abs=0.35)  # a weight is told to 0.1 kg
    assert heel(told.safest_kg, 0.0, 10.0) == pytest.approx(told.safest_deg, abs=0.35)
    assert told.first[1] <= min(told.steps[0][1], told.safest_kg)
    assert heel(told.first[1], 0.0, 10.0) < 2.35
    higher = band * load.load.mass_kg / load.paddler_kg  # a paddler as high as he may sit
    assert 0.0 < told.safest_kg < told.turns_over_kg
    assert heel(told.safest_kg, higher, 8.0) < 5.0
    assert not np.isfinite(heel(5.0 * told.safest_kg, higher, 8.0))
    assert not np.isfinite(heel(1.5 * told.turns_over_kg, 0.0, 10.0))


def test_a_boat_as_little_steady_as_asked_heels_the_most_that_is_told(assessed, mesh):
    """The paddler sits as much higher as takes GM down to it; the mesh heels under each weight."""
    told = trial_weights(assessed, *expected(assessed)["gm_m"])
    load, water, gm = assessed.loading, assessed.person.water, expected(assessed)["gm_m"][0]
    asked = 0.7 * gm
    higher = (gm - asked) * load.load.mass_kg / load.paddler_kg
    place, weights = told.place, (0.5, 1.0)
    most = tuple(heels_at_gm_deg(assessed, asked, weights, place.off_centre_m))
    parts = [(assessed.weight.mass_kg, assessed.weight.lcg_m, 0.0, assessed.weight.vcg_m)]
    parts += [(one.mass_kg, one.lcg_m, 0.0, one.vcg_m + up) for one, up in (
        (load.paddler, higher), *((heap, 0.0) for heap in load.gear))]
    for kg, deg in zip(weights, most, strict=True):
        heel = heel_by_mesh(mesh, [*parts, (kg, place.x_m, place.off_centre_m, place.height_m)],
                            water.density_kgpm3, assessed.start, 12.0)
        assert deg == pytest.approx(heel, abs=0.35)
    usual, = heels_at_gm_deg(assessed, gm, weights[:1], place.off_centre_m)
    assert usual < most[0]
    kg = 5.0 * told.turns_over_kg  # turns it over: by the sum of the inclining experiment
    over, = heels_at_gm_deg(assessed, asked, [kg], place.off_centre_m)
    assert gm_of_reading_m(kg, place.off_centre_m, load.load.mass_kg + kg,
                           min(over, MOST_HEEL_DEG)) >= asked - 1e-9


def test_by_paper_alone_the_boat_may_lie_over_a_little(middle_job):
    """As much less goes aboard as holds it there: W GM sin(heel), by a small heel's closed form."""
    for base in ("surf-runner", "teaching-boat"):
        fitted = middle_job(base).fitted
        boat = fitted.assessed
        gm, band = expected(boat)["gm_m"]
        level, paper = trial_weights(boat, gm, band), first_trial(fitted)
        assert paper.still_deg in (1.0, 0.5)
        one = (boat.loading.load.mass_kg * gm * np.sin(np.radians(paper.still_deg))
               / paper.off_centre_m)
        assert level.safest_kg - paper.safest_kg == pytest.approx(one, abs=0.16)


def test_heights_are_told_with_what_load_and_tape_may_be_off(assessed):
    """Freeboard by the load of one standard deviation, floated anew; the rest is less."""
    found = heights_expected(assessed)
    load, water = assessed.loading.load, assessed.person.water
    floats = assessed.particulars
    for key, height in (("bow_m", floats.bow_freeboard_m), ("stern_m", floats.stern_freeboard_m),
                        ("side_m", floats.freeboard_m)):
        assert found[key][0] == pytest.approx(height, abs=1e-6)
    heavier = float_upright(assessed.boat.sections,
                            replace(load, mass_kg=load.mass_kg + 2.0), water)  # kg, not weighed
    sinks = floats.freeboard_m - heavier.freeboard_m
    least = 1.645 * np.hypot(sinks, 0.005)  # of the tape: 5 mm
    assert least < found["side_m"][1] < 2.0 * least


def test_readings_let_more_be_put_aboard_only_as_they_tell_gm(assessed):
    gm, band = expected(assessed)["gm_m"]
    careful, sure = (trial_weights(assessed, gm, wide) for wide in (band, 0.1 * band))
    assert careful.safest_kg < sure.safest_kg < sure.turns_over_kg
    assert trial_weights(assessed, gm, 1.5 * gm).safest_kg == 0.0
    lies = trial_weights(assessed, gm, 0.1 * band, 1.0)
    # a small heel's moment in closed form: W GM sin(1 degree)
    one = assessed.loading.load.mass_kg * gm * np.sin(np.radians(1.0)) / sure.off_centre_m
    assert sure.safest_kg - lies.safest_kg == pytest.approx(one, abs=0.16)
    lying = lies.safest_kg + one
    assert lying <= sure.safest_kg + 0.05, "more heel than the most that is told"
    assert trial_weights(assessed, gm, band, 5.0).safest_kg == 0.0


def made_up_trial(assessed, mesh, dice, count):
    """(Trial, true height of the paddler's centre over the seat)."""
    up = dice.normal(0.0, 0.016)
    load, water = assessed.loading, assessed.person.water
    paddler, own = load.paddler, assessed.weight
    at = (paddler.mass_kg, paddler.lcg_m, dice.normal(0.0, 0.003), paddler.vcg_m + up)
    loads = [(own.mass_kg * (1.0 + dice.normal(0.0, 0.05)), own.lcg_m, 0.0, own.vcg_m), at,
             *((one.mass_kg, one.lcg_m, 0.0, one.vcg_m) for one in load.gear)]
    heels = []
    for kg, off in WEIGHTS[:count]:
        aboard = [*loads, (kg, load.load.lcg_m, off + dice.normal(0.0, 0.005), 0.3)]
        heel = heel_by_mesh(mesh, aboard, water.density_kgpm3, assessed.start)
        heels.append(Heeled(kg, off, 0.3, heel + dice.normal(0.0, 0.3)))
    weighed = loads[0][0] + dice.normal(0.0, 0.3)
    return (Trial(weighed, None, None, (), tuple(heels)),
            paddler.vcg_m + up - assessed.boat.seat_z_m)


@pytest.mark.parametrize("count", [1, 3, 5] if TRIALS > 20 else [1, 5])
def test_true_seated_centre_lies_within_the_stated_spread(assessed, mesh, count):
    dice, inside, narrower = np.random.default_rng(20 + count), [], []
    for _ in range(TRIALS):
        trial, true = made_up_trial(assessed, mesh, dice, count)
        if max(abs(one.heel_deg) for one in trial.heel) > MOST_HEEL_DEG:
            continue  # such a reading is refused
        found = lesson(assessed, trial).of("seated_height_m")
        inside.append(abs(found.after - true) <= found.after_plus_minus)
        narrower.append(found.after_plus_minus / found.before_plus_minus)
    print(count, "readings: inside", np.mean(inside), "of", len(inside), "band", np.mean(narrower))
    assert len(inside) >= TRIALS / 2
    assert np.mean(inside) >= (0.80 if TRIALS > 20 else 0.5)
    assert np.mean(narrower) < 1.0


def test_boat_weight_is_learnt_as_two_normal_errors_meet(assessed):
    """Closed form: the mean of calculated and weighed, each by the inverse of its variance."""
    own = assessed.weight.mass_kg
    found = lesson(assessed, Trial(own + 1.0, None, None, (), ())).of("boat_kg")
    parts = np.array([(0.05 * own) ** -2, 0.3**-2])
    assert found.after == pytest.approx(own + parts[1] / parts.sum(), abs=1e-6)
    assert found.after_plus_minus == pytest.approx(1.6449 * parts.sum() ** -0.5, rel=1e-4)


def test_mistyped_weight_is_out_of_all_likelihood(assessed):
    own = assessed.weight.mass_kg
    assert lesson(assessed, Trial(own, None, None, (), ())).says == ()
    found = lesson(assessed, Trial(own + 10.0, None, None, (), ()))
    assert found.likelihood < 0.01
    assert found.says[0].startswith("The boat's own weight is out of all likelihood")


def test_a_freeboard_out_of_all_likelihood_teaches_nothing_until_it_is_confirmed(assessed):
    """14 7/8 in typed for 4 7/8 in: as if it had not been read at all."""
    own = assessed.weight.mass_kg + 0.4
    plain = lesson(assessed, Trial(own, None, None, (), ()))
    read = assessed.upright.freeboard_m + 0.254
    bad = Trial(own, None, None, (Freeboards(None, None, read),), ())
    found = lesson(assessed, bad)
    assert found.left_out == ("afloat[1].side_m",)
    for one in plain.learnt:
        after = found.of(one.key)
        assert (after.after, after.after_plus_minus) == pytest.approx(
            (one.after, one.after_plus_minus), rel=1e-9)
    assert offs_of(found) == {key: Off(pytest.approx(one.off), pytest.approx(one.spread))
                              for key, one in offs_of(plain).items()}
    assert "It is left out of what is learnt until it is read again" in " ".join(found.says)
    assert [name for name, *_ in found.readings] == ["boat_kg", "afloat[1].side_m"]
    assert found.fits_no_boat
    with pytest.raises(NotSolved, match="Least freeboard is out of all likelihood"):
        lesson(assessed, replace(bad, confirmed=("afloat[1].side_m",)))


def test_a_freeboard_that_is_confirmed_counts_however_unlikely(assessed):
    read = assessed.upright.freeboard_m + 0.06
    bad = Trial(None, None, None, (Freeboards(None, None, read),), ())
    found = lesson(assessed, bad)
    assert found.of("load_kg").after == found.of("load_kg").before
    sure = lesson(assessed, replace(bad, confirmed=("afloat[1].side_m",)))
    assert sure.left_out == ()
    assert sure.of("load_kg").after < found.of("load_kg").before - 2.0
    assert "It counts, since it was read again and confirmed" in sure.says[0]
    assert {one.of("load_kg").after for one in found.every_way()} == {
        one.of("load_kg").after for one in sure.every_way()}


def test_only_readings_of_the_trial_can_be_confirmed():
    given = {"afloat": [{"side_mm": 120}], "confirmed": ["afloat[1].side_mm"]}
    assert read_trial(given).confirmed == ("afloat[1].side_m",)
    for wrong in ("all", ["boat_kg"], [3], {"afloat[1].side_mm": True}):
        with pytest.raises(BadInput, match=r"a list of afloat\[1\].side_mm"):
            read_trial(given | {"confirmed": wrong})


def test_an_unlikely_reading_is_named_in_words(assessed):
    (_, side_m, *_), = lesson(assessed, Trial(None, None, None, (Freeboards(None, None, 0.15),), ())
                              ).readings
    read = [Freeboards(None, None, side_m + off_m) for off_m in (0.045, 0.05)]
    said = " ".join(lesson(assessed, Trial(None, None, None, tuple(read), ())).says)
    assert "Least freeboard is out of all likelihood" in said
    assert "Least freeboard (2) is out of all likelihood" in said
    height_m = trial_place(assessed.boat).height_m
    heel = Heeled(6.0, 0.25, height_m, -9.5)  # to the other side than the weight
    said = " ".join(lesson(assessed, Trial(None, None, None, (), (heel,))).says)
    assert "The heel of -9.5° is out of all likelihood" in said


def test_bias_of_30_made_up_launches_is_found_and_2_hardly_move_it():
    dice, inside, moved = np.random.default_rng(30), [], []
    for _ in range(200):
        spreads = dice.uniform(0.8, 1.4, 30)
        measured = 20.0 + 1.0 + dice.normal(0.0, spreads)
        many = shop_bias(np.full(30, 20.0), measured, spreads, 1.0)
        inside.append(abs(many.bias - 1.0) <= 1.645 * many.spread)
        few = shop_bias(np.full(2, 20.0), measured[:2], spreads[:2], 1.0)
        moved.append(abs(few.bias))
    print("bias inside", np.mean(inside), "2 boats moved", np.mean(moved))
    assert np.mean(inside) > 0.85
    assert np.mean(moved) < 0.4
    assert shop_bias([20.0], [25.0], [1.0], 1.0).bias == 0.0
    assert shop_bias([], [], [], 1.0).bias == 0.0


@pytest.mark.parametrize("scatter", [0.004, 0.016])
def test_next_boat_lies_within_what_the_launches_leave_open(scatter):
    """Shops drawn with a bias of their own, their boats about it, each read to 6 mm: the 31st."""
    dice, inside, told = np.random.default_rng(4), {2: [], 30: []}, {2: [], 30: []}
    for _ in range(400):
        own = dice.normal(0.0, 0.011)
        true, read = own + dice.normal(0.0, scatter, 31), np.full(30, 0.006)
        measured = true[:30] + dice.normal(0.0, read)
        for boats in (2, 30):
            found = shop_bias(np.zeros(boats), measured[:boats], read[:boats], 0.016)
            inside[boats].append(abs(true[30] - found.bias) < 1.645 * found.next_spread)
            told[boats].append(found.next_spread)
    print("inside nine in ten", {boats: np.mean(one) for boats, one in inside.items()}, "told mm",
          {boats: 1e3 * np.mean(one) for boats, one in told.items()})
    assert np.mean(inside[30]) > 0.85
    assert np.mean(inside[2]) > 0.8
    assert 0.9 * scatter < np.mean(told[30]) < {0.004: 0.009, 0.016: 0.018}[scatter]
    assert shop_bias([], [], [], 0.016).next_spread == 0.016
    assert shop_bias([0.0], [0.02], [0.006], 0.016).next_spread == pytest.approx(0.016)


def test_launch_tells_the_bias_what_its_readings_say_alone(assessed):
    """A weighed boat: the scale's own reading and spread, whatever was expected before."""
    own = assessed.weight.mass_kg
    found = offs_of(lesson(assessed, Trial(own + 1.0, None, None, (), ())))
    assert set(found) == {"boat_share"}
    assert found["boat_share"].off == pytest.approx(1.0 / own, rel=1e-4)
    assert found["boat_share"].spread == pytest.approx(0.3 / own, rel=1e-4)
    assert shop_biases([found, {}])["boat_share"].boats == 1


def test_what_a_biased_fit_was_off_is_told_against_the_plain_figures():
    """1.10 times 20 kg expected, 23.1 kg found: 5 % off the expected, 15.5 % off 20 kg."""
    used = ShopBias(boat_share=0.10, seat_up_m=0.008, boats=4)
    found = over_plain({"boat_share": Off(0.05, 0.02), "seat_up_m": Off(-0.003, 0.01)}, used)
    assert found["boat_share"].off == pytest.approx(23.1 / 20.0 - 1.0)
    assert found["boat_share"].spread == pytest.approx(1.1 * 0.02)
    assert found["seat_up_m"].off == pytest.approx(0.005)


def test_gm_by_one_reading_strays_as_readings_made_up_about_it_do():
    dice = np.random.default_rng(6)
    heel, off = 6.0 + dice.normal(0.0, 0.3, 20000), 0.25 + dice.normal(0.0, 0.005, 20000)
    made_up = gm_of_reading_m(1.0, off, 100.0, heel)
    one = Heeled(1.0, 0.25, 0.3, 6.0)
    assert gm_spread_m(gm_of_reading_m(1.0, 0.25, 100.0, 6.0), one, 0.0) == pytest.approx(
        np.std(made_up), rel=0.05)


def test_bias_refuses_what_is_no_list_of_boats():
    with pytest.raises(BadInput, match="one of each"):
        shop_bias([1.0], [1.0, 2.0], [1.0], 1.0)
    with pytest.raises(BadInput, match="above zero"):
        shop_bias([1.0], [1.0], [0.0], 1.0)


def test_trial_with_faults_tells_them_all():
    with pytest.raises(BadInput) as told:
        read_trial({"boat_kg": 900, "heel": [{"kg": 5, "off_centre_mm": 250, "heel_deg": 60}],
                    "hell": 1})
    assert {fault.place for fault in told.value.faults} == {
        "boat_kg", "heel[1].height_mm", "heel[1].heel_deg", "hell"}
    with pytest.raises(BadInput, match="nothing"):
        read_trial({})


def test_loads_together_keep_their_mass(assessed):
    load = assessed.loading
    whole = together(load.paddler, Load(10.0, 0.0, 0.0))
    assert whole.mass_kg == pytest.approx(load.paddler_kg + 10.0)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_a_trial_weight_lies_on_deck_that_hardly_falls_and_off_the_rim(base):
    """By the boat's rim as it is sawn and its own deck: a lip is 27 mm outside the opening's line.
    """
    boat = scaled_boat(fair_lines(read_base(base)), Scaling())
    place, opening = trial_place(boat), boat.opening
    at = dict(zip((one.name for one in boat.design.frames), boat.frame_x_m, strict=True))
    assert place.x_m == at[place.frame]
    x = np.linspace(opening.front_x_m, opening.back_x_m, 2001)
    rim = np.column_stack([x, opening.half_width_m(x)])
    apart = np.hypot(*(rim - (place.x_m, place.off_centre_m)).T).min()
    assert apart > 0.027 + 0.025  # and half a weight 50 mm wide
    assert 0.0 <= place.slope_deg < 10.0
    (y, z), = np.stack(half_section_at(boat.sections, np.array([place.x_m])), axis=1)
    sheer = boat.sections.sheer
    assert 0.6 * y[sheer] < place.off_centre_m <= 0.8 * y[sheer]
    assert z[sheer] < place.height_m < z[-1]
    beside = np.interp(place.off_centre_m + np.array([-0.01, 0.01]), y[sheer:][::-1],
                       z[sheer:][::-1])
    assert np.degrees(np.arctan2(beside[0] - beside[1], 0.02)) == pytest.approx(place.slope_deg,
                                                                              abs=0.5)
