"""Drawings are read back as XML and measured against the records they were drawn from."""

import itertools
import re
from functools import cache
from math import radians, tan
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

from sizer.built.bias import Bias, Off, shop_biases
from sizer.design.read import read_design
from sizer.drawing.one_scale import SHOWN_M
from sizer.drawing.page_svg import page_svg
from sizer.fit.assess import assess
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.fit.person import person
from sizer.fit.request import read_request
from sizer.fit.study import study
from sizer.hull.boat import scaled_boat
from sizer.hull.fairness import fairness
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.hydro.water import water_at
from sizer.hydro.watertight import Chamber
from sizer.job import run
from sizer.paddler.body import predict
from sizer.paddler.measures import Measured
from sizer.scenes.bias_view import bias_view
from sizer.scenes.clearances import marks_of, spare_text
from sizer.scenes.long_views import fair_marks, glance
from sizer.scenes.measuring import how_to_measure_all
from sizer.scenes.plan_view import plan_view
from sizer.scenes.sections import sections
from sizer.scenes.side_areas import side_areas, side_under_way
from sizer.scenes.side_view import flooded_view, side_view
from sizer.units import length_text, of_metres

BASELINES = Path(__file__).parents[2] / "baselines"
SMALL, MIDDLE, LARGE = (45, 1.50, 0.34), (76, 1.72, 0.39), (140, 1.95, 0.50)
SCALINGS = {
    SMALL: Scaling(0.95, 0.95, 0.95, 1.0, 0.92), MIDDLE: Scaling(1.03, 1.02, 1.04, 1.1, 1.0),
    LARGE: Scaling(1.10, 1.14, 1.14, 1.5, 1.12)}
DRAWN = (side_view, plan_view, sections)
CASES = list(itertools.product(("long-tourer", "steady-boat", "teaching-boat"),
                               (SMALL, MIDDLE, LARGE), (False, True)))
TENTH = 0.051  # picture units: coordinates are written to a tenth


def mm_text(value_m):
    return f"{value_m * 1000:.1f} mm"


@cache
def case(name, who):
    """(assessed boat, base boat, body) of a paddler in a scaled base."""
    path = BASELINES / f"{name}.toml"
    lines = fair_lines(read_design(path.read_bytes(), path.name))
    sitter = person(Measured(*who), "sheltered-day", 5.0, water_at("salt", 10.0))
    assessed = assess(lines, SCALINGS[who], sitter, 61)
    return assessed, scaled_boat(lines, Scaling()), sitter.body


def records(name, who):
    assessed, base, body = case(name, who)
    return assessed.boat, base, assessed.particulars, body, mm_text


@cache
def drawn_by(draw, name, who, narrow=False):
    """The SVG of a scene as the page asks for it."""
    room = (case(name, who)[0].space.hip_width_m,) if draw is sections else ()
    return page_svg(draw(*records(name, who), *room, narrow=narrow))


def parse(svg):
    return ElementTree.fromstring(svg)


def of_class(root, mark):
    return [node for node in root.iter() if node.get("class") == mark]


def points(node):
    """All points of a path of straight pieces."""
    return np.array(re.findall(r"(-?[\d.]+) (-?[\d.]+)", node.get("d")), float)


def texts(root):
    return ["".join(node.itertext()) for node in root.iter() if node.tag.endswith("text")]


def box(root):
    return [float(number) for number in root.get("viewBox").split()]


def all_drawings():
    for draw, narrow in itertools.product(DRAWN, (False, True)):
        yield drawn_by(draw, "day-boat", MIDDLE, narrow)
    yield page_svg(glance(case("day-boat", MIDDLE)[1], 5.0, mm_text))
    yield from (page_svg(how_to_measure_all(narrow)) for narrow in (False, True))


def test_every_drawing_is_named_and_described_and_carries_nothing_foreign():
    for svg in all_drawings():
        root = parse(svg)
        assert root.get("role") == "img"
        assert root.get("aria-label")
        assert root[0].tag.endswith("title")
        assert root[0].text
        assert "\n" not in svg
        for node in root.iter():
            assert node.tag.split("}")[1] in {"svg", "title", "path", "circle", "text"}
            assert not set(node.attrib) & {"id", "style", "href", "onload"}
            assert (node.get("class") or "sz-").startswith("sz-")
        assert "url(" not in svg
        assert svg.count("http") == 1  # the namespace


def test_profile_dimensions_are_the_boats_own():
    for narrow in (False, True):
        boat, _, particulars, *_ = records("day-boat", MIDDLE)
        shown = texts(parse(drawn_by(side_view, "day-boat", MIDDLE, narrow)))
        assert f"length {mm_text(boat.length_m)}" in shown
        assert f"depth {mm_text(boat.depth_m)}" in shown
        assert f"draft {mm_text(particulars.draft_m)}" in shown
        assert f"freeboard {mm_text(particulars.freeboard_m)}" in shown


def test_dimension_lines_are_as_long_as_what_they_say():
    boat, base, particulars, *_ = records("day-boat", MIDDLE)
    root = parse(drawn_by(side_view, "day-boat", MIDDLE))
    ends = [points(node)[2:4] for node in of_class(root, "sz-dimension")]
    freeboard, draft, depth, length = (float(np.hypot(*(b - a))) for a, b in ends)
    scale = length / boat.length_m
    assert freeboard == pytest.approx(scale * particulars.freeboard_m, abs=2 * TENTH)
    assert draft == pytest.approx(scale * particulars.draft_m, abs=2 * TENTH)
    assert depth == pytest.approx(scale * boat.depth_m, abs=2 * TENTH)
    assert max(boat.length_m, base.length_m) < SHOWN_M
    assert scale == pytest.approx(800.0 / SHOWN_M, rel=1e-3)


def test_one_scale_for_long_and_short_boats_told_by_a_bar():
    """A metre of every boat is as long as the bar, from the side, from above and at a glance."""
    for narrow in (False, True):
        metres = set()
        for name in ("long-tourer", "steady-boat"):
            boat, *_ = records(name, MIDDLE)
            side = parse(drawn_by(side_view, name, MIDDLE, narrow))
            above = parse(drawn_by(plan_view, name, MIDDLE, narrow))
            long = [np.ptp(points(node)[2:4, 0]) for node in of_class(side, "sz-dimension")]
            widest = max(np.ptp(points(node)[:, 0]) for node in of_class(above, "sz-ink"))
            (bar,) = (np.ptp(points(node)[2:4, 0]) for node in of_class(side, "sz-scale"))
            assert max(long) / boat.length_m == pytest.approx(bar, abs=2 * TENTH)
            assert narrow or widest / boat.length_m == pytest.approx(bar, abs=2 * TENTH)
            metres.add(round(float(bar)))
        assert len(metres) == 1
    for name in ("long-tourer", "steady-boat"):
        boat = case(name, MIDDLE)[1]
        glanced = parse(page_svg(glance(boat, 5.3, mm_text)))
        (bar,) = (np.ptp(points(node)[2:4, 0]) for node in of_class(glanced, "sz-scale"))
        long = max(np.ptp(points(node)[:, 0]) for node in of_class(glanced, "sz-ink"))
        assert long / boat.length_m == pytest.approx(bar, abs=2 * TENTH)


def test_bar_is_a_round_length_of_the_units_read_and_alike_in_every_picture():
    """Three feet and three eighths over are no length that an eye knows."""
    assessed, base, body = case("day-boat", MIDDLE)
    for unit, said, metres in (("mm", "1 m", 1.0), ("cm", "1 m", 1.0),
                               ("in", "4 ft", 4 * 0.3048)):
        text = of_metres(length_text, unit)
        what = assessed.boat, base, assessed.particulars, body, text
        for drawn, longest in ((side_view(*what), "sz-dimension"),
                               (side_view(*what, narrow=True), "sz-dimension"),
                               (glance(assessed.boat, 5.3, text), "sz-ink")):
            root = parse(page_svg(drawn))
            assert said in texts(root)
            (bar,) = (np.ptp(points(node)[2:4, 0]) for node in of_class(root, "sz-scale"))
            ends = slice(2, 4) if longest == "sz-dimension" else slice(None)
            long = max(np.ptp(points(node)[ends, 0]) for node in of_class(root, longest))
            assert long * metres / assessed.boat.length_m == pytest.approx(bar, abs=2 * TENTH)


def test_plan_dimensions_are_the_boats_own():
    boat, *_ = records("day-boat", MIDDLE)
    for narrow in (False, True):
        shown = texts(parse(drawn_by(plan_view, "day-boat", MIDDLE, narrow)))
        assert f"beam {mm_text(boat.beam_m)}" in shown
        assert f"cockpit length {mm_text(boat.opening.length_m)}" in shown
        assert mm_text(boat.opening.width_m) in shown


@pytest.mark.parametrize("name", ["day-boat", "long-tourer", "teaching-boat"])
def test_room_beside_the_hips_is_what_the_checks_use(name):
    assessed, _, body = case(name, MIDDLE)
    root = parse(drawn_by(sections, name, MIDDLE))
    shown = texts(root)
    check = next(one for one in checks_of(facts_of(assessed)) if one.key == "hips")
    need = check.window_si[0]  # clothing and all: where the check fails
    gap = 0.5 * (check.value_si - need)
    _, above, _ = marks_of(assessed)  # of the body's room on the same page, both sides together
    assert spare_text(above[1].check, lambda value_m: f"{value_m:.4f}").startswith(
        f"{2.0 * abs(gap):.4f}")
    sides = [points(node)[2:4, 0] for node in of_class(root, "sz-dimension")]
    scale = (sides[2][1] - sides[2][0]) / need
    assert (sides[1][1] - sides[0][0]) / scale == pytest.approx(
        assessed.space.hip_width_m, abs=4 * TENTH / scale)
    assert mm_text(abs(gap)) in shown
    assert ("spare" if gap >= 0 else "too tight") in shown
    assert f"hips, dressed {mm_text(need)}" in shown
    assert need > body.hip_sitting.value_m + 0.01


def test_hips_wider_than_the_room_are_called_too_tight():
    boat, base, particulars, _, text = records("day-boat", SMALL)
    shown = texts(parse(page_svg(sections(
        boat, base, particulars, predict(Measured(90, 1.6, 0.58)), text,
        case("day-boat", SMALL)[0].space.hip_width_m))))
    assert "too tight" in shown


def test_every_frame_is_named_in_the_body_plan():
    shown = texts(parse(drawn_by(sections, "long-tourer", MIDDLE)))
    names = [frame.name for frame in case("long-tourer", MIDDLE)[1].design.frames]
    assert set(names) <= set(shown)


@pytest.mark.parametrize("name", ["day-boat", "teaching-boat"])
def test_waterline_stands_at_the_sinkage_and_trim(name):
    boat, _, particulars, *_ = records(name, LARGE)
    root = parse(drawn_by(side_view, name, LARGE))
    (left, right) = points(of_class(root, "sz-waterline")[0])
    length = points(of_class(root, "sz-dimension")[-1])[2:4]
    scale = (length[1, 0] - length[0, 0]) / boat.length_m
    keel = max(points(node)[:, 1].max() for node in of_class(root, "sz-ink"))
    low = boat.sections.z_m.min()
    for end in (left, right):
        x = (end[0] - length[0, 0]) / scale
        level = particulars.sinkage_m + tan(radians(particulars.trim_deg)) * (
            x - 0.5 * boat.length_m)
        assert (keel - end[1]) / scale + low == pytest.approx(level, abs=3 * TENTH / scale)
    assert left[0] == 0.0
    assert right[0] == box(root)[2]


@pytest.mark.parametrize("narrow", [False, True])
@pytest.mark.parametrize("seated", [False, True])
def test_a_flooded_boat_shows_its_bags_and_whoever_can_sit_in_it(seated, narrow):
    boat, *more = records("day-boat", MIDDLE)
    bags = Chamber(0.0, 0.9, 0.8), Chamber(3.4, boat.length_m, 0.8)
    root = parse(page_svg(flooded_view(boat, *more, bags, seated, narrow)))
    drawn = [points(node) for node in of_class(root, "sz-block")]
    length = points(of_class(root, "sz-dimension")[-1 if not narrow else 0])[2:4]
    scale = (length[1, 0] - length[0, 0]) / boat.length_m
    for bag, shown in zip(bags, drawn[:2], strict=True):
        ends = [(end(shown[:, 0]) - length[0, 0]) / scale for end in (np.min, np.max)]
        assert ends == pytest.approx((bag.front_x_m, bag.back_x_m), abs=2 * TENTH / scale)
    assert bool(of_class(root, "sz-body-fill")) is seated
    said = root.get("aria-label") + root[0].text + "".join(root.itertext())
    assert ("nobody in the seat" in said) is not seated


@pytest.mark.parametrize("name", ["day-boat", "steady-boat"])
def test_the_wetted_hull_reaches_from_keel_to_waterline(name):
    boat, _, particulars, *_ = records(name, LARGE)
    root = parse(drawn_by(side_view, name, LARGE))
    (wet,) = (points(node) for node in of_class(root, "sz-wet"))
    (left, right) = points(of_class(root, "sz-waterline")[0])
    length = points(of_class(root, "sz-dimension")[-1])[2:4]
    scale = (length[1, 0] - length[0, 0]) / boat.length_m
    surface = np.interp(wet[:, 0], (left[0], right[0]), (left[1], right[1]))
    assert (wet[:, 1] >= surface - 2 * TENTH).all()
    assert (wet[:, 1] - surface).max() / scale == pytest.approx(particulars.draft_m, abs=1e-3)
    assert np.ptp(wet[:, 0]) / scale == pytest.approx(particulars.waterline_length_m, rel=0.01)


@pytest.mark.parametrize(("name", "who", "narrow"), CASES)
@pytest.mark.parametrize("draw", DRAWN)
def test_everything_drawn_stays_in_the_picture(draw, name, who, narrow):
    root = parse(drawn_by(draw, name, who, narrow))
    _, _, width, height = box(root)
    for node in root.iter():
        if node.tag.endswith("path"):
            places = points(node)
            assert places.min() >= -TENTH
            assert places[:, 0].max() <= width + TENTH, node.get("class")
            assert places[:, 1].max() <= height + TENTH, node.get("class")


@pytest.mark.parametrize(("name", "who", "narrow"), CASES)
@pytest.mark.parametrize("draw", DRAWN)
def test_words_stay_in_the_picture(draw, name, who, narrow):
    """At 0.56 of the text height a letter: a broad sans-serif with digits."""
    root = parse(drawn_by(draw, name, who, narrow))
    _, _, width, height = box(root)
    for node in root.iter():
        if node.tag.endswith("text"):
            size = float(node.get("font-size"))
            assert size >= 13.0
            long = 0.56 * size * len(node.text)
            before = {"start": 0.0, "middle": 0.5, "end": 1.0}[node.get("text-anchor")]
            left = float(node.get("x")) - before * long
            assert left >= 0.0, node.text
            assert left + long <= width, node.text
            assert size <= float(node.get("y")) <= height - 3.0, node.text


@pytest.mark.parametrize("who", [SMALL, LARGE])
def test_figure_is_as_tall_as_the_person_sits(who):
    _, _, body = case("day-boat", who)
    root = parse(drawn_by(side_view, "day-boat", who))
    boat = records("day-boat", who)[0]
    outline = points(of_class(root, "sz-body-fill")[0])
    length = points(of_class(root, "sz-dimension")[-1])[2:4]
    scale = (length[1, 0] - length[0, 0]) / boat.length_m
    tall = (outline[:, 1].max() - outline[:, 1].min()) / scale
    assert tall == pytest.approx(body.sitting_height.value_m, rel=0.05)


def test_thumbnails_share_a_scale_and_name_the_base():
    shown = []
    for name in ("day-boat", "long-tourer"):
        base = case(name, MIDDLE)[1]
        root = parse(page_svg(glance(base, 5.5, mm_text)))
        assert base.design.name in root.get("aria-label")
        places = np.concatenate([points(node) for node in of_class(root, "sz-ink")])
        _, _, width, height = box(root)
        assert places.min() >= 0.0
        assert places[:, 0].max() <= width
        assert places[:, 1].max() <= height
        shown.append(np.ptp(places[:, 0]) / base.length_m)
    assert shown[0] == pytest.approx(shown[1], rel=2e-3)


def test_side_areas_mark_both_centres(lines):
    job = run(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
        "weight_kg": 82, "stature_mm": 1770, "hip_width_mm": 390}}), lines)
    assessed = job.fitted.assessed
    more = study(assessed, job.mishaps.rigid)
    wind, way = more.wind, more.under_way["as_fitted"][1]
    what = assessed.boat, wind, assessed.particulars
    def text(value_m):
        return f"{value_m * 1000:.0f} mm"

    for narrow in (False, True):
        adrift, paddled = (ElementTree.fromstring(page_svg(one)) for one in (
            side_areas(*what, text, narrow), side_under_way(*what, way, text, narrow)))
        _judge_centres(adrift, (wind.above.x_m, wind.below.x_m), None)
        _judge_centres(paddled, (way.wind_x_m, way.water_x_m), way)


def _words_box(node):
    """Left, top, right, bottom of words of 13 px, half as wide as high a letter."""
    x, y, wide = float(node.get("x")), float(node.get("y")), 6.5 * len(node.text)
    left = x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[node.get("text-anchor", "start")]
    return left, y - 10.0, left + wide, y + 3.0


def _meet(one, other):
    return all(one[at] < other[at + 2] and other[at] < one[at + 2] for at in (0, 1))


def _judge_centres(root, centres, way):
    """The water's name stands under its place and a line leads from the wind's to its own; no name
    lies on a line or on another, and the skeg is as large as it is said to be."""
    height = float(root.get("viewBox").split()[3])
    found = {one.text: one for one in root.iter() if one.tag.endswith("text")}
    (bar,) = (points(node)[2:4, 0] for node in of_class(root, "sz-scale"))
    bow = min(points(node)[:, 0].min() for node in of_class(root, "sz-ink"))
    (leader,) = (points(node) for node in of_class(root, "sz-extension"))
    places = leader[-1, 0], float(found["water's centre"].get("x"))
    for place, x_m in zip(places, centres, strict=True):
        assert (place - bow) / np.ptp(bar) == pytest.approx(x_m, abs=0.006)
    boxes = [_words_box(one) for one in found.values()]
    assert all(low > 0.0 and high < height for _, low, _, high in boxes)
    for one, other in itertools.combinations(boxes, 2):
        assert not _meet(one, other)
    named = _words_box(found["wind's centre"])
    for node in (*of_class(root, "sz-ink"), *of_class(root, "sz-body-line")):
        corners = points(node)
        closed = np.vstack([corners, corners[:1]]) if node.get("d").endswith("Z") else corners
        dense = np.concatenate([np.linspace(start, end, 60)
                                for start, end in itertools.pairwise(closed)])
        assert not np.any((dense > named[:2]).all(axis=1) & (dense < named[2:]).all(axis=1))
    assert f"{abs(centres[1] - centres[0]) * 1000:.0f} mm" in root.get("aria-label")
    fins = [np.ptp(points(node), axis=0) / np.ptp(bar) for node in of_class(root, "sz-edge")]
    if way is None:
        assert not fins
        return
    ((long, deep),) = fins
    assert long * deep == pytest.approx(way.skeg_m2, rel=0.05)
    skeg = _words_box(found[f"skeg, {way.skeg_x_m * 1000:.0f} mm from the bow"])
    (water,) = of_class(root, "sz-water")
    assert skeg[3] < points(water)[:, 1].max()  # in the water, not across its end


def test_fairness_marks_stand_on_their_sticks(base_lines):
    boat = scaled_boat(base_lines["teaching-boat"], Scaling(length=0.86, beam=1.08, depth=1.08))
    unfair = fairness(boat)
    assert unfair  # shortened as far as the base allows, no boat of ours to launch
    for narrow in (False, True):
        root = ElementTree.fromstring(page_svg(fair_marks(boat, unfair, narrow)))
        width = float(root.get("viewBox").split()[2])
        rings = [one for one in root.iter() if one.tag.endswith("circle")]
        assert len(rings) == len(unfair)
        for ring, found in zip(rings, unfair, strict=True):
            x = 14.0 + found.point_m[0] / boat.length_m * (width - 28.0)
            assert float(ring.get("cx")) == pytest.approx(x, abs=0.1)
            assert found.stringer in root.get("aria-label")


def test_the_shops_bias_says_the_mean_of_its_launches_and_what_is_kept_of_it():
    launch = {"boat_share": Off(0.051, 0.01), "seat_up_m": Off(0.012, 0.01)}
    biases = {key: Bias(1, one.off, kept, 0.02, 0.01, 0.0, 0.02)
              for (key, one), kept in zip(launch.items(), (-0.0002, 0.0042), strict=True)}
    biases["seat_ahead_m"] = Bias(0, 0.0, 0.0, 0.02, 0.01, 0.0, 0.02)
    drawn = parse(page_svg(bias_view([launch], biases)))
    lines = ["".join(node.itertext()) for node in drawn.iter() if node.tag.endswith("text")]
    assert "their mean +5.1 %, kept of it +0.0 %" in lines
    assert "their mean +12.0 mm, kept of it +4.2 mm" in lines
    assert lines.count("no launch tells") == 1


def test_the_shops_bias_is_told_in_the_jobs_unit():
    """A mean of 12.7 mm is half an inch."""
    launches = [{"seat_up_m": Off(0.0127, 0.002)}, {"seat_up_m": Off(0.0127, 0.002)}]
    for unit, said in (("mm", "their mean +12.7 mm"), ("in", "their mean +0.50 in"),
                       ("cm", "their mean +1.27 cm")):
        assert said in page_svg(bias_view(launches, shop_biases(launches), unit))
