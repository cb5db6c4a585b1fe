"""PDF read back by pypdf: page sizes, the bar to measure, pages joined as a builder joins them."""

import io
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import partial

import numpy as np
import pytest
from pdf_reading import CUT_PT, read_page, shown, times
from pypdf import PdfReader
from reportlab.pdfbase.pdfmetrics import stringWidth
from shapely.geometry import LineString, MultiLineString, Point, Polygon, box
from shapely.ops import unary_union

from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.export.pdf import sheet_pdf
from sizer.export.pdf_canvas import BOLD, FACE, register_faces
from sizer.export.tile_layout import laid, tile_page
from sizer.export.tile_ways import best_way
from sizer.export.tiled_pdf import tiled_pdf
from sizer.export.tiles import OVERLAP_MM, PAPERS_MM, READ_IN, tiling
from sizer.fit.cautions import standing_cautions
from sizer.shop.stem_drawing import stem_drawing
from sizer.shop.stems import stem_patterns
from sizer.stamp import Imprint, Stamp

CAUTIONS = standing_cautions()
IMPRINT = Imprint(Stamp("AB-1234", "blue paddle", "B", "2026-11-28", "A"),
                  "day-boat 4.64 m x 0.56 m", "", CAUTIONS)
MARK = re.compile(r"\d+[ab]")
PAPERS = ("A4", "Letter")


@pytest.fixture(scope="module")
def drawings(boat, frame_drawings):
    return [*frame_drawings, *map(stem_drawing, stem_patterns(boat))]


@pytest.fixture(scope="module")
def large(drawings):
    """Each piece on a page of its own, read."""
    return pages_of(sheet_pdf("Boat", drawings, IMPRINT))[0]


@pytest.fixture(scope="module")
def tiled(drawings, lines, base_lines):
    """A solid frame, an open one and a stem on pages, of every second base on A4 and of the others
    on Letter: (paper, drawings, pages read)."""
    paper = PAPERS[list(base_lines.values()).index(lines) % len(PAPERS)]
    chosen = [drawings[0], drawings[len(drawings) // 2 - 1], drawings[-2]]
    pages, _ = pages_of(tiled_pdf("Boat", chosen, IMPRINT, paper))
    return paper, chosen, pages


def pages_of(data):
    reader = PdfReader(io.BytesIO(data))
    return [read_page(page) for page in reader.pages], reader


def saw_lines(drawn):
    return [points for points, closed, width, _ in drawn.paths if closed
            and width == pytest.approx(CUT_PT, abs=0.01)]


def bar_lengths(drawn):
    """Lengths of the level line beside the words that name the bars, and of the upright one in the
    margin, or beside it, that begins level with it; ticks are shorter than a third of them."""
    return [np.ptp(points, axis=0).max() for points in bars(drawn)]


def bars(drawn):
    """Their lines, (2, 2) mm each."""
    at = next((x, y) for text, x, y in drawn.words if "up the margin too" in text)
    lines = [points for points, _, _, _ in drawn.paths if len(points) == 2]
    return [points for axis in (0, 1) for points in lines
            if np.ptp(points[:, 1 - axis]) < 1e-6 and np.ptp(points[:, axis]) > 30.0
            and abs(points[:, 1].min() - at[1]) < 1.0 and points[:, 0].max() < at[0]
            and (axis == 0 or points[0, 0] < 14.0)]


def cut_length(drawing):
    return sum(LineString([*stroke.points_m, stroke.points_m[0]]).length * 1000
               for stroke in drawing.strokes if stroke.pen == "cut")


def test_large_pages_show_each_piece_at_true_size(drawings, large):
    assert len(large) == len(drawings)
    for drawn, drawing in zip(large, drawings, strict=True):
        assert drawn.size_mm[0] >= drawing.width_m * 1000
        assert drawn.size_mm[1] >= drawing.height_m * 1000
        wanted = [stroke.points_m * 1000 for stroke in drawing.strokes if stroke.pen == "cut"]
        found = saw_lines(drawn)
        assert len(found) == len(wanted)
        shift = found[0][0] - wanted[0][0]
        for points, loop in zip(found, wanted, strict=True):
            assert points[:len(loop)] - shift == pytest.approx(loop, abs=0.01)
            assert points.min() >= 0.0
            assert np.all(points.max(axis=0) <= drawn.size_mm)


def test_every_page_has_a_bar_that_its_reader_can_measure_and_cautions(large, tiled):
    """Whole millimetres on A4, whole inches on Letter, both told on large pages. All cautions on
    each large page; on pages to join the way to the last, which has them all."""
    bars = {"A4": (100.0, "100 mm,"), "Letter": (4 * 25.4, "4 in,")}
    for pages, whole, (long, said) in ((large, 0, (100.0, "100 mm (3 15/16 in),")),
                                       (tiled[2], len(tiled[2]) - 1, bars[tiled[0]])):
        for number, drawn in enumerate(pages):
            assert bar_lengths(drawn) == [pytest.approx(long, abs=0.1)] * 2
            assert f"{said} up the margin too" in drawn.text
            ticks = [points for points, _, _, _ in drawn.paths if len(points) == 2 and np.ptp(
                points[:, 1]) < 1e-6 and np.ptp(points[:, 0]) < 1.0
                and any(7.0 < points[:, 0].max() - inset < 7.4 for inset in (0.0, 6.0))]
            assert len(ticks) == (9 if said == "4 in," else 11)
            assert min(points[:, 0].min() for points in ticks) > 6.35  # a printer's quarter inch
            asked = CAUTIONS if number >= whole else ("Read every caution on the last page",)
            for caution in asked:
                assert caution in drawn.text


def test_tiles_are_pages_of_the_paper(tiled):
    paper, _, pages = tiled
    for drawn in pages:
        assert sorted(drawn.size_mm) == pytest.approx(sorted(PAPERS_MM[paper]), abs=0.01)


def by_drawing(pages):
    """{name of a piece: the numbers of its tile pages}, as their titles say."""
    groups = {}
    for number, drawn in enumerate(pages):
        for text, _, _ in drawn.words:
            if found := re.fullmatch(r"Boat: (.*), tile \d+ of \d+, row \d+, column \d+", text):
                groups.setdefault(found[1], []).append(number)
    return groups


def joined_places(tiles):
    """Where each page lies, found only by laying crosses of one name on each other."""
    marks = [tile.word_at(MARK) for tile in tiles]
    places, waiting = {0: np.zeros(2)}, [0]
    while waiting:
        page = waiting.pop()
        for other in range(len(tiles)):
            common = marks[page].keys() & marks[other].keys()
            if other in places or not common:
                continue
            shifts = [marks[page][name] - marks[other][name] for name in common]
            assert np.ptp(shifts, axis=0).max() < 0.01
            places[other] = places[page] + shifts[0]
            waiting.append(other)
    return places


def test_joined_pages_are_the_piece(tiled):
    _, drawings, pages = tiled
    groups = by_drawing(pages)
    assert list(groups) == [drawing.name for drawing in drawings]
    for numbers, drawing in zip(groups.values(), drawings, strict=True):
        tiles = [pages[number] for number in numbers]
        places = joined_places(tiles)
        assert len(places) == len(tiles), "every page joins another"
        lines, whole = [], {}
        for number, tile in enumerate(tiles):
            for points, closed, width, window in tile.paths:
                if closed and width == pytest.approx(CUT_PT, abs=0.01):
                    shown = LineString(points + places[number]).intersection(
                        Polygon(window + places[number]))
                    lines.append(shown)
                    moved = points + places[number]
                    whole.setdefault(tuple(np.round(moved.mean(axis=0), 1)), moved)
        seen = unary_union([line.buffer(0.02, 2) for line in lines])
        loops = MultiLineString([np.vstack([points, points[:1]]) for points in whole.values()])
        assert loops.difference(seen).length < 0.01, "no part of the saw line is missing"
        assert unary_union(lines).difference(loops.buffer(0.02, 2)).length < 0.01, "none is doubled"
        assert loops.length == pytest.approx(cut_length(drawing), abs=0.05)


def squares(tile):
    """Middles of the squares, 6 mm wide, round the lettered crosses of one page."""
    found = [points[:4] for points, closed, _, _ in tile.paths if closed and len(points) < 6]
    return [points.mean(axis=0) for points in found
            if np.allclose(np.abs(points - points.mean(axis=0)), 3.0, atol=0.01)]


def test_what_stands_at_lettered_crosses_is_their_distance_over_the_joints(tiled):
    """Measured on the pages as they are joined, and told beside the map."""
    paper, _, pages = tiled
    groups = by_drawing(pages)
    first = min(number for numbers in groups.values() for number in numbers)
    maps = " ".join(drawn.text for drawn in pages[:first])
    unit, mm = {"A4": ("mm", 1.0), "Letter": ("in", 25.4)}[paper]
    for numbers in groups.values():
        tiles = [pages[number] for number in numbers]
        places, told, crosses = joined_places(tiles), {}, []
        for number, tile in enumerate(tiles):
            for text, _, _ in tile.words:
                if found := re.fullmatch(rf"([A-D]): ([\d /]+) {unit} to ([A-D])", text):
                    told[found[1], found[3]] = number, found[2]
            crosses.append([spot + places[number] for spot in squares(tile)])
        names = [("A", "B"), ("B", "A"), ("C", "D"), ("D", "C")] if len(tiles) > 1 else []
        assert sorted(told) == names
        assert sum(map(len, crosses)) == len(names)
        for one, other in names[::2]:
            (near, length), (far, same) = told[one, other], told[other, one]
            assert near != far
            assert length == same
            long_mm = mm * float(sum(map(Fraction, length.split())))
            assert any(np.hypot(*(end - start)) == pytest.approx(long_mm, abs=0.02)
                       for start in crosses[near] for end in crosses[far])
            assert re.search(rf"{one} to {other} {long_mm:.1f} mm \([\d /]+ in\)", maps)
            assert unit == "mm" or f"({length} in)" in maps


def turned_by(lying, drawing):
    """The unit complex number that a piece is turned by, from its first saw line."""
    lies, drawn = (one.on("cut").strokes[0].points_m @ (1.0, 1.0j) for one in (lying, drawing))
    return (lies[1] - lies[0]) / (drawn[1] - drawn[0])


@pytest.mark.parametrize("paper", PAPERS)
def test_every_corner_that_is_measured_to_is_on_a_page(frames, frame_drawings, paper):
    """The sticks' outer corners, whose half-breadths and heights the papers tell, lie outside the
    saw lines; every hole is whole on one page."""
    register_faces()
    size_mm = PAPERS_MM[paper]
    pages = [tile_page("Boat", IMPRINT, size) for size in (size_mm, size_mm[::-1])]
    for pattern, drawing in zip(frames, frame_drawings, strict=True):
        lying, page, tiles = best_way(drawing, pages)
        turn = turned_by(lying, drawing)
        assert 8.0 <= page.left_mm == page.size_mm[0] - 8.0 - page.window_mm[0]
        windows = [box(*tile.box_mm(page.window_mm)) for tile in tiles.tiles]
        for y, z in (one.corner_m for one in pattern.section.notches):
            for at in 1000.0 * np.array([y + z * 1.0j, -y + z * 1.0j]) * turn:
                assert any(window.covers(Point(at.real, at.imag)) for window in windows)
        for _, (y, z) in pattern.holes:
            at = 1000.0 * (pattern.right_sign * y + z * 1.0j) * turn
            hole = Point(at.real, at.imag).buffer(1.6)
            assert any(window.covers(hole) for window in windows)


def test_joints_pass_beside_a_notch_where_the_pages_have_room():
    """250 x 60 mm on two A4 windows of 194 mm: spread evenly, the joint runs down the middle."""
    register_faces()
    notched = np.array([(-0.125, 0.0), (-0.01, 0.0), (-0.01, 0.02), (0.01, 0.02), (0.01, 0.0),
                        (0.125, 0.0), (0.125, 0.06), (-0.125, 0.06)])
    floor = Drawing("floor", (Path("cut", notched, closed=True),))
    piece = laid("Boat", floor, IMPRINT, (210.0, 150.0))
    assert abs(turned_by(piece.drawing, floor) - 1.0) < 1e-9
    assert len(piece.tiles.tiles) == 2
    assert abs(piece.tiles.upright_joins_mm[0]) > 10.0 + OVERLAP_MM / 2.0


def test_the_maps_show_every_tile_and_tell_its_page(tiled):
    paper, drawings, pages = tiled
    groups = by_drawing(pages)
    first = min(number for numbers in groups.values() for number in numbers)
    maps = " ".join(drawn.text for drawn in pages[:first])
    for name, numbers in groups.items():
        pages_named = (f"page {numbers[0] + 1}" if len(numbers) == 1
                       else f"pages {numbers[0] + 1} to {numbers[-1] + 1}")
        assert f"{name}: {len(numbers)} tile{'s' * (len(numbers) > 1)}, {pages_named}" in maps
    shown = Counter(text for drawn in pages[:first] for text, _, _ in drawn.words
                    if text.isdigit())
    assert shown == Counter(str(tile + 1) for numbers in groups.values()
                            for tile in range(len(numbers)))
    unit = {"A4": "mm", "Letter": "in"}[paper]
    for note in {note for drawing in drawings for note in drawing.read(unit).notes}:
        assert maps.count(note) == 1, "what several pieces share is said once"


def test_a_piece_is_turned_where_that_takes_fewer_pages():
    """A strip of 290 x 20 mm is longer than a page's window, and goes on one along its diagonal."""
    _, reader = pages_of(tiled_pdf("Boat", [strip_of(0.290)], IMPRINT))
    assert len(reader.pages) == 3  # the map, the strip, the cautions
    _, reader = pages_of(tiled_pdf("Boat", [strip_of(0.390)], IMPRINT))
    assert len(reader.pages) == 4


def strip_of(long_m):
    corners = np.array([(0.0, 0.0), (long_m, 0.0), (long_m, 0.02), (0.0, 0.02)])
    return Drawing("strip", (Path("cut", corners, closed=True),))


@pytest.mark.parametrize("size_mm", [(50.0, 40.0), (180.0, 230.0), (181.0, 800.0), (700.0, 350.0)])
def test_windows_cover_the_box_and_overlap(size_mm):
    cover = (5.0, -3.0, 5.0 + size_mm[0], -3.0 + size_mm[1])
    window = (180.0, 230.0)
    tiles = tiling(cover, window)
    shapes = [box(*tile.box_mm(window)) for tile in tiles.tiles]
    assert unary_union(shapes).buffer(1e-6).covers(box(*cover))
    assert len(shapes) == tiles.rows * tiles.columns
    for tile, shape in zip(tiles.tiles, shapes, strict=True):
        for other, beside in zip(tiles.tiles, shapes, strict=True):
            if (other.row, other.column) == (tile.row, tile.column + 1):
                assert np.diff(shape.intersection(beside).bounds[0::2]) == pytest.approx(OVERLAP_MM)
    for mark in tiles.marks:
        around = box(mark.right_mm - 4, mark.up_mm - 4, mark.right_mm + 4, mark.up_mm + 4)
        assert sum(shape.covers(around) for shape in shapes) >= 2
    assert len({mark.name for mark in tiles.marks}) == len(tiles.marks)


@pytest.mark.parametrize("lines", ["load-carrier"], indirect=True)  # any piece will do
def test_same_drawings_give_the_same_bytes(drawings):
    for make in (sheet_pdf, tiled_pdf):
        assert make("Boat", drawings[:2], IMPRINT) == make("Boat", drawings[:2], IMPRINT)


@pytest.mark.parametrize("lines", ["load-carrier"], indirect=True)  # its words are given
def test_a_long_title_and_mark_stay_inside_the_page_and_clear_of_its_number(drawings):
    long = replace(drawings[0], name="frame " * 30)
    stamp = replace(IMPRINT.stamp, code="W" * 24, mark="W" * 100, revision="W" * 8)
    imprint = replace(IMPRINT, stamp=stamp, refusal="DOES NOT PASS: " + "why " * 60)
    for make in (partial(tiled_pdf, paper="A4"), partial(tiled_pdf, paper="Letter"), sheet_pdf):
        reader = PdfReader(io.BytesIO(make("Boat " * 30, [long], imprint)))
        for page in reader.pages:
            across = float(page.mediabox.width)
            numbers, rows = [], []
            for one in shown(page):
                if one.text.strip() and 3.0 < one.size <= 10.0 and one.cm[1] == 0.0:
                    found = numbers if one.text.strip().startswith("page ") else rows
                    face = BOLD if "Bold" in one.font.name else FACE
                    found.append((*times(one.tm, one.cm)[4:],
                                  stringWidth(one.text.strip(), face, one.size)))
            (left, at, _), = numbers
            assert any(abs(height - at) < 0.1 for _, height, _ in rows), "the title beside it"
            for start, height, width in rows:
                assert start + width <= across - 8.0 / 25.4 * 72.0 + 0.1
                if abs(height - at) < 0.1:
                    assert start + width < left


def test_every_stick_and_level_is_named_on_the_pages_to_join(tiled):
    """Words that stand beyond the saw lines are moved in, not lost."""
    paper, chosen, pages = tiled
    groups = by_drawing(pages)
    for drawing in (one.read(READ_IN[paper]) for one in chosen):
        told = " ".join(pages[number].text for number in groups[drawing.name])
        names = {stroke.text for stroke in drawing.strokes if isinstance(stroke, Text)}
        missing = {name for name in names if name not in told}
        whole = {"keel's end from below"}  # told where its outline is whole: test_whole_guides.py
        assert missing <= {"CL", "sheer", "water"} | whole, drawing.name


@pytest.mark.parametrize("paper", PAPERS_MM)
def test_no_joining_cross_lies_on_a_hole(paper, middle_job, middle_bench):
    """A hole 3.2 mm wide is bored where it stands, not at a cross of 9.6 mm with its name beside
    it, and neither covers the other; each cross stays on both its pages."""
    job, bench = middle_job("load-carrier"), middle_bench("load-carrier")
    register_faces()
    seen = 0
    for drawing in bench.drawings:
        one = laid("patterns", drawing, job.imprint, PAPERS_MM[paper])
        holes = [np.multiply(circle.centre_m, 1000.0) for circle in one.drawing.strokes
                 if isinstance(circle, Circle)]
        for mark in one.tiles.marks:
            at = mark.right_mm, mark.up_mm
            assert min(np.hypot(*np.subtract(hole, at)) for hole in holes) > 9.0, drawing.name
            boxes = [tile.box_mm(one.tiles.window_mm) for tile in one.tiles.tiles]
            assert sum(left + 4.8 < at[0] < right - 4.8 and low + 4.8 < at[1] < high - 4.8
                       for left, low, right, high in boxes) >= 2
            seen += 1
    assert seen > 40


def test_the_bars_to_measure_stand_off_the_papers_edge(tiled):
    """Those of the first and the last page: printers leave up to half an inch white."""
    _, _, pages = tiled
    for drawn in (pages[0], pages[-1]):
        for points in bars(drawn):
            assert points.min() > 12.0
            assert (np.array(drawn.size_mm) - points).min() > 12.0
