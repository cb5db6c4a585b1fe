"""The Letter papers read back as one reads them who has an inch tape alone: figures wanted are the
engine's metres, turned into inches here."""

import io
import pickle
import re
from fractions import Fraction

import numpy as np
import pytest
from page_words import page_words
from pdf_reading import one_line
from pypdf import PdfReader

from sizer.drawing.record import Text
from sizer.drawing.told import in_mm, in_tenths, read, size, told
from sizer.export.plans import plans_pdf
from sizer.export.tiles import unit_read
from sizer.scenes.footbrace_views import rail_view
from sizer.shop.outfit import PINS_AFT_M

BASES = ("surf-runner", "load-carrier")


def inches(value_m, parts=32):
    """In whole inches and the nearest of so many parts of the tenth of a millimetre, marked."""
    found = Fraction(round(round(1000.0 * float(value_m), 1) / 25.4 * parts), parts)
    if not found and abs(value_m) > 5e-5:
        return f'under 1/{2 * parts}"'
    whole, rest = divmod(found, 1)
    return (f"{whole} {rest}" if whole and rest else f"{rest or whole}") + '"'


@pytest.fixture(scope="module", params=BASES)
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def letter(job, bench):
    """The plan set on Letter, read by pypdf."""
    return PdfReader(io.BytesIO(plans_pdf(job, bench, "Letter")))


@pytest.fixture(scope="module")
def sheets(letter):
    """{sheet's title: its words in one line}."""
    found = {}
    for page in letter.pages:
        text = one_line(page)
        found.setdefault(text.split(":")[0], []).append(text)
    return {title: " ".join(pages) for title, pages in found.items()}


def planed(frame, name):
    """What a frame's notch tells to plane off one stick, in inches."""
    low, high = next(one.planed_m for one in frame.section.notches if one.stringer == name
                     and max(one.planed_m) > 0.0005)
    role = next(one.role for one in frame.section.notches if one.stringer == name)
    alike = inches(low) == inches(high) or role == "gunwale"
    return inches(high) if alike else f"lower {inches(low)}, upper {inches(high)}"


def test_planing_depths_are_told_in_inches_on_cards_table_and_step(bench, sheets):
    most, told_of = {}, 0
    for frame in bench.frames:
        for notch in frame.section.notches:
            if max(notch.planed_m) > 0.0005:
                depth = planed(frame, notch.stringer)
                assert f"{frame.name} {depth}" in sheets["Sticks"]
                assert f"{notch.stringer} {depth}" in sheets["Frames and stems"]
                most[notch.stringer] = max(most.get(notch.stringer, 0.0), *notch.planed_m)
                told_of += 1
    assert told_of > 10
    for name, deep in most.items():
        assert f"{name} {inches(deep)} at F" in sheets["Order of work"]
    assert "Mark the depths on the stick's sides first" in sheets["Order of work"]
    assert "mm down both sides" not in " ".join(sheets.values())


def test_the_footbrace_is_made_by_an_inch_tape(job, bench, sheets):
    """Grooves, slots, bolts and pins of rail and pedals, which have no pattern."""
    text, rails, made = sheets["Footbrace, backband, pads"], bench.foot_rails, bench.pedals
    base = job.setting_up.baseline_height_m
    for near, far in (*rails.grooves_m, *made.slots_m):
        assert f"{inches(near)} to {inches(far)}" in text
    top = made.strap_m[:, 1].max()
    (inner, low), (outer, high) = ((out, top - up) for out, up in made.bolts_m)
    assert f"one {inches(inner)} off the centre line and {inches(low)} under" in text
    assert f"one {inches(outer)} and {inches(high)}, in slots" in text
    first, second = PINS_AFT_M
    row = ", ".join(map(inches, rails.holes_m))
    assert f"middles of holes 1 to {len(rails.holes_m)} {row}" in text
    assert (f"the first {inches(first)} and the other {inches(second)} behind the plate's after "
            "face") in text
    assert "/64\"" not in text.replace("under 1/64\"", "")
    assert second - first == pytest.approx(float(np.diff(rails.holes_m).min()))
    assert f"grooves {inches(0.010)} x {inches(0.003)} deep" in text
    for frame in bench.frames:
        for name, (half, high) in frame.holes:
            if name == "footbrace rail" and half > 0.0:
                assert f" {inches(half)} {inches(high + base)} " in text


def test_a_panel_of_the_float_bags_is_drawn_by_an_inch_tape(bench, sheets):
    for tie in bench.bag_ties:
        for half, high in (*tie.corners_m, *tie.points_m):
            assert f"{inches(half)} / {inches(high)}" in sheets["Float bags"]


def test_the_check_of_the_printer_is_in_whole_inches(sheets):
    assert "Measure both 4 in bars (on large pages 100 mm (3 15/16 in))" in sheets["Order of work"]


def test_no_figure_of_a_drawing_is_in_millimetres_alone(letter):
    """Figures that stand by themselves in drawings, whose capitals are 2.2 mm high: each in inches,
    or in both units; whole numbers of one or two digits are those of parts."""
    shapes = [page for page in letter.pages if one_line(page).split(":")[0] in (
        "Frames and stems", "Coaming", "Footbrace, backband, pads", "Float bags")]
    alone = re.compile(r"(tenon |open |strap |plate )?\d{3,}(\.\d)?( x \d+\.\d)?|\d+\.\d")
    drawn = [word for page in shapes for word in page_words(page)
             if word.size_pt == pytest.approx(2.2 / 0.73 * 72.0 / 25.4, abs=0.05)]
    assert len(drawn) > 100
    bare = [word.text for word in drawn if alone.fullmatch(word.text.strip())]
    assert bare == []


def test_patterns_to_join_name_sticks_and_plywood_by_the_inch_on_letter_paper(job, bench):
    drawings = [one.read("in") for one in bench.drawings]
    for frame, drawing in zip(bench.frames, drawings, strict=False):
        told = [one.text for one in drawing.strokes if isinstance(one, Text)]
        for notch in frame.section.notches:
            size = " x ".join(map(inches, notch.size_m))
            assert any(text.startswith(f"{notch.stringer} {size}") for text in told), told
    written = [one.text for drawing in drawings for one in drawing.strokes if isinstance(one, Text)]
    assert [text for text in written if re.search(r"\d mm|\d x \d+$", text)] == []
    assert any(text.endswith(" 1/2 in") for text in written)
    alone = re.compile(r"\d mm(?! \()")  # in millimetres and in nothing else
    assert [note for drawing in drawings for note in drawing.notes if alone.search(note)] == []


def test_a_length_is_declared_once_and_read_in_either_unit():
    """387.35 mm is 15 1/4 in by the yard of 1959."""
    said = told("rise {}, {} wide", in_tenths(0.38735), size(0.0254, 0.0127))
    assert said == "rise 387.4, 25.4 x 12.7 mm wide"  # as files and screens have it
    assert read(said, "mm") == said
    assert read(said, "in") == 'rise 15 1/4", 1" x 1/2" wide'
    assert read(told("{}: {}", "so", said), "in") == 'so: rise 15 1/4", 1" x 1/2" wide'
    assert read("plain", "in") == "plain"
    assert pickle.loads(pickle.dumps(said)).inches == said.inches
    assert read(in_mm(1.8288), "in") == "6' 0\""
    assert read(in_tenths(0.0003), "in") == 'under 1/64"'
    assert read(in_tenths(0.0), "in") == '0"'


def test_a_drawing_is_drawn_once_and_read_for_each_paper(bench):
    drawn = rail_view(bench, 0.03)
    inch = drawn.read("in")
    assert drawn.read("mm") is drawn
    first = bench.foot_rails.holes_m[0]
    texts, others = ([one.text for one in which.strokes if hasattr(one, "text")]
                     for which in (drawn, inch))
    assert f"{1000 * first:.0f}" in texts
    assert inches(first) in others
    assert [type(one) for one in drawn.strokes] == [type(one) for one in inch.strokes]


def test_the_papers_size_says_what_its_reader_measures_in():
    assert unit_read((215.9, 279.4)) == unit_read((279.4, 215.9)) == "in"
    assert unit_read((210.0, 297.0)) == "mm"
    assert unit_read((300.0, 500.0)) == "mm"  # a copy shop's


def test_a_mark_is_one_figure_in_the_strongbacks_picture_and_in_its_tables(job, letter):
    """Both stand on the Letter sheet: whole inches and 1/32, as a tape counts, and no feet."""
    pages = [one_line(page) for page in letter.pages]
    first = next(page for page in pages if page.startswith("Setting up"))
    drawn = first[first.index("the chines."):first.index("Scale 1 :")]
    for station in job.setting_up.stations:
        for figure in (station.strongback_m, station.gunwale_height_m, station.keel_height_m):
            assert inches(figure)[:-1] in drawn
    assert "'" not in drawn.replace("keel's end", "")


def test_openings_are_never_told_smaller_than_they_are(job, sheets, bench):
    """A mortise is 0.3 mm wider than its plywood: rounded to the nearest 1/32 it would be less; in
    thousandths a caliper reads it."""
    for frame in bench.frames:
        if frame.mortises:
            said = float(re.search(rf'{frame.name} (0\.\d\d\d)" x ', sheets["Frames and stems"])[1])
            assert 0.0 <= 25.4 * said - 1000 * frame.thickness_m - 0.3 < 0.0254
    assert "First caliper the sheets" in sheets["Order of work"]
    assert "a mortise takes 12.3 mm (0.484 in)" in sheets["Order of work"]  # 12.3 / 25.4 = 0.48425


def test_steps_on_letter_paper_name_files_of_letter_paper(job, bench, sheets):
    for name in ("launch", "dry-fit"):
        assert job.stamp.named(f"{name}-Letter.pdf") in sheets["Order of work"]
        assert job.stamp.named(f"{name}.pdf") not in sheets["Order of work"]


def test_the_coamings_wall_has_one_figure_in_words_and_in_its_section(bench, sheets):
    text, rim = sheets["Coaming"], bench.materials.coaming
    assert (f"The wall stands {inches(rim.wall_m[0])} over the deck line in front, "
            f"{inches(rim.wall_m[1])} behind, and {inches(rim.below_m)} under it") in text
    drawn = text.replace(text[text.index("The wall stands"):text.index("under it between")], "")
    assert all(re.search(rf"(?<![\d/]){inches(one)}", drawn) for one in (
        rim.wall_m[0], rim.below_m))
    assert f"front {1000 * rim.wall_m[0]:.0f} mm ({inches(rim.wall_m[0])})" in sheets[
        "Order of work"]


def test_the_decks_middle_is_ticked_only_where_there_is_deck(job, sheets):
    opening = job.fitted.assessed.boat.opening
    ticked = re.search(r"felt through the skin: the gunwales over (.+?), for hands in getting in"
                       r"(?:; the deck's middle at (F\d+), to sit on)?",
                       sheets["Order of work"])
    at = {one.name: one.x_m for one in job.setting_up.stations}
    decked = [name for name in re.findall(r"F\d+", ticked[1])
              if not opening.front_x_m < at[name] < opening.back_x_m]
    entry = job.fitted.assessed.boat.design.cockpit.entry
    assert [ticked[2]] == (decked if entry == "slide" else [None])


def test_a_spacers_length_is_what_its_shoulders_and_tenons_add_up_to(sheets, bench):
    """As they are told, so that who adds them up stands where the drawing has the end."""
    def in_32nds(value_m):
        return round(round(1000.0 * value_m, 1) / 25.4 * 32)

    drawn = sheets["Frames and stems"]
    for one in bench.spacers:
        (fore, _), (aft, _) = one.tenons_m
        whole = in_32nds(fore) + in_32nds(one.between_m) + in_32nds(aft)
        assert inches(whole / 32 * 0.0254) in drawn


def test_a_spacers_length_between_its_shoulders_is_one_figure_on_all_its_pages(bench, sheets):
    """Parts list, drawing, the step that sets up and what to buy."""
    for one in bench.spacers:
        long = inches(one.between_m)
        assert f" {long} between shoulders" in sheets["Frames and stems"]
        assert f"x {long} Frames and stems" in sheets["Parts"]
        assert (f"{one.fore} to {one.aft} {1000 * one.between_m:.1f} mm ({long[:-1]} in)"
                in sheets["Order of work"])
        assert re.search(rf'{one.name}: [^;]*x {re.escape(long)}', sheets["What to buy"])


def test_coaming_strips_are_told_in_thousandths_that_their_limits_hold(bench, sheets):
    """By the mm beside: what is told in inches, with its limits, stays within that of the mm."""
    said = re.search(r"By caliper each is ([\d.]+) mm \(([\d.]+) in\), off by ([\d.]+) mm "
                     r"\(([\d.]+) in\)", sheets["Order of work"])
    mm, inch, off_mm, off = map(float, said.groups())
    assert mm - off_mm <= 25.4 * (inch - off)
    assert 25.4 * (inch + off) <= mm + off_mm
    wall = bench.materials.coaming.strips[0]
    told = float(re.search(r"coaming wall 1 white ash, \d+ strips, ([\d.]+) in",
                           sheets["Parts"])[1])
    assert wall.count * inch == pytest.approx(told, abs=0.001 * wall.count)


def test_the_lips_room_is_one_figure_on_its_sheet_and_in_its_step(bench, sheets):
    front, behind = (one - 0.014 for one in bench.materials.coaming.wall_m)  # its height
    said = f"Under the lip are {inches(front)} in front, {inches(behind)} behind"
    assert said in sheets["Coaming"]
    said = re.search(r"wall's outside to the lip, (.*?); there", sheets["Order of work"])[1]
    assert all(f"({inches(one)})" in said for one in (front, behind))
