"""Every word of a plan set and its patterns on A4 and on Letter: whole, large enough, on paper,
over no other word; on the pages to join, on no saw line.
"""

import io
import pathlib
import re
from dataclasses import replace
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from page_words import page_words
from pdf_reading import CUT_PT, MM_PER_PT, one_line, read_page
from pypdf import PdfReader
from shapely import STRtree
from shapely.geometry import LineString, Point, Polygon, box

from sizer.drawing.record import Drawing, Path, Text, text_corners_m
from sizer.export.package import _to_join, file_names
from sizer.export.pages import words
from sizer.export.pdf_canvas import wrapped
from sizer.export.plan_work import told_figures
from sizer.export.plans import plans_pdf
from sizer.export.read_me import read_me
from sizer.export.tile_words import readable, whole_words
from sizer.export.tiled_pdf import tiled_pdf
from sizer.export.tiles import tiling
from sizer.fit.request import read_request
from sizer.job import run
from sizer.shop.bench import bench_of
from sizer.shop.settings import SHOP
from sizer.shop.work import filled

LEAST_PT = 7.0  # of letters; our judgement
BENCH_PT, BENCH_READ = 7.5, ("Order of work:", "Float bags:", "What to buy:")  # of those there
EDGE_PT = 8.0 / MM_PER_PT  # that most printers can leave white
MEET_PT2 = 0.5  # of two words' boxes that is less than a hair's breadth


@pytest.fixture(scope="module")
def made(base_lines):
    """(Job, Bench) with half patterns."""
    job = run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 78, "stature_mm": 1780, "hip_width_mm": 385}}), base_lines["day-boat"])
    bench = bench_of(job, replace(SHOP, patterns="half"))
    return job.stamped(None, bench), bench


def faults(page, words):
    """What is wrong with the words of a page, in words."""
    assert words
    paper = box(EDGE_PT - 0.5, EDGE_PT - 0.5, float(page.mediabox.width) - EDGE_PT + 0.5,
                float(page.mediabox.height) - EDGE_PT + 0.5)
    for word in words:
        if word.size_pt < LEAST_PT - 0.01:
            yield f"small: {word.text}"
        if not paper.covers(word.box):
            yield f"over the edge: {word.text}"
        if word.clip and not box(*word.clip).covers(word.box):
            yield f"cut off: {word.text}"
    boxes = [word.box for word in words]
    for one, other in zip(*STRtree(boxes).query(boxes, predicate="intersects"), strict=True):
        if one < other and boxes[one].intersection(boxes[other]).area > MEET_PT2:
            yield f"one over the other: {words[one].text} | {words[other].text}"


@pytest.fixture(scope="module")
def plan_set(made):
    """By `plan_set(paper)`, the plans of that job, read by pypdf."""
    return cache(lambda paper: PdfReader(io.BytesIO(plans_pdf(*made, paper))))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_word_of_a_plan_set_is_small_clipped_or_over_another(plan_set, paper):
    reader = plan_set(paper)
    words = [page_words(page) for page in reader.pages]
    found = [(number, fault) for number, page in enumerate(reader.pages, start=1)
             for fault in faults(page, words[number - 1])]
    assert not found
    assert_pages_are_told(words)
    assert_bench_pages_are_larger(words)


def assert_bench_pages_are_larger(words):
    """What is read on the bench is small in nothing, its pages' feet as little as the rest."""
    read = [page for page in words if any(word.text.startswith(BENCH_READ) for word in page)]
    assert len(read) > 8
    assert [word.text for page in read for word in page if word.size_pt < BENCH_PT - 0.01] == []


def assert_pages_are_told(words):
    """The cover tells the pages that the sheets are on, by what heads each page."""
    on = {}
    for one in words:
        number, page = next(found.groups() for word in one if (found := re.fullmatch(
            r"sheet (\d+), page (\d+) of \d+", word.text)))
        on.setdefault(number, []).append(page)
    lists = [word for word in words[0] if re.fullmatch(r"\d+ [A-Z].*, page ", word.text)]
    assert len(lists) == len(on) - 1
    for word in lists:
        _, low, right, _ = word.box.bounds
        beside, = (other.text for other in words[0] if other.box.distance(word.box) < 1e-3
                   and abs(other.box.bounds[0] - right) < 1e-3
                   and abs(other.box.bounds[1] - low) < 1e-3)
        pages = on[word.text.split()[0]]
        assert beside == " to ".join(dict.fromkeys((pages[0], pages[-1])))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_no_word_on_pages_to_join_is_cut_off_or_on_a_saw_line(made, paper):
    job, bench = made
    reader = PdfReader(io.BytesIO(tiled_pdf("x", _to_join(bench), job.imprint, paper)))
    crossed, told = [], set()
    for number, page in enumerate(reader.pages, start=1):
        words = page_words(page)
        crossed += [(number, fault) for fault in faults(page, words)]
        words = [word for word in words if word.clip]
        told |= {word.text for word in words}
        saws = [LineString(np.vstack([path, path[:int(closed)]]) / MM_PER_PT)
                for path, closed, width, window in read_page(page, words=False).paths
                if window is not None and width == pytest.approx(CUT_PT) and len(path) > 1]
        tree = STRtree(saws)
        crossed += [(number, f"on a saw line: {word.text}") for word in words
                    if tree.query(word.box, predicate="intersects").size]
    assert not crossed
    for frame in bench.frames:  # moved, not lost
        assert frame.name in told
    assert {"UP", "P"} <= told


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_every_mark_of_a_large_piece_has_its_name_whole_on_both_its_pages(made, paper):
    """Of names of three letters too, which a page's edge cut through."""
    levels = tuple(Path("cut", np.array([(0.0, up), (0.9, up)]))
                   for up in np.arange(0.0, 1.21, 0.05).tolist())
    reader = PdfReader(io.BytesIO(tiled_pdf("x", [Drawing("board", levels)], made[0].imprint,
                                            paper)))
    words = [page_words(page) for page in reader.pages]
    assert [fault for page, some in zip(reader.pages, words, strict=True)
            for fault in faults(page, some)] == []
    names = [word.text for some in words for word in some if re.fullmatch(r"\d+[ab]", word.text)]
    assert sum(len(one) > 2 for one in set(names)) > 10
    assert {names.count(one) for one in names} == {2}


def test_a_word_on_a_line_to_work_by_is_moved_off_it():
    """A name that a dashed level runs through is read as struck out."""
    board = Path("cut", np.array([(0.0, 0.0), (0.15, 0.0), (0.15, 0.1), (0.0, 0.1)]), closed=True)
    level = Path("guide", np.array([(0.0, 0.05), (0.15, 0.05)]))
    name = Text("text", (0.075, 0.0505), 0.004, "chine 19 x 19")
    moved = whole_words(Drawing("board", (board, level, name)),
                        tiling((0.0, 0.0, 150.0, 100.0), (180.0, 120.0)))
    (word,) = [one for one in moved.strokes if isinstance(one, Text)]
    room = Polygon(text_corners_m(word))
    assert not room.intersects(LineString(level.points_m))
    assert Polygon(board.points_m).contains(room)
    assert np.hypot(word.at_m[0] - 0.075, word.at_m[1] - 0.0505) < 0.012


def test_a_sticks_name_stands_in_no_stick_and_a_line_leads_from_it_to_its_own(
        base_lines, sawn_as_drawn):
    """Two sticks in one pocket are told apart on the pages to join, wherever there was room."""
    patterns, drawings = sawn_as_drawn(base_lines["long-tourer"])
    led = 0
    for pattern, drawing in zip(patterns, drawings, strict=True):
        tiles = tiling(tuple(1000.0 * one for one in drawing.box_m), (190.0, 250.0))
        strokes = whole_words(drawing, tiles).strokes
        sticks = [Polygon(one.points_m) for one in strokes if one.pen == "stick"]
        texts = [one for one in strokes if isinstance(one, Text)]
        boxes = {one.text: Polygon(text_corners_m(one)) for one in texts}
        for notch in pattern.section.notches:
            name = next(one for one in texts if one.text.startswith(f"{notch.stringer} "))
            line, = (LineString(one.points_m) for one in strokes if isinstance(one, Path)
                     and one.pen == "extension" and len(one.points_m) == 2
                     and np.allclose(one.points_m[-1], name.of_m))
            assert notch.stock().contains(Point(name.of_m)), (pattern.name, name.text)
            assert boxes[name.text].distance(Point(line.coords[0])) < 1e-9
            assert not any(boxes[name.text].intersects(one) for one in sticks), name.text
            assert not any(line.crosses(box) for text, box in boxes.items() if text != name.text)
            led += 1
    assert led == sum(len(one.section.notches) for one in patterns)


def test_patterns_on_the_screen_keep_every_word_large_enough_and_apart(made):
    for piece in made[1].drawings:
        least = 0.0165 * piece.width_m
        words = [one for one in readable(piece, least).strokes if isinstance(one, Text)]
        assert [one.text for one in words] == [
            one.text for one in piece.strokes if isinstance(one, Text)]
        assert min(one.height_m for one in words) >= least
        boxes = [Polygon(text_corners_m(one)) for one in words]
        apart = [one.intersection(other).area < 1e-9 for one, other in combinations(boxes, 2)]
        assert sum(not one for one in apart) <= 1, piece.name  # what is drawn close stays so


def test_every_paper_asks_for_the_same_look_at_the_bars(made, plan_set):
    job, bench = made
    readme = (pathlib.Path(__file__).parents[2] / "README.md").read_text("utf-8")
    step = next(one for one in filled(told_figures(job, bench)) if one.key == "read")
    led = PdfReader(io.BytesIO(tiled_pdf("x", bench.drawings[:1], job.imprint))).pages[0]
    where = "along and up the paper, on the first and the last page of every print run"
    both = f"both 100 mm bars (on Letter paper 4 in), {where}"
    inches = f"both 4 in bars (on large pages 100 mm (3 15/16 in)), {where}"
    on_letter = [plan_set("Letter"), PdfReader(io.BytesIO(tiled_pdf(
        "x", bench.drawings[:1], job.imprint, "Letter")))]
    for text, said in ((readme, both), (read_me(job, bench, ("read-me-first.txt",)), both),
                       (step.do, f"both 100 mm bars, {where}"),
                       (one_line(led), f"both 100 mm bars, {where}"),
                       *((" ".join(map(one_line, reader.pages)), inches) for reader in on_letter)):
        assert said in " ".join(text.split())


def test_the_read_me_tells_which_file_to_print_for_which_use(made):
    job, bench = made
    text = " ".join(read_me(job, bench, file_names(job, bench)).split())
    part = text[text.index("WHAT TO PRINT"):text.index(" FILES ")]
    papers = [name for name in file_names(job, bench) if name.endswith(".pdf")]
    for name in papers:
        assert name in part or "-Letter" in name or "-A4" in name, name
    assert "To build from paper: plans.pdf, patterns-A4.pdf" in part
    only = read_me(job, bench, ("plans.pdf", "patterns-A4.pdf"))
    assert "customer.pdf" not in only  # no file is told that is not there


def test_no_line_of_a_paper_ends_within_a_length():
    """Of whatever width: words as laid in blocks, and as broken beside drawings."""
    text = "The boat is 15 ft 7 5/8 in long (4766 mm), its cockpit 21 3/4 in wide, for 181 lb."
    for width_mm in np.linspace(40.0, 160.0, 31):
        block = words(text)
        block.wrap(width_mm * 72.0 / 25.4, 1000.0)
        laid = [line[1] for line in block.blPara.lines] if block.blPara.kind == 0 else [
            [part.text for part in line.words] for line in block.blPara.lines]
        laid = [" ".join(line) for line in laid]
        for lines in (laid, wrapped(text, 9.0, width_mm)):
            assert " ".join(lines).replace("\xa0", " ") == text
            whole = {word.strip("(),.") for line in lines for word in line.split(" ")}
            assert {"15\xa0ft\xa07\xa05/8\xa0in", "4766\xa0mm", "21\xa03/4\xa0in",
                    "181\xa0lb"} <= whole
