"""SVG read back as XML and measured."""

from xml.etree import ElementTree

import numpy as np
import pytest

from sizer.drawing.file_svg import svg_text
from sizer.drawing.pens import WORK_PENS
from sizer.drawing.record import Drawing, Path, Text
from sizer.stamp import Imprint, Stamp

NAMESPACE = {"svg": "http://www.w3.org/2000/svg"}
CAUTIONS = ("Wear a PFD & keep it <fastened>.", "Dress for the water.")
IMPRINT = Imprint(Stamp("AB-1234", "<blue> & paddle", "B", "2026-11-28", "A"),
                  "day-boat 4.64 m x 0.56 m", "", CAUTIONS)


def parsed(drawing):
    return ElementTree.fromstring(svg_text(drawing, IMPRINT))


def points(element):
    return np.array([[float(value) for value in pair.split(",")]
                     for pair in element.get("points").split()])


def test_size_in_millimetres_is_the_view_box(frame_drawings):
    for drawing in frame_drawings:
        root = parsed(drawing)
        width, height = root.get("width"), root.get("height")
        assert width.endswith("mm")
        assert height.endswith("mm")
        assert root.get("viewBox").split() == ["0", "0", width[:-2], height[:-2]]


def test_saw_lines_are_at_true_size_inside_the_picture(frames, frame_drawings):
    for pattern, drawing in zip(frames, frame_drawings, strict=True):
        root = parsed(drawing)
        loops = root.findall("svg:g[@id='cut']/svg:polygon", NAMESPACE)
        assert len(loops) == 1 + len(pattern.wood.interiors)
        ends = np.concatenate([points(loop) for loop in loops])
        left, low, right, high = pattern.wood.bounds
        assert np.ptp(ends, axis=0) == pytest.approx(
            [1000 * (right - left), 1000 * (high - low)], abs=0.01)
        assert ends.min() > 0.0
        assert ends[:, 0].max() < float(root.get("width")[:-2])
        # up in the boat is up in the picture: the keel's end is the lower one
        keel = ends[np.abs(ends[:, 0] - ends[:, 0].mean()) < 30.0]
        assert keel[:, 1].max() > ends[:, 1].mean()


def test_each_pen_is_a_group_and_notes_stand_apart(frame_drawings):
    root = parsed(frame_drawings[0])
    assert [group.get("id") for group in root.findall("svg:g", NAMESPACE)] == [
        *WORK_PENS, "guide", "stick", "extension", "notes"]
    holes = root.findall("svg:g[@id='drill']/svg:circle", NAMESPACE)
    assert holes
    assert {hole.get("r") for hole in holes} == {"1.6000"}


def test_cautions_come_back_whole(frame_drawings):
    root = parsed(frame_drawings[0])
    rows = [text.text for text in root.findall("svg:g[@id='notes']/svg:text", NAMESPACE)]
    words = " ".join(rows)
    for caution in CAUTIONS:
        assert f"CAUTION: {caution}" in words
    width = float(root.get("width")[:-2])
    assert max(len(row) for row in rows) * 3.5 * 0.62 <= width


def test_letters_are_escaped():
    square = Path("cut", np.array([(0.0, 0.0), (0.1, 0.0), (0.1, 0.1)]), closed=True)
    root = parsed(Drawing('a "b" & <c>', (square, Text("text", (0.05, 0.05), 0.005, "<&>"))))
    assert root.find("svg:title", NAMESPACE).text == IMPRINT.line + ' · a "b" & <c>'
    assert root.find("svg:g[@id='text']/svg:text", NAMESPACE).text == "<&>"
