"""The sheets to fill in by hand: every figure of the design beside a blank, cautions first."""

import io
import re
from dataclasses import replace

import numpy as np
import pytest
from pdf_reading import one_line
from pypdf import PdfReader

from sizer.built.asked import asked_of
from sizer.built.points import points_of
from sizer.built.smooth import before
from sizer.built.steadiness import first_trial
from sizer.built.telling import most_telling, slopes_of, spreads_after
from sizer.export.dry_fit_sheet import dry_fit_pdf
from sizer.export.launch_answer import trial_cautions
from sizer.export.launch_sheet import launch_pdf
from sizer.fit.request import read_request
from sizer.hydro.ends import End
from sizer.hydro.flooded import Aboard, flooded
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
    return [one_line(page) for page in PdfReader(io.BytesIO(data)).pages]


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
    first, text = pages(launch_pdf(job))[0], " ".join(pages(launch_pdf(job)))
    places = [first.index(one[:60]) for one in trial_cautions(assessed)]
    assert places == sorted(places)
    alone = first.index("With this paper alone")
    assert places[-1] < alone < first.index("calculated measured")
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
        assert words not in told, words
    edge = float(re.search(r"calm water about (\d+) mm", told)[1])
    least = 1000.0 * job.fitted.assessed.particulars.draft_m + 100.0
    assert edge % 10.0 == 0.0  # as fine as water is measured there
    assert least <= edge < least + 10.0
    tall = float(re.search(r"no shorter than (\d+) mm", told)[1])
    assert deep <= 0.69 * tall < deep + 10.0


def test_the_launch_sheet_ends_in_a_verdict_and_each_figure_in_a_yes_or_no(job):
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    assert text.count("yes / no") == 7  # boat, load; bow, stern, side; rim and side deck swamped
    assert text.index("nothing felt wrong") < text.index("May it be paddled?") < text.index(
        "Every figure met, steady by its trial") < text.index("Anything else: not paddled") \
        < text.index("Signed by")
    ashore = text[text.index("Ashore 1."):text.index("Afloat with nobody in it")]
    order = [ashore.index(one) for one in (
        "1. The boat with its seat", "2. Float bags, pads and their boards",
        "3. Both float bags in", "4. The paddler, dressed, with clothing and shoes, PFD, paddle "
        "and spray deck", "figure calculated")]
    assert order == sorted(order)
    assert "less that: ______ kg" in ashore


def test_every_tick_says_what_follows(job):
    text = " ".join(pages(launch_pdf(job)))
    stop, go = ([place.start() for place in re.finditer(words, text)] for words in (
        "One of these: out, ashore; not paddled", "One of these: go on"))
    assert len(stop) == len(go) == 2
    for bad in ("turned over with nobody in", "went under", "not tried"):
        assert stop[0] < text.index(f"[ ] {bad}") < go[0], bad
    for bad in ("tippy", "knees tight", "hips tight", "feet do not reach"):
        assert stop[1] < text.index(f"[ ] {bad}") < go[1], bad
    assert go[1] < text.index("After the first trip") < text.index("[ ] wind turns it")


def test_nobody_sits_in_it_for_a_trial_before_wet_exits(job):
    text = " ".join(pages(launch_pdf(job)))
    assert text.index("practised wet exits with an instructor") < text.index("Bring:") < text.index(
        "Getting in and out") < text.index("Steadiness trial") < text.index("Helper 1 stands")
    for words in ("hands open just under both gunwales", "weighed with its wet cloth",
                  "never on rim or lip", "both hands off", "takes lath and phone off again"):
        assert words in text, words


def test_words_in_the_trials_picture_are_large_enough_for_the_water(job):
    """In points, by the letters' own size and the picture's, as they come to stand on paper."""
    sizes = {}

    def seen(text, matrix, at, _font, size):
        told = text.strip()
        if told:
            sizes[told] = size * abs(matrix[0] * at[0])

    for page in PdfReader(io.BytesIO(launch_pdf(job))).pages:
        page.extract_text(visitor_text=seen)
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
    """The boat flooded anew, heavier by what nine in ten are, and with bags so much less full; the
    limits are those asked for with the paddler in."""
    assessed, bags = job.fitted.assessed, job.mishaps.swamped
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    own = float(re.search(r"as in 1 ([\d.]+) kg \([^)]*\) ± ([\d.]+) kg", text)[2])

    def flooded_with(more_kg, share):
        weight = replace(assessed.weight, mass_kg=assessed.weight.mass_kg + more_kg)
        found = flooded(assessed.boat, weight, Aboard(assessed.loading.gear),
                        End(share * bags.bow_l), End(share * bags.stern_l), assessed.person.water)
        return np.array([found.rim_clearance_m, found.freeboard_m])

    lies = flooded_with(0.0, 1.0)
    off = np.hypot(flooded_with(own, 1.0) - lies, flooded_with(0.0, 1.0 - 1.645 * 0.05) - lies)
    off = 1000.0 * np.hypot(off, 1.645 * 0.005)
    for name, band, least in zip(("rim", "side deck"), off, ("30", "15"), strict=True):
        told = re.search(rf"{name} at its lowest \d+ mm \([^)]*\) ± (\d+) mm \([^)]*\); limit: no "
                         r"less than (\d+) mm", text)
        assert float(told[1]) == pytest.approx(band, abs=1.0)
        assert told[2] == least


def test_the_lean_without_a_weight_has_its_most(job):
    """What goes aboard has room for it: tried in test_launch."""
    text = " ".join(" ".join(pages(launch_pdf(job))).split())
    assert "It lies over by no more than 0.5 degrees," in text
    assert "0 none – – 0.5 ______ S / P" in text
    assert "who made these papers too" in text
