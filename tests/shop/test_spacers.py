"""Spacers against the frames that they stand between."""

import numpy as np
import pytest
from shapely.geometry import Polygon

from sizer.drawing.record import Text, text_corners_m
from sizer.hull.weight import own_weight
from sizer.shop.frames import frame_patterns
from sizer.shop.spacers import spacer_items, spacer_pieces, spacers


@pytest.fixture(scope="module")
def patterns(boat):
    return frame_patterns(boat)


def test_every_mortise_has_its_spacer(patterns):
    made = spacers(patterns)
    with_mortises = {one.name for one in patterns if one.mortises}
    assert {name for one in made for name in (one.fore, one.aft)} == with_mortises


def test_a_spacer_is_as_long_as_the_room_between_the_frames(patterns):
    """Straight from middle to middle of the mortises, between the faces that look at each other."""
    by_name = {one.name: one for one in patterns}
    for spacer in spacers(patterns):
        fore, aft = by_name[spacer.fore], by_name[spacer.aft]
        after = fore.x_m + (fore.thickness_m if fore.reference_face == "forward" else 0.0)
        ahead = aft.x_m - (aft.thickness_m if aft.reference_face == "aft" else 0.0)
        middles = [np.mean([slot.centroid.coords[0] for slot in one.mortises
                            if slot.centroid.x > 0.0], axis=0) for one in (fore, aft)]
        assert spacer.between_m == pytest.approx(
            np.linalg.norm([ahead - after, *(middles[1] - middles[0])]), abs=1e-6)
        assert spacer.bevel_deg == pytest.approx(np.degrees(np.arccos(
            (ahead - after) / spacer.between_m)), abs=0.01)


def test_tenons_go_into_their_mortises_and_two_that_meet_share_the_plywood(patterns):
    made = spacers(patterns)
    deep = {}
    for spacer in made:
        for name, (long, high) in zip((spacer.fore, spacer.aft), spacer.tenons_m, strict=True):
            deep.setdefault(name, []).append(long)
            slot = next(one for one in patterns if one.name == name).mortises[0]
            sides = np.hypot(*np.diff(np.asarray(slot.exterior.coords), axis=0).T)
            assert high == pytest.approx(sides.max() - 0.0005, abs=1e-6)
    for name, tenons in deep.items():
        thick = next(one for one in patterns if one.name == name).thickness_m
        assert thick - 0.0006 < sum(tenons) <= thick + 1e-9


def test_the_boats_weight_holds_every_spacer(boat, patterns):
    """The mass of the drawn boards, at their mortises; within a twentieth."""
    weighed = {part.name: part for part in own_weight(boat).parts}
    by_name = {one.name: one for one in patterns}
    for spacer in spacers(patterns):
        part = weighed[f"spacers {spacer.fore} to {spacer.aft}"]
        ends = [by_name[name] for name in (spacer.fore, spacer.aft)]
        assert part.mass_kg == pytest.approx(spacer.mass_kg, rel=0.05)
        assert part.x_m == pytest.approx(np.mean([one.x_m for one in ends]), abs=0.01)
        assert part.z_m == pytest.approx(
            np.mean([one.mortises[0].centroid.y for one in ends]), abs=0.015)


def test_each_end_says_which_way_it_lies_at_its_own_tenon(patterns):
    """The tenons of one board may differ: the fore one is drawn on the left."""
    made = spacers(patterns)
    drawn = spacer_pieces(made).strokes
    for spacer, saw in zip(made, (one for one in drawn if one.pen == "cut"), strict=True):
        left, low, right, high = Polygon(saw.points_m).bounds
        rooms = {one.text: text_corners_m(one) for one in drawn if isinstance(one, Text)
                 and low < one.at_m[1] < high}
        fore, name, aft = (rooms[text] for text in (
            f"BOW, {spacer.fore}", f"{spacer.name}, 2 off", f"{spacer.aft}, STERN"))
        shoulders = left + spacer.tenons_m[0][0], right - spacer.tenons_m[1][0]
        assert shoulders[0] < fore[:, 0].min() < shoulders[0] + 0.01
        assert shoulders[1] - 0.01 < aft[:, 0].max() < shoulders[1]
        assert fore[:, 0].max() < name[:, 0].min() < name[:, 0].max() < aft[:, 0].min()


def test_drawing_list_and_weight_tell_the_same_board(patterns):
    made = spacers(patterns)
    drawn = [Polygon(one.points_m) for one in spacer_pieces(made).on("cut").strokes]
    for spacer, outline, item in zip(made, drawn, spacer_items(made), strict=True):
        left, low, right, high = outline.bounds
        assert right - left == pytest.approx(spacer.long_m)
        shoulders = sorted({round(float(x), 6) for x in outline.exterior.xy[0]})[1:-1]
        assert np.ptp(shoulders) == pytest.approx(item.size_m[2], abs=1e-5)
        assert high - low == pytest.approx(item.size_m[1])
        assert item.quantity == 2
        kg = 2.0 * outline.area * spacer.thickness_m * 450.0  # okoume, as in the table of woods
        assert f"{kg:.2f} kg" in item.allowance


@pytest.mark.parametrize("base", ["day-boat", "long-tourer"])
def test_the_face_grain_of_every_spacer_runs_from_frame_to_frame(base, middle_bench):
    """As each lies on its sheet, along the sheet's length; of a half sheet too."""
    made = middle_bench(base)
    names = {one.name for one in made.spacers}
    laid = [(one, sheet) for plan in made.layouts for sheet in plan.sheets
            for one in sheet.placements if one.piece in names]
    assert len(laid) == 2 * len(made.spacers)
    for one, sheet in laid:
        along, across = (one.height_m, one.width_m) if sheet.grain_up else (
            one.width_m, one.height_m)
        assert along > across
