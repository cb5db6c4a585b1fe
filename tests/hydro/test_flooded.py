"""Flooded hulls: worked examples through the engine, then the shipped bases.

B&D: Barrass & Derrett, Ship Stability for Masters and Mates, Elsevier.
"""

import math
import re
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from sizer.design.woods import WOODS
from sizer.errors import BadInput, WillNotFloat
from sizer.hull.sections import half_section_at
from sizer.hull.weight import own_weight
from sizer.hydro.bags import RIM_MARGIN_M, SIDE_DECK_MARGIN_M, smallest_bags
from sizer.hydro.ends import L_PER_M3, End, chambers_of, end_zones, volume_m3
from sizer.hydro.flooded import OPEN, Aboard, flooded, inside_solids, load_of
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.immersion import half_outline, immersed, up_vectors
from sizer.hydro.lost_buoyancy import balance
from sizer.hydro.solids import body_solids, skin_solids, wood_solids
from sizer.hydro.watertight import Chamber, Solids, chamber_outline, no_solids, solids_under
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.paddler.seated import seated_centre, worn_kg
from sizer.rows import many_of


@pytest.fixture(scope="module")
def weight(boat):
    return own_weight(boat)


@pytest.fixture(scope="module")
def body(boat):
    drawn = boat.design.drawn_for
    return predict(Measured(drawn.weight_kg, drawn.stature_m, drawn.hip_width_m))


@pytest.fixture(scope="module")
def seated(boat, body):
    """The paddler it was drawn for in the seat, gear behind it."""
    centre = seated_centre(body)
    paddler = Load(body.weight_kg + worn_kg(), boat.seat_x_m - centre.ahead_m,
                   boat.seat_z_m + centre.nominal_height_m)
    gear = Load(boat.design.drawn_for.gear_kg, boat.seat_x_m + 0.40, 0.40 * boat.depth_m)
    return Aboard((gear,), paddler, body)


@pytest.fixture(scope="module")
def out(seated):
    return Aboard(seated.gear)


def test_midship_compartment_open_to_the_sea(box, ship_water):
    """B&D exercise: box 40 x 6 m, draft 2, GM 0.6, empty 10 m amidships: 2.67 m, GM 0.559 m."""
    hull = box(40.0, 6.0, 4.0)
    kg = 1.0 + 1.5 - 0.6  # KB + BM - GM before
    load = Load(40.0 * 6.0 * 2.0 * 1025.0, 20.0, kg)
    found = balance(hull, (Chamber(0.0, 15.0), Chamber(25.0, 40.0)), no_solids(), load, ship_water)
    assert found.sinkage_m == pytest.approx(2.67, abs=0.005)
    # 0.558 by exact arithmetic; the book carries its rounded draft of 2.67 m into KB
    assert found.gm_m == pytest.approx(0.559, abs=0.001)
    assert found.trim_deg == pytest.approx(0.0, abs=1e-9)


def test_permeability_rise(box, ship_water):
    """B&D, from memory: box 72 m, draft 4, 12 m amidships of permeability 0.25 rises 0.174 m."""
    hull = box(72.0, 10.0, 8.0)
    load = Load(72.0 * 10.0 * 4.0 * 1025.0, 36.0, 3.0)
    chambers = (Chamber(0.0, 30.0), Chamber(30.0, 42.0, 0.75), Chamber(42.0, 72.0))
    found = balance(hull, chambers, no_solids(), load, ship_water)
    assert found.sinkage_m - 4.0 == pytest.approx(0.174, abs=0.0005)


def test_one_chamber_from_end_to_end_is_the_hull_afloat(boat, drawn_load, ship_water):
    chamber = Chamber(0.0, boat.length_m)
    found = balance(boat.sections, (chamber,), no_solids(), drawn_load, ship_water)
    afloat = float_at(boat.sections, drawn_load, ship_water)
    assert found.trim_deg == pytest.approx(afloat.trim_deg[0], abs=1e-5)
    arm = float_at(boat.sections, drawn_load, ship_water, 0.05).righting_arm_m[0]
    assert found.gm_m == pytest.approx(arm / math.sin(math.radians(0.05)), abs=1e-4)


def test_an_open_end_trims_by_lost_buoyancy(box, ship_water):
    """Box with its after sixth open, closed form to first order: what is left floats as a box
    of five sixths, trimmed by the weight's lever over its waterplane's second moment."""
    hull = box(60.0, 10.0, 20.0)
    draft = 4.0
    load = Load(60.0 * 10.0 * draft * 1025.0, 25.1, 2.0)
    found = balance(hull, (Chamber(0.0, 50.0),), no_solids(), load, ship_water)
    new_draft = 60.0 * draft / 50.0
    gm_long = new_draft / 2.0 + 50.0**2 / (12.0 * new_draft) - 2.0
    assert math.tan(math.radians(found.trim_deg)) == pytest.approx(0.1 / gm_long, rel=1e-3)


def test_solid_blocks_float_as_the_boxes_they_are(box, ship_water):
    """Two blocks 1 x 0.5 x 0.4 m, the hull open throughout: draft and GM of a box."""
    hull = box(4.0, 0.6, 0.5)
    blocks = Solids(np.array([1.0, 3.0]), np.zeros(2), np.full(2, 0.4), np.full(2, 0.2),
                    np.full(2, 0.5))
    found = balance(hull, (), blocks, Load(0.2 * 1025.0, 2.0, 0.1), ship_water)
    assert found.sinkage_m == pytest.approx(0.2, abs=1e-8)
    assert found.gm_m == pytest.approx(0.1 + 0.5**2 / (12.0 * 0.2) - 0.1, abs=1e-6)


def test_hull_without_anything_watertight_sinks(box, ship_water):
    with pytest.raises(WillNotFloat, match="sinks"):
        balance(box(4.0, 0.6, 0.5), (), no_solids(), Load(10.0, 2.0, 0.1), ship_water)


def test_buoyancy_at_one_end_only_goes_down_by_the_other(box, ship_water):
    hull, load = box(4.0, 0.6, 0.5), Load(100.0, 2.0, 0.1)
    for chamber, end in ((Chamber(0.0, 1.0), "stern"), (Chamber(3.0, 4.0), "bow")):
        with pytest.raises(WillNotFloat, match=f"goes down by the {end}"):
            balance(hull, (chamber,), no_solids(), load, ship_water)


def test_mirrored_chambers_mirror_the_trim(box, ship_water):
    hull = box(4.0, 0.6, 0.5)
    fore = balance(hull, (Chamber(0.0, 1.5), Chamber(3.0, 4.0)), no_solids(),
                   Load(100.0, 2.0, 0.1), ship_water)
    aft = balance(hull, (Chamber(0.0, 1.0), Chamber(2.5, 4.0)), no_solids(),
                  Load(100.0, 2.0, 0.1), ship_water)
    assert fore.trim_deg == pytest.approx(-aft.trim_deg, abs=1e-6)
    assert fore.trim_deg > 0.1  # lifted forward
    assert fore.sinkage_m == pytest.approx(aft.sinkage_m, abs=1e-8)


def test_bag_holds_its_litres(boat):
    for litres in (0.01, 0.5, 12.0, 33.3):
        chambers = chambers_of(boat, End(litres), End(litres))
        held = [volume_m3(boat.sections, one) * L_PER_M3 for one in chambers]
        assert held == pytest.approx([litres, litres], rel=1e-7)


def test_no_bag_counts_where_the_boat_is_narrower_than_its_nose(boat):
    """Nothing of it is ahead of where the boat, skin to skin, is 200 mm wide, nor abaft of it."""
    bow, stern = chambers_of(boat, End(20.0), End(20.0))
    noses = np.array([bow.front_x_m, stern.back_x_m])
    wide = 2.0 * half_section_at(boat.sections, noses)[0].max(axis=1)
    assert wide == pytest.approx(0.200, abs=0.002)
    zones = end_zones(boat)
    for zone, room in ((zones.bow, Chamber(noses[0], zones.bow.back_x_m)),
                       (zones.stern, Chamber(zones.stern.front_x_m, noses[1]))):
        assert zone.bag_l == pytest.approx(800.0 * volume_m3(boat.sections, room))


def test_bags_of_many_boats_end_where_each_ones_do(boat):
    both = many_of(boat)
    many, one = end_zones(both), end_zones(boat)
    for end in ("bow", "stern"):
        assert getattr(many, end).nose_x_m == pytest.approx([getattr(one, end).nose_x_m])


def test_a_bag_of_all_that_fits_reaches_the_ends_limit(boat):
    zones = end_zones(boat)
    bow, stern = chambers_of(boat, End(zones.bow.bag_l), End(zones.stern.bag_l))
    assert bow.back_x_m == pytest.approx(zones.bow.back_x_m, abs=0.01)
    assert stern.front_x_m == pytest.approx(zones.stern.front_x_m, abs=0.01)


def test_wood_counts_its_mass_over_its_density(boat, weight):
    woods = {one.name: WOODS[one.wood].density_kgpm3 for one in boat.design.stringers}
    wooden = [part for part in weight.parts
              if part.name in woods or part.name.startswith("frame ") or "stem" in part.name]
    volume = sum(part.mass_kg / woods.get(part.name, 450.0) for part in wooden)
    assert wood_solids(boat, weight).volume_m3.sum() == pytest.approx(volume, rel=1e-9)
    assert volume > sum(part.mass_kg for part in wooden) / 1000.0  # lighter than water


def test_body_counts_below_the_neck(boat, body):
    """Trunk and legs of de Leva's table, 83.8 % of the body, no lighter than water."""
    solids = body_solids(boat, body)
    litres = solids.volume_m3.sum() * L_PER_M3
    assert body.weight_kg * 0.838 / 1.05 < litres < body.weight_kg * 0.838
    assert solids.x_m.max() < boat.seat_x_m


def test_litres_balance(boat, weight, seated, ship_water):
    """Hull under water = water inside + bags + all that stands inside; with the skin these
    carry the load."""
    bow, stern = End(30.0), End(35.0)
    found = flooded(boat, weight, seated, bow, stern, ship_water)
    up = up_vectors([0.0], [found.trim_deg])
    level = up[:, 2] * found.sinkage_m + up[:, 0] * boat.length_m / 2.0
    whole = immersed(half_outline(boat.sections), up, level).volume_m3[0]
    bags = sum(one.share * immersed(chamber_outline(boat.sections, one), up, level).volume_m3[0]
               for one in chambers_of(boat, bow, stern, seated.gear))
    inside = solids_under(inside_solids(boat, weight, seated), up, level).volume_m3[0]
    skin = solids_under(skin_solids(boat, weight), up, level).volume_m3[0]
    assert whole == pytest.approx(found.water_inside_l / L_PER_M3 + bags + inside, rel=1e-9)
    assert bags + inside + skin == pytest.approx(
        load_of(weight, seated).mass_kg / ship_water.density_kgpm3, rel=1e-7)


def test_load_is_boat_paddler_and_gear_about_their_common_centre(boat, weight, seated):
    """Moments of the three about the bow and the baseline."""
    gear, paddler = seated.gear[0], seated.paddler
    masses = np.array([weight.mass_kg, paddler.mass_kg, gear.mass_kg])
    load = load_of(weight, seated)
    assert load.mass_kg == pytest.approx(masses.sum())
    assert load.mass_kg * load.lcg_m == pytest.approx(
        masses @ [weight.lcg_m, paddler.lcg_m, gear.lcg_m])
    assert load.mass_kg * load.vcg_m == pytest.approx(
        masses @ [weight.vcg_m, paddler.vcg_m, gear.vcg_m])


def test_more_bag_floats_higher(boat, weight, seated, ship_water):
    results = [flooded(boat, weight, seated, End(litres), End(litres), ship_water)
               for litres in (22.0, 28.0, 34.0, 40.0)]
    for less, more in pairwise(results):
        assert more.rim_clearance_m > less.rim_clearance_m
        assert more.water_inside_l < less.water_inside_l


def test_paddler_out_floats_higher(boat, weight, seated, out, ship_water):
    bags = End(30.0), End(30.0)
    with_paddler, without = (flooded(boat, weight, who, *bags, ship_water) for who in (seated, out))
    assert without.rim_clearance_m > with_paddler.rim_clearance_m + 0.05
    assert without.sinkage_m < with_paddler.sinkage_m


def test_bulkheads_float_higher_than_the_largest_bags(boat, weight, seated, ship_water):
    zones = end_zones(boat, seated.gear)
    bags = flooded(boat, weight, seated, End(zones.bow.bag_l), End(zones.stern.bag_l), ship_water)
    walls = flooded(boat, weight, seated, End(bulkhead_x_m=zones.bow.back_x_m),
                    End(bulkhead_x_m=zones.stern.front_x_m), ship_water)
    assert walls.rim_clearance_m > bags.rim_clearance_m
    assert 0.0 < walls.water_inside_l < bags.water_inside_l


def test_wood_behind_a_bulkhead_counts_once(boat, weight, seated, ship_water):
    """Water inside is what the hull holds under water between the bulkheads, less what stands
    there."""
    zones = end_zones(boat, seated.gear)
    fore, aft = zones.bow.back_x_m, zones.stern.front_x_m
    found = flooded(boat, weight, seated, End(bulkhead_x_m=fore), End(bulkhead_x_m=aft), ship_water)
    up = up_vectors([0.0], [found.trim_deg])
    level = up[:, 2] * found.sinkage_m + up[:, 0] * boat.length_m / 2.0
    between = chamber_outline(boat.sections, Chamber(fore, aft))
    solids = inside_solids(boat, weight, seated)
    here = replace(solids, volume_m3=np.where((solids.x_m > fore) & (solids.x_m < aft),
                                              solids.volume_m3, 0.0))
    held = immersed(between, up, level).volume_m3[0] - solids_under(here, up, level).volume_m3[0]
    # where a bulkhead cuts between two sections, their areas are drawn straight: 0.1 litre
    assert found.water_inside_l == pytest.approx(held * L_PER_M3, abs=0.1)


def test_without_bags_a_seated_paddler_gets_no_numbers(boat, weight, seated, ship_water):
    found = flooded(boat, weight, seated, OPEN, OPEN, ship_water)
    assert found.state == "sinks"
    aboard = weight.mass_kg + seated.paddler.mass_kg + sum(one.mass_kg for one in seated.gear)
    bears = re.match("Flooded with the paddler in the seat, the boat sinks: all in it that keeps "
                     r"water out, wood, gear and whoever sits there, bears (\d+) kg \((\d+) lb\), "
                     rf"and {aboard:.0f} kg \({aboard / 0.45359237:.0f} lb\) weigh "
                     r"on it\.", found.says)
    assert 0.0 < int(bears[1]) < aboard
    assert int(bears[2]) == pytest.approx(int(bears[1]) / 0.45359237, abs=1.7)
    numbers = [value for name, value in vars(found).items() if name not in ("state", "says")]
    assert numbers == [None] * 6


def test_wood_alone_keeps_the_empty_boat_up(boat, weight, ship_water):
    found = flooded(boat, weight, Aboard(()), OPEN, OPEN, ship_water)
    assert found.state == "rim clear"
    assert found.water_inside_l > 50.0


def test_small_bags_leave_the_rim_awash_and_nothing_to_pump(boat, weight, seated, ship_water):
    found = flooded(boat, weight, seated, End(12.0), End(12.0), ship_water)
    assert found.state == "awash"
    assert found.rim_clearance_m < 0.0
    assert "it cannot be pumped out" in found.says


def clear_by_hand(boat, found):
    """Rim and side deck over the flooded boat's water: the design file's own heights against a
    plane through the sinkage amidships, rising aft by the trim; the side deck at the frames."""
    cockpit, trim = boat.design.cockpit, math.radians(found.trim_deg)

    def over(x, z):
        water = found.sinkage_m + math.tan(trim) * (x - boat.design.length_m / 2.0)
        return math.cos(trim) * (z - water)

    gunwale = next(one.name for one in boat.design.stringers if one.role == "gunwale")
    rim = min(over(cockpit.front_x_m, cockpit.rim_front_z_m),
              over(cockpit.back_x_m, cockpit.rim_back_z_m))
    return rim, min(over(frame.x_m, frame.points_m[gunwale][1]) for frame in boat.design.frames)


@pytest.mark.parametrize(("bow", "stern"), [(20.0, 35.0), (30.0, 30.0), (40.0, 28.0)])
def test_rim_and_side_deck_stand_over_the_water_as_the_design_draws_them(
        boat, weight, seated, ship_water, bow, stern):
    found = flooded(boat, weight, seated, End(bow), End(stern), ship_water)
    rim, side_deck = clear_by_hand(boat, found)
    assert found.rim_clearance_m == pytest.approx(rim, abs=1e-9)
    # between frames the sheer sags a little lower than at the lowest of them
    assert side_deck - 0.003 < found.freeboard_m <= side_deck + 1e-9


def test_smallest_bags_keep_rim_and_side_deck_clear_and_level(boat, weight, seated, ship_water):
    bags = smallest_bags(boat, weight, seated, ship_water)
    rim, side_deck = clear_by_hand(boat, bags.kept)
    assert rim >= RIM_MARGIN_M
    assert side_deck >= SIDE_DECK_MARGIN_M
    assert abs(bags.kept.trim_deg) < 0.2
    again = flooded(boat, weight, seated, End(bags.bow_l), End(bags.stern_l), ship_water)
    assert again == bags.kept


@pytest.mark.parametrize("fewer", [(1.0, 0.0), (0.0, 1.0), (1.0, 1.0)])
def test_a_litre_less_wets_rim_or_side_deck(boat, weight, seated, ship_water, fewer):
    bags = smallest_bags(boat, weight, seated, ship_water)
    less = flooded(boat, weight, seated, End(bags.bow_l - fewer[0]), End(bags.stern_l - fewer[1]),
                   ship_water)
    assert (less.rim_clearance_m < RIM_MARGIN_M) or (less.freeboard_m < SIDE_DECK_MARGIN_M)


def test_bags_say_both_heights(boat, weight, seated, ship_water):
    bags = smallest_bags(boat, weight, seated, ship_water)
    said = re.search(r"keep the rim (\d+) mm \(.*?\) and the side deck (\d+) mm \(.*?\) clear",
                     bags.says)
    assert [int(one) for one in said.groups()] == pytest.approx(
        [1000.0 * one for one in clear_by_hand(boat, bags.kept)], abs=3.0)
    assert bags.says.startswith("Fit none smaller than those that fill the ends.")
    assert "least that will do" not in bags.says


def test_spare_is_the_lesser_of_rim_and_side_deck_over_their_margins(boat, weight, seated,
                                                                     ship_water):
    found = flooded(boat, weight, seated, End(30.0), End(30.0), ship_water)
    rim_less = replace(found, rim_clearance_m=0.032, freeboard_m=0.020)
    side_less = replace(found, rim_clearance_m=0.060, freeboard_m=0.010)
    assert rim_less.spare_m == pytest.approx(0.002)
    assert side_less.spare_m == pytest.approx(-0.005)
    assert flooded(boat, weight, seated, OPEN, OPEN, ship_water).spare_m == -math.inf


def test_side_deck_under_water_is_said_though_the_rim_is_clear(boat, weight, seated, ship_water):
    """Eight litres less an end sink it some 25 mm: the rim stands 46 mm over the side deck."""
    bags = smallest_bags(boat, weight, seated, ship_water)
    found = flooded(boat, weight, seated, End(bags.bow_l - 8.0), End(bags.stern_l - 8.0),
                    ship_water)
    assert found.state == "rim clear"
    assert re.search(r"over the water and the side deck lies \d+ mm \(.* in\) under it", found.says)


@pytest.mark.parametrize(("inside", "told"), [
    (True, "will not stay upright with you in it: get out of the cockpit and keep hold of the "
           "boat; do not let go of it to swim. Get ashore with it, or re-enter only with help."),
    (False, "will not stay upright by itself: do not climb on alone; keep hold of the boat; do "
            "not let go of it to swim.")])
def test_a_boat_that_will_not_stay_upright_says_what_to_do(boat, weight, seated, out, ship_water,
                                                           inside, told):
    """With the centre of mass 0.40 m lower GM is 0.40 m more, and the same boat is steady."""
    who, bags = (seated if inside else out), (End(30.0), End(30.0))
    found = flooded(boat, weight, who, *bags, ship_water)
    drop = 0.40 * load_of(weight, who).mass_kg / weight.mass_kg
    low = flooded(boat, replace(weight, vcg_m=weight.vcg_m - drop), who, *bags, ship_water)
    assert low.gm_m - found.gm_m == pytest.approx(0.40, abs=0.01)
    assert not found.stays_upright
    assert found.says.endswith(told)
    assert low.stays_upright
    assert "upright" not in low.says


def test_bags_say_what_to_do_where_the_boat_will_not_stay_upright(boat, weight, seated,
                                                                  ship_water):
    unsteady = smallest_bags(boat, weight, seated, ship_water)
    assert unsteady.says.endswith("Get ashore with it, or re-enter only with help.")
    low = replace(weight, vcg_m=weight.vcg_m - 0.40 * load_of(weight, seated).mass_kg
                  / weight.mass_kg)
    assert "upright" not in smallest_bags(boat, low, seated, ship_water).says


def test_losing_the_larger_bag_is_looked_at_once(boat, weight, seated, out, ship_water):
    bags = smallest_bags(boat, weight, seated, ship_water)
    left = ((0.0, bags.stern_l) if bags.bow_l > bags.stern_l else (bags.bow_l, 0.0))
    assert bags.larger_lost == flooded(boat, weight, seated, *map(End, left), ship_water)
    assert bags.larger_lost_out == flooded(boat, weight, out, *map(End, left), ship_water)


def test_bags_that_cannot_fit_are_not_promised(boat, weight, seated, ship_water):
    paddler = replace(seated.paddler, mass_kg=seated.paddler.mass_kg + 150.0)
    bags = smallest_bags(boat, weight, replace(seated, paddler=paddler), ship_water)
    assert bags.bow_l is None
    assert bags.stern_l is None
    assert bags.says.startswith("No bags that fit")


@pytest.mark.parametrize("kilograms", [45.0, 100.0, 130.0])
def test_light_and_heavy_paddlers_get_bags_or_a_sentence(boat, weight, seated, ship_water,
                                                         kilograms):
    """Holds in particular a light paddler, whose boat with one bag left has hardly a trim to
    rest at."""
    other = predict(Measured(kilograms, 1.50 + (kilograms - 45.0) * 0.0045, 0.40))
    paddler = replace(seated.paddler, mass_kg=kilograms + worn_kg())
    bags = smallest_bags(boat, weight, Aboard(seated.gear, paddler, other), ship_water)
    for result in (bags.kept, bags.larger_lost, bags.larger_lost_out):
        assert (result.rim_clearance_m is None) == (result.state == "sinks")
        assert result.says


@pytest.mark.parametrize(("bow", "stern", "places"), [
    (End(-1.0), OPEN, ["bow_bag_l"]),
    (End(math.nan), End(math.inf), ["bow_bag_l", "stern_bag_l"]),
    (OPEN, End(900.0), ["stern_bag_l"]),
    (End(bulkhead_x_m=2.4), OPEN, ["bow_bulkhead_x_m"]),
    (OPEN, End(bulkhead_x_m=math.nan), ["stern_bulkhead_x_m"]),
    (End(5.0, 0.9), OPEN, ["bow_bag_l"]),
])
def test_refuses_bags_and_bulkheads_that_cannot_be(boat, weight, seated, ship_water, bow, stern,
                                                   places):
    with pytest.raises(BadInput) as caught:
        flooded(boat, weight, seated, bow, stern, ship_water)
    assert [fault.place for fault in caught.value.faults] == places
