"""Frame patterns against the boat's own points, and against breaking."""

import re
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from sizer.drawing.record import Path, Text
from sizer.fit.checks import SIDE_DECK_M
from sizer.fit.facts import shape_of
from sizer.fit.request import read_request
from sizer.fit.uses import USES
from sizer.hull.boat import frame_points_m, scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hull.stick_curves import stick_curve
from sizer.hull.weight import PLYWOOD, own_weight
from sizer.job import run
from sizer.shop.frame_drawing import frame_drawing
from sizer.shop.frames import frame_patterns
from sizer.shop.lashing import CORD_MM, EDGE_M, HOLE_M, MORTISE_LENGTHS_M, STRANDS, TURNS
from sizer.shop.notches import CLEARANCE_M
from sizer.shop.pattern_checks import LEAST_WALL_M, LEAST_WEB_M, pattern_checks
from sizer.shop.relief import relieved
from sizer.shop.ring import RELIEF_M

NEAR_M = 0.0001  # a tenth of a millimetre


def fitted(lines):
    """The base fitted to a middle man of ANSUR II."""
    request = read_request({
        "base": lines.design.name, "use": lines.design.drawn_for.use, "paddler": {
            "weight_kg": 84.6, "stature_mm": 1755, "hip_width_mm": 378}})
    return run(request, lines).fitted.assessed


@pytest.fixture(scope="module")
def patterns(frames):
    return frames


def corners(pattern):
    """Points of the sawn outline, in half-breadth and height."""
    return np.asarray(pattern.wood.exterior.coords)[:-1]


def test_frames_hold_at_the_limits_of_scaling(lines):
    limits = lines.design.limits
    for beam in limits.beam:
        for depth in limits.depth:
            for crown in limits.crown:
                boat = scaled_boat(lines, Scaling(beam=beam, depth=depth, crown=crown))
                if shape_of(boat, USES["sheltered-day"]).side_deck_m < SIDE_DECK_M:
                    continue  # which the fit refuses
                checks = pattern_checks(frame_patterns(boat))
                assert [check for check in checks if check.status == "fail"] == []


def slope_through(boat, pattern, name):
    """Run of a stick's moulded line for each metre from the reference face through the plywood."""
    curve = stick_curve(boat, name)
    run = np.array([np.interp(pattern.x_m, curve.points_m[:, 0], column)
                    for column in curve.slope.T])
    return run if pattern.reference_face == "forward" else -run


def floor_depth_m(boat, pattern, name, inward):
    """Where a floor has to be for a stick on it to touch the moulded point, straight inwards."""
    deep = float(slope_through(boat, pattern, name) @ inward)
    stock = boat.design.stringer(name)
    return stock.depth_m * np.hypot(1.0, deep) + max(deep, 0.0) * pattern.thickness_m


def test_moulded_points_lie_the_stocks_depth_outside_the_notch_floors(boat, patterns):
    """A floor is the sawn edge as far inside a moulded point as the stick on it is deep, as it runs
    through the plywood: measured square to that edge, which is longer than the stick is wide.

    On a sharp V a keel's floor runs out of the plywood beside it: it is measured on the centre
    line.
    """
    for index, pattern in enumerate(patterns):
        sawn = corners(pattern)
        starts, ends = sawn, np.roll(sawn, -1, axis=0)
        lengths = np.hypot(*(ends - starts).T)
        in_pockets = {name for pair in pattern.shared_notches for name in pair}
        for name, point in frame_points_m(boat, index).items():
            stock = boat.design.stringer(name)
            if stock.role == "gunwale" or name in in_pockets:
                continue
            notch = next(one for one in pattern.section.notches if one.stringer == name)
            deep = floor_depth_m(boat, pattern, name, np.array(notch.inward))
            if notch.central and pattern.held_m()[name][0] < LEAST_WALL_M:
                upright = pattern.wood.intersection(LineString([(0.0, -1.0), (0.0, 1.0)])).bounds
                floor = upright[1] if stock.role == "keel" else upright[3]
                assert abs(floor - point[1]) == pytest.approx(deep, abs=NEAR_M)
                continue
            wide = np.abs(lengths - stock.width_m - CLEARANCE_M - 0.001) < 0.0011
            along = (ends - starts)[wide] / lengths[wide, None]
            away = np.asarray(point) - 0.5 * (starts + ends)[wide]
            beside = np.abs(np.sum(away * along, axis=1)) < 0.002
            off = np.abs(along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0])
            assert np.abs(off[beside] - deep).min() < NEAR_M, (pattern.name, name)


def test_the_gunwales_outer_upper_corner_is_the_moulded_point(boat, patterns):
    """The notch's corner under the gunwale: so far down the side, and so far in, as it needs."""
    gunwale = next(one for one in boat.design.stringers if one.role == "gunwale")
    for index, pattern in enumerate(patterns):
        points = frame_points_m(boat, index)
        point = np.array(points[gunwale.name])
        below = max((p for p in points.values() if p[1] < point[1] and p[0] > 0.0
                     and p != tuple(point)), key=lambda p: p[1])
        side = (point - below) / np.hypot(*(point - below))
        inward = np.array([-side[1], side[0]])
        run = slope_through(boat, pattern, gunwale.name)
        deep = floor_depth_m(boat, pattern, gunwale.name, inward)
        square = 1.0 + float(run @ inward) ** 2
        lean = float(run @ side) * float(run @ inward) / square
        drift = pattern.thickness_m * (float(run @ side) - lean * float(run @ inward))
        down = gunwale.width_m * np.hypot(1.0, float(run @ side)) + max(-drift, 0.0) + CLEARANCE_M
        wanted = point - (down - lean * deep) * side + deep * inward
        assert np.hypot(*(corners(pattern) - wanted).T).min() < NEAR_M


def test_a_drawing_says_what_room_a_notch_gives_its_stick_at_the_other_face(
        boat, patterns, frame_drawings):
    """Every figure read back from the words: the stick's slope times the plywood's thickness."""
    told = 0
    for pattern, drawing in zip(patterns, frame_drawings, strict=True):
        note = next((one for one in drawing.notes if "finds this room" in one), "")
        for name in (notch.stringer for notch in pattern.section.notches):
            found = re.search(rf"(?:: |; ){name} ([^;]*?)(?:;|\.$)", note)
            parts = dict(re.findall(r"(\w+(?: wall)?) ([0-9.]+)", found[1]) if found else ())
            notch = next(one for one in pattern.section.notches if one.stringer == name)
            run = pattern.thickness_m * 1000.0 * slope_through(boat, pattern, name)
            deep = max(float(run @ notch.inward), 0.0)
            assert float(parts.get("floor", 0.0)) == pytest.approx(deep, abs=0.21)
            across = abs(float(run @ notch.along))
            walls = [float(value) for wall, value in parts.items() if "wall" in wall]
            if notch.role != "gunwale":
                assert (walls or [0.0])[0] == pytest.approx(across, abs=0.3)
            told += len(parts)
    assert told


def test_plywood_stands_back_from_the_skin_between_the_sticks(patterns):
    for pattern in patterns:
        skin = pattern.section.skin_m
        panels = len(skin) - (2 if pattern.section.open_top else 1)
        for row in range(panels):
            for side in (1.0, -1.0):
                panel = LineString(skin[row:row + 2] * (side, 1.0))
                assert pattern.wood.distance(panel) >= RELIEF_M - 1e-6


def test_notches_turn_half_way_between_the_skins_on_either_side(patterns):
    for pattern in patterns:
        skin = pattern.section.skin_m
        in_pockets = {name for pair in pattern.shared_notches for name in pair}
        for row, notch in enumerate(pattern.section.notches):
            if notch.role not in ("chine", "deck") or notch.stringer in in_pockets:
                continue
            before, after = skin[row] - skin[row - 1], skin[row + 1] - skin[row]
            angles = [np.arctan2(*vector[::-1]) for vector in (before, notch.along, after)]
            assert angles[1] == pytest.approx(0.5 * (angles[0] + angles[2]), abs=1e-9)


def test_no_web_is_thinner_than_stated(patterns):
    """Wasted from all sides by half the least web, a frame keeps every hole and its one piece."""
    for pattern in patterns:
        wasted = pattern.wood.buffer(-0.4999 * LEAST_WEB_M)
        pieces = [piece for piece in getattr(wasted, "geoms", [wasted]) if piece.area > 1e-4]
        assert len(pieces) == 1, pattern.name
        assert len(pieces[0].interiors) == len(pattern.wood.interiors), pattern.name


def test_kinds_have_their_openings(patterns):
    for pattern in patterns:
        assert pattern.opening is not None
        middle = Point(0.0, 0.5 * sum(pattern.section.skin_m[[0, -1], 1]))
        assert not pattern.wood.contains(middle)
        top = pattern.section.skin_m[-1]
        if pattern.section.open_top:
            assert pattern.kind == "cockpit"
            gap = pattern.wood.intersection(LineString([(-1, top[1] - 1e-4), (1, top[1] - 1e-4)]))
            inner = min(abs(y) for line in gap.geoms for y, _ in line.coords)
            assert inner == pytest.approx(top[0], abs=NEAR_M)
        else:
            assert top[0] == 0.0
        assert len(pattern.mortises) == (2 if pattern.kind == "cockpit" else 0)


def test_a_side_deck_arm_bears_the_coaming_on_the_moulded_deck_line(lines):
    open_frames = [pattern for pattern in frame_patterns(scaled_boat(lines, Scaling()))
                   if pattern.section.open_top]
    for pattern in open_frames:
        gunwale, edge = pattern.section.skin_m[-2:]
        along = (gunwale - edge) / np.hypot(*(gunwale - edge))
        land = LineString([edge + 0.001 * along, edge + 0.015 * along])
        assert pattern.wood.buffer(1e-6).covers(land)


def test_mortises_take_the_plywoods_thickness(patterns):
    for pattern in patterns:
        for mortise in pattern.mortises:
            sides = np.hypot(*np.diff(np.asarray(mortise.exterior.coords), axis=0).T)
            assert sides.min() == pytest.approx(pattern.thickness_m + 0.0003, abs=1e-6)
            assert np.abs(sides.max() - MORTISE_LENGTHS_M).min() < 1e-6
            assert any(Polygon(ring).symmetric_difference(mortise).area < 1e-9
                       for ring in pattern.wood.interiors)


def test_lashing_holes_keep_their_edge_and_match_port_and_starboard(patterns):
    for pattern in patterns:
        spots = {(round(y, 7), round(z, 7)) for _, (y, z) in pattern.holes}
        assert {(-y + 0.0, z) for y, z in spots} == {(y + 0.0, z) for y, z in spots}
        for y, z in spots:
            assert pattern.wood.contains(Point(y, z))
            assert pattern.wood.boundary.distance(Point(y, z)) >= EDGE_M + HOLE_M / 2.0 - 1e-6


def test_no_hole_serves_two_lashings_and_every_lashing_has_two(lines):
    """As round cords lie: four fill a circle of 1 + sqrt(2) times one's thickness, eight one of
    3.304 times, so that a hole of two lashings would not take them. Sticks are lashed as one where
    the saw left no wood between their middles."""
    assert STRANDS == TURNS + 1 == 4, "one for every turn, and the end that hangs out"
    assert (1.0 + np.sqrt(2.0)) * max(CORD_MM) < HOLE_M * 1000.0 < 3.304 * min(CORD_MM)
    for crown in lines.design.limits.crown:
        for pattern in frame_patterns(scaled_boat(lines, Scaling(crown=crown))):
            spots = np.array([spot for _, spot in pattern.holes])
            apart = np.linalg.norm(spots[:, None] - spots[None, :], axis=-1)
            assert apart[~np.eye(len(spots), dtype=bool)].min() > HOLE_M + EDGE_M
            starboard = [name for name, (y, _) in pattern.holes if y > 0.0]
            for names in lashed_as_one(pattern):
                if not {"keel", "gunwale"} & set(names) and "ridge" not in names[-1]:
                    assert sum(starboard.count(one) for one in names) == 2, (pattern.name, names)
                    assert starboard.count(names[0]) == (2 if len(names) == 1 else 1)


def lashed_as_one(pattern):
    """Names of the sticks between whose middles there is no wood, keel first."""
    notches, groups = pattern.section.notches, []
    for row, notch in enumerate(notches):
        alone = row == 0 or LineString([notches[row - 1].stock().centroid, notch.stock().centroid]
                                       ).intersects(pattern.wood)
        if alone:
            groups.append([])
        groups[-1].append(notch.stringer)
    return groups


def test_a_cutters_round_corner_is_relieved(boat):
    """A square stick fits its notch's corners when a round cutter has rounded all it must."""
    cutter_m = 0.006
    for plain in frame_patterns(boat):
        eased = replace(plain, wood=relieved(plain.wood, cutter_m, "dog-bone"))
        # what a cutter of this size can clear of the waste round the wood
        waste = plain.section.outline().buffer(0.05).difference(eased.wood)
        cleared = waste.buffer(-cutter_m / 2.0).buffer(cutter_m / 2.0, 64)
        stocks = unary_union([notch.stock() for notch in plain.section.notches])
        assert stocks.difference(cleared).area < 2e-8, plain.name
        uneased = plain.section.outline().buffer(0.05).difference(plain.wood)
        cleared = uneased.buffer(-cutter_m / 2.0).buffer(cutter_m / 2.0, 64)
        assert stocks.difference(cleared).area > 2e-7
        assert [check for check in pattern_checks([eased]) if check.status == "fail"] == []


def test_marks_lie_at_their_heights_and_on_the_wood(lines):
    assessed = fitted(lines)
    boat, water = assessed.boat, assessed.particulars
    for pattern in frame_patterns(boat, water):
        rise = np.tan(np.radians(water.trim_deg)) * (pattern.x_m - boat.length_m / 2.0)
        assert pattern.water_z_m == pytest.approx(water.sinkage_m + rise)
        marks = [stroke.points_m for stroke in frame_drawing(pattern).strokes
                 if isinstance(stroke, Path) and stroke.pen == "mark"]
        level = {round(float(points[0, 1]), 6) for points in marks
                 if len(points) == 2 and points[0, 1] == points[1, 1]}
        sheer = float(pattern.section.skin_m[pattern.section.sheer, 1])
        assert {round(sheer, 6), round(pattern.water_z_m, 6)} == level
        assert any(np.all(np.abs(points[:, 0]) < 1e-12) for points in marks), "centre line"
        for points in marks:
            assert pattern.seen.buffer(1e-7).covers(LineString(points))


def test_every_frame_says_which_it_is_and_how_it_stands(patterns, frame_drawings):
    for pattern, drawing in zip(patterns, frame_drawings, strict=True):
        texts = [stroke for stroke in drawing.strokes
                 if isinstance(stroke, Text) and stroke.pen == "text"]
        looks = "bow" if pattern.reference_face == "forward" else "stern"
        assert {pattern.name, "S", "P", "UP", f"this face to the {looks}",
                f"{pattern.kind} 12 mm"} == {text.text for text in texts}
        for text in texts:
            assert pattern.wood.contains(Point(pattern.right_sign * text.at_m[0], text.at_m[1]))
        starboard = next(text for text in texts if text.text == "S")
        assert starboard.at_m[0] * pattern.right_sign > 0.0


def test_starboard_is_on_the_left_of_a_face_that_looks_to_the_bow(patterns):
    assert {pattern.reference_face: pattern.right_sign for pattern in patterns} == {
        "forward": -1.0, "aft": 1.0}


def test_a_stick_too_deep_for_the_frame_fails_by_name(base_lines):
    design = base_lines["day-boat"].design
    deep = replace(design, stringers=tuple(
        replace(one, depth_m=0.048) if one.name == "lower chine" else one
        for one in design.stringers))
    boat = scaled_boat(fair_lines(deep), Scaling())
    failed = [check for check in pattern_checks(frame_patterns(boat)) if check.status == "fail"]
    assert failed
    assert {check.frame for check in failed} <= {"F1", "F9"}, "the two narrow ones"
    assert all("lower chine" in check.place for check in failed)


def test_frame_without_any_hole_is_told_as_such(patterns):
    found = pattern_checks([replace(patterns[0], holes=())])
    told = {check.name: check for check in found if "holes" in check.name}
    assert list(told) == ["lashing holes"]
    assert (told["lashing holes"].value, told["lashing holes"].status) == (0, "fail")


def test_a_ring_cut_too_thin_fails_by_place(patterns):
    ring = next(pattern for pattern in patterns if pattern.kind == "footbrace")
    thin = replace(ring, opening=ring.opening.buffer(0.025))
    found = next(check for check in pattern_checks([thin])
                 if check.name == "plywood round the opening")
    assert found.status == "fail"
    assert found.frame == ring.name
    assert found.value == pytest.approx(min(
        notch.room().distance(thin.opening) for notch in ring.section.notches) * 1000.0, abs=1e-6)


def test_wood_cut_weighs_what_the_boats_weight_counts(boat, patterns):
    """All frames together within 6 %; the boat's weight is estimated without drawing them."""
    counted = sum(part.mass_kg for part in own_weight(boat).parts if part.name.startswith("frame "))
    cut = sum(one.wood.area * one.thickness_m * PLYWOOD.density_kgpm3 for one in patterns)
    assert cut == pytest.approx(counted, rel=0.06)
