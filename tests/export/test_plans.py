"""The plan set read back: its sheets, every number against the engine's in mm and in feet, inches
and sixteenths, no word over the edge or over another.
"""

import io
import json
import re
import tomllib
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

import numpy as np
import pytest
from pdf_reading import joined, shown, times, words_by_page, words_of
from pypdf import PdfReader
from reportlab.pdfbase.pdfmetrics import stringWidth
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry import box as shapely_box

from sizer.cli import main
from sizer.drawing.record import Circle, Path, Text
from sizer.export import package
from sizer.export.feet import COVER, foot, ground
from sizer.export.fitted_design import fitted_design_toml
from sizer.export.pages import sheets_pdf
from sizer.export.plan_cover import whose_words
from sizer.export.plan_work import told_figures
from sizer.export.plans import one_coaming, one_seat, plans_pdf
from sizer.export.seat_sheet import seat_pdf
from sizer.export.tiles import PAPERS_MM
from sizer.fit.request import read_request
from sizer.hull.sections import half_section_at
from sizer.hydro.ends import BAG_SHARE
from sizer.job import run
from sizer.scenes.bag_views import bags_from_above, panels
from sizer.scenes.band_view import band_view
from sizer.scenes.coaming_views import coaming_form, coaming_section
from sizer.scenes.construction import construction
from sizer.scenes.footbrace_views import pedals_view, rail_view
from sizer.scenes.frames_to_scale import pieces_to_scale, spacers_to_scale
from sizer.scenes.lashing_pattern import knot_drawing, lashing_drawing
from sizer.scenes.lines_plan import body_plan_drawing, profile_and_plan
from sizer.scenes.outfit_views import hip_view, thigh_view
from sizer.scenes.sheets_to_scale import sheets_to_scale, timber_to_scale
from sizer.scenes.skin_views import skin_drawing
from sizer.scenes.stem_joint import LETTERS, stem_joint
from sizer.shop.bench import bench_of
from sizer.shop.lashing import TURNS
from sizer.shop.leg_room import legs_in
from sizer.shop.money import OUR_HOURS
from sizer.shop.outfit import PINS_AFT_M
from sizer.shop.parts import boat_parts, plywood_numbers
from sizer.shop.seat_drawing import plywood_plates
from sizer.shop.work import HOURS, counted, filled, steps
from sizer.stamp import NO_JOB

BASES = {"day-boat": "A4", "steady-boat": "Letter"}  # a panel, and slats
PAIR = re.compile(r"(\d+(?:\.\d+)?)(?: mm)? \(((?:\d+' )?(?:\d+ )?(?:\d+/\d+|\d+))\"\)")
SHEETS = ("Plans", "Lines plan", "Construction", "Parts", "Setting up", "Frames and stems",
          "Sticks", "Coaming", "Seat", "Footbrace, backband, pads", "Float bags", "Lashing",
          "Skin", "Order of work", "What to buy")
LYING = ("Lines plan", "Construction", "Setting up", "Float bags")
MOST_PAGES = {"Plans": 2, "Setting up": 6, "Frames and stems": 3, "Sticks": 9,
              "Order of work": 9, "What to buy": 5, "Lashing": 2, "Lines plan": 2,
              "Float bags": 2, "Footbrace, backband, pads": 3}


def mm_of(text):
    """Feet, inches and a fraction in mm."""
    feet, _, inches = text.rpartition("'")
    return 304.8 * int(feet or 0) + 25.4 * float(sum(Fraction(one) for one in inches.split()))


def written(value_m, paper, form=".0f", parts=32):
    """A length as the reader of a paper measures it: in mm by a format, or in inches and parts."""
    value_mm = 1000.0 * float(value_m)
    if paper == "A4":
        return format(value_mm, form)
    whole, rest = divmod(round(round(value_mm, 1) / 25.4 * parts), parts)
    return " ".join(str(one) for one in (whole, Fraction(rest, parts)) if one or not (
        whole or rest)).replace("0 0", "0") + '"'


def opening(value_m, paper):
    """What something goes into: the same, in inches no less, to a thousandth."""
    return (written(value_m, paper, ".1f") if paper == "A4"
            else f'{np.ceil(1e6 * float(value_m) / 25.4 - 1e-6) / 1000.0:.3f}"')


@pytest.fixture(scope="module", params=BASES)
def made(request, middle_job, middle_bench):
    """(Job, Bench, {sheet's title: its words}, (paper, [(words, lines) of a page]))."""
    job, bench = middle_job(request.param), middle_bench(request.param)
    paper = BASES[request.param]
    pages = [_lines(page) for page in PdfReader(io.BytesIO(plans_pdf(job, bench, paper))).pages]
    words = {}
    for text, _ in pages:
        words.setdefault(text.split(":")[0], []).append(text)
    return job, bench, words, (paper, pages)


def _lines(page):
    """The page's words, and [(line, left, right, up)] of it, in points; left and right of a line
    that is not level are its place alone."""
    found, said = [], list(shown(page))
    for one in said:
        if one.text.strip():
            face = "VeraBd" if "Bold" in one.font.name else "Vera"
            _, _, _, _, x, up = times(one.tm, one.cm)
            long = (stringWidth(one.text.strip(), face, one.size)
                    if one.cm[0] * one.tm[0] > 0.99 else 0.0)
            found.append((one.text, x, x + long, up))
    return joined(said), found


def test_every_sheet_is_there_once_and_on_few_pages(made):
    job, _, words, _ = made
    assert tuple(words) == SHEETS
    for title, pages in words.items():
        assert len(pages) <= MOST_PAGES.get(title, 1), title
    cover = " ".join(words["Plans"])
    for number, title in enumerate(SHEETS, start=1):  # the number that the cover lists it by
        assert all(f"sheet {number}, page " in page for page in words[title])
        assert number == 1 or f"{number} {title}" in cover
    assert all(caution in cover for caution in job.cautions)
    assert all(foot(job) in page for title in SHEETS[1:] for page in words[title])


def test_a_length_in_both_units_is_one_length(made):
    found = [pair for pages in made[2].values() for page in pages for pair in PAIR.findall(page)]
    assert len(found) > 250
    for mm, inches in found:
        assert mm_of(inches) == pytest.approx(float(mm), abs=25.4 / 32 + 0.51), (mm, inches)


def told(text, value_m):
    """Whether a length stands in the words in whole mm and in feet, inches, sixteenths."""
    return any(float(mm) == round(1000 * value_m) and mm_of(inches) == pytest.approx(
        1000 * value_m, abs=25.4 / 32 + 0.05 + 1e-6) for mm, inches in PAIR.findall(text))


def told_mark(text, value_m):
    """Whether a mark stands in the words to a tenth of a mm and to 1/32 in, as its sheet has it."""
    return any(float(mm) == round(1000 * value_m, 1) and mm_of(inches) == pytest.approx(
        1000 * value_m, abs=25.4 / 64 + 0.05 + 1e-6) for mm, inches in re.findall(
            r"(\d+\.\d) mm \(([\d /]+) in\)", text))


def test_a_stranger_finds_what_he_asks(made):
    """Where frames stand, sticks' lengths, scarfs, risers, seat, bags, seams: from the papers."""
    job, bench, words, (paper, _) = made
    boat, up = job.fitted.assessed.boat, job.setting_up
    text = {title: " ".join(pages) for title, pages in words.items()}
    lines = text["Lines plan"]
    assert told(lines, boat.length_m)
    assert told(lines, boat.beam_m)
    breadths, _ = half_section_at(boat.sections, boat.frame_x_m)
    for x, half in zip(boat.frame_x_m, breadths.max(axis=1), strict=True):
        assert told(lines, x)
        assert told(lines, half)
    for station in up.stations:
        row = f"{station.name} {station.kind} {1000 * station.strongback_m:.1f} "
        assert re.search(rf"{row}.{{0,60}}{station.plywood_lies} of the mark",
                         text["Setting up"]), station.name
    for stick in bench.sticks:
        assert f"{1000 * stick.length_m:.1f} mm" in text["Sticks"]
        for side in (stick.joints, stick.starboard):
            assert all(f"{1000 * at:.1f}" in text["Sticks"] for at in side.middles_m)
    for riser in bench.marks.risers:
        assert f"{1000 * riser.height_m:.1f}" in text["Setting up"]
    assert f"{1000 * (bench.seat.top_m + up.baseline_height_m):.1f}" in text["Seat"]
    assert "65 mm off the centre line" in text["Seat"]
    top = 1000 * (bench.seat.top_m + up.baseline_height_m)
    assert f'Seat top 65 mm (2 9/16") off the centre line {top:.1f} mm' in text["Order of work"]
    for tie, inner in zip(bench.bag_ties, (job.mishaps.bags.fits.bow.back_x_m,
                                           job.mishaps.bags.fits.stern.front_x_m), strict=True):
        assert f"{tie.litres:.0f} litres" in text["Float bags"]
        assert f"panel at {tie.panel}" in text["Float bags"]
        assert tie.nose_line_m > 2.0 * abs(inner - tie.ring_x_m)  # to the ring and back
        assert all(told(text["Float bags"], one) for one in (
            tie.ring_in_m, tie.long_m, tie.lead_m, tie.short_of_panel_m, tie.longest_m))
        for y, z in (*tie.points_m, *tie.corners_m):
            assert (f"{written(y, paper)} / {written(z, paper)}"
                    in text["Float bags"])
        for side in tie.cloth_m:
            assert (told(text["Float bags"], side) if paper == "A4"
                    else written(side, paper) in text["Float bags"])
        assert abs(tie.panel_x_m - inner) < 0.05
    rim = bench.materials.coaming
    assert all(told(text["Coaming"], one) for one in (rim.length_m, rim.width_m))
    assert all(told(text["Coaming"], one) if paper == "A4" else written(one, paper)
               in text["Coaming"] for one in rim.wall_m)
    assert told(text["Skin"], bench.materials.seams.seam_m)
    brace, made_pedals = text["Footbrace, backband, pads"], bench.pedals
    assert f"{len(bench.foot_rails.holes_m)} holes" in brace
    bar, off = made_pedals.worst
    after = " mm" if paper == "A4" else ""
    assert (f"As drawn it is {written(made_pedals.here.bar_m, paper)}{after} at this paddler's "
            f"place, {written(bar, paper)}{after} at the worst of all places that have") in brace
    assert f"OVER the plates {written(made_pedals.here.over_m, paper)}{after} stay open" in brace
    assert f"{written(off, paper)}{after} off skin and sticks where they are nearest" in brace
    assert "the bar to try with, a round bar 25 mm (15/16 in) thick: where none so thick" in brace
    assert "never 1 in (25.4 mm), nor anything thicker" in brace
    hips = bench.hip_pads
    assert f"inner face of {hips.spacer}, tape" in brace
    assert told(brace, hips.pad_m)
    assert all(told_mark(brace, up.baseline_height_m + one) for one in (hips.low_m, hips.high_m))
    assert f"board a side on the inner face of {hips.spacer}" in text["Order of work"]
    assert "No round bar 25 mm (15/16 in) thick (where none" in text["Order of work"]
    assert f"{bench.materials.lashing.at_frames} lashings at the frames" in text["Lashing"]


def test_a_part_has_one_size_in_inches_on_every_sheet(made):
    """The seat's sheet once told the rails in 1/32, the list of buying in 1/16."""
    job, bench, words, _ = made
    seat = words_of(seat_pdf(job, bench))
    sizes = next(one.size_m for one in bench.materials.items
                 if "rail for the footbrace" in one.what)
    length = r"((?:\d+' )?(?:\d+ )?(?:\d+/\d+|\d+))"
    size = re.compile(rf'(?<![\d.]){length}" x {length}" x {length}"')
    found = [[three for three in size.findall(text) if all(
        abs(mm_of(inches) - 1000.0 * side) <= 25.4 / 32 + 1e-6
        for side, inches in zip(sizes, three, strict=True))]
        for text in (seat, " ".join(words["What to buy"]))]
    assert found[0]
    assert found[0] == found[1]


def test_sizes_of_parts_are_listed_as_finely_as_they_are_drawn(made):
    """To 1/32 in, of what a tape of 48 in reads: the list of parts once told 1/16, the figures
    beside it 1/32."""
    job, bench, words, _ = made
    listed, sizes = " ".join(words["Parts"]), set()
    for one in boat_parts(job, bench):
        sizes |= {float(size) for size in one.size_m if 0.001 < size < 1.2}
    assert len(sizes) > 10
    assert [size for size in sizes if written(size, "Letter") not in listed] == []


def test_no_sheet_of_a_coaming_or_seat_leaves_a_line_to_a_second_page(base_lines):
    """On Letter papers the surf runner's coaming once did."""
    job = run(read_request({"base": "surf-runner", "use": "rough-water", "paddler": {
        "weight_kg": 66, "stature_mm": 1700, "hip_width_mm": 365}}), base_lines["surf-runner"])
    bench = bench_of(job)
    for paper in ("A4", "Letter"):
        on = ground(job, paper, COVER)
        sheets = [one_coaming(on, bench), one_seat(on, bench)]
        heads = [one.split(":")[0] for one in words_by_page(sheets_pdf("", sheets, job.imprint))]
        assert heads == ["Coaming", "Seat"], paper


def test_no_heading_tells_of_sticks_that_the_boat_has_not(made):
    _, bench, words, _ = made
    deck = any(one.stringer.role == "deck" for one in bench.sticks)
    assert ("deck stringer" in " ".join(words["Order of work"]).lower()) <= deck


def test_a_keels_scarf_is_told_at_its_sides_since_it_lies_flat(made):
    _, bench, words, _ = made
    keel = next(one for one in bench.sticks if one.stringer.role == "keel")
    page = next(page for page in words["Sticks"] if f"1: {keel.name}" in page)
    assert keel.joints.middles_m
    assert "upper and the lower edge" not in page
    assert "seen on the port and the starboard side, on upper and lower face" in page


def test_the_checklist_has_every_step_with_this_boats_figures(made):
    job, bench, words, _ = made
    text = " ".join(words["Order of work"])
    for stem in bench.stems:  # of the bare wood: the ridge that makes it higher comes later
        base = job.setting_up.baseline_height_m
        top = max(z for _, z in stem.wood.exterior.coords) + base
        assert told_mark(text[text.index("inner corner"):], top), stem.name
        assert f"the inner corner of its head {1000 * top:.1f} mm" in " ".join(words["Setting up"])
        out = min(stem.wood.exterior.coords)[1] + base
        assert told_mark(text[text.index("Bare stems' heads"):], out), stem.name
    at = [text.index(f"{number} {step.title} (about")
          for number, step in enumerate(steps(), start=1)]
    assert at == sorted(at)
    assert not re.search(r"[{}]", text)
    hours = sum(OUR_HOURS[step.key] * counted(bench)[step.hours] for step in steps())
    assert f"about {hours:.0f} in all" in text
    weight = job.person.body.weight_kg
    assert not re.search(rf"\b{weight:g} kg", words["Plans"][0])  # no body measure
    assert text.count("DANGER.") == sum(bool(step.danger) for step in steps())
    afloat = job.fitted.assessed.particulars
    assert all(told(text, one) for one in (
        bench.marks.strongback_m, afloat.draft_m, afloat.freeboard_m))
    assert told_mark(text, bench.seat.top_m + job.setting_up.baseline_height_m)
    widest = max(job.setting_up.stations, key=lambda one: max(y for y, _ in one.points_m.values()))
    half, high = next(point for name, point in widest.points_m.items() if name == "gunwale")
    (tip_in, tip_high), _ = bench.stems[0].head_m
    span = np.linalg.norm([widest.x_m - tip_in, half,
                           high - job.setting_up.baseline_height_m - tip_high])
    assert told_mark(text, float(span))  # from the bare stem's tip, by a second way
    assert told_mark(text, 2.0 * half)


def test_every_hole_to_bore_is_told_with_its_diameter_where_it_is_asked_for(made):
    """The coaming's in the step, on its sheet and on its pattern alike, and drawn as told."""
    job, bench, words, (paper, _) = made
    asked = [sentence for step in filled(told_figures(job, bench)) for text in (step.do, step.check)
             for sentence in re.split(r"(?<=[.:]) (?=[A-Z])", text)
             if re.search(r"\b[Bb]ore\b", sentence)]
    assert len(asked) >= 3
    assert [one for one in asked if not re.search(r"\d mm \(\d+/\d+ in\)", one)] == []
    step, under = ('25 mm', '8 mm') if paper == "A4" else ('31/32"', '5/16"')
    for text, one, other in ((" ".join(words["Order of work"]), step, under),
                             (words["Coaming"][0], step, under),
                             (bench.coaming.notes[-1], "25 mm", "8 mm")):
        assert (f"holes of 2.5 mm (3/32 in), {one} apart, midway between lip and deck line"
                in " ".join(text.split()))
        assert f"lashing holes of 3.2 mm (1/8 in), {other} under the deck line" in text
    drawn = {round(2000.0 * one.radius_m, 6) for one in coaming_section(
        bench.materials.coaming, 0.001).on("drill").strokes}
    assert drawn == {2.5, 3.2}
    assert ("bored 2.5 mm (3/32 in) for those 4 thick and 3 mm (1/8 in) for those 5 thick"
            in " ".join(words["Setting up"]))


def test_parts_have_one_number_on_list_drawing_cards_and_kit(made):
    job, bench, words, _ = made
    parts = boat_parts(job, bench)
    assert [one.number for one in parts] == list(range(1, len(parts) + 1))
    numbers = {one.name: one.number for one in parts}
    plates = plywood_plates(bench.seat)
    seat, = (one.number for one in parts if one.name in ("seat plate", "seat slat"))
    sawn = plywood_numbers(job.lines.design, bench.spacers, plates, bench.outfit_pieces)
    line = {"pedal cheek": "footbrace pedal", "pedal strap": "footbrace pedal",
            "hip pad board": "hip pad on its board", "thigh brace": "thigh brace with pad"}
    assert sawn == {name: seat if name in {one.name for one in plates}
                    else numbers[line.get(name, name)] for name in sawn}
    assert {one.piece for each in bench.layouts for sheet in each.sheets
            for one in sheet.placements} == set(sawn)
    listed, drawn = words["Parts"][0], words["Construction"][0]
    for one in parts:
        assert re.search(rf"\b{one.number} {re.escape(one.name)} {one.count}\b", listed), one.name
        assert re.search(rf"\b{one.number}\b", drawn)
    found, = (one for one in parts if one.number == seat)
    cut = [one.size_m[1:] for one in bench.seat.items
           if len(one.size_m) > 1 and "rail" not in one.what]
    assert found.size_m == () or all(np.allclose(found.size_m, one, atol=1e-4) for one in cut)
    assert found.size_m or len({np.round(one, 4).tobytes() for one in cut}) > 1
    for stick, page in zip(bench.sticks, words["Sticks"], strict=False):
        assert f"{numbers[stick.name]}: {stick.name}" in page


def test_spacers_and_stem_holes_are_told_as_they_are_sawn_and_bored(made):
    """Tenons by the plywood that they go through, mortises and holes from the sawn outlines."""
    bench, words, (paper, _) = made[1:]
    text = " ".join(words["Frames and stems"])
    after = " mm" if paper == "A4" else ""
    frames = {one.name: one for one in bench.frames}
    ends = [name for one in bench.spacers for name in (one.fore, one.aft)]
    for one in bench.spacers:
        for name in (one.fore, one.aft):
            sides = np.hypot(*np.diff(np.asarray(frames[name].mortises[0].exterior.coords)[:3],
                                      axis=0).T)
            deep = frames[name].thickness_m / ends.count(name) - 0.00025 * (ends.count(name) - 1)
            tenon = " x ".join(written(side, paper, ".1f") for side in (
                deep, sides.max() - 0.0005))
            mortise = " x ".join(opening(side, paper) for side in (sides.min(), sides.max()))
            assert f"tenon {tenon}" in text
            assert f"{name} {mortise}{after}" in text
    for stem in bench.stems:
        outline = np.asarray(stem.wood.exterior.coords)
        for lashing in stem.lashings:
            for inboard, height in lashing.holes:
                at, down = (1000 * (inboard - outline[:, 0].min()),
                            1000 * (outline[:, 1].max() - height))
                assert f"{at:.1f} {down:.1f}" in text


def test_bags_fill_their_bays_and_no_more(made):
    """The rooms from frame to frame sum to the end's, by the trapezoid over fine steps."""
    job, bench = made[:2]
    boat = job.fitted.assessed.boat
    for tie in bench.bag_ties:
        x = np.linspace(tie.front_x_m, tie.back_x_m, 4001)
        y, z = half_section_at(boat.sections, x)
        areas = np.sum((y[:, 1:] + y[:, :-1]) * np.diff(z), axis=1)
        litres = 1000.0 * BAG_SHARE * float(np.trapezoid(areas, x))
        assert sum(one for _, one in tie.bays_l) == pytest.approx(litres, rel=2e-3)
        assert tie.litres <= litres


def test_a_bags_rooms_as_printed_add_up_to_its_litres_and_what_gear_takes(made):
    job, bench, words, _ = made
    text = " ".join(words["Float bags"])
    gear = job.fitted.assessed.loading.gear
    for tie in bench.bag_ties:
        said = re.search(rf"{tie.litres:.0f} litres or more, blown up.*?Room, "
                         r"litres: (nose.*?), in all (\d+)(?:, less (\d+) for the gear there: "
                         r"(\d+))?", text)
        rooms, total, less, left = said.groups()
        parts = [int(one.rsplit(" ", 1)[1]) for one in rooms.split(", ")]
        assert sum(parts) == int(total)
        assert int(total) - int(less or 0) == int(left or total) == round(tie.litres)
        inside = [heap.mass_kg for heap in gear
                  if (heap.lcg_m < job.fitted.assessed.boat.seat_x_m) == (tie.end == "bow")]
        assert int(less or 0) in (0, round(sum(inside)))
        for (_, wanted), part in zip(tie.bays_l, parts, strict=True):
            assert part == pytest.approx(wanted, abs=1.6)


def test_thigh_braces_leave_the_way_out_free(made):
    job, bench = made[:2]
    one, boat = bench.thigh, job.fitted.assessed.boat
    x = np.linspace(one.fore_x_m, one.aft_x_m, 21)
    edges = np.array([one.edge_m(place)[0] for place in x])
    assert np.all(edges >= boat.opening.half_width_m(x) - 1e-4)  # nothing over the opening
    legs = legs_in(job.fitted.assessed)
    ahead = boat.seat_x_m - x
    thigh = boat.seat_z_m + np.interp(ahead, legs.ahead_m, legs.top_m).max()
    upright_m = one.pad_m * one.wide_m / (one.outer_m - one.inner_m)  # of a slab on its slope
    assert one.inner_z_m - upright_m - thigh == pytest.approx(0.015, abs=1e-3)  # a flat hand
    for frame in job.setting_up.stations:
        assert frame.faces_x_m[1] < one.fore_x_m or frame.faces_x_m[0] > one.aft_x_m


def test_footbrace_holes_lie_on_the_rail_and_one_is_the_paddlers(made):
    job, bench = made[:2]
    rails, boat = bench.foot_rails, job.fitted.assessed.boat
    stations = {one.name: one for one in job.setting_up.stations}
    start = stations[rails.fore].faces_x_m[0] - 0.020
    for sole in rails.soles_m:  # both pins of every place go into holes
        for aft in PINS_AFT_M:
            assert min(abs(sole + aft - at) for at in rails.holes_m) < 2e-6
    assert rails.set_m in rails.soles_m
    assert start + rails.set_m == pytest.approx(
        boat.seat_x_m - job.fitted.assessed.room.foot_rest_ahead_m, abs=0.012)
    fore, aft = stations[rails.fore].faces_x_m[1], stations[rails.aft].faces_x_m[0]
    assert all(fore + 0.008 <= start + at + 1e-5 and start + at - 1e-5 <= aft - 0.008
               for at in rails.holes_m), "the plywood would shut a pin's hole"
    tape = job.setting_up.strongback_start_x_m
    told = [one.strongback_m + tape for name in ("farthest", "this paddler", "nearest")
            for one in bench.marks.marks if one.name == f"footbrace, {name}"]
    assert told == pytest.approx([start + rails.soles_m[0], start + rails.set_m,
                                  start + rails.soles_m[-1]])


def drawn_things(job, bench):
    """(words, least quantity, sizes or None) of everything that is drawn and has to be bought or
    cut, from the drawings' own records."""
    made, rim, up = bench.pedals, bench.materials.coaming, bench.marks
    for stick in bench.sticks:
        one = stick.stringer
        yield one.wood, 1, (one.width_m, one.depth_m)
    for layout in bench.layouts:
        yield "okoume plywood", len(layout.sheets), (layout.thickness_m,)
    for strip in rim.strips:
        yield strip.name, strip.count, (strip.thickness_m, strip.width_m)
    yield from (
            ("bending form", 1, None), ("clamp", 1, None), ("rail for the footbrace", 2, None),
            ("pedal of the footbrace", 2, made.size_m), ("cheek of a pedal", 2, None),
            ("block of a pedal", 2, (0.020, 0.040)), ("stop of a footbrace", 2, (0.012, 0.040)),
            ("screw 3.5 x 20", 20, None), ("stainless pin 8 mm", 4, None), ("backband", 1, None),
            ("epoxy", 0.2, None), ("waxed cord", bench.materials.lashing.count, None),
            ("cord 4 mm", sum(one.nose_line_m for one in bench.bag_ties), None),
            ("deck line", 1, None), ("points of the deck line", 0.1, None),
            ("end loops", 2.0, None), ("bolt M6", 4, None), ("strap of the pedals", 1, None),
            ("thread", 1, None), ("coating", 1, None), ("cloth", 1, None), ("zip tie", 1, None),
            ("beam", 1, None), ("risers", 1, None), ("feet and posts", 1, None))
    for one in bench.bag_ties:
        yield f"float bag, {one.end}", one.litres - 1.0, None
        yield f"{one.end} bag's panel", 1, one.cloth_m
    yield "smooth ring", 2, None
    yield "eyelet", sum(one.eyelets for one in bench.bag_ties), None
    if bench.hip_pads:
        yield "board of a hip pad", 2, bench.hip_pads.board_m
        yield "foam hip pad", 2, bench.hip_pads.size_m
        yield "contact glue", 0.1, None
    if bench.thigh:
        yield "thigh brace: thickness", 2, None
        yield "foam pad", 2, (round(bench.thigh.pad_m, 3),)
        yield "foam stop ahead of a post", 2, (
            round(bench.thigh.slot_m, 3), 0.060, 0.020)
        yield "post of a thigh brace", 2, bench.thigh.post_size_m
        yield "contact glue", 0.1, None
    assert up.risers


def test_what_the_steps_hold_draw_and_measure_with_is_on_the_list(made):
    """Counts from the risers, the frames and the cloth's edges; rough stock is larger each way."""
    _, bench, words, _ = made
    items = bench.materials.items

    def listed(group, begins):
        return next(one for one in items if one.group == group and one.what.startswith(begins))

    assert listed("strongback", "clamp").quantity == 2 * len(bench.marks.risers)
    assert listed("strongback", "string").quantity > bench.marks.strongback_m
    assert listed("strongback", "lath, straight").quantity == 2  # the footbrace's mark, to sight
    assert listed("strongback", "lath to stay a stem").quantity == 4  # a pair a stem
    legs = [one for one in items if one.what.startswith("lath to stay a leg")]
    assert len(legs) == any(one.leg_m for one in bench.marks.risers)
    points = listed("fittings", "loop of leather or webbing")
    assert points.quantity == 2 * len(bench.frames)
    text = " ".join(words["Order of work"])
    assert "These papers made by (name, how to reach them): ____" in text
    assert f"the {points.quantity} points of the deck line" in text
    skin = bench.materials.skin
    tacks = listed("sewing", "tack")
    assert tacks.quantity >= 2 * skin.lengths * skin.run_m / 0.100  # all in at once
    assert "all in until they are sewn" in tacks.allowance
    assert "Draw each tack as the needle comes to it, none before" in text
    assert 'tacks every 100 mm (3 15/16")' in text
    for one in (one for one in items if one.group == "timber"):
        rough = [float(side) for side in re.search(
            r"rough (\d+) x (\d+) mm", one.allowance).groups()]
        assert rough == pytest.approx([1000.0 * side + 4.0 for side in one.size_m[:2]], abs=0.51)
    for strip in bench.materials.coaming.strips:
        wide, thick, long = map(int, re.search(
            r"board (\d+) mm \(.*?\) wide, (\d+) mm \(.*?\) thick, (\d+) mm", listed(
                "coaming", f"white ash strips, {strip.name}").allowance).groups())
        low, high = sorted((1000.0 * strip.width_m + 3.0,
                            1000.0 * (strip.count + 1) * (strip.thickness_m + 0.003)))
        assert thick >= low
        assert wide >= high
        assert wide > thick  # as boards are sold
        assert long >= 1000.0 * strip.length_m - 1.0
    bought = " ".join(words["What to buy"])
    tape = int(re.search(r"tape measure, (\d+) m \(\d+ ft\) or longer", bought)[1])
    assert tape >= max(one.cut_m for one in bench.sticks)
    rim = bench.materials.coaming
    deck = listed("paddler", "spray deck")
    assert deck.size_m == pytest.approx(np.add((rim.length_m, rim.width_m), 0.054))  # 9 and 18 mm
    assert [int(one) for one in re.findall(r"(\d+) mm \(", deck.allowance)] == [
        round(1000.0 * rim.lip_girth_m), round(1000.0 * rim.wall_girth_m), 14]  # and the lip's
    for worn in ("PFD", "hand pump", "large sponge"):
        assert any(one.what.startswith(worn) for one in items)
    thick = re.search(r"deck line, (\d+ mm \([\d/]+ in\))", bought)[1]
    assert f"of {thick} cord in all" in text
    bits = "drill, bits in mm (in inches) 2.5 (3/32), 3 (1/8), 3.2 (1/8), 6.5 (1/4), 7 (9/32)"
    for tool in ("winding sticks", bits, "tackle",
                 "hot knife", "scale", "round bar 25 mm (15/16 in) thick"):
        assert tool in bought


def test_the_hard_wood_of_the_rails_stock_is_summed(made):
    """By hand from the lines: two of each, as long as they are along the stock, 10 mm for the saw;
    and screws of one size are one line."""
    _, bench, words, _ = made
    along = {"rail for the footbrace": 2, "stop of a footbrace": 1, "post of a thigh brace": 0,
             "cleat ahead of": 1}  # which of its sizes lies along the stock
    wanted = sum(one.quantity * (one.size_m[row] + 0.010) for one in bench.materials.items
                 for name, row in along.items() if name in one.what)
    said = re.search(r"White ash of the rails' stock, rough .*?\), in all ([\d.]+) m",
                     " ".join(words["What to buy"]))
    assert float(said[1]) == pytest.approx(wanted, abs=0.006)
    screws = [one.what for one in bench.materials.items if one.what.startswith("screw")]
    assert len(set(screws)) == len(screws)
    wedges = next(one for one in bench.materials.items if one.what.startswith("wedge"))
    feet = next(one for one in bench.materials.items if one.what.startswith("cross foot"))
    assert wedges.quantity >= 2 * feet.quantity + 2


def test_the_cover_is_read_by_who_has_paper_alone(made):
    """Sizes in both units, the files of this paper, what else is filled in beside them."""
    job, _, words, (paper, _) = made
    cover = " ".join(words["Plans"])
    own = "" if paper == "A4" else "-Letter"
    for name in (f"patterns-{paper}.pdf", f"dry-fit{own}.pdf", f"launch{own}.pdf"):
        assert job.stamp.named(name) in cover
    alone = re.sub(r"[\d.]+(?: x [\d.]+)? mm \([^()]*\)", "", cover)
    assert not re.search(r"\d mm\b", alone)
    least, most = map(float, re.search(
        r"with ([\d.]+) kg \([\d.]+ lb\) to ([\d.]+) kg \([\d.]+ lb\) on the scale",
        cover).groups())
    assert least < most == pytest.approx(job.fitted.assessed.loading.carried_kg, abs=0.06)


def test_everything_drawn_is_bought_or_cut(made):
    job, bench = made[:2]
    items = bench.materials.items
    for words, least, size in drawn_things(job, bench):
        found = [one for one in items if words in one.what and (
            size is None or one.size_m[:len(size)] == pytest.approx(size))]
        assert sum(one.quantity for one in found) >= least, (words, size)
    keys = [(one.group, one.what, one.unit, one.size_m) for one in items]
    assert len(set(keys)) == len(keys)  # each thing to buy is one line
    placed = {one.piece for layout in bench.layouts for sheet in layout.sheets
              for one in sheet.placements}
    plates = {one.name for one in plywood_plates(bench.seat)}
    assert placed >= {one.name for one in bench.drawings} | plates


def test_a_seats_holes_are_told_where_they_are_bored(made):
    """Read off the sheet, against the circles of the pieces at full size."""
    bench, text, paper = made[1], " ".join(made[2]["Seat"]), made[3][0]
    told = text.partition("each side: ")[2]
    for plate in plywood_plates(bench.seat)[:1]:
        cut = plate.on("cut").strokes[0].points_m
        front, back = (written(np.ptp(cut[np.isclose(cut[:, 0], x), 1]), paper, ".1f")
                       for x in (cut[:, 0].min(), cut[:, 0].max()))
        assert front == back or f"{front} wide in front, {back} behind" in text
        for hole in plate.on("drill").strokes:
            assert " / ".join(written(abs(at), paper, ".1f") for at in hole.centre_m) in told
    assert (" / " in told) == any(board.holes_m for board in bench.seat.boards)


def test_hours_grow_with_what_a_hand_counts(made):
    found = counted(made[1])
    assert set(found) == set(HOURS)
    assert found["stick"] == sum(stick.stringer.count for stick in made[1].sticks)
    pieces = sum(len(length.pieces) for plan in made[1].materials.cutting
                 for length in plan.lengths)
    assert found["scarf"] == pieces - found["stick"]  # each joint makes two pieces one


def test_lashings_are_drawn_as_they_are_told(made):
    """Strands counted by way of the cord: each turn forward and aft, once more forward; every
    lashing of a stem has its letter, its holes and a cord that meets them."""
    _, bench, words, _ = made
    text = words["Lashing"][0]
    strands = [np.asarray(one.points_m) for one in lashing_drawing(bench, 0.0022).strokes
               if one.pen == "here" and len(one.points_m) == 4]
    sides = [float(one[1, 0]) for one in strands if np.ptp(one[1:3, 0]) < 1e-9]
    middle = 0.5 * (min(sides) + max(sides))
    assert sum(one < middle for one in sides) == TURNS + 1  # the bow is on the left
    assert sum(one > middle for one in sides) == TURNS
    assert f"{TURNS} turns: {TURNS} strands aft, {TURNS + 1} forward" in text
    assert f"{TURNS + 1} strands must go through a hole" in text
    for stem, drawing in zip(bench.stems, bench.drawings[len(bench.frames):], strict=True):
        shown = stem_joint(stem, drawing, 0.011)
        cords = [one.points_m for one in shown.strokes if one.pen == "here"]
        assert len(cords) == len(stem.lashings) + 1  # the turns of a bag's ring
        for letter, cord, lashing in zip(LETTERS, cords, stem.lashings, strict=False):
            assert np.allclose(cord[:len(lashing.holes)], lashing.holes)
            assert f"{letter} {' and '.join(lashing.sticks)}, " in " ".join(words["Lashing"])


def test_no_line_to_a_number_on_the_plywood_runs_over_another_part(made):
    job, bench = made[:2]
    cut = plywood_numbers(job.lines.design, bench.spacers, plywood_plates(bench.seat),
                          bench.outfit_pieces)
    shown = sheets_to_scale(bench.layouts, cut, 0.0022 * 15)
    paths = [one for one in shown.strokes if isinstance(one, Path)]
    woods = [Polygon(one.points_m) for one in paths if one.pen == "cut" and one.closed]
    for lead in (LineString(one.points_m) for one in paths if one.pen == "extension"):
        end = Point(lead.coords[-1])
        others = [wood for wood in woods if not wood.contains(end)]
        assert not [wood for wood in others if wood.intersects(lead)]


@pytest.mark.parametrize("base", ["teaching-boat", "load-carrier"])
def test_a_number_led_out_of_its_part_stands_on_its_sheet_beside_every_part(base, middle_job,
                                                                             middle_bench):
    job, bench = middle_job(base), middle_bench(base)
    cut = plywood_numbers(job.lines.design, bench.spacers, plywood_plates(bench.seat),
                          bench.outfit_pieces)
    shown = sheets_to_scale(bench.layouts, cut, 0.0022 * 15)
    paths = [one for one in shown.strokes if isinstance(one, Path)]
    sheets = [Polygon(one.points_m) for one in paths if one.pen == "guide" and one.closed]
    sawn = [LineString(one.points_m) for one in paths if one.pen == "cut"]
    rings = [Point(one.centre_m).buffer(one.radius_m) for one in shown.strokes
             if isinstance(one, Circle) and one.radius_m > 0.022]
    assert rings
    assert all(any(sheet.contains(ring) for sheet in sheets) for ring in rings)
    assert not any(ring.intersects(line) for ring in rings for line in sawn)


def test_every_piece_of_timber_is_drawn_with_its_length(made):
    bench, buying = made[1], " ".join(made[2]["What to buy"])
    for plan in bench.materials.cutting:
        shown = timber_to_scale(plan, 0.05)
        boxes = [one.points_m for one in shown.strokes if one.pen == "cut"]
        pieces = [piece for one in plan.lengths for piece in one.pieces]
        assert [np.ptp(one[:, 0]) for one in boxes] == pytest.approx(
            [one.length_m for one in pieces])
        assert all(told(buying, one.length_m) and one.stick in buying for one in pieces)


def test_no_balloons_line_crosses_another_or_lies_along_a_line(made):
    job, bench = made[:2]
    shown = construction(job.fitted.assessed.boat, bench, boat_parts(job, bench), 0.0024 * 20)
    paths = [one for one in shown.strokes if hasattr(one, "points_m")]
    leads = [LineString(one.points_m) for one in paths if one.pen == "extension"]
    assert len(leads) > 25
    assert not [pair for pair in combinations(leads, 2) if pair[0].crosses(pair[1])]
    for one in paths:
        if one.pen != "extension" and len(one.points_m) > 1:
            near = LineString(one.points_m).buffer(0.0005)
            assert all(near.intersection(lead).length < 0.05 for lead in leads), one.pen


def test_a_balloon_ends_on_what_it_numbers_where_that_is_drawn(made):
    job, bench = made[:2]
    parts = boat_parts(job, bench)
    shown = construction(job.fitted.assessed.boat, bench, parts, 0.0024 * 20)
    paths = [one for one in shown.strokes if isinstance(one, Path)]
    shapes = [Polygon(one.points_m) for one in paths if one.closed]
    ends = np.array([one.points_m[-1] for one in paths if one.pen == "extension"])
    named = [one for one in parts if re.match(
        "spacer|footbrace pedal|hip pad|float bag|backband|thigh brace|seat", one.name)]
    assert len(named) >= 8
    for one in named:
        end = ends[np.abs(ends[:, 0] - one.at_m[0]).argmin()]
        assert end[0] == pytest.approx(one.at_m[0], abs=1e-9)
        own = [shape for shape in shapes if shape.distance(Point(end)) < 1e-6]
        assert own, one.name
        if one.name.startswith("spacer"):  # on the board itself, and nothing lies over it there
            long, thick = np.ptp(np.array(own[-1].exterior.coords), axis=0)
            assert len(own) == 1
            assert thick < 0.05 < long


def drawings_of(job, bench):
    """(name, Drawing) of every picture at letters as high as on A4."""
    boat, up, rim = job.fitted.assessed.boat, job.setting_up, bench.materials.coaming
    parts = boat_parts(job, bench)
    numbers = {one.name: one.number for one in parts}
    yield "lines", profile_and_plan(boat, job.fitted.assessed.particulars, 0.0019 * 20)
    yield "body plan", body_plan_drawing(boat, 0.0022 * 10)
    yield "construction", construction(boat, bench, parts, 0.0024 * 25)
    yield "pieces", pieces_to_scale(bench, numbers, 0.0022 * 12, 3)
    sawn = plywood_numbers(boat.design, bench.spacers, plywood_plates(bench.seat),
                           bench.outfit_pieces)
    yield "sheets", sheets_to_scale(bench.layouts, sawn, 0.0022 * 25)
    for plan in bench.materials.cutting:
        yield "timber", timber_to_scale(plan, 0.002 * 25)
    yield "spacers", spacers_to_scale(bench.spacers, numbers, 0.0022 * 8)
    yield "coaming", coaming_form(rim, boat, 0.0022 * 6)
    yield "section", coaming_section(rim, 0.0022 * 2)
    yield "rail", rail_view(bench, 0.0022 * 5)
    yield "pedals", pedals_view(job.fitted.assessed, bench, job.setting_up.baseline_height_m,
                                0.0022 * 5)
    yield "backband", band_view(job.fitted.assessed.boat, bench, 0.0022 * 10)
    yield "thigh", thigh_view(job.fitted.assessed, bench, up.baseline_height_m, 0.0022 * 5)
    yield "hips", hip_view(job.fitted.assessed, bench, up.baseline_height_m, 0.0022 * 5)
    yield "bags", bags_from_above(boat, bench, up.strongback_start_x_m, 0.0022 * 25)
    yield "panels", panels(job, bench, 0.0022 * 8)
    yield "lashing", lashing_drawing(bench, 0.0022)
    yield "knot", knot_drawing(0.0022)
    for stem, drawing in zip(bench.stems, bench.drawings[len(bench.frames):], strict=True):
        yield stem.name, stem_joint(stem, drawing, 0.0022 * 5)
    yield "skin", skin_drawing(boat, bench.materials.seams, 0.0022 * 30)


def test_no_words_of_a_drawing_lie_on_others(made):
    for name, drawing in drawings_of(*made[:2]):
        texts = [one for one in drawing.strokes if isinstance(one, Text)]
        boxes = [_box(one) for one in texts]
        for row, one in enumerate(boxes):
            for other, text in zip(boxes[row + 1:], texts[row + 1:], strict=True):
                apart = (one[2:] <= other[:2]).any() or (other[2:] <= one[:2]).any()
                assert apart, (name, texts[row].text, text.text)


def test_letters_and_figures_stand_beside_lines_not_on_them(made):
    """Those of the bags' panels and the spacers: an A on an edge reads as none."""
    found = {name: drawing for name, drawing in drawings_of(*made[:2])
             if name in ("panels", "spacers", "coaming")}
    assert len(found) == 3
    for name, drawing in found.items():
        lines = [LineString(np.vstack([one.points_m, one.points_m[:int(one.closed)]]))
                 for one in drawing.strokes if isinstance(one, Path)]
        for text in (one for one in drawing.strokes if isinstance(one, Text)):
            assert not any(line.intersects(shapely_box(*_box(text))) for line in lines), (
                name, text.text)


def _box(text):
    """Lower left and upper right of the letters, each 0.72 of the record's room wide."""
    turn = np.radians(text.angle_deg)
    along = 0.72 * text.width_m * np.array([np.cos(turn), np.sin(turn)])
    start = np.asarray(text.at_m) - {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * along
    up = 0.5 * text.height_m * np.array([-np.sin(turn), np.cos(turn)])
    points = np.array([start + up, start - up, start + along + up, start + along - up])
    return np.concatenate([points.min(axis=0), points.max(axis=0)])


def test_no_words_run_over_the_papers_edge(made):
    paper, pages = made[3]
    width, height = (side / 25.4 * 72.0 for side in PAPERS_MM[paper])
    edge = 8.0 / 25.4 * 72.0
    for number, (text, lines) in enumerate(pages, start=1):
        lies = text.split(":")[0] in LYING
        across, up = (height, width) if lies else (width, height)
        for line, left, right, at in lines:
            assert edge < left, (number, line)
            assert right < across - edge, (number, line)
            assert edge < at < up - edge, (number, line)


def test_the_command_writes_a_plan_set_and_its_kit(tmp_path, capsys, monkeypatch, middle_job,
                                                   middle_bench):
    for long in ("plans_pdf", "tiled_pdf"):  # what is in them: above, and test_pdf.py
        monkeypatch.setattr(package, long, lambda *_given, **_more: b"pages")
    out = tmp_path / "plans"
    assert main(["plans", "day-boat", "--out", str(out)]) in (0, 1)
    answer = json.loads(capsys.readouterr().out)
    assert {"plans.pdf", "plans-Letter.pdf", "patterns-A4.pdf", "read-me-first.txt",
            "materials-mm.csv"} <= set(answer["files"])
    assert any(name.startswith("kit/") for name in answer["files"])
    told = filled(told_figures(middle_job("day-boat"), middle_bench("day-boat")))
    for name in ("dry-fit.pdf", "launch.pdf"):  # the steps send the builder to them
        assert {name, name.replace(".pdf", "-Letter.pdf")} <= set(answer["files"])
        assert any(name in one.do for one in told)
    told = (out / "read-me-first.txt").read_text()
    for name in {*answer["files"]} - {"read-me-first.txt"}:
        assert name in told, name
    for name in re.findall(r"[\w-]+\.(?:pdf|csv|toml|json)", told):
        assert name in answer["files"], name
    assert all((out / name).stat().st_size for name in answer["files"])
    assert main(["plans", "day-boat", "--out", str(out)]) == 2  # not over another without --force


@pytest.mark.parametrize(("code", "mark", "whose"), [
    (NO_JOB, "", "Whose boat: not told"), (NO_JOB, "red hat", "Whose boat: red hat."),
    ("B-14", "", "Whose boat: B-14."), ("B-14", "red hat", "Whose boat: B-14, red hat.")])
def test_the_cover_tells_whose_boat_it_is_as_far_as_it_was_told(code, mark, whose, made):
    """And never a measure of the body: the file that it names holds them."""
    job, bench = made[:2]
    stamp = replace(job.stamp, code=code, mark=mark)
    assert whose_words(stamp).startswith(whose)
    named = replace(job, stamp=stamp)
    step = next(one for one in filled(told_figures(named, bench)) if one.key == "read")
    assert ("names no job" in step.do) == (code == NO_JOB and not mark)
    cover = made[2]["Plans"][0]
    body, file = job.person.body, stamp_file(job)
    assert "Whose boat: not told" in cover
    assert f"has the measures that it was fitted to in {file}; no sheet lists them" in cover
    drawn = tomllib.loads(fitted_design_toml(job))["drawn_for"]
    assert drawn["weight_kg"] == pytest.approx(body.weight_kg)
    assert drawn["stature_mm"] == pytest.approx(1000.0 * body.stature.value_m)
    assert f"{1000.0 * body.stature.value_m:.0f} mm" not in cover


def stamp_file(job):
    return job.stamp.named("fitted-boat.toml")


def test_the_cover_says_for_which_waves_the_boat_is_and_for_which_not(made):
    job, _, words, _ = made
    wave = job.mishaps.wave
    high = re.search(r"worked out for calm water and for waves (\d+) mm", words["Plans"][0])[1]
    assert int(high) == round(1000.0 * job.person.use.wave_height_m)
    for seen in ("whitecaps", "short chop, surf", "wakes", "ripples"):
        assert seen in words["Plans"][0]
    low = min(wave.arms.crest.gm_m, wave.arms.trough.gm_m)
    assert ("PASSING IS FOR CALM WATER" in words["Plans"][0]) == (low < -0.0005)


def test_the_cover_tells_the_odds(made):
    job, words = made[0], made[2]["Plans"][0]
    told = int(re.search(r"(\d+) of 100 such paddlers", words)[1])
    assert told == round(100.0 * job.fitted.odds_all_hard)
