"""DXF read back by ezdxf and measured."""

import io
import os
import subprocess
import sys

import ezdxf
import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from sizer.drawing.dxf import dxf_bytes
from sizer.hull.boat import frame_points_m
from sizer.stamp import Imprint, Stamp

CAUTIONS = ("Wear a PFD.", "Dress for the water at 10 °C, not the air.")
SAME = """
import sys
import numpy as np
from sizer.drawing.dxf import dxf_bytes
from sizer.drawing.record import Drawing, Path, Text
from sizer.stamp import Imprint, Stamp
strokes = (Path("cut", np.eye(2)), Text("text", (0.0, 0.0), 0.005, "words"))
imprint = Imprint(Stamp("AB-1234", "", "", "2026-11-28", ""), "day-boat", "", ("Wear a PFD.",))
sys.stdout.buffer.write(dxf_bytes(Drawing("piece", strokes), imprint))
"""
IMPRINT = Imprint(Stamp("AB-1234", "blue paddle", "B", "2026-11-28", "A"),
                  "day-boat 4.64 m x 0.56 m", "", CAUTIONS)
MILLIMETRES = 4  # $INSUNITS in Autodesk's DXF reference


def parsed(data):
    document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    assert not document.audit().errors
    return document


@pytest.fixture(scope="module")
def documents(frame_drawings):
    return [parsed(dxf_bytes(one, IMPRINT)) for one in frame_drawings]


def loops(document):
    return [line for line in document.modelspace().query("LWPOLYLINE[layer=='cut']")]


def outer(document):
    """The outer saw line, in mm."""
    points = [np.array(line.get_points("xy")) for line in loops(document)]
    return max(points, key=lambda loop: np.ptp(loop, axis=0).prod())


def test_header_says_millimetres_and_layers_are_the_four_and_those_for_the_eye(documents):
    for document in documents:
        assert document.dxfversion == "AC1024"  # R2010
        assert document.header["$INSUNITS"] == MILLIMETRES
        used = {entity.dxf.layer for entity in document.modelspace()}
        assert used == {"cut", "mark", "drill", "text", "notes", "title"}
        assert used <= {layer.dxf.name for layer in document.layers}
        assert [layer.dxf.name for layer in document.layers if layer.dxf.name in used
                and not layer.dxf.plot] == ["notes", "title"]


def test_saw_lines_are_closed_loops_that_do_not_cross(documents, frames):
    for document, pattern in zip(documents, frames, strict=True):
        found = loops(document)
        assert len(found) == 1 + len(pattern.wood.interiors)
        assert all(line.closed for line in found)
        shapes = [Polygon(line.get_points("xy")) for line in found]
        assert all(shape.is_valid for shape in shapes)
        whole = max(shapes, key=lambda shape: shape.area)
        wood = whole.area - sum(shape.area for shape in shapes if shape is not whole)
        assert wood == pytest.approx(pattern.wood.area * 1e6, rel=1e-6)


def test_holes_are_an_eighth_of_an_inch_and_countersinks_are_marks(documents, frames):
    for document, pattern in zip(documents, frames, strict=True):
        holes = document.modelspace().query("CIRCLE[layer=='drill']")
        assert len(holes) == len(pattern.holes)
        assert [2 * hole.dxf.radius for hole in holes] == pytest.approx([3.2] * len(holes))
        rims = document.modelspace().query("CIRCLE[layer=='mark']")
        middles = {hole.dxf.center.round(6) for hole in holes}
        assert {rim.dxf.center.round(6) for rim in rims} == middles
        whole = Polygon(outer(document))
        assert all(whole.contains(Point(spot.x, spot.y)) for spot in middles)


def test_ridge_notch_is_stock_and_clearance_with_its_floor_under_the_moulded_line(
        boat, documents, frames):
    """Width, depth and place by the straight walls at the centre line, in the file's own mm."""
    for index, (document, pattern) in enumerate(zip(documents, frames, strict=True)):
        ridge = next((one for one in pattern.section.notches if one.role == "ridge"), None)
        if ridge is None:
            continue
        stock = boat.design.stringer(ridge.stringer)
        half = (stock.width_m * 1000 + 0.5) / 2.0
        top = frame_points_m(boat, index)[ridge.stringer][1] * 1000
        loop = outer(document)
        near = loop[np.abs(loop[:, 0]) < half + 1.0]
        assert ridge.floor_m >= stock.depth_m
        floor = near[np.abs(near[:, 1] - (top - ridge.floor_m * 1000)) < 0.1]
        assert np.sort(floor[:, 0]) == pytest.approx([-half, half], abs=0.1)
        walls = near[(np.abs(np.abs(near[:, 0]) - half) < 1e-6)
                     & (near[:, 1] > top - 2.0 * stock.depth_m * 1000)]
        assert len(walls) == 4
        assert walls[:, 1].max() < top


def test_the_middle_of_each_outer_face_lies_on_the_moulded_line(boat, documents, frames):
    """Each whole floor found by its length; as far out from it as it is deep, the moulded point."""
    for index, (document, pattern) in enumerate(zip(documents, frames, strict=True)):
        starts = outer(document)
        steps = np.roll(starts, -1, axis=0) - starts
        lengths = np.hypot(*steps.T)
        pockets = {name for pair in pattern.shared_notches for name in pair}
        points = frame_points_m(boat, index)
        checked = 0
        for notch in pattern.section.notches:
            if notch.role not in ("chine", "deck") or notch.stringer in pockets:
                continue
            y, z = points[notch.stringer]
            for sign in (1.0, -1.0):
                floor = np.abs(lengths - notch.width_m * 1000) < 1e-6
                along = steps[floor] / lengths[floor, None]
                away = np.array([sign * y, z]) * 1000 - starts[floor] - 0.5 * steps[floor]
                beside = np.abs(np.sum(away * along, axis=1)) < 2.0
                deep = np.abs(along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0])[beside]
                assert np.abs(deep - notch.floor_m * 1000).min() < 0.1, (pattern.name, notch)
                checked += 1
        assert checked or pockets


def test_words_name_the_frame_and_carry_every_caution(documents, frames):
    for document, pattern in zip(documents, frames, strict=True):
        layers = {layer: [text.dxf.text for text in document.modelspace().query(
            f"TEXT[layer=='{layer}']")] for layer in ("text", "notes")}
        assert pattern.name in layers["text"]
        for caution in CAUTIONS:
            assert f"CAUTION: {caution}" in layers["notes"]
        assert not any("CAUTION" in word or "mm, " in word for word in layers["text"])


def test_one_drawing_gives_the_same_bytes_in_every_process():
    made = [subprocess.run([sys.executable, "-c", SAME], env=os.environ | {"PYTHONHASHSEED": seed},
                           capture_output=True, check=True).stdout for seed in "1234"]
    assert len(made[0]) > 1000
    assert made[1:] == made[:1] * 3
