"""The sheets to fill in by hand: every figure of the design beside a blank, cautions first."""

import io
import re
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from pdf_reading import one_line, shown, words_by_page
from pypdf import PdfReader
from scipy.optimize import brentq

from sizer.built.asked import asked_of
from sizer.built.borne import load_borne_kg
from sizer.built.points import points_of
from sizer.built.smooth import before
from sizer.built.steadiness import first_trial
from sizer.built.telling import most_telling, slopes_of, spreads_after
from sizer.export.dry_fit_sheet import dry_fit_pdf
from sizer.export.launch_answer import LIGHT_FIRST, trial_cautions
from sizer.export.launch_sheet import launch_pdf
from sizer.fit.request import read_request
from sizer.hydro.ends import End
from sizer.hydro.flooded import Aboard, _water_inside_l, flooded, inside_of
from sizer.hydro.immersion import half_outline, immersed, planes_at
from sizer.hydro.watertight import solids_under
from sizer.job import run
from sizer.shop.seat import places
from sizer.stamp import Stamp
from sizer.units import mark_figure

REQUEST = {"base": "day-boat", "use": "day",
           "paddler": {"weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
STAMP = Stamp("HK4729", "Ann", "A", "2026-11-28", "")


@pytest.fixture(scope="module")
def job(base_lines):
    from sizer.fit.uses import USES

    return run(read_request(REQUEST | {"use": next(iter(USES))}),
               base_lines["day-boat"]).stamped(STAMP)


def pages(data):
    return words_by_page(data)


def test_dry_fit_sheet_holds_every_offset_of_the_stations_with_stamp_and_cautions(job):
    made = pages(dry_fit_pdf(job))
    text = " ".join(made)
    for station in job.setting_up.stations:
        assert f"{1000.0 * station.strongback_m:.1f}" in text
        for name, (y, z) in station.points_m.items():
            assert f"{1000.0 * z:.1f}" in text, (station.name, name)
            assert y == 0.0 or f"{2000.0 * y:.1f}" in text
    mark = job.setting_up.stations[3].strongback_m
    inches = " ".join(pages(dry_fit_pdf(job, "in")))
    assert mark_figure(1000.0 * mark, "in") in inches
    assert "Frame by frame, bow to stern, in" in inches
    assert "Write down what was measured and go by “When it is off”" in made[0]
    assert "What is more than 6 mm off may be a slip of the tape: read it a second time" in made[0]
    assert "What is more than 6 mm (1/4 in) off" in inches
    assert "These papers made by (name, how to reach them): ____" in made[0]
    assert "When it is off" in " ".join(made[1:])
    for page in made:
        assert "HK4729 · Ann · REV A · 2026-11-28" in page
        assert "PFD" in page


def test_first_page_asks_for_what_tells_most_and_the_rest_points_there(job):
    boat = job.fitted.assessed
    points, slopes = points_of(boat.boat), slopes_of(boat, job.drawn_for)
    asked = asked_of(points, job.setting_up)
    reached = [one for one in asked if one.what != "diagonal"]  # it runs through the sticks
    picked = most_telling(points, slopes, before(points), reached, 0.002, 20)
    first, *rest = pages(dry_fit_pdf(job))
    short = {"across": "across", "half_breadth": "out", "height": "up", "diagonal": "diagonal"}
    for one in picked:
        side = f"{one.side} " if one.side in ("starboard", "port") else ""
        to = f" to {one.to[0]} {one.to[2]}" if one.to else ""
        assert (f"{one.frame} {side}{one.stringer}, {short[one.what]}{to} "
                f"{1000.0 * one.designed_m:.1f}") in first
    assert sum(page.count("page 1 ") for page in rest) == len(picked)
    share, _ = spreads_after(points, slopes, before(points), picked, 0.002)
    assert f"displacement to ± {100.0 * share:.1f} %" in first


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_marks_along_the_strongback_stand_on_one_page(job, paper):
    told = pages(dry_fit_pdf(job, "in" if paper == "Letter" else "mm", paper))
    page, = (page for page in told if "Along the strongback" in page)
    after = page[page.index("Along the strongback"):]
    for station in job.setting_up.stations:
        assert f"{station.name}, {station.reference_face} face" in after
    assert "length over all" in after


def test_a_stick_is_measured_where_the_patterns_put_it_on_its_line(job):
    """The patterns' notches are tried against that point in test_frames and test_dxf."""
    first, second, *_ = pages(dry_fit_pdf(job))
    assert "the middle of its outer face, of a gunwale the outer face's upper corner" in first
    places = [second.index(step) for step in ("frame stands wrong", "notch's floor", "glue a slip",
                                              "leave it")]
    assert places == sorted(places)


def test_both_papers_hold_the_same_words_inside_their_margins(job):
    for made, lying in ((dry_fit_pdf, True), (launch_pdf, False)):
        said = []
        for paper, size_mm in (("A4", (210.0, 297.0)), ("Letter", (215.9, 279.4))):
            reader = PdfReader(io.BytesIO(made(job, paper=paper)))
            across, up = size_mm[::-1] if lying else size_mm
            for page in reader.pages:
                found = [float(side) / 72.0 * 25.4 for side in page.mediabox[2:]]
                assert found == pytest.approx([across, up], abs=0.2)
            said.append(set(" ".join(one_line(page) for page in reader.pages).split()))
        off = {one for one in said[0] ^ said[1] if not one.isdigit()}  # pages differ in number
        assert off == set(), made


def test_who_has_only_paper_is_told_first_what_to_do(job):
    for made in (dry_fit_pdf, launch_pdf):
        first = pages(made(job))[0].lower()
        on_paper = "write down what was" if made is dry_fit_pdf else "with this paper alone"
        assert first.index(on_paper) < first.index("with the wizard")


def row_by_row(text):
    """Of the launch sheet's rows of readings: (number, kg, side, swing calculated, the most)."""
    rows = re.findall(r"(\d+) ([\d.]+) kg \([\d.]+ lb\) (starboard|port) ([\d.]+) "
                      r"([\d.]+) _+ S / P", text)
    return [(int(number), float(kg), side, float(heel), float(most))
            for number, kg, side, heel, most in rows]


def test_launch_sheet_leads_with_its_cautions_and_small_weights(job):
    assessed = job.fitted.assessed
    weights = first_trial(job.fitted)
    first, text = " ".join(pages(launch_pdf(job))[:2]), " ".join(pages(launch_pdf(job)))
    places = [first.index(one[:60]) for one in trial_cautions(assessed) if one != LIGHT_FIRST]
    assert places == sorted(places)
    alone = first.index("With this paper alone")
    assert places[-1] < alone < first.index("calculated pass measured")
    assert "no farther than it says" in first[alone:]
    assert "whoever made these papers" in first[alone:]
    rows = row_by_row(text)
    least = min(weights.steps[0][1], weights.safest_kg)
    assert rows[0][1] == pytest.approx(least, abs=0.051)
    assert rows[-1][1] == pytest.approx(weights.safest_kg, abs=0.051)
    assert [one[0] for one in rows] == list(range(1, len(rows) + 1))
    assert [one[1] for one in rows] == sorted(one[1] for one in rows)
    assert [one[2] for one in rows] == ["starboard", "port"] * (len(rows) // 2)
    assert sum(one[1] == rows[-1][1] for one in rows) >= 4
    assert f"At most {weights.safest_kg:.1f} kg" in text
    assert "HK4729" in first
    assert "These papers made by" in text


def test_the_trials_verdict_is_by_the_mean_and_keeps_its_error_from_the_limit(job):
    """By the inclining experiment's sum: the heel at the GM that is asked for, the least that the
    check asks for or half-way to it from the least at all, lies between what is called steady and
    what is called less; one swing that ends it lies beyond."""
    assessed, check = job.fitted.assessed, job.fitted.check("gm")
    text = " ".join(pages(launch_pdf(job)))
    out = float(re.search(r"lays the weight (\d+) mm", text)[1])
    rows = row_by_row(text)
    least = 1000.0 * job.person.use.least_gm_m
    asked = min(check.window[1], 0.5 * (least + check.value))
    assert asked > 1.1 * least
    kg = rows[-1][1]
    heel = np.degrees(np.arctan(kg * out / ((assessed.loading.load.mass_kg + kg) * asked)))
    steady, calculated, untold, less = (float(one) / 8.0 for one in re.search(
        r"([\d.]+) or less \(as calculated ([\d.]+)\): as steady.*?, to ([\d.]+): nearer.*?"
        r"over ([\d.]+): less steady", text).groups())
    assert untold == less
    error = 1.645 * np.hypot(0.3 / 8**0.5, heel * np.hypot(5.0 / out, 0.025 / kg))
    assert steady == pytest.approx(heel - error, abs=0.1)
    assert less == pytest.approx(heel + error, abs=0.1)
    assert calculated <= steady
    assert re.search(r"Swings of readings (\d+) to (\d+), added up: _+ degrees",
                     text).groups() == (str(len(rows) - 7), str(len(rows)))
    assert 8.0 * rows[-1][3] == pytest.approx(8.0 * calculated, abs=0.1)  # as its rows add up
    for _, one, _, calculated, most in rows:
        assert calculated < most
        assert most > 1.2 * heel * one / kg


def test_every_depth_where_one_may_turn_over_keeps_a_head_off_the_bottom(job):
    """From the keel of a boat that lies awash upside down: seat, then the seated body, then hands;
    rounded up so that it gives no body measure."""
    told = " ".join(pages(launch_pdf(job)))
    deep = float(re.search(r"water no less than (\d+) mm", told)[1])
    need = 1000.0 * (job.fitted.assessed.boat.seat_z_m
                     + job.person.body.sitting_height.value_m) + 150.0
    assert need <= deep < need + 100.0
    assert deep % 100.0 == 0.0
    assert "sand or mud, no stones" in told
    for words in ("waist", "hip to", "shallow"):
        assert words not in told.partition("Words. ")[0], words
    edge = float(re.search(r"calm water about (\d+) mm", told)[1])
    least = 1000.0 * job.fitted.assessed.particulars.draft_m + 100.0
    assert edge % 10.0 == 0.0  # as fine as water is measured there
    assert least <= edge < least + 10.0
    tall = float(re.search(r"no shorter than (\d+) mm", told)[1])
    assert deep <= 0.69 * tall < deep + 10.0


def test_the_launch_sheet_ends_in_a_verdict_and_each_figure_in_a_yes_or_no(job):
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    # boat, paddler, gear, water; bow, stern, side; rim and side deck swamped
    assert text.count("yes / no") == 9
    order = [text.index(one) for one in (
        "nothing felt wrong", "Steadiness trial", "May it be paddled? [ ]",
        "swamped it stayed up, and by its trial it is steady: it may be paddled",
        "swamped it stayed up, but its trial cannot tell. Its steadiness stays unproved",
        "Anything else, a blank or a trial that was not made", "Signed by")]
    assert order == sorted(order)
    ashore = text[text.index("Ashore 1."):text.index("Afloat with nobody in it")]
    order = [ashore.index(one) for one in (
        "1. The boat with its seat", "2. Float bags, and pads not glued on, on the scale: _____",
        "3. Both float bags in", "4. The paddler, dressed and dry, with clothing and shoes, PFD, "
        "paddle and spray deck", "5. The gauge.",
        "ashore calculated pass measured met")]
    assert order == sorted(order)
    assert "less that and the boards'" in ashore


def test_what_is_done_when_it_goes_over_is_told_once_and_before_anybody_gets_in(job):
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    assert text.count("IT GOES OVER") == 1
    assert text.index("IT GOES OVER") < text.index("Ashore 1.")
    drill = text[text.index("IT GOES OVER"):][:420]
    for done in ("practised first with nobody in it", "helper 2 lifts the head out of the water",
                 "helper 1 keeps the boat off the paddler", "both turn the boat up", "Then STOP."):
        assert done in drill
    for other in ("hands on the paddler first", "turn it up at once"):
        assert other not in text


def test_on_the_launch_sheet_the_cold_is_for_trips_and_both_ends_are_looked_into(job):
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    assert "On trips, not at this launch, which is made at 21 °C (70 °F) or more: Water at" in text
    assert "lift bow, then stern, until water from behind the panels runs out" in text
    assert "wet exits in it first, then paddled, only in water as deep" in text


def test_every_tick_says_what_follows(job):
    text = " ".join(pages(launch_pdf(job)))
    stop, go = ([place.start() for place in re.finditer(words, text)] for words in (
        "STOP at one of these:", "Go on, told to whoever made these papers:"))
    assert len(stop) == len(go) == 2
    for bad in ("tippy", "knees tight", "hips tight", "feet do not reach"):
        assert stop[0] < text.index(f"[ ] {bad}") < go[0], bad
    for bad in ("turned over with nobody in", "went under"):
        assert stop[1] < text.index(f"[ ] {bad}") < go[1], bad
    assert "not tried" not in text  # a blank says so
    for end, then in (("as steady as is asked for", "Go on"), ("worked out again", "Go on"),
                      ("not paddled until it was worked out again", "STOP")):
        assert f"{end}. {then}." in text, end
    assert go[1] < text.index("After the first trip") < text.index("[ ] wind turns it")


def test_nobody_sits_in_it_for_a_trial_before_wet_exits(job):
    text = " ".join(pages(launch_pdf(job)))
    order = [text.index(one) for one in (
        "practised wet exits with an instructor", "Bring three", "Getting in and out",
        "helper 1 stands", "Steadiness trial")]
    assert order == sorted(order)
    held = text.index("one only gets in and out, a helper's hands on both gunwales all the time")
    order = [held, *(text.index(one) for one in (
        "Getting in and out", "nobody lets go before", "gunwales, touching nothing",
        "water to sheer calculated"))]
    assert order == sorted(order)
    for words in ("hands open just under both gunwales", "weighed with its wet cloth",
                  "never on rim or lip", "upright to the lath's side, its long edge along it",
                  "its ends as far from the opening's back", "Both hands off",
                  "takes lath and phone off again"):
        assert words in text, words


def test_words_in_the_trials_picture_are_large_enough_for_the_water(job):
    """In points, by the letters' own size and the picture's, as they come to stand on paper."""
    sizes = {one.text.strip(): one.size * abs(one.cm[0] * one.tm[0])
             for page in PdfReader(io.BytesIO(launch_pdf(job))).pages for one in shown(page)}
    in_picture = [size for told, size in sizes.items() if told.startswith("lath, phone")]
    assert in_picture
    assert min(in_picture) >= 6.5


def test_the_launch_sheet_says_where_the_sheer_is_read(job):
    """The frame told is the one whose gunwale is lowest over the water, by the two ends' figures
    and the gunwale's own heights."""
    assessed = job.fitted.assessed
    first = " ".join(pages(launch_pdf(job)))
    name = re.search(r"at its lowest, near (F\d+)", first)[1]
    boat, afloat = assessed.boat, assessed.particulars
    over = {}
    for station in job.setting_up.stations:
        high = station.gunwale_height_m - job.setting_up.baseline_height_m
        share = station.x_m / boat.length_m
        ends = [boat.sections.z_m[row, boat.sections.sheer] - free for row, free in (
            (0, afloat.bow_freeboard_m), (-1, afloat.stern_freeboard_m))]
        over[station.name] = high - ends[0] - share * (ends[1] - ends[0])
    assert over[name] < min(over.values()) + 0.002
    assert over[name] == pytest.approx(afloat.freeboard_m, abs=0.006)
    assert "the same weight heels a lighter boat more" in first


def test_the_dry_fit_sheet_has_a_line_for_each_measure_of_the_body(job):
    """What the step of sitting asks, from its own words; soles as on the seat sheet."""
    text = " ".join(" ".join(pages(dry_fit_pdf(job))).split())
    sat = text[text.index("The paddler in the dry frame"):text.index("Along the strongback")]
    assert "seat to the skin's line, least 12.0 at least" in sat
    assert "legs to the nearest frame 5.0 at least" in sat
    assert sat.count("12.0 at least") == 3
    assert sat.count("hips,") == 2
    assert "thighs to what is over them" in sat
    assert "ten times in and out, the last quickly no hand on the legs" in sat
    assert "coaming laid on" in sat
    soles = next(x for name, x, _ in places(job.patterns.seat, job.fitted.assessed.boat)
                 if name == "footbrace, this paddler")
    assert f"{1000 * (soles - job.setting_up.strongback_start_x_m):.1f}" in sat


def test_the_launch_sheet_floats_and_swamps_the_boat_empty_first(job):
    text, out = " ".join(pages(launch_pdf(job))), job.mishaps.swamped.out
    assert text.index("Afloat with nobody in it") < text.index("Steadiness trial")
    assert text.index("With NOBODY IN IT") < text.index(
        f"rim at its lowest {out.rim_clearance_m * 1000:.0f} mm") < text.index(
        f"side deck at its lowest {out.freeboard_m * 1000:.0f} mm") < text.index(
        "stayed up with nobody in")
    assert "stayed up with the paddler in" not in text  # which is forbidden in this boat
    assert "turned over with the paddler in" not in text


def test_swamped_heights_have_their_band_and_their_limit(job):
    """The boat flooded anew, heavier by what nine in ten are, with bags so much less full, and with
    the water inside higher than outside; the limits are those asked for with the paddler in."""
    assessed, bags = job.fitted.assessed, job.mishaps.swamped
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    low, high = map(float, re.search(r"as in 1 [\d.]+ kg \([^)]*\) ([\d.]+) to ([\d.]+) kg",
                                     text).groups())
    own = 0.5 * (high - low)

    def flooded_with(more_kg, share):
        weight = replace(assessed.weight, mass_kg=assessed.weight.mass_kg + more_kg)
        found = flooded(assessed.boat, weight, Aboard(assessed.loading.gear),
                        End(share * bags.bow_l), End(share * bags.stern_l), assessed.person.water)
        return np.array([found.rim_clearance_m, found.freeboard_m])

    lies = flooded_with(0.0, 1.0)
    higher = 1.645 * sunk_by_more_inside_m(job, 0.005)
    off = np.hypot.reduce([flooded_with(own, 1.0) - lies, np.full(2, higher),
                           flooded_with(0.0, 1.0 - 1.645 * 0.05) - lies, np.full(2, 1.645 * 0.005)])
    for name, at, band, least in zip(("rim", "side deck"), 1000.0 * lies, 1000.0 * off, (30, 15),
                                     strict=True):
        told = re.search(rf"{name} at its lowest \d+ mm \([^)]*\) (\d+) to (\d+) mm", text)
        assert float(told[1]) == pytest.approx(max(at - band, least), abs=1.5)
        assert float(told[2]) == pytest.approx(at + band, abs=1.5)


def sunk_by_more_inside_m(job, higher_m):
    """How much deeper a swamped boat lies, level as it lay, once the water inside stands so much
    higher than outside: what is in it then weighs what the hull pushes aside more."""
    assessed, bags = job.fitted.assessed, job.mishaps.swamped
    boat, weight, aboard = assessed.boat, assessed.weight, Aboard(assessed.loading.gear)
    lies = bags.out
    chambers, inside, skin = inside_of(boat, weight, aboard, End(bags.bow_l), End(bags.stern_l))

    def at(level_m):
        return planes_at(level_m, np.array([lies.trim_deg]), boat.sections.mid_x_m)

    def holds(level_m):
        return _water_inside_l(boat.sections, chambers, inside, *at(level_m)) / 1000.0

    def carries(level_m):
        up, level = at(level_m)
        dry = immersed(half_outline(boat.sections), up, level).volume_m3[0]
        return dry + solids_under(skin, up, level).volume_m3[0]

    level_m = lies.sinkage_m
    own = carries(level_m) - holds(level_m)  # of boat and gear
    return brentq(lambda more: carries(level_m + more) - holds(level_m + more + higher_m) - own,
                  0.0, 10.0 * higher_m)


def test_the_lean_without_a_weight_has_its_most(job):
    """What goes aboard has room for it: tried in test_launch."""
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    assert "It lies over by no more than 0.5 degrees," in text
    assert "0 none – – see 2 ______ S / P" in text
    assert "who made these papers: ask the builder" in text


def test_each_height_passes_between_two_figures_and_no_reading_has_two_answers(job):
    """By its own limit and by what nine in ten such boats read, whichever is nearer; the inches are
    never wider."""
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    found = re.findall(r"at (?:the bow's tip|the stern's tip|its lowest, near F\d+) (\d+) mm "
                       r"\([^)]*\) (\d+) to (\d+) mm \(([\d /]+) to ([\d /]+) in\)", text)
    assert len(found) == 3
    for at, low, high, *inches in found:
        assert int(low) < int(at) < int(high)
        assert abs(int(at) - int(low) - (int(high) - int(at))) <= 2
        for mm, told, way in zip((low, high), inches, (1.0, -1.0), strict=True):
            off = 25.4 * sum(map(Fraction, told.split())) - int(mm)
            assert 0.0 <= way * off < 25.4 / 16.0
    assert int(found[2][1]) >= 1000.0 * job.person.use.least_freeboard_m
    assert "±" not in text[text.index("Ashore"):text.index("Cautions:")]
    assert "limit: no less" not in text


def test_a_heavier_paddler_with_less_gear_does_not_pass(job):
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    paddler, least, most = map(float, re.search(
        r"dressed paddler ([\d.]+) kg \([^)]*\) ([\d.]+) to ([\d.]+) kg", text).groups())
    gear = job.person.gear_kg
    lowest, highest = load_borne_kg(job.fitted.assessed)  # of both together
    assert (most, least) == pytest.approx((highest - gear, lowest - gear), abs=0.11)
    assert least < most <= paddler + 0.01
    assert f"gear with all of 2 {gear:.1f} kg" in text
    assert "not made up for by less gear: STOP" in text


def test_the_swamped_trial_makes_the_state_that_was_worked_out(job):
    """Water as high inside as outside, before hands are off and it is read."""
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    order = [text.index(one) for one in (
        "let it up, then bail, or pour in, until the water inside stands as high as outside",
        "the same within 5 mm (3/16 in) as beside the hull",
        "hands off, and read, where each is lowest over the water, found by trying along it: to "
        "the rim", "over the water calculated")]
    assert order == sorted(order)
    assert "foam to prop it, no more than 2 litres" in text
    assert "gear, its foam and both bags stay in" in text


def test_a_trials_weight_hangs_over_no_edge(job):
    """Half of its greatest width beside its middle ends at the deck's edge or before: by the
    frame's own half-breadth at the gunwale, as the offsets have it."""
    boat = job.fitted.assessed.boat
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    out, frame, wide = re.search(
        r"lays the weight (\d+) mm .* off the centre, on the deck at (F\d+), measured from half-"
        r"way between the gunwales, .* itself no wider across the boat than (\d+) mm",
        text).groups()
    at = [one.name for one in boat.design.frames].index(frame)
    sheer = boat.sections.sheer
    half = 1000.0 * np.interp(boat.frame_x_m[at], boat.sections.x_m, boat.sections.y_m[:, sheer])
    assert 60.0 < float(wide) <= 2.0 * (half - float(out)) + 1.0
