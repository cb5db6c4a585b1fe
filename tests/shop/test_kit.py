"""Sheets for a router, read back by ezdxf and by a plain reader of group codes, and measured."""

import io
import re
from itertools import combinations

import ezdxf
import numpy as np
import pytest
import trimesh
from shapely.geometry import LineString, Point, Polygon, box

from sizer.shop.bench import bench_of
from sizer.shop.kit import LAYERS, kit_dxf
from sizer.shop.plywood import Plywood
from sizer.shop.settings import Shop
from sizer.stamp import Imprint, Stamp

CAUTIONS = ("Wear a PFD.", "Dress for the water at 10 °C, not the air.")
IMPRINT = Imprint(Stamp("AB-1234", "", "B", "2026-11-28", "A"), "day-boat", "", CAUTIONS)
SHOP = Shop(cutter_m=0.00635, plywoods=(Plywood(0.012, 0.0117), Plywood(0.018, 0.0176)))
BASES = ("day-boat", "long-tourer", "steady-boat")


def plain_entities(text):
    """[(kind, [(code, value)])] of the ENTITIES of a DXF text, by its group codes alone."""
    lines = text.splitlines()
    pairs = [(int(code), value) for code, value in zip(lines[::2], lines[1::2], strict=True)]
    starts = [row for row, pair in enumerate(pairs) if pair == (2, "ENTITIES")]
    found = []
    for code, value in pairs[starts[0] + 1:]:
        if (code, value) == (0, "ENDSEC"):
            return found
        if code == 0:
            found.append((value, []))
        else:
            found[-1][1].append((code, value))
    raise AssertionError("the section does not end")


def plain(text):
    """[(kind, layer, what is measured)], numbers as floats."""
    found = []
    for kind, codes in plain_entities(text):
        first = dict(reversed(codes))
        if kind == "LWPOLYLINE":
            x, y = ([float(value) for code, value in codes if code == axis] for axis in (10, 20))
            what = (int(first[70]) & 1, np.column_stack([x, y]))
        elif kind == "CIRCLE":
            what = (float(first[10]), float(first[20]), float(first[40]))
        else:
            what = first[1]
        found.append((kind, first[8], what))
    return found


@pytest.fixture(scope="module", params=BASES)
def kits(request, middle_job):
    """[(Layout, Sheet, DXF text)] of a fitted boat, and its Bench."""
    bench = bench_of(middle_job(request.param), SHOP)
    return bench, [(plan, sheet, kit_dxf(plan, sheet, SHOP, IMPRINT).decode("utf-8"))
        for plan in bench.layouts for sheet in plan.sheets]


def woods(entities):
    """Part polygons with their openings, by the two layers of cut lines."""
    outside = [Polygon(what[1]) for _, layer, what in entities if layer == "cut-outside"]
    inside = [Polygon(what[1]) for _, layer, what in entities if layer == "cut-inside"]
    found = []
    for one in outside:
        holes = [hole for hole in inside if one.contains(hole)]
        found.append(one.difference(Polygon()) if not holes else Polygon(
            one.exterior, [hole.exterior for hole in holes if not any(
                other is not one and one.contains(other) and other.contains(hole)
                for other in outside)]))
    return found


def test_two_readers_find_the_same_lines_holes_and_words(kits):
    for _, _, text in kits[1]:
        document = ezdxf.read(io.StringIO(text))
        assert not document.audit().errors
        assert document.header["$INSUNITS"] == 4
        seen = []
        for one in document.modelspace():
            if one.dxftype() == "LWPOLYLINE":
                what = (int(one.closed), np.array(one.get_points("xy")))
            elif one.dxftype() == "CIRCLE":
                what = (one.dxf.center.x, one.dxf.center.y, one.dxf.radius)
            else:
                what = one.dxf.text
            seen.append((one.dxftype(), one.dxf.layer, what))
        for own, other in zip(seen, plain(text), strict=True):
            assert own[:2] == other[:2]
            if own[0] == "LWPOLYLINE":
                assert own[2][0] == other[2][0]
                assert other[2][1] == pytest.approx(own[2][1], abs=1e-6)
            else:
                assert own[2] == (pytest.approx(other[2]) if own[0] == "CIRCLE" else other[2])


def test_a_reader_of_another_house_finds_the_same_cuts_and_holes(kits):
    """trimesh, which shares no code with the one that writes: closed loops, circles, mm."""
    for _, _, text in kits[1]:
        path = trimesh.load_path(io.StringIO(text), file_type="dxf")
        assert path.units == "millimeters"
        found = {}
        for one in path.entities:
            if type(one).__name__ == "Line":
                points = one.discrete(path.vertices)
                closed = bool(np.allclose(points[0], points[-1], atol=1e-6))
                found.setdefault(str(one.layer).lower(), []).append((closed, points))
            elif type(one).__name__ == "Arc":
                circle = one.center(path.vertices)
                found.setdefault(str(one.layer).lower(), []).append(
                    (*circle.center.tolist()[:2], float(circle.radius)))
        assert all(closed for closed, _ in found["cut-outside"] + found.get("cut-inside", []))
        for layer in ("cut-outside", "cut-inside", "tabs"):
            wanted = [(bool(what[0]), np.vstack([what[1], what[1][:what[0]]]))
                      for _, own, what in plain(text) if own == layer]
            mine, theirs = (sorted((closed, *np.round(points.min(axis=0), 1).tolist(),
                                    *np.ptp(points, axis=0), LineString(points).length)
                                   for closed, points in lines)
                            for lines in (wanted, found.get(layer, ())))
            # it lays points nearer than some hundredths of a millimetre on each other
            assert np.array(theirs) == pytest.approx(np.array(mine), abs=0.1)
        holes = [what for _, own, what in plain(text) if own == "holes"]
        assert sorted(np.round(found["holes"], 2).tolist()) == sorted(np.round(holes, 2).tolist())


def test_every_layer_holds_its_work_and_part_numbers_nothing_else(kits):
    bench, sheets = kits
    first = 1 + len(bench.sticks)  # in the list of parts, after the sticks
    then = first + len(bench.drawings)
    last = then + len(bench.spacers)
    names = [*(f"{first + row} {drawing.name}" for row, drawing in enumerate(bench.drawings)),
             *(f"{then + row} spacer {one.fore} to {one.aft}"
               for row, one in enumerate(bench.spacers) for _ in "PS"),
             *(f"{last} {board.name} {side}" for board in bench.seat.boards for side in "PS"
               if bench.seat.kind == "panel")]
    pedal = last + 1 + 4  # the seat, the coaming's wall and lip, backband and rail come before
    hips = bench.hip_pads is not None
    names += [*2 * [f"{pedal} footbrace pedal", f"{pedal} pedal cheek"], f"{pedal} pedal strap",
              *2 * hips * [f"{pedal + 1} hip pad board"],
              *2 * (bench.thigh is not None) * [f"{pedal + 1 + hips} thigh brace"]]
    numbered = []
    for plan, _, text in sheets:
        entities = plain(text)
        layers = {layer for _, layer, _ in entities}
        assert layers <= {*LAYERS, "notes", "title"}
        assert {"cut-outside", "part-numbers", "tabs", "sheet", "notes"} <= layers
        on_numbers = [(kind, what) for kind, layer, what in entities if layer == "part-numbers"]
        assert all(kind == "TEXT" for kind, _ in on_numbers)
        numbered += [what for _, what in on_numbers]
        said = " ".join(what for _, layer, what in entities if layer == "notes")
        assert all(f"CAUTION: {caution}" in said for caution in CAUTIONS)
        thick = re.search(r"For plywood ([\d.]+) mm \(([\d.]+) in\) thick", said)
        assert float(thick[1]) == pytest.approx(plan.true_m * 1000)
        assert 0.0 <= float(thick[1]) / 25.4 - float(thick[2]) < 0.001
        assert "Cutter 6.35 mm" in said
        assert not any("CAUTION" in str(what) for _, layer, what in entities if layer != "notes")
        document = ezdxf.read(io.StringIO(text))
        assert [layer.dxf.name for layer in document.layers if not layer.dxf.plot
                and layer.dxf.name in layers] == ["sheet", "notes", "title"]
    assert sorted(numbered) == sorted(names)


def test_cut_lines_are_closed_and_parts_lie_a_cutter_and_two_millimetres_apart(kits):
    bench, sheets = kits
    count = 0
    for plan, sheet, text in sheets:
        entities = plain(text)
        cuts = [what for _, layer, what in entities if layer.startswith("cut-")]
        assert all(closed for closed, _ in cuts)
        assert all(Polygon(points).is_valid for _, points in cuts)
        parts = woods(entities)
        count += len(parts)
        for one, other in combinations(parts, 2):
            assert one.distance(other) >= 6.35 + 2.0 - 1e-6
        edge = box(0, 0, *(side * 1000 for side in sheet.size_m))
        assert all(edge.buffer(-8.35 + 1e-6).covers(part) for part in parts)
        assert sheet.used_share == pytest.approx(
            sum(part.area for part in parts) / edge.area, rel=1e-6)
        assert f"{100 * sheet.used_share:.0f} % of this {sheet.kind}" in " ".join(
            what for _, layer, what in entities if layer == "notes")
        holes = [what for _, layer, what in entities if layer == "holes"]
        assert all(sum(part.contains(Point(x, y)) for part in parts) == 1 for x, y, _ in holes)
        assert plan.thickness_m in (0.006, 0.012, 0.018)
    plates = bench.seat.boards if bench.seat.kind == "panel" else ()
    outfit = 5 + 2 * (bench.hip_pads is not None) + 2 * (bench.thigh is not None)
    assert count == len(bench.drawings) + 2 * len(bench.spacers) + 2 * len(plates) + outfit
    drilled = (sum(len(one.holes) for one in (*bench.frames, *bench.stems))
               + 2 * sum(len(one.holes_m) for one in plates)
               + 2 * 2  # the pedals' two bolts each
               + (2 * 4 if bench.thigh else 0))  # two holes of the wall's, two of the gunwale's
    assert sum(1 for _, _, text in sheets for _, layer, _ in plain(text)
               if layer == "holes") == drilled


def test_the_part_number_stands_on_its_own_part(kits):
    for _, sheet, text in kits[1]:
        rooms = [(one.piece, box(one.left_m, one.bottom_m, one.left_m + one.width_m,
                                 one.bottom_m + one.height_m)) for one in sheet.placements]
        for kind, codes in plain_entities(text):
            first = dict(reversed(codes))
            if kind == "TEXT" and first[8] == "part-numbers":
                at = Point(float(first[11]) / 1000, float(first[21]) / 1000)
                name = first[1].lstrip("0123456789 ")
                rooms.remove(next(one for one in rooms if one[0] == name and one[1].contains(at)))
        assert not rooms


def test_tabs_lie_on_their_lines_clear_of_notches(kits):
    """Three or more to a part's outside; none within 8 mm of a corner that a stick seats in."""
    for _, _, text in kits[1]:
        entities = plain(text)
        tabs = [LineString(what[1]) for _, layer, what in entities if layer == "tabs"]
        for _, (_, points) in [one[1:] for one in entities if one[1] == "cut-outside"]:
            ring = LineString(np.vstack([points, points[:1]]))
            own = [tab for tab in tabs if ring.buffer(0.05).covers(tab)]
            assert len(own) >= 3
            assert all(tab.length == pytest.approx(6.0, abs=0.1) for tab in own)
            steps = np.diff(np.vstack([points[-1:], points, points[:1]]), axis=0)
            angle = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
            turn = np.abs((np.diff(angle) + 180.0) % 360.0 - 180.0)
            sharp = [Point(point) for point in points[turn > 45.0]]
            assert all(tab.distance(corner) > 4.9 for tab in own for corner in sharp)


def test_mortises_take_plywood_as_thick_as_the_shops(kits):
    bench, _ = kits
    slots = [slot for pattern in bench.frames for slot in pattern.mortises]
    for slot in slots:
        sides = np.hypot(*np.diff(np.asarray(slot.minimum_rotated_rectangle.exterior.coords),
                                  axis=0).T)
        assert sides.min() == pytest.approx(0.0117 + 0.0003)
    assert {round(pattern.thickness_m, 6) for pattern in bench.frames} == {0.0117}
    assert {round(pattern.thickness_m, 6) for pattern in bench.stems} == {0.0176}


def test_what_lies_in_a_window_is_cut_before_it_and_no_window_flies(kits):
    """By the file read back: no line comes after one that it lies inside; all waste that is larger
    than a mortise's is held."""
    held = 0
    for _, _, text in kits[1]:
        entities = plain(text)
        cuts = [(layer, Polygon(what[1])) for _, layer, what in entities
                if layer.startswith("cut-")]
        assert not any(later.within(one)
                       for row, (_, one) in enumerate(cuts) for _, later in cuts[row + 1:])
        tabs = [LineString(what[1]) for _, layer, what in entities if layer == "tabs"]
        for layer, one in cuts:
            if layer == "cut-outside" or one.length > 150.0:
                assert sum(tab.distance(one.exterior) < 0.1 for tab in tabs) >= 3
                held += layer == "cut-inside"
        said = " ".join(what for _, layer, what in entities if layer == "notes")
        within = any(one.within(other) for row, (layer, one) in enumerate(cuts)
                     for _, other in cuts[row + 1:] if layer == "cut-outside")
        assert ("in other parts' windows" in said) == within
    assert held > 3


def test_the_straps_slots_are_cut_lines_that_either_bolt_goes_through(kits):
    found = [entities for entities in (plain(text) for _, _, text in kits[1])
             if any("pedal strap" in str(what) for _, _, what in entities)]
    strap = next(part for part in woods(found[0]) if len(part.interiors) == 4 and all(
        Polygon(one).length < 150.0 for one in part.interiors))
    for slot in map(Polygon, strap.interiors):
        wide = min(LineString(slot.minimum_rotated_rectangle.exterior.coords[row:row + 2]).length
                   for row in (0, 1))
        assert 25.4 / 4 < wide < 7.1


def test_seat_plates_tell_their_bow_and_upper_face(kits):
    bench, sheets = kits
    plates = 2 * len(bench.seat.boards) * (bench.seat.kind == "panel")
    words = [what for _, _, text in sheets for _, layer, what in plain(text) if layer == "words"]
    numbers = [what for _, _, text in sheets for _, layer, what in plain(text)
               if layer == "part-numbers" and "seat plate" in what]
    assert len(numbers) == plates
    faces = 2 * (bench.thigh is not None)  # the thigh braces' own
    assert sum(what.endswith("upper face") for what in words) == plates + faces
