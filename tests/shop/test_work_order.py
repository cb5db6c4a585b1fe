"""The order of work: its records."""

import io
import re
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from pypdf import PdfReader
from shapely import contains_xy
from shapely.geometry import LineString, box
from shapely.ops import unary_union

from sizer.export.feet import ground
from sizer.export.launch_sheet import launch_pdf
from sizer.export.owners_use import use_words
from sizer.export.plan_work import told_figures, work_sheet
from sizer.hull.sections import half_section_at
from sizer.scenes.stem_joint import filled_words
from sizer.shop.bench import bench_of
from sizer.shop.risers import FOOT_M, KINDS, risers
from sizer.shop.work import HOURS, PHASES, filled, steps
from sizer.shop.work_figures import ROUGH_M
from sizer.shop.work_room import boarding_words
from tests.conftest import BASE_NAMES


def test_steps_have_keys_of_their_own_in_the_order_of_their_phases():
    assert len({one.key for one in steps()}) == len(steps())
    order = [PHASES.index(one.phase) for one in steps()]
    assert order == sorted(order)
    assert {one.hours for one in steps()} <= set(HOURS)


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "steady-boat"])
def test_every_small_part_is_made_in_a_step_that_names_the_sheet_with_its_sizes(base, middle_job,
                                                                              middle_bench):
    """From the parts to buy and cut, which say what is sawn from a sheet or its offcuts."""
    job, bench = middle_job(base), middle_bench(base)
    made = {step.key: step.do for step in filled(told_figures(job, bench))}
    sawn = made["plywood"]
    for one in bench.spacers:
        assert f"2 of {one.name}" in sawn
    assert all(frame.name in sawn for frame in bench.frames if frame.mortises)
    assert "mortises" in sawn
    for words, item in (("2 pedals", "pedal of the footbrace"), ("2 cheeks", "cheek of a pedal"),
                        ("the strap", "strap of the pedals"),
                        ("boards of the hip pads", "board of a hip pad"),
                        ("boards of the thigh braces", "thigh brace: thickness"),
                        ("seat plates", "seat plate"), (" slats", " slat:"),
                        ("webbing straps", "webbing strap")):
        bought = any(item in one.what for one in bench.materials.items)
        assert (words in sawn) == bought, words
    for title in ("Seat", "Frames and stems", "Footbrace, backband, pads"):
        assert f"(sizes: {title})" in sawn
    assert all(words in made["outfit-glue"] for words in ("2 rails", "2 stops", "2 blocks"))
    post = any("post of a thigh brace" in one.what for one in bench.materials.items)
    assert ("2 posts of the thigh braces" in made["outfit-glue"]) == post
    for stem in bench.stems:
        lap = stem.ridge_lap
        assert (f"{stem.ridge}, underside over its last {1000 * lap.flat_m:.0f} mm"
                in made["shape"])
        assert f"whole again {1000 * lap.length_m:.0f} mm" in made["shape"]
    assert f"Beyond {bench.frames[0].name} and {bench.frames[-1].name}" in made["fair"]
    assert "no step is left under the skin" in made["fair"]


def test_steps_refer_to_each_other_by_their_numbers_and_in_no_circle(middle_job, middle_bench):
    """Each step that is sent to can be read to its end without being sent back."""
    sent = {one.key: set(re.findall(r"{at_([\w-]+)}", " ".join((one.do, one.check, one.danger))))
            for one in steps()}
    assert sum(map(len, sent.values())) > 5
    left = dict(sent)
    while left:
        free = [key for key, to in left.items() if not to & left.keys()]
        assert free, f"a circle among {sorted(left)}"
        left = {key: to for key, to in left.items() if key not in free}
    made = filled(told_figures(middle_job("day-boat"), middle_bench("day-boat")))
    said = {int(number): title for one in made for number, title in re.findall(
        r"step (\d+), “([^”]+)”", " ".join((one.do, one.check, one.danger)))}
    assert len(said) == len(set().union(*sent.values()))
    assert all(made[number - 1].title == title for number, title in said.items())
    assert not re.search(r"the step “|steps? before\b", " ".join(one.do for one in made))


@pytest.mark.parametrize("base", BASE_NAMES)
def test_one_gets_in_astride_with_a_helper_and_everybody_is_told_the_same(base, middle_job,
                                                                         middle_bench):
    """In the order of work, at the water and by the owner; no leg is swung in over one side."""
    job, bench = middle_job(base), middle_bench(base)
    told = {one.key: one for one in filled(told_figures(job, bench))}
    words = " ".join(boarding_words(job)["boarding"].split())
    sheet = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        launch_pdf(job))).pages).split())
    owner = " ".join(use_words(job, bench))
    for text in (" ".join(told["boarding"].do.split()), sheet, owner):
        assert words in text
    order = [words.index(one) for one in (
        "A helper stands beside the foredeck", "In: stand astride", "sit down onto the middle",
        "one leg after the other", "Out:", "a leg out to each side")]
    assert order == sorted(order)
    assert "stand beside" not in words
    boat = job.fitted.assessed.boat
    held = re.search(r"holds both gunwales at (\w+)", words)[1]
    at = dict(zip((one.name for one in boat.design.frames), boat.frame_x_m, strict=True))
    assert at[held] < boat.opening.front_x_m - 0.25  # no leg comes in there
    deep = int(re.search(r"water about (\d+) mm", words)[1]) / 1000.0
    assert job.fitted.assessed.particulars.draft_m + 0.05 < deep < 0.30  # a shin's length at most
    for key in ("lift-off", "foam", "wet-exit"):
        text = told[key].do + told[key].check
        assert "astride as step" in text, key
        assert "helper" in text, key
    assert "one foot over the gunwale onto the board" in told["sit"].do


@pytest.mark.parametrize("base", BASE_NAMES)
def test_the_board_to_climb_on_goes_in_between_its_frames_and_over_their_floors(
        base, middle_job, middle_bench):
    """The floors by points in the sawn plywood on the centre line, a tenth of a millimetre apart;
    the keel's height by the stations' straight between both frames."""
    job, bench = middle_job(base), middle_bench(base)
    do = next(one.do for one in filled(told_figures(job, bench)) if one.key == "sit")
    thick, long, wide, fore, aft, tape, apart, deep, block = re.search(
        r"a board (\d+) mm \([^)]+\) x (\d+) mm \([^)]+\) x (\d+) mm .*? keel between (F\d+) and "
        r"(F\d+), its middle at tape ([\d.]+) mm .*? (\d+) mm \([^)]+\) apart, (\d+) mm .*?"
        r"the strongback, a block ([\d.]+) mm .*?, two wedges on it, .*? hangs in zip ties",
        do).groups()
    thick, long, tape, apart, deep, block = (float(one) / 1000.0 for one in (
        thick, long, tape, apart, deep, block))
    at = {one.name: one for one in job.setting_up.stations}
    room = at[aft].faces_x_m[0] - at[fore].faces_x_m[1]
    assert 0.135 < long < room
    fore_end, aft_end = (tape + job.setting_up.strongback_start_x_m + side * 0.5 * long
                         for side in (-1.0, 1.0))
    assert at[fore].faces_x_m[1] + 0.004 < fore_end
    assert aft_end < at[aft].faces_x_m[0] - 0.004
    keel, = (one.stringer for one in bench.sticks if one.stringer.role == "keel")
    high = 0.5 * (at[fore].keel_height_m + at[aft].keel_height_m)
    assert block + 0.020 == pytest.approx(high, abs=0.002), "two wedges of 20 mm go in"
    up = job.setting_up.baseline_height_m
    for frame in (one for one in bench.frames if one.name in (fore, aft)):
        z = np.arange(frame.wood.bounds[1], frame.wood.bounds[1] + 0.2, 0.0001)
        inside = contains_xy(frame.wood, np.zeros_like(z), z)
        first = int(np.argmax(inside))
        floor = z[first + int(np.argmin(inside[first:]))]
        assert thick + keel.depth_m + high > floor + up + 0.007
    assert keel.width_m < apart < keel.width_m + 0.004
    assert 0.005 < deep < keel.depth_m - 0.005  # off the skin
    assert int(wide) >= 100
    bought = [one for one in bench.materials.items if "board to climb on" in one.what]
    assert [one.size_m[:2] for one in bought] == [(thick, long)]
    assert any("cleat under that board" in one.what for one in bench.materials.items)
    assert any("below that board" in one.what for one in bench.materials.items)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_cleats_bear_what_the_lashings_of_the_footbraces_frame_do_not(base, middle_job,
                                                                    middle_bench):
    """Both feet at twice the body's weight against three turns a lashing, two strands a turn of 50
    N, rubbed on both faces at 0.2, and glue at 1 N/mm2."""
    job, bench = middle_job(base), middle_bench(base)
    cleats, told = bench.cleats, {one.key: one for one in filled(told_figures(job, bench))}
    index = [one.name for one in bench.frames].index(bench.foot_rails.aft)
    sticks = len(bench.frames[index].section.notches)
    push = 2.0 * job.person.body.weight_kg * 9.80665
    grip = cleats.lashings * 3 * 2 * 50.0 * 0.2 * 2
    assert sticks <= cleats.lashings <= 2 * sticks
    both, unaided = map(float, re.search(
        r"both cleats hold ([\d.]+) times that, 1\.26 wanted, the \d+ lashings alone ([\d.]+);",
        told["lift-off"].check).groups())
    assert unaided == pytest.approx(grip / push, abs=0.05)
    _, long, tall = (1000.0 * one for one in cleats.size_m)
    assert both == pytest.approx((grip + 2.0 * long * tall) / push, abs=0.06)
    assert both > 1.26
    stick, = (one.stringer for one in bench.sticks if one.stringer.name == cleats.stick)
    assert tall <= 1000.0 * stick.width_m
    riser = next(one for one in bench.marks.risers if one.frame == cleats.frame)
    assert cleats.stick not in riser.hides
    assert f"inner face of the {cleats.stick}" in told["outfit-glue"].do
    assert cleats.stick in told["oil"].do.partition("These are")[2]
    assert any(f"cleat ahead of {cleats.frame}" in one.what for one in bench.materials.items)


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_right_way_up_the_boat_is_propped_at_the_stick_beside_the_keel(base, middle_job,
                                                                     middle_bench):
    """By the stations' points, over the keel's there."""
    job = middle_job(base)
    told = next(one.do for one in filled(told_figures(job, middle_bench(base)))
                if one.key == "skin")
    stick = re.search(r"a padded wedge a side under the ([\w ]+),", told)[1]
    props = re.findall(r"(\d+) mm \([^)]+\) high (\d+) mm \([^)]+\) out at (F\d+)", told)
    assert len(props) == 2
    at = {one.name: one for one in job.setting_up.stations}
    for high, out, name in props:
        half, up = at[name].points_m[stick]
        assert int(out) == pytest.approx(1000.0 * half, abs=2.0)
        assert int(high) == pytest.approx(1000.0 * (up - at[name].keel_height_m), abs=2.0)


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_the_pump_rides_ahead_of_the_opening_under_cords_that_are_bought(base, middle_job,
                                                                       middle_bench):
    job, bench = middle_job(base), middle_bench(base)
    told = {one.key: one.do for one in filled(told_figures(job, bench))}
    names = re.search(r"elastic cord across the foredeck at (F\d+) and (F\d+)",
                      told["lines"]).groups()
    boat, at = job.fitted.assessed.boat, {one.name: one for one in job.setting_up.stations}
    assert all(at[one].x_m < boat.opening.front_x_m for one in names)
    assert boat.opening.front_x_m - at[names[0]].x_m < 0.65  # of an arm
    wide = sum(2.0 * at[one].points_m["gunwale"][0] for one in names)
    cord, = (one for one in bench.materials.items if "for the hand pump" in one.what)
    assert wide + 0.4 < cord.quantity < 1.2 * wide + 0.4
    assert "hand pump lies lengthwise on the foredeck" in told["aboard"]
    assert "no loop" in told["aboard"]


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "steady-boat"])
def test_getting_in_afloat_is_told_with_the_frames_that_bear_a_hand(base, middle_job, middle_bench):
    """The rim's free stretches and the supports between them make up the opening's length."""
    job, bench = middle_job(base), middle_bench(base)
    step = next(one for one in filled(told_figures(job, bench)) if one.key == "boarding")
    boat = job.fitted.assessed.boat
    front, back = boat.opening.front_x_m, boat.opening.back_x_m
    inside = [(frame.name, x) for frame, x in zip(boat.design.frames, boat.frame_x_m, strict=True)
              if front < x < back]
    behind = next(frame.name for frame, x in zip(boat.design.frames, boat.frame_x_m, strict=True)
                  if x >= back)
    assert f"gunwales at {behind}, " in step.do
    assert all(f"gunwales at {name}, {1000 * (back - x):.0f} mm" in step.do for name, x in inside)
    places = [front, *(x for _, x in inside), back]
    told = [int(one) for one in re.findall(r"(\d+) mm \(", step.check)]
    assert told == [round(1000 * (to - at)) for at, to in pairwise(places)]
    assert max(told) > 300  # a stretch that a hand would find
    assert "Take instruction first" in step.do
    assert "no spray deck" in step.do
    assert "instructor" in step.danger


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_the_launch_step_keeps_the_launch_sheets_rules(base, middle_job, middle_bench):
    job = middle_job(base)
    steps = filled(told_figures(job, middle_bench(base)))
    step = next(one for one in steps if one.key == "launch")
    sheet = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        launch_pdf(job))).pages).split())
    assert "launch.pdf" in step.do
    assert "NO SPRAY DECK" in step.do
    assert "no spray deck" in sheet
    if base == "day-boat":  # no weight that shows anything is safe by paper alone
        assert "Steadiness trial: none with weights" in step.do
        assert "NO TRIAL WITH WEIGHTS" in sheet
        return
    assert "by that sheet alone" in step.do
    most, off, frame = re.search(
        r"at most ([\d.]+ kg) \([\d.]+ lb\), (\d+ mm) .*? on the deck at (F\d+)\.",
        step.do).groups()
    assert f"At most {most}" in sheet
    assert f"lays the weight {off}" in sheet
    ticked = next(one.do for one in steps if one.key == "lines")
    assert re.search(rf"each side {off} .*? on the deck at {frame}, for the trial's weight",
                     ticked)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("base", ["teaching-boat", "small-cruiser", "surf-runner"])
def test_sticks_within_a_risers_boards_are_led_in_and_planed_as_told(base, kind, middle_job,
                                                                    middle_bench):
    """By the half-breadths of the stations: a cheek that stands farther out than the middle of a
    stick's outer face cannot be passed from outside, nor can a leg, nor a plane beside a cheek."""
    job, bench = middle_job(base), middle_bench(base)
    up = job.setting_up
    made = risers(up.stations, bench.frames, up.baseline_height_m, kind)
    bench = replace(bench, marks=replace(bench.marks, risers=made))
    told = {one.key: one.do for one in filled(told_figures(job, bench))}
    roles = {one.name: one.stringer.role for one in bench.sticks}
    within = {}
    for riser, station in zip(made, up.stations, strict=True):
        for name, (half, high) in station.points_m.items():
            if roles[name] in ("chine", "gunwale") and (
                    riser.leg_m or (half < riser.inner_m and high < riser.height_m)):
                within.setdefault((roles[name], riser.leg_m is None), set()).add(riser.frame)
    for role, key in (("gunwale", "gunwales"), ("chine", "chines")):
        said = re.search(r"Both ends first, lengthwise, inside (.*?): one pushed", told[key])
        lead = said and said[1]
        for cheeks, boards in ((True, "cheeks"), (False, "legs")):
            frames = within.get((role, cheeks), set())
            found = re.findall(rf"the {boards} at (every frame|[F\d, and]+)", lead or "")
            names = {name for one in found for name in re.findall(r"F\d+", one)}
            if "every frame" in found:
                names = {one.name for one in bench.frames}
            assert names == frames
    left = re.search(r"Leave (.*?), which no plane reaches", told["fair"])
    assert left[1].startswith("the whole keel")
    beside = within.get(("chine", True), set())
    cheeks, bars = (set(re.findall(r"F\d+", " ".join(re.findall(
        rf"{words} at ((?:F\d+(?:, | and )?)+)", left[1]))))
        for words in ("inside the cheeks", "under the bar"))
    assert cheeks <= beside
    assert ("inside the cheeks" in left[1]) <= bool(beside)
    hung = {one.frame for one in made if one.leg_m}
    ridged = {frame.name for frame in bench.frames for notch in frame.section.notches
              if notch.role == "ridge" and max(notch.planed_m) > 0.001}
    assert bars <= hung
    assert bars >= hung & ridged
    assert "plane on the bench what was left" in told["trim"]


@pytest.mark.parametrize("base", BASE_NAMES)
def test_the_keel_lies_on_the_feet_before_the_frames_stand(base, middle_job, middle_bench):
    """Between both posts and their feet, as long as it is then, and under all plywood."""
    job, bench = middle_job(base), middle_bench(base)
    keel, = (one for one in bench.sticks if one.stringer.role == "keel")
    bow, stern = bench.marks.posts
    room = (min(stern.tape_m[0], stern.foot_tape_m[0])
            - max(bow.tape_m[1], bow.foot_tape_m[1]))
    assert keel.length_m + ROUGH_M < room
    for frame in bench.frames:
        under = frame.wood.intersection(box(-0.02, -1.0, 0.02, 2.0)).bounds[1]
        assert (FOOT_M[1] + max(keel.stringer.depth_m, keel.stringer.width_m)
                < under + job.setting_up.baseline_height_m)
    told = {one.key: one.do for one in filled(told_figures(job, bench))}
    assert told["frames"].startswith("First lay the keel on the risers' feet")
    assert told["keel"].startswith("Lift the keel off the feet")


def test_what_a_trade_insists_on_comes_before_what_it_would_spoil():
    at = {one.key: row for row, one in enumerate(steps())}
    for first, then in (("strongback", "frames"), ("risers", "frames"), ("frames", "gunwales"),
                        ("gunwales", "keel"), ("keel", "chines"), ("dry-fit", "fair"),
                        ("fair", "trim"),
                        ("sit", "trim"), ("oil", "lash"), ("lash", "coaming-fit"),
                        ("coaming-fit", "outfit-glue"), ("outfit-glue", "outfit"),
                        ("outfit", "lift-off"), ("lift-off", "skin"), ("coaming-fit", "skin"),
                        ("skin", "sew"), ("sew", "coat"), ("coat", "foam"), ("foam", "bags"),
                        ("foam", "wet-exit"), ("bags", "launch"), ("bags", "leaks"),
                        ("leaks", "boarding"), ("launch", "wet-exit-afloat"),
                        ("bags", "aboard"), ("aboard", "boarding"),
                        ("wet-exit", "launch"), ("wet-exit", "boarding"), ("bags", "boarding"),
                        ("boarding", "launch")):
        assert at[first] < at[then], (first, then)


@pytest.mark.parametrize(("base", "shallow"), [
    ("long-tourer", ("F1", "F11")), ("small-cruiser", ())])
def test_a_keel_in_a_shallow_notch_is_held_by_blocks(base, shallow, middle_job, middle_bench):
    """Its walls measured down the notch's sides in the sawn plywood."""
    bench = middle_bench(base)
    told = next(one.do for one in filled(told_figures(middle_job(base), bench))
                if one.key == "keel")
    found = dict((name, float(mm)) for mm, name in re.findall(
        r"(\d+) mm \([^)]*\) deep at (F\d+)", told))
    assert tuple(found) == shallow
    assert ("clamp a block" in told) == bool(shallow)
    for frame in bench.frames:
        keel = frame.section.notches[0]
        wall = frame.wood.buffer(2e-4).intersection(keel.walls()[0].buffer(1e-4))
        low, high = (wall.bounds[1], wall.bounds[3])
        if frame.name in found:
            assert 1000.0 * (high - low) == pytest.approx(found[frame.name], abs=1.0)
        else:
            assert 1000.0 * (high - low) > 5.5


@pytest.mark.parametrize("base", ["long-tourer", "surf-runner"])
def test_who_climbs_in_is_kept_off_the_frames_floors(base, middle_job, middle_bench):
    """The least depth counted by points in the sawn plywood, a quarter of a millimetre apart."""
    bench = middle_bench(base)
    danger = next(one.danger for one in filled(told_figures(middle_job(base), bench))
                  if one.key == "sit")
    frame, mm = re.search(r"No foot and no knee on a frame's floor: beside the keel that of (F\d+) "
                          r"is (\d+) mm", danger).groups()
    wood = next(one for one in bench.frames if one.name == frame)
    keel, chine = wood.section.notches[:2]
    low = wood.wood.bounds[1]
    heights = np.arange(low - 0.001, low + 0.5, 0.00025)
    depths = []
    for half in np.arange(keel.room().bounds[2] + 0.012, chine.room().bounds[0] - 0.012, 0.003):
        inside = contains_xy(wood.wood, np.full_like(heights, half), heights)
        first = int(np.argmax(inside))
        depths.append(0.00025 * int(np.argmin(inside[first:])))
    assert 1000.0 * min(depths) == pytest.approx(float(mm), abs=0.8)


def test_the_coaming_is_bored_and_varnished_before_it_is_lashed(middle_job, middle_bench):
    """Every hole on the bench, varnish in all of them, cord over dry varnish only."""
    figures = told_figures(middle_job("long-tourer"), middle_bench("long-tourer"))
    told = next(one.do for one in filled(figures) if one.key == "coaming-fit")
    order = [told.index(one) for one in (
        "fit it", "lashing holes of", "for the sewing", "for the thigh braces", "Varnish it",
        "let it dry, 24 hours", "lash it: at a frame")]
    assert order == sorted(order)
    assert "the arm's hole, never round it alone" in told


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_foam_is_glued_after_the_coating_and_the_way_out_tried_with_it(
        base, middle_job, middle_bench):
    """Each pad that is bought is told of there, its most in mm; no foam is glued before."""
    bench = middle_bench(base)
    told = {one.key: one for one in filled(told_figures(middle_job(base), bench))}
    pads = {one.what: one.size_m[0] for one in bench.materials.items
            if one.what.startswith("closed-cell foam")}
    for part, words in (("thigh brace", "thigh braces' boards"), ("hip pad", "hip pads' boards")):
        most = [thick for what, thick in pads.items() if part in what]
        assert (words in told["foam"].do) == bool(most)
        assert all(f"{words} {1000 * one:.0f} mm" in told["foam"].do for one in most)
    stops = [one for one in pads if "stop" in one]
    assert ("stops the gaps ahead of their posts" in told["foam"].do) == bool(stops)
    assert len(stops) == (bench.thigh is not None)
    assert ("contact glue" in told["foam"].do) == bool(pads)
    assert "contact glue" not in told["outfit"].do + told["outfit-glue"].do
    assert ("not now" in told["outfit"].do) == bool(pads)
    assert "in and out ten times" in told["foam"].do
    for glue in (one for one in bench.materials.items if "contact glue" in one.what):
        faces = 4.0 * sum(one.size_m[1] * one.size_m[2] for one in bench.materials.items
                          if one.what.startswith("closed-cell foam"))
        assert glue.quantity == pytest.approx(max(0.1, 1.5 * 0.25 * faces))


@pytest.mark.parametrize(("key", "word"), [
    ("plywood", "Dust"), ("oil", "CATCH FIRE BY THEMSELVES"), ("scarfs", "Epoxy"),
    ("coaming-bend", "Epoxy"), ("coat", "mask"), ("foam", "no flame"), ("trim", "saw"),
    ("wet-exit", "Never alone"), ("wet-exit-afloat", "Never alone"),
    ("boarding", "No weight on rim"),
    ("launch", "Not alone"), ("bags", "Never launch without both bags")])
def test_the_caution_stands_at_the_step_where_the_danger_is(key, word):
    assert word in next(one for one in steps() if one.key == key).danger


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_a_straight_edge_over_the_deck_beside_the_opening_lies_as_told(base, middle_job,
                                                                      middle_bench):
    """By the sticks' sections and the wood: no third stick and no plywood reaches the line."""
    job, bench = middle_job(base), middle_bench(base)
    step = next(one for one in filled(told_figures(job, bench)) if one.key == "deck")
    frames = {one.name: one for one in bench.frames}
    opening, met = job.fitted.assessed.boat.opening, set()
    for name, told in re.findall(r"at (F\d+) (from [^;:]+)", step.check):
        frame, met = frames[name], met | {name}
        notches = {one.stringer: one for one in frame.section.notches}
        assert not opening.front_x_m < frame.x_m < opening.back_x_m
        pairs = re.findall(r"from ([\w ]+?) to ([\w ]+?)(?:,|$)", told)
        assert pairs[0][0].endswith("ridge")
        assert pairs[-1][1] == "gunwale"
        for pair in pairs:
            first, last = (notches[one].stock() for one in pair)
            edge = unary_union([first, last]).convex_hull  # its upper side is the straight edge's
            others = unary_union([frame.wood, *(one.stock() for one in notches.values()
                                                if one.stringer not in pair)])
            for out in np.linspace(first.bounds[2], last.bounds[0], 30)[1:-1]:
                ray = LineString([(out, -1.0), (out, 2.0)])
                over = others.intersection(ray).bounds[3] - edge.intersection(ray).bounds[3]
                assert over < -0.002, (name, pair)
    assert len(met) == 2


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_no_face_is_oiled_that_the_list_of_glue_tells_of_later(base, middle_job, middle_bench):
    """What is bought to be glued, but for scarfs and coaming, which have cured by then: taped over,
    or oiled once it is glued; all that is made and glued later waits until its glue has cured."""
    bench = middle_bench(base)
    told = {one.key: one for one in filled(told_figures(middle_job(base), bench))}
    oiled = told["oil"].do.partition("tape it over first")[2]
    taped, _, later = oiled.partition("Not now, but once they are glued")
    for part in ("rails", "stops", "blocks", "posts"):
        assert part not in taped, "it is not made yet"
    assert later
    glued = told["outfit-glue"]
    assert glued.wait_h >= 72.0
    assert "before the glue has cured, 24 hours" in glued.do
    assert "blocks" in glued.do
    assert "hip pads' boards" in glued.do or not bench.hip_pads
    assert " glue" not in told["outfit"].do.replace("foam is glued", "")
    notes = " ".join(one.allowance for one in bench.materials.items if one.group == "glue")
    contact = any("contact glue" in one.what for one in bench.materials.items)
    for words, bought in (("pedals", "pedals" in notes), ("stops", "stops" in notes),
                          ("tenons", bench.spacers), ("keel's ends", "keel's ends" in notes),
                          ("hip pads' boards", "hip pads' boards" in notes),
                          ("thigh braces' boards", bench.thigh)):
        assert (words in oiled) == bool(bought), words
    assert contact == bool(bench.hip_pads or bench.thigh)
    assert ("hip pads' boards" in notes) == (bench.hip_pads is not None)
    assert bench.foot_rails.aft in glued.do


@pytest.mark.parametrize("kind", KINDS)
def test_the_boat_leaves_the_strongback_once_its_bars_are_off(kind, middle_job):
    """Each riser that hangs is named, the lashings that one hides are tied then, and nobody is left
    to lift a boat that nothing stands under."""
    job = middle_job("long-tourer")
    bench = bench_of(job, replace(job.shop, risers=kind))
    made = {one.key: one for one in filled(told_figures(job, bench))}
    off, risers = made["lift-off"], bench.marks.risers
    hung = [one.frame for one in risers if one.leg_m is not None]
    bars = off.do.partition("the bars over ")[2].partition(":")[0]
    assert re.findall(r"F\d+", bars) == hung
    assert ("blocks on the strongback" in off.do) == (len(hung) == len(risers))
    assert ("Open all other clamps" in off.do) == (0 < len(hung) < len(risers))
    assert ("Open all clamps" in off.do) == (not hung)
    assert ("Lash what was behind" in off.do) == any(one.hides for one in risers)
    for one in risers:
        for stick in one.hides:
            assert stick in off.do.partition("Lash what was behind")[2]
    assert "out in one movement" in off.check
    assert "never by one alone" in off.danger


def test_the_boat_is_weighed_before_what_counts_as_gear_goes_in():
    keys = [one.key for one in steps()]
    assert keys.index("coat") < keys.index("lines") < keys.index("weigh")
    assert keys.index("weigh") < min(keys.index("foam"), keys.index("bags"))


def test_no_spray_deck_is_worn_afloat_before_the_boat_is_proven():
    order = {one.key: one for one in steps()}
    launch, grass, out = order["launch"], order["wet-exit"], order["wet-exit-afloat"]
    keys = list(order)
    assert keys.index("wet-exit") < keys.index("launch") < keys.index("wet-exit-afloat")
    assert "On grass" in grass.do
    assert "water" not in grass.do
    assert "as deep and as safe underfoot as in {at_launch}" in out.do
    assert "only now that it was found tight and steady there" in out.do
    assert "Afloat no spray deck in a boat that was not found tight" in out.danger
    assert keys.index("leaks") < keys.index("boarding")
    told = [launch.do.index(one) for one in ("NO SPRAY DECK", "Steadiness trial", "Swamp it")]
    assert told == sorted(told)


def test_the_bow_bag_goes_past_pedals_that_are_out_and_tried_again():
    bags = next(one for one in steps() if one.key == "bags")
    outfit = next(one for one in steps() if one.key == "outfit")
    order = [bags.do.index(one) for one in (
        "as in {at_outfit}", "Haul the bag in", "pedals back", "all pins",
        "try the {bar}")]
    assert order == sorted(order)
    assert "{pedals_out}" in outfit.do, "tried before the skin"


def test_pedals_are_out_while_caps_go_over_the_rails_ends(middle_job, middle_bench):
    """No hand gets past them, and nobody sits in the boat before they are in again."""
    bench = middle_bench("teaching-boat")
    assert any(one.panel == bench.foot_rails.fore for one in bench.bag_ties)
    do = next(one for one in filled(told_figures(middle_job("teaching-boat"), bench))
              if one.key == "foam").do
    told = [do.index(words) for words in (
        "Pedals and strap out first", "cap of foam", "pedals in again", "in and out ten times")]
    assert told == sorted(told)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_the_pedals_leave_the_boat_one_by_one_as_their_whole_bar_never_could(
        base, middle_job, middle_bench):
    """By the after frame's opening with both rails in it: a pedal's block of plate and cheek goes
    through upright, turned lengthwise; plates bolted side by side are wider than the opening."""
    bench = middle_bench(base)
    told = next(one for one in filled(told_figures(middle_job(base), bench))
                if one.key == "outfit").do
    rails, made = bench.foot_rails, bench.pedals
    for words in ("draw the 4 pins", "undo the strap's 4 bolts", f"out through {rails.aft}"):
        assert words in told
    opening = next(one for one in bench.frames if one.name == rails.aft).opening
    left, low, right, high = opening.bounds
    assert 2.0 * made.plate_m[:, 0].max() > right - left
    rail = unary_union([box(side * rails.aft_half_m - 0.03, rails.z_m - 0.03,
                            side * rails.aft_half_m + 0.03, rails.z_m + 0.03)
                        for side in (1.0, -1.0)])
    long, tall = 0.100, float(np.ptp(made.plate_m[:, 1]))
    assert any(opening.difference(rail).contains(box(-0.5 * long, up, 0.5 * long, up + tall))
               for up in np.arange(low, high - tall, 0.005))


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "surf-runner"])
def test_upside_down_the_boat_lies_on_its_gunwales_and_on_nothing_else(base, middle_job,
                                                                     middle_bench):
    """Between blocks so high under two frames the deck hangs free, and the rim over the floor."""
    job = middle_job(base)
    step = next(one for one in filled(told_figures(job, middle_bench(base))) if one.key == "skin")
    boat = job.fitted.assessed.boat
    frames, blocks, floor = re.search(
        r"under (F\d+ and F\d+), .*? (\d+) mm \([^)]+\) high .*? (\d+) mm", step.do).groups()
    at = dict(zip((one.name for one in boat.design.frames), boat.frame_x_m, strict=True))
    stood = [at[name] for name in frames.split(" and ")]
    assert stood[0] < boat.opening.front_x_m < boat.opening.back_x_m < stood[1]
    lcg = job.fitted.assessed.weight.lcg_m
    assert stood[0] + 0.3 < lcg < stood[1] - 0.3  # it does not tip over either
    _, z = half_section_at(boat.sections, np.array(stood))
    gunwale = z[:, boat.sections.sheer]
    assert int(blocks) / 1000.0 > np.max(z[:, -1] - gunwale) + 0.03
    assert int(floor) / 1000.0 > np.max(boat.opening.rim_z_m) - gunwale.min() + 0.05
    trestles, each = map(int, re.search(r"on (\d+) trestles .* on each (\d+) blocks",
                                        step.do).groups())
    bought = next(one for one in middle_bench(base).materials.items
                  if one.what.startswith("padded block"))
    assert trestles * each == bought.quantity
    assert f"{each} a trestle" in bought.allowance


def test_seams_are_sewn_before_the_points_that_lie_across_them_and_both_before_the_coating():
    sew = next(one for one in steps() if one.key == "sew")
    order = [sew.do.index(one) for one in ("{seams}", "{line_points} points", "{opening_cut}")]
    assert order == sorted(order)
    at = [one.key for one in steps()]
    assert at.index("sew") < at.index("coat") < at.index("lines")


def test_the_strongback_goes_back_up_before_anything_is_lashed_on_it():
    at = {one.key: one for one in steps()}
    assert "onto the floor" in at["sit"].do
    keys = list(at)
    back = next(key for key in keys if "back onto the trestles" in at[key].do)
    assert keys.index("sit") < keys.index(back) < keys.index("reassemble")


@pytest.mark.parametrize("base", ["day-boat", "long-tourer"])
def test_both_sides_are_compared_from_wood_that_stands_before_any_ridge(base, middle_job,
                                                                       middle_bench):
    """From the bare stem's own outline to the gunwale's corner at the widest frame, in space."""
    job, bench = middle_job(base), middle_bench(base)
    told = {one.key: one.check for one in filled(told_figures(job, bench))}
    tip = min(np.asarray(bench.stems[0].wood.exterior.coords).tolist(),
              key=lambda one: (one[0], -one[1]))
    gunwale = job.fitted.assessed.boat.lines.gunwale.stringer.name
    widest = max(job.setting_up.stations, key=lambda one: one.points_m[gunwale][0])
    out, high = widest.points_m[gunwale]
    away = np.linalg.norm((widest.x_m - tip[0], out,
                           high - job.setting_up.baseline_height_m - tip[1]))
    assert "bare bow stem's tip" in told["gunwales"]
    for key in ("gunwales", "reassemble", "lash"):
        assert f"{1000.0 * away:.1f} mm" in told[key]


@pytest.mark.parametrize("base", BASE_NAMES)
def test_an_end_on_a_stems_side_is_sawn_to_its_mark_there(base, middle_job, middle_bench):
    """Half the stem's thickness off its middle, by the stick's own slope where it leaves it."""
    job, bench = middle_job(base), middle_bench(base)
    step = next(one for one in filled(told_figures(job, bench)) if one.key == "trim")
    for stick in bench.sticks:
        on_stems = [end for end in (stick.forward, stick.after) if end.kind == "stem side"]
        assert (f"{stick.name}" in step.do) >= bool(on_stems)
        if len(on_stems) == 2:
            short = re.search(rf"at most .*{stick.name} (\d+) mm", step.check)
            straight = sum(0.5 * job.fitted.assessed.boat.design.stem(
                end.on.split()[0]).thickness_m / end.lay.run[1] for end in on_stems)
            assert int(short[1]) == pytest.approx(1000.0 * straight, rel=0.3)  # the stem rakes


@pytest.mark.parametrize("base", BASE_NAMES)
def test_wedges_are_glued_on_bare_wood_before_the_lashing(base, middle_job, middle_bench):
    steps = {one.key: one for one in filled(told_figures(middle_job(base), middle_bench(base)))}
    past = "wedge" in filled_words(middle_bench(base).stems)
    assert ("for a wedge" in steps["oil"].do) == past
    assert ("glue a wedge" in steps["reassemble"].do) == past


def test_the_boat_is_swamped_with_nobody_in_it_until_wet_exits_were_practised(
        middle_job, middle_bench):
    told = {one.key: one.do for one in filled(told_figures(
        middle_job("day-boat"), middle_bench("day-boat")))}
    assert "Swamp it on purpose there, bags in, NOBODY IN IT" in told["launch"]
    out = told["wet-exit-afloat"]
    assert out.index("upside down and out") < out.index("Swamped with you in it only after that")


@pytest.mark.parametrize("base", ["day-boat", "teaching-boat"])
def test_frames_that_bear_a_hand_or_a_weight_are_marked_on_the_deck(base, middle_job, middle_bench):
    """Before the launch, whose steps and sheet name them."""
    job, bench = middle_job(base), middle_bench(base)
    made = {step.key: step for step in filled(told_figures(job, bench))}
    order = list(made)
    marked = re.search(r"the gunwales over .*? nowhere else", made["lines"].do)[0]
    hands = made["boarding"].do.split("Hands bear weight only")[1].split("In:")[0]
    named = {*re.findall(r"at (F\d+)", hands),
             *re.findall(r"on the deck at (F\d+)", made["launch"].do)}
    assert named == set(re.findall(r"F\d+", marked))
    assert order.index("coat") < order.index("lines") < order.index("boarding")


def test_step_and_launch_sheet_ask_for_the_same_weight(middle_job, middle_bench):
    job, bench = middle_job("teaching-boat"), middle_bench("teaching-boat")
    check = next(one for one in filled(told_figures(job, bench)) if one.key == "weigh").check
    sheet = " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(
        launch_pdf(job))).pages).split())
    off = float(re.search(r"More than ([\d.]+) kg", check)[1])
    at, low, high = map(float, re.search(
        r"as in 1 ([\d.]+) kg \([^)]*\) ([\d.]+) to ([\d.]+) kg", sheet).groups())
    assert (at - low, high - at) == pytest.approx((off, off), abs=0.11)


@pytest.mark.parametrize("base", BASE_NAMES)
def test_the_boats_outfit_is_told_act_by_act_in_the_order_of_its_work(base, middle_job,
                                                                       middle_bench):
    """Each a line of its own; on the sheet it has its number and its box."""
    job, bench = middle_job(base), middle_bench(base)
    steps = filled(told_figures(job, bench))
    step = next(one for one in steps if one.key == "outfit")
    order = [next(row for row, act in enumerate(step.acts) if act.startswith(words)) for words in (
        "Seat laid by its sheet", "Rails lashed", "Take the pedals out and in", "Backband tied",
        "Both bags' rings", "For the heel mat", "Tie a loop", "See that all that must be bored")]
    assert order == sorted(set(order))
    assert "lashed there, now" in step.acts[0]
    assert all(step.acts)
    on = ground(job, "A4")
    number = [one.key for one in steps].index("outfit") + 1
    cells = [cell for row in work_sheet(on, bench).blocks[-1]._cellvalues for cell in row]
    acts = next(cell for cell in cells if hasattr(cell, "_cellvalues")
                and cell._cellvalues[0][1].getPlainText() == f"{number}.1")
    assert [row[1].getPlainText() for row in acts._cellvalues] == [
        f"{number}.{row}" for row in range(1, len(step.acts) + 1)]
    assert all(hasattr(row[0], "drawing") for row in acts._cellvalues)


@pytest.mark.parametrize("base", ["day-boat", "teaching-boat"])
def test_the_coating_that_goes_on_is_what_the_weight_reckons_not_what_is_bought(base, middle_job,
                                                                               middle_bench):
    """Skin is cloth and coating, so many kg a square metre each; 15 % more is bought."""
    job, bench = middle_job(base), middle_bench(base)
    skin = job.fitted.assessed.boat.design.skin
    on = next(one.mass_kg for one in bench.materials.weights if one.name == "skin") * (
        skin.coating_kgpm2 / (skin.coating_kgpm2 + skin.fabric_kgpm2))
    coat = next(one.do for one in filled(told_figures(job, bench)) if one.key == "coat")
    assert f"Coating, {on:.2f} kg" in coat
    assert f"{1.15 * on:.2f} kg" not in coat


def test_a_notch_is_filed_by_one_rule_in_steps_and_sheet(middle_job, middle_bench):
    told = {one.key: one for one in filled(told_figures(
        middle_job("teaching-boat"), middle_bench("teaching-boat")))}
    assert "where it rubs, never its floor and never the stick" in told["chines"].check
    assert "No notch's floor is filed" in told["dry-fit"].do
    assert "“When it is off”" in told["dry-fit"].do
    assert "“When it is off”, in its order" in told["dry-fit"].check


def test_the_way_out_is_tried_through_the_coaming_before_anything_is_glued(middle_job,
                                                                          middle_bench):
    """At the marks of its rim, as the setting-up sheet lists them."""
    job, bench = middle_job("teaching-boat"), middle_bench("teaching-boat")
    told = {one.key: one for one in filled(told_figures(job, bench))}
    front, back = (one.strongback_m for one in bench.marks.marks if one.name.startswith("coaming"))
    assert f"tape {1000 * front:.1f} mm" in told["sit"].do
    assert f"{1000 * back:.1f} mm" in told["sit"].do
    assert "In and out through it ten times" in told["sit"].do
    assert "Lay the coaming where it lay" in told["trim"].do
    assert "Plane the bevels under the seat plates' edges" in told["sit"].do
