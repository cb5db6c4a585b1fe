"""The sticks' cards read back: every number on them, in mm and in inches, marks to 1/32.

Numbers wanted are taken from the sticks themselves, lengths in inches worked out here.
"""

import io
import re
from fractions import Fraction

import numpy as np
import pytest
from pdf_reading import one_line, read_page
from pypdf import PdfReader

from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.export.stick_cards import sticks_pdf
from sizer.export.tiles import PAPERS_MM
from sizer.hull.boat import sections_at
from sizer.scenes.stick_card import stick_details
from sizer.shop.planing import planed_words
from sizer.shop.stick_marks import beyond_m
from sizer.shop.stringers import ALLOWANCE_M
from sizer.shop.twists import bay_twists

BASES = ("day-boat", "long-tourer")
LENGTH = re.compile(r"(-?\d+\.\d) mm \(((?:\d+' )?(?:\d+ ?)?(?:\d+/\d+)?)\"\)")
MARK = re.compile(r"(\d+\.\d) ((?:\d+ )?(?:\d+/\d+|\d+)) (.+)")


def mm_of(text):
    """Feet, inches and a fraction in mm."""
    feet, _, inches = text.rpartition("'")
    return 304.8 * int(feet or 0) + 25.4 * float(sum(Fraction(one) for one in inches.split()))


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def cards(job, bench):
    """{stick's name: the words of its page or pages} on A4, and of both papers every page as read.
    """
    read = {}
    for paper in PAPERS_MM:
        reader = PdfReader(io.BytesIO(sticks_pdf(job, bench, paper)))
        read[paper] = [read_page(page) for page in reader.pages]
    texts = [drawn.text for drawn in read["A4"]]
    count = len(bench.sticks)
    pages, after = texts[:count], " ".join(texts[count:])  # one page a stick, then the cautions
    assert all(f"page {number} of {len(texts)}" in page and f"{stick.name} {stick.stringer.wood}"
               in page for number, (page, stick)
               in enumerate(zip(pages, bench.sticks, strict=True), 1))
    assert all(caution in after for caution in job.cautions)
    assert all("Read every caution at the end" in page for page in pages)
    return dict(zip([stick.name for stick in bench.sticks], pages, strict=True)), read


def rows_of(text):
    """The table's rows: (mm, inches text, rest)."""
    body = text.split("turns, °", 1)[1].split("Forward end,")[0]
    rows = re.split(r"(?<=[\d\"\-)a-z]) (?=\d+\.\d (?:\d+ )?(?:\d+/\d+|\d+) "
                    r"(?:end|F\d+|scarf|taper))", body.strip())
    return [MARK.fullmatch(row.strip()).groups() for row in rows]


def wanted_marks(stick):
    """[(along mm, what is told of it)] from the stick itself."""
    marks = [(0.0, "end"), (stick.length_m, "end")]
    marks += [(one.along_m, one.frame) for one in stick.crossings]
    sides = (stick.joints, stick.starboard)[:stick.stringer.count]
    marks += [(middle, "scarf") for side in sides for middle in side.middles_m]
    for end, forward in ((stick.forward, True), (stick.after, False)):
        if end.taper:
            marks += [(place if forward else stick.length_m - place, "taper")
                      for place, _ in end.taper.widths_m[1:]]
        if stick.stringer.role == "keel":  # 1 in 12 a side to the stem's 18 mm; our drawing
            long = 12.0 * 0.5 * (stick.stringer.width_m - 0.018)
            marks += [(long if forward else stick.length_m - long, "taper ends, both sides")]
    return sorted((1000 * along, what) for along, what in marks)


def test_every_mark_is_on_the_card_in_the_order_of_the_tape(bench, cards):
    for stick in bench.sticks:
        rows, wanted = rows_of(cards[0][stick.name]), wanted_marks(stick)
        assert len(rows) == len(wanted), stick.name
        for (mm, inches, what), (along, kind) in zip(rows, wanted, strict=True):
            assert float(mm) == pytest.approx(along, abs=0.0501)
            assert mm_of(inches) == pytest.approx(
                along, abs=25.4 / 64 + 0.05 + 1e-6)  # to 1/32 in of the tenth of a millimetre
            assert what.startswith(kind)


def left_m(stick, along_m):
    """The width that the card's own taper leaves at a place, in straight lines between its rows."""
    left = stick.stringer.width_m
    for end, tip in ((stick.forward, 0.0), (stick.after, stick.length_m)):
        if end.taper:
            left = min(left, np.interp(abs(along_m - tip), *zip(*end.taper.widths_m, strict=True)))
    return left


def test_faces_rises_and_turns_are_those_of_the_frames(bench, cards):
    for stick in bench.sticks:
        found = {what.split(",")[0]: re.search(
            r"plywood (aft|forward)(?:, \d+\.\d wide)? rise (-?\d+\.\d) "
            r"\((-?[\d /]+)\"\) (\d+\.\d) (-|[+-]\d+\.\d)$",
            what).groups() for _, _, what in rows_of(cards[0][stick.name]) if "plywood" in what}
        angles = [one.angle_deg for one in stick.crossings]
        for row, one in enumerate(stick.crossings):
            lies, rise, inches, face, turn = found[one.frame]
            assert lies == ("aft" if one.far_m > one.along_m else "forward")
            high = 1000 * left_m(stick, one.along_m) * np.sin(np.radians(one.angle_deg))
            assert float(rise) == pytest.approx(high, abs=0.0501)
            assert mm_of(inches.lstrip("-")) == pytest.approx(abs(high), abs=25.4 / 32 + 1e-6)
            assert float(face) == pytest.approx(one.angle_deg, abs=0.0501)
            if row == 0:
                assert turn == "-"
            else:
                assert float(turn) == pytest.approx(angles[row] - angles[row - 1], abs=0.0501)


def test_every_length_in_words_is_the_sticks_own_in_both_units(bench, cards):
    """Nothing is told that the stick does not say, and all that it says is told."""
    for stick in bench.sticks:
        one, told = stick.stringer, []
        for mm, inches in LENGTH.findall(cards[0][stick.name]):
            assert mm_of(inches) == pytest.approx(float(mm), abs=25.4 / 32 + 0.051)
            told.append(float(mm))
        flat = one.role in ("keel", "deck", "ridge")
        thick, high = (one.width_m, one.depth_m) if flat else (one.depth_m, one.width_m)
        wanted = [stick.length_m, stick.cut_m, 0.050, _over_all_m(stick, high)]
        for end in (stick.forward, stick.after):
            if end.bevel_deg:
                wanted += [thick / np.tan(np.radians(end.bevel_deg)), thick]
            if end.aslant:
                wanted += [*end.aslant.inner_m, *(one for one in end.aslant.outer_m if one > 0.0)]
            if end.cut_deg:
                left = 0.010 if end.kind == "stem head" else high  # a lap's; our drawing
                wanted += [left * np.tan(np.radians(end.cut_deg)), left]
            wanted += [end.round_m] if end.round_m else []
            wanted += [end.inside_m] if end.inside_m else []
            wanted += [end.taper.length_m] if end.taper else []
        wanted += [place for _, _, places in stick.ties for place in places]
        wanted += [size for stem in bench.stems if stem.ridge == stick.name for size in (
            stem.ridge_lap.flat_m, stem.ridge_lap.length_m, stem.ridge_lap.left_m)]
        assert all("planed to 18 mm (0.708 in)" in cards[0][stick.name]  # the stem's, by caliper
                   for stem in bench.stems if stem.ridge == stick.name)
        wanted += [size for bend in (stick.plan, stick.profile)
                   if bend and bend.verdict != "bends easily"
                   for size in (bend.radius_m, bend.along_m)]
        wanted += [twist.long_m for twist in bay_twists(stick) if twist.share >= 0.5]
        sides = (stick.joints, stick.starboard)[:one.count]
        pieces = [piece for side in sides if side.middles_m for piece in side.pieces_m]
        wanted += pieces + ([stick.joints.scarf_m] if pieces else [])
        assert sorted(told) == pytest.approx(sorted(1000 * size for size in wanted), abs=0.0501)


def test_a_card_tells_the_face_that_is_planed_and_the_patterns_figures(bench, cards):
    for stick in bench.sticks:
        told = [f"{frame.name} {said.removeprefix(stick.name)[1:]}" for frame in bench.frames
                for said in planed_words(frame)
                if re.fullmatch(re.escape(stick.name) + r" (lower )?[\d.]+(, upper [\d.]+)?", said)]
        words = cards[0][stick.name]
        assert ("a gunwale's upper face, never its outer one, to one slope" in words) == (
            bool(told) and stick.stringer.role == "gunwale")
        assert ("the outer face to two slopes, nothing along its middle" in words) == (
            bool(told) and stick.stringer.role != "gunwale")
        if not told:
            continue
        assert f": {'; '.join(told)}; " in words
        stems = re.findall(r"; (bow|stern) stem lower 0\.0, upper ([\d.]+)", words)
        assert [float(deep) for _, deep in stems] == pytest.approx([
            1000.0 * one.aslant.proud_m[1] for one in (stick.forward, stick.after) if one.aslant],
            abs=0.051)


def _over_all_m(stick, high):
    """From long point to long point: both ends' corners, over and under the tape, which lies on a
    gunwale's upper edge and on the upper face of what lies on the deck, else midway."""
    above = stick.stringer.role in ("gunwale", "deck", "ridge")
    up = high * np.array((0.0, -1.0) if above else (0.5, -0.5))
    lean = [np.tan(np.radians(end.cut_deg or 0.0)) * (1.0 if end.upper_longer else -1.0)
            for end in (stick.forward, stick.after)]
    return stick.length_m + (lean[1] * up).max() - (-lean[0] * up).min()


def test_long_points_are_inside_the_rough_stick_and_pictures_have_their_cuts(bench):
    """The drawn end's cut against the angle, tape 0 at its middle; the scarf 8 : 1."""
    for stick in bench.sticks:
        for end in (stick.forward, stick.after):
            assert beyond_m(stick, end).max() < ALLOWANCE_M
        drawn = stick_details(stick, 0.002)
        cuts = [] if drawn is None else [one.points_m for one in drawn.on("cut").strokes]
        slopes = [np.abs(np.diff(points[1:3] if len(points) == 4 else points, axis=0)[0])
                  for points in cuts]
        leans = [np.degrees(np.arctan2(x, z)) for x, z in slopes]
        for angle in [end.cut_deg for end in (stick.forward, stick.after) if end.cut_deg]:
            assert min(abs(one - angle) for one in leans) < 1e-6
        if stick.joints.middles_m:
            assert min(abs(one - np.degrees(np.arctan(8.0))) for one in leans) < 1e-6


def test_angles_of_the_ends_are_told(bench, cards):
    for stick in bench.sticks:
        text = cards[0][stick.name]
        for end in (stick.forward, stick.after):
            if end.bevel_deg:
                assert f"Bevel, {end.bevel_deg:.1f}° off its inner face" in text
                assert "from that edge's own end, long point or short point" in text
            if end.cut_deg:
                longer = "upper" if end.upper_longer else "lower"
                assert f"End cut {end.cut_deg:.1f}° off square" in text
                assert f"the {longer} edge longer" in text
        if abs(stick.twist_deg) > 0.06:
            told, fore, aft = re.search(r"winds ([\d.]+)° in all from (F\d+) to (F\d+)",
                                        text).groups()
            order = [one.frame for one in stick.crossings]
            first, last = order.index(fore), order.index(aft)
            assert first < last
            turned = sum(stick.twists_deg[first:last])  # frame by frame, as the table has it
            assert abs(turned) == pytest.approx(float(told), abs=0.06)
            assert abs(turned) >= max(map(abs, stick.twists_deg)) - 1e-9


def test_frames_stand_to_scale_along_the_picture(bench, cards):
    """The heavy line of every reference face, row by row, at the scale that the card says."""
    for read in cards[1].values():
        pages = iter(read)
        for stick in bench.sticks:
            drawn = next(page for page in pages if "along, 1 :" in page.text)
            one_to = int(re.search(r"1 : (\d+) along", drawn.text)[1])
            heavy = [points[0] for points, _, width, _ in drawn.paths
                     if len(points) == 2 and width == pytest.approx(0.4 / 25.4 * 72, abs=0.01)
                     and np.ptp(points[:, 0]) < 0.01]
            heavy.sort(key=lambda point: (-round(point[1]), point[0]))
            rows = {}
            for x, y in heavy:
                rows.setdefault(round(y), []).append(x)
            faces = [1000 * one.along_m / one_to for one in stick.crossings]
            at = 0
            for row in rows.values():
                own = faces[at:at + len(row)]
                assert np.diff(row) == pytest.approx(np.diff(own), abs=0.02), stick.name
                at += len(row)
            assert at == len(faces)


def test_cards_are_legible_and_stay_on_their_paper(cards):
    for paper, read in cards[1].items():
        assert read[0].size_mm[0] == pytest.approx(PAPERS_MM[paper][0])
        for drawn in read:
            body = [size for size, (text, *_) in zip(drawn.sizes, drawn.words, strict=True)
                    if re.search(r"\d\.\d", text) and "CAUTION" not in text and size > 7.0]
            assert min(body) >= 8.0
            for points, _, _, _ in drawn.paths:
                assert points.min() >= 8.0
                assert np.all(points.max(axis=0) <= np.array(drawn.size_mm) - 8.0)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_setting_up_sheet_tells_half_breadths_and_heights(job, bench, paper):
    reader = PdfReader(io.BytesIO(setting_up_pdf(job, bench, paper)))
    assert reader.pages[0].mediabox.width == pytest.approx(PAPERS_MM[paper][1] / 25.4 * 72)
    text = " ".join(one_line(page) for page in reader.pages)
    names = [one.name for one in job.fitted.assessed.boat.design.stringers]
    for unit, seen in (("mm", lambda one: float(one)), ("inches", lambda one: mm_of(one))):
        part = text.split(f"over the strongback, {unit}")[1]
        for station in job.setting_up.stations:
            row = re.search(rf"(?<!\S){station.name} ((?:(?:-|[\d./ ]+? / [\d./ ]+?)(?= |$) ?)+?)"
                            r"(?=F\d|Half|Setting|Other|frame|page|CAUTION)", part)
            cells = re.findall(r"-|(?:\d+(?:\.\d|(?: \d+/\d+)?|/\d+)) / "
                               r"(?:\d+(?:\.\d|(?: \d+/\d+)?|/\d+))", row[1])
            assert len(cells) == len(names), (station.name, row[1])
            for name, cell in zip(names, cells, strict=True):
                point = station.points_m.get(name)
                assert (cell == "-") == (point is None)
                if point is not None:
                    told = [seen(one) for one in cell.split(" / ")]
                    assert told == pytest.approx(np.array(point) * 1000,
                                                 abs=0.051 if unit == "mm" else 25.4 / 32 + 0.001)


def test_a_card_tells_where_a_stick_comes_out_of_its_stems_side(job, bench, cards):
    """By the hull's own sections: half the stem's thickness off the middle, from the line's end."""
    boat, told = job.fitted.assessed.boat, 0
    columns = {line.stringer.name: row for row, line in enumerate(boat.lines.between, start=1)}
    for stick in bench.sticks:
        tail = re.search(r"the (?:stem's middle|stems' middles), (.*?) past", cards[0][stick.name])
        said = [float(one) for one in re.findall(r"([\d.]+) mm", tail[1])] if tail else []
        ends = [way for end, way in ((stick.forward, 1.0), (stick.after, -1.0))
                if end.kind == "stem side"]
        assert len(said) == len(ends)
        for way, mm in zip(ends, said, strict=True):
            stem = boat.design.bow if way > 0.0 else boat.design.stern
            land = float(boat.map(stem.lands_m[stick.name]))
            x = np.linspace(land, land + way * 0.4, 8001)
            order = slice(None, None, int(way))
            skin = sections_at(boat, x[order])
            y, z = (one[order, columns[stick.name]] for one in (skin.y_m, skin.z_m))
            out = int(np.argmax(y >= 0.5 * stem.thickness_m))
            assert np.linalg.norm([x[out] - land, y[out] - y[0], z[out] - z[0]]) == pytest.approx(
                mm / 1000.0, abs=0.0004)
            told += 1
    assert told >= 4
