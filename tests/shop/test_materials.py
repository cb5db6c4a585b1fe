"""Skin, lashing, cutting plan, shopping list and weights."""

import re
from dataclasses import replace
from itertools import pairwise
from types import SimpleNamespace

import numpy as np
import pytest
from shapely.geometry import LineString

from sizer.design.woods import WOODS
from sizer.drawing.record import Drawing, Path
from sizer.errors import BadInput
from sizer.fit.request import read_request
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.sections import Sections, strip_areas_m2
from sizer.job import run
from sizer.shop.frames import frame_patterns
from sizer.shop.items import UNITS
from sizer.shop.layout import layouts
from sizer.shop.materials import materials, weights_by_kind
from sizer.shop.scarfs import KERF_M, TRIM_M, cutting_plans
from sizer.shop.seat_parts import RAIL_THICKS_M, seat_items
from sizer.shop.settings import Shop
from sizer.shop.skin import ENDS_M, PULL_M, lashing, skin, stem_seams, wet, wet_words
from sizer.shop.stems import stem_patterns
from sizer.shop.stringers import stringer_list
from sizer.shop.ties import tie_items, tie_loops_m


@pytest.fixture(scope="module")
def sticks(boat):
    return stringer_list(boat)


@pytest.fixture(scope="module")
def listed(boat, sticks):
    return materials(boat, sticks, more=seat_items(boat, RAIL_THICKS_M[0], frame_patterns(boat)))


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "steady-boat", "teaching-boat"])
def test_weights_by_kind_sum_to_the_weight_used_afloat(base, base_lines):
    job = run(read_request({"base": base, "use": "coastal-day", "paddler": {
        "weight_kg": 84, "stature_mm": 1770, "hip_width_mm": 390}}), base_lines[base])
    load = job.fitted.assessed.loading
    boat = job.fitted.assessed.boat
    weights = materials(boat, stringer_list(boat)).weights
    assert sum(one.mass_kg for one in weights) == pytest.approx(load.boat_kg, rel=1e-12)
    assert load.load.mass_kg == pytest.approx(
        load.paddler_kg + load.gear_kg + sum(one.mass_kg for one in weights))
    moment = sum(one.mass_kg * one.x_m for one in weights)
    assert moment == pytest.approx(job.fitted.assessed.weight.lcg_m * load.boat_kg)
    height = sum(one.mass_kg * one.z_m for one in weights)
    assert height == pytest.approx(job.fitted.assessed.weight.vcg_m * load.boat_kg)


def test_stringers_weigh_what_their_lengths_say(boat, sticks, listed):
    mass = sum(stick.stringer.count * (stick.length_m - stick.forward.past_m - stick.after.past_m)
               * stick.stringer.width_m  # of the drawn line: a taper's tip is short of its end
               * stick.stringer.depth_m * WOODS[stick.stringer.wood].density_kgpm3
               for stick in sticks)
    group = next(one for one in listed.weights if one.name == "stringers")
    assert group.mass_kg == pytest.approx(mass, rel=1e-3)
    names = [one.name for one in listed.weights]
    assert len(set(names)) == len(names)


def test_kinds_are_named_once_and_nothing_is_lost(boat):
    from sizer.hull.weight import own_weight

    weight = own_weight(boat)
    groups = {one.name: one.mass_kg for one in weights_by_kind(weight)}
    frames = sum(part.mass_kg for part in weight.parts if part.name.startswith("frame "))
    assert groups["frames"] == pytest.approx(frames)
    assert set(groups) == {"stringers", "frames", "stems", "skin", "coaming",
                           "seat and backband", "footbrace", "lashing and lines",
                           "spacers"}


def test_skin_area_is_that_of_fine_strips_without_the_opening(lines, boat):
    fine = scaled_boat(lines, Scaling(), 1201)
    areas = strip_areas_m2(fine.sections).copy()
    x = fine.sections.x_m
    inside = (x[1:] > fine.opening.front_x_m) & (x[:-1] < fine.opening.back_x_m)
    areas[inside, -2:] = 0.0
    assert skin(boat).area_m2 == pytest.approx(2.0 * areas.sum(), rel=0.002)


def test_cloth_goes_round_the_greatest_girth(boat):
    cloth = skin(boat, (2.0,))
    assert cloth.lengths == 1
    y, z = boat.sections.y_m, boat.sections.z_m
    girths = [2.0 * sum(np.hypot(*step) for step in np.diff([y[row, :-1], z[row, :-1]]).T)
              for row in range(y.shape[0])]  # to the coaming's top, not over the opening
    assert cloth.girth_m == pytest.approx(max(girths))
    assert 2.0 * boat.beam_m / 2.0 < cloth.girth_m < 3.5 * boat.beam_m
    assert boat.length_m < cloth.run_m < 1.1 * boat.length_m
    assert cloth.cloth_m == pytest.approx(cloth.run_m + 2.0 * ENDS_M)


def test_narrow_cloth_takes_two_lengths_and_just_enough_takes_one(boat):
    girth = skin(boat).girth_m
    one, two = (skin(boat, (girth + PULL_M + more,)) for more in (0.001, -0.001))
    assert (one.lengths, two.lengths) == (1, 2)
    assert two.cloth_m == pytest.approx(2.0 * one.cloth_m)
    assert one.wider_m is None
    assert girth + PULL_M <= two.wider_m < girth + PULL_M + 0.05
    assert skin(boat, (two.wider_m,)).lengths == 1


def test_of_several_widths_the_one_that_takes_least_cloth_is_bought(boat):
    girth = skin(boat).girth_m
    narrow, enough, broad = (girth + PULL_M + more for more in (-0.05, 0.01, 0.4))
    assert skin(boat, (broad, narrow, enough)).cloth_width_m == enough
    hull = max(skin(boat, (girth,)).over_m) + PULL_M + 0.01
    assert 2.0 * hull > girth + PULL_M + 0.05  # as much as two of it, one of the broad is bought
    assert skin(boat, (2.0 * hull - 0.01, hull)).cloth_width_m == 2.0 * hull - 0.01
    assert skin(boat, (2.0 * hull + 0.01, hull)).cloth_width_m == hull


def test_no_cloth_is_bought_that_does_not_go_over_the_hull(boat):
    """From gunwale to gunwale under the boat, by its points, at its widest: half of the girth is
    less."""
    sheer = boat.sections.sheer
    y, z = boat.sections.y_m[:, :sheer + 1], boat.sections.z_m[:, :sheer + 1]
    hull = 2.0 * max(np.hypot(np.diff(across), np.diff(up)).sum()
                     for across, up in zip(y, z, strict=True))
    half = (skin(boat).girth_m + PULL_M) / 2.0 + 0.001
    assert half < hull + PULL_M
    assert skin(boat, (hull + PULL_M + 0.001,)).lengths == 2
    for width in (half, hull + PULL_M - 0.001):
        with pytest.raises(BadInput, match="goes over hull and deck") as refused:
            skin(boat, (width,))
        told = re.search(r": (\d+) mm \([^)]*\) wide or more", str(refused.value))
        assert hull + PULL_M <= float(told[1]) / 1000.0 < hull + PULL_M + 0.05
    assert skin(boat, (half, 2.0)).cloth_width_m == 2.0


def test_the_list_says_when_a_wider_cloth_halves_what_is_bought(boat, sticks):
    girth = skin(boat).girth_m
    for width, says in ((girth + PULL_M - 0.01, True), (girth + PULL_M + 0.01, False)):
        cloth = next(item for item in materials(boat, sticks, Shop(cloth_widths_m=(width,))).items
                     if item.what.startswith("cloth"))
        assert ("takes 1" in cloth.allowance) == says
        if says:
            told = re.search(r"takes 1, ([0-9.]+) m \([0-9.]+ ft\) instead of ([0-9.]+) m",
                             cloth.allowance)
            assert float(told[2]) == pytest.approx(cloth.quantity, abs=0.005)
            assert float(told[1]) == pytest.approx(cloth.quantity / 2.0, abs=0.005)


def test_every_crossing_is_lashed_once_and_what_the_stems_are_bored_for(boat, sticks):
    stems = stem_patterns(boat)
    tied = lashing(boat, sticks, stems)
    points = sum(boat.design.stringer(name).count
                 for frame in boat.design.frames for name in frame.points_m)
    points -= 2 * sum(not LineString([one.stock().centroid, other.stock().centroid]).intersects(
        frame.wood) for frame in frame_patterns(boat)
        for one, other in pairwise(frame.section.notches))  # one pocket, one lashing a side
    holes = sum(len(stem.holes) for stem in stems)
    pairs = sum(len(one.holes) == 2 for stem in stems for one in stem.lashings)
    assert (tied.at_frames, tied.at_stems) == (points, holes - pairs)
    metres = points * 1.0 + tied.at_ends * 1.0 + tied.at_stems * 2.0
    assert tied.cord_m == pytest.approx(metres * 1.15)


@pytest.mark.parametrize("stocks", [(2.4,), (3.6,), (2.4, 3.0, 4.8)])
def test_every_piece_is_cut_once_and_every_length_has_room(boat, stocks):
    sticks = stringer_list(boat, stocks)
    plans = cutting_plans(sticks, stocks)
    cut = [piece for plan in plans for length in plan.lengths for piece in length.pieces]
    wanted = sorted(round(piece, 9) for stick in sticks
                    for side in (stick.joints, stick.starboard)[:stick.stringer.count]
                    for piece in side.pieces_m)
    assert sorted(round(piece.length_m, 9) for piece in cut) == wanted
    keys = [(piece.stick, piece.number) for piece in cut]
    assert len(set(keys)) == len(keys)
    for plan in plans:
        for length in plan.lengths:
            used = (sum(piece.length_m for piece in length.pieces)
                    + KERF_M * (len(length.pieces) - 1) + TRIM_M)
            assert used <= length.stock_m + 1e-9
            assert not any(used <= stock < length.stock_m for stock in stocks)
            for piece in length.pieces:
                own = next(one.stringer for one in sticks
                           if piece.stick.split(",")[0] == one.name)
                assert (own.width_m, own.depth_m, own.wood) == (
                    plan.width_m, plan.depth_m, plan.wood)
        assert sum(number for number, _ in plan.to_buy.values()) == len(plan.lengths)
        assert sum(spare for _, spare in plan.to_buy.values()) >= 0.1 * len(plan.lengths)
        assert 0.0 < plan.used_share <= 1.0
    assert cutting_plans(stringer_list(boat, stocks), stocks) == plans


def test_a_saw_cut_takes_its_share(sticks):
    """Two halves of a length do not come from one length; two shorter by half a cut do."""
    for less, lengths in ((0.0, 2), (KERF_M / 2.0, 1)):
        long = sticks[0].joints.stock_m - TRIM_M
        half = replace(sticks[0].joints, pieces_m=(long / 2.0 - less,) * 2)
        plan, = cutting_plans([replace(sticks[0], joints=half)])
        assert len(plan.lengths) == lengths


def test_glue_ties_and_thread_suffice_for_what_they_join(boat, sticks, listed):
    def bought(word):
        return next(one for one in listed.items if word in one.what)

    joints = [(stick.stringer, side) for stick in sticks
              for side in (stick.joints, stick.starboard)[:stick.stringer.count]]
    scarfs = sum(len(side.middles_m) * side.scarf_m * max(one.width_m, one.depth_m)
                 for one, side in joints)
    wall, lip = listed.coaming.strips
    faces = [(one.count - 1) * one.width_m * one.length_m for one in (wall, lip)]
    around = 0.014 * listed.coaming.wall_girth_m  # the lip, 14 mm high, on the wall's outside
    coaming_cm2 = float(re.search(r"coaming (\d+)", bought("epoxy").allowance)[1])
    assert coaming_cm2 >= 1e4 * (sum(faces) + around) - 1.0
    assert bought("epoxy").quantity >= 0.4 * (scarfs + sum(faces) + around)
    ridges = sum(one.stringer.role == "ridge" for one in sticks)
    rim, = (item for item in listed.items if item.what == "waxed cord")  # one line to buy
    around = ridges + 2 * (len(listed.coaming.notches) - ridges)
    assert f"{around} lashings of coaming" in rim.allowance
    told = [int(one) for one in re.findall(r"(\d+) lashings of", rim.allowance)]
    assert rim.quantity > listed.lashing.cord_m + sum(told) - listed.lashing.count
    layers = bought("board for the bending form")  # stacked, the opening sawn out of them
    assert layers.quantity * layers.size_m[0] >= wall.width_m
    left, low, right, high = LineString(listed.coaming.outline_m).bounds
    assert layers.size_m[1:] == pytest.approx((right - left + 0.020, high - low + 0.020))
    outside = LineString(listed.coaming.outline_m).buffer(0.009, 64).exterior.length  # 9 mm wall
    assert listed.seams.coaming_m == pytest.approx(outside, rel=1e-3)
    assert listed.seams.holes * 0.025 >= outside - 1e-3
    gunwale = next(one for one in sticks if one.stringer.role == "gunwale")
    once = 2 * gunwale.length_m if listed.skin.lengths > 1 else (
        boat.length_m - boat.opening.length_m)
    # both ways along the seam, once round the coaming, and never straight: more than all that
    assert bought("thread").quantity > 2 * once + listed.coaming.girth_m
    down = sum(one.long_m for one in listed.seams.stems)
    assert listed.seams.seam_m - down == pytest.approx(once, rel=0.03)
    assert bought("clamp").quantity * 0.080 >= listed.coaming.girth_m


def test_cloth_is_slit_down_the_stems_as_far_as_its_edges_are_too_long(boat, sticks, listed):
    """By the gunwale sticks, whose lengths are of their own curves, and the skin's bottom line."""
    found, sections = listed.seams.stems, boat.sections
    gunwale = next(one for one in sticks if one.stringer.role == "gunwale")
    assert listed.skin.lengths == 2
    assert [one.end for one in found] == ["bow", "stern"]
    lost = listed.skin.run_m - gunwale.length_m
    assert sum(one.lost_m for one in found) == pytest.approx(lost, abs=0.03)
    for one, at in zip(found, (0, -1), strict=True):
        away = np.hypot(sections.x_m - sections.x_m[at], sections.z_m[:, 0] - sections.z_m[at, 0])
        reached = away <= one.long_m  # a chord is no longer than its arc
        assert reached.sum() > 2
        rise = np.ptp(sections.z_m[reached, 0])
        assert 0.5 * one.lost_m < rise < one.long_m  # what is lost is lost where it rises


def test_an_upright_stem_takes_all_its_height_off_the_cloths_edges():
    """Closed form: a bottom that rises at 45 degrees over 0.2 m to a level, straight edge loses
    0.2 (sqrt 2 - 1) m, and the slit is all of the slope but what 10 mm of it ease."""
    x = np.concatenate([np.linspace(0.0, 0.2, 201), np.linspace(0.2, 3.8, 901)[1:],
                        np.linspace(3.8, 4.0, 201)[1:]])
    low = np.maximum(np.maximum(0.2 - x, x - 3.8), 0.0)
    half = np.full_like(x, 0.3)
    z = np.stack([low, low, np.full_like(x, 0.3), np.full_like(x, 0.3)], axis=1)
    y = np.stack([0.0 * x, half, half, 0.0 * x], axis=1)
    made = SimpleNamespace(sections=Sections(x, y, z, sheer=2))
    bow, stern = stem_seams(made, 2)
    for one in (bow, stern):
        assert one.lost_m == pytest.approx(0.2 * (2.0**0.5 - 1.0), abs=1e-6)
        eased = 0.010 / (2.0**0.5 - 1.0)  # of the slope's run
        assert one.long_m == pytest.approx((0.2 - eased) * 2.0**0.5, abs=0.003)


def test_coating_is_bought_wet_by_its_solids(listed):
    """Of a sort with half of it solids, twice what dries; its tin, 0.9 kg a litre, is sold by the
    litre, the quart of 0.946 litres or the gallon of four."""
    coat = next(item for item in listed.items if item.what.startswith("coating"))
    kg = {sort: one for sort, one, _ in wet(coat.quantity)}
    assert kg["oil-based varnish"] == pytest.approx(2.0 * coat.quantity)
    assert min(kg.values()) >= coat.quantity
    litres = 2.0 * coat.quantity / 0.9
    size, name = (3.785412, "US gal") if litres > 3.785412 else (0.946353, "US qt")
    for text in (coat.allowance, wet_words(coat.quantity)):  # enough for any sort
        assert f"{2.0 * coat.quantity:.2f} kg" in text
        assert f"{litres:.1f} litres ({litres / size:.1f} {name})" in text
    assert all(f"{one:.2f} kg" in wet_words(coat.quantity) for one in kg.values())


def test_deck_line_goes_along_both_gunwales_and_is_tied(sticks, listed):
    line = next(item for item in listed.items if item.what.startswith("deck line"))
    gunwale = next(one for one in sticks if one.stringer.role == "gunwale")
    assert line.quantity >= 2.0 * gunwale.length_m + 4 * 0.25  # four knots


def test_ties_go_round_and_are_enough(boat, sticks):
    """Round the plywood by the sawn wood: straight in from a stick's face to where it ends."""
    frames, stems = frame_patterns(boat), stem_patterns(boat)
    items = list(tie_items(tie_loops_m(frames, stems, sticks)))
    places = sum(one.stringer.count * len(one.crossings) for one in sticks) + sum(
        len(stem.lashings) for stem in stems)
    assert sum(item.quantity for item in items) >= 2 * places
    longest = max(item.size_m[0] for item in items)
    for item in items:  # a hand needs the tail to pull it through its lock
        round_mm = float(re.search(r"longest (\d+) mm \(.*?\) round at", item.allowance)[1])
        assert round_mm + 50.0 <= 1000.0 * item.size_m[0] + 0.5
    for frame in frames:
        keel = frame.section.notches[0]
        y, z = keel.at(0.5 * (keel.low_m + keel.high_m), 0.0)
        up = LineString([(y, z), (y, z + 1.0)]).intersection(frame.wood)
        deep = min(getattr(up, "geoms", [up]), key=lambda one: one.bounds[1]).bounds[3] - z
        assert 2.0 * (deep + frame.thickness_m) < longest


def test_shopping_list_names_every_wood_thickness_cloth_and_fitting(boat, listed):
    items = listed.items
    assert all(item.quantity > 0 and item.unit in UNITS and item.allowance for item in items)
    assert {item.group for item in items} == {
        "timber", "coaming", "skin", "finish", "lashing", "seat", "fittings", "glue", "sewing",
        "protection", "paddler", "strongback"}
    for one in boat.design.stringers:
        assert any(item.group == "timber" and one.wood in item.what
                   and item.size_m[:2] == (one.width_m, one.depth_m) for item in items)


def test_a_layouts_sheets_are_bought(boat, sticks):
    board = Drawing("board", (Path("cut", np.array([(0, 0), (.56, 0), (.56, .56), (0, .56)], float),
                                   closed=True),))
    plans = layouts([(board, 0.012)] * 9 + [(replace(board, name="one"), 0.018)])
    items = [item for item in materials(boat, sticks, layouts=plans).items
             if item.group == "plywood"]
    assert [(item.quantity, item.unit, item.size_m) for item in items] == [
        (1, "sheets", (0.012, 2.44, 1.22)), (1, "sheets", (0.012, 1.22, 0.61)),
        (1, "sheets", (0.018, 1.22, 0.61))]
    share = 100 * 0.3136 / (1.22 * 0.61)
    assert "quarter sheet" in items[-1].what
    assert f"{share:.0f} % becomes parts" in items[-1].allowance


def test_coating_is_the_skins_own_and_some_more(boat, listed):
    coating = next(item for item in listed.items if item.what.startswith("coating"))
    skin_kg = next(one.mass_kg for one in listed.weights if one.name == "skin")
    dry = skin_kg * boat.design.skin.coating_kgpm2 / boat.design.skin_kgpm2
    assert coating.quantity == pytest.approx(1.15 * dry)
