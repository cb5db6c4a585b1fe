"""The owner's part on using the boat: its figures by floating the boat anew."""

import re
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from pdf_reading import words_by_page, words_of

from sizer.built.borne import load_borne_kg
from sizer.export.customer import TRADE, customer_pdf, load_words
from sizer.export.feet import MADE_BY
from sizer.export.fit_words import capital
from sizer.export.glossary import GLOSSARY
from sizer.export.launch_answer import swamped_first
from sizer.export.launch_sheet import launch_pdf, stiff_words
from sizer.export.owners_gear import camping_kg, no_camping_words
from sizer.export.owners_leave import (
    BARRED,
    leave_words,
    sea_words,
    tender_words,
    waters_words,
    whom_words,
)
from sizer.export.owners_use import each_trip_words, use_words
from sizer.export.wet_exit import wet_exit_words
from sizer.fit.checks import BY_KEY
from sizer.fit.loading import together
from sizer.fit.uses import USES
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.hydro.stability import righting_curve
from sizer.hydro.water import by_temperature
from sizer.hydro.wave_arms import wave_arms
from tests.export.test_fit_words import check_of


@pytest.fixture(scope="module", params=["day-boat", "load-carrier"])
def job(request, middle_job):
    return middle_job(request.param)


@pytest.fixture(scope="module")
def used(job, bench):
    return " ".join(use_words(job, bench))


@cache
def owners_pages(job, bench, paper="A4"):
    """The words of each page of the owner's sheet."""
    return words_by_page(customer_pdf(job, bench, paper))


def afloat(job, load):
    boat = job.fitted.assessed.boat
    return float_upright(boat.sections, load, job.person.water)


def test_gear_farther_aft_trims_as_told(job, used):
    """Each heap moved by the 100 mm that are told; the angles are small."""
    load, told = job.fitted.assessed.loading, re.findall(r"by (\d\.\d\d)° more", used)
    lies = afloat(job, load.load).trim_deg
    for heap, costs in zip(load.gear, told, strict=True):
        moved = replace(load.load,
                        lcg_m=load.load.lcg_m + 0.1 * heap.mass_kg / load.load.mass_kg)
        assert afloat(job, moved).trim_deg - lies == pytest.approx(float(costs), abs=0.008)


def test_gear_on_deck_costs_the_steadiness_told(job, used):
    load, depth = job.fitted.assessed.loading, job.fitted.assessed.boat.depth_m
    costs, of = map(int, re.search(r"take (\d+) of the (\d+) mm of steadiness", used).groups())
    up = sum(one.mass_kg * (depth - one.vcg_m) for one in load.gear) / load.load.mass_kg
    lies = afloat(job, load.load).gm_m
    high = afloat(job, replace(load.load, vcg_m=load.load.vcg_m + up)).gm_m
    assert 1000.0 * lies == pytest.approx(of, abs=0.5)
    assert 1000.0 * (lies - high) == pytest.approx(costs, abs=0.6)


def test_the_owner_is_told_what_a_hand_a_foot_and_a_bag_may_do(job, bench, used):
    behind = next(one for one in job.setting_up.stations
                  if one.faces_x_m[0] >= job.fitted.assessed.boat.opening.back_x_m)
    for words in ("rim is no handrail", f"gunwales at {behind.name}", "lie in the sun",
                  "all four pins", "never made thicker", "gap that a fist", "tied in"):
        assert words in used, words
    assert "No hole" not in used
    assert all(f"{one.mass_kg:.1f} kg (" in used for one in bench.gear_ties)
    tight = replace(bench, foot_rails=replace(bench.foot_rails,
                                              set_m=bench.foot_rails.soles_m[0]))
    assert "no hole left forward" in " ".join(use_words(job, tight))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_cautions_stand_before_it_and_the_sheet_stays_short(job, bench, paper):
    pages = owners_pages(job, bench, paper)
    text = " ".join(pages)
    using = text.index("Using it Gear:")
    assert text.index("Read before the first launch") < using
    assert using < re.search(r"Checks \d+ of 100", text).start()
    assert len(pages) <= 7


def test_the_owner_is_told_how_pedals_and_panels_open_and_close(job, bench, used):
    """In the order that works: pins, strap, one pedal after the other; air out before the lacing,
    air in after it."""
    out = [used.index(one) for one in (
        "To take them out (by a spanner", "draw the 4 pins", "undo the strap's 4 bolts",
        "slide one pedal",
        f"out through {bench.foot_rails.aft}", "the other after it", "To move them")]
    assert out == sorted(out)
    panel = [used.index(one) for one in (
        "To open a panel: let the bag's air out", "undo the lacing", "to close it: the bag soft",
        "from the keel up both sides", "blow the bag up")]
    assert panel == sorted(panel)
    assert "A cut, dry and clean" in used
    assert "Store the boat dry" in used


def test_a_caution_becomes_a_rule_of_use_for_the_owner(job, bench):
    """Once for all checks that ask for the same; a boat that passes them has none."""
    def told(*checks):
        return " ".join(use_words(replace(job, fitted=replace(job.fitted, checks=checks)), bench))

    trim = next(one for one in job.fitted.checks if one.key == "trim")
    passing = replace(trim, value_si=0.0, window_si=(-1.0, -0.5, 0.5, 1.0))
    bears = check_of("seat-bears", 1.22, 0.65, 1.26, np.inf, np.inf)
    long, wide = (check_of(key, 0.44, 0.4, 0.45, 0.9, np.inf) for key in (
        "way-out-long", "way-out-wide"))
    assert "own checks ask" not in told(passing)
    text = told(bears, long, wide, passing)
    assert "Its own checks ask (sticks under the seat bear: see Checks): never drop" in text
    assert text.count("try the way out ashore in everything") == 1
    assert "(opening long enough and opening wide enough: see Checks)" in text


def test_every_check_of_body_and_water_that_may_warn_has_its_rule():
    """What only a builder mends has none: nothing that the owner does makes it safer."""
    bare = {"brace-far", "brace-near", "factor-length", "factor-beam", "factor-depth",
            "factor-crown", "bend", "side-deck", "frame-gap", "stringer-gap", "fair", "sawn",
            "together"}
    for key, row in BY_KEY.items():
        least = row.fails_below is not None or row.wanted_from is not None
        assert bool(row.rule_small) == (least and key not in bare), key


def test_before_each_trip_the_owner_is_told_of_wind_gear_and_hold(job):
    """The load that is not gone over is what floats besides the boat."""
    told = " ".join(each_trip_words(job))
    load = job.fitted.assessed.loading
    for words in ("Never set out where the wind blows off the shore", "whistle", "hand pump",
                  "phone", "Tell somebody ashore", "deck line or an end loop", "paddle in the",
                  "learned from an instructor", "thickest clothes", "PFD, paddle and spray deck"):
        assert words in told, words
    never = float(re.search(r"never over ([\d.]+) kg", told)[1])
    assert never == pytest.approx(load.load.mass_kg - load.boat_kg, abs=0.051)
    least = float(re.search(r"less than ([\d.]+) kg", told)[1])
    for stays in ("whistle", "phone", "pump"):
        assert stays in told[told.index("go first, never"):told.index("still over")]
    assert never - least == pytest.approx(1.645 * 2.0, abs=0.11)  # nine in ten, of 2 kg not weighed


def test_the_spray_deck_is_told_as_the_shopping_list_has_it(bench, used):
    """Its rules with it: loop outside, one hand, none before wet exits."""
    item, = (one for one in bench.materials.items if one.what.startswith("spray deck"))
    for size in item.size_m:
        assert f"{round(1000.0 * size)} mm (" in used.split("Spray deck:")[1]
    lip, wall = re.findall(r"(\d+) mm", item.allowance)[:2]
    assert f"{lip} mm (" in used
    assert f"{wall} mm (" in used
    for words in ("None afloat before", "wet exits", "loop lies outside", "with one hand"):
        assert words in used, words


def test_the_owner_is_told_that_pedals_bar_the_way_to_the_bows_panel(bench, used):
    assert bench.bag_ties[0].panel_x_m < bench.seat.footbrace.start_x_m + 0.2
    assert "The bow's is reached only with pedals and strap out" in used


def test_a_stiff_paddler_is_told_what_turns_the_boat_over(job):
    """By the righting arms of a paddler held stiff: the heel where the weight's moment is never
    met again; a weight half as heavy is met."""
    told = stiff_words(job)
    kg, high, out = (float(re.search(pattern, told)[1]) for pattern in (
        r"Sit stiff, and ([\d.]+) kg", r"built so, and ([\d.]+) kg", r"(\d+) mm \([^)]*\) off the"))
    load, water = job.fitted.assessed.loading.load, job.person.water
    heels = np.arange(0.5, 15.5, 0.5)
    arms = righting_curve(job.fitted.assessed.boat.sections, load, water,
                          (0.0, *heels)).gz_m[1:]
    bears = load.mass_kg * arms / np.cos(np.radians(heels))
    assert kg == pytest.approx(bears.max() / (out / 1000.0), abs=0.11)
    assert 0.0 < high < kg
    assert "keeps the upper body upright" in told


def test_waves_are_told_by_what_is_seen_from_shore(job):
    gm = float(job.fitted.assessed.particulars.gm_m)
    told = sea_words(job.person.use, job.mishaps.wave, gm)
    for words in ("ripples only, no higher than", "whitecaps", "short chop", "wakes",
                  "turn for the nearest shore", "3 m/s (6 knots, Beaufort 2)", "local rules"):
        assert words in told
    unknown = sea_words(job.person.use, None, gm)
    for words in ("calm water, no waves at all", "whitecaps", "3 m/s (6 knots", "local rules"):
        assert words in unknown
    assert ", as long as the boat:" not in told


def test_in_waves_as_high_as_told_the_boat_keeps_half_of_what_its_use_asks_for(job):
    """By the boat set anew on a wave of that height; told is no more than half of that which it was
    worked out on."""
    assessed, use = job.fitted.assessed, job.person.use
    text = waters_words(job)
    high = float(re.search(r"no higher than ([\d.]+) mm", text)[1]) / 1000.0
    assert 0.0 < high <= 0.5 * use.wave_height_m + 1e-9
    arms = wave_arms(assessed.boat.sections, assessed.loading.load, assessed.person.water, high)
    assert min(arms.crest.gm_m, arms.trough.gm_m) >= 0.5 * USES["sheltered-day"].least_gm_m


def test_a_boat_that_falls_over_on_its_wave_is_told_a_lower_one():
    """GM 60 mm in calm water and 40 under nothing on 0.45 m: 25 mm, half of what sheltered water
    asks, are left at 0.158 m, of which half is 0.079; steady there, half of 0.45; with less than
    that in calm water, none, however little the use asks for."""
    use = USES["rough-water"]
    assert use.seen_m(0.060, -0.040) == pytest.approx(0.075)
    assert use.seen_m(0.060, 0.030) == pytest.approx(0.225)
    assert use.seen_m(0.020, -0.040) == 0.0
    assert use.seen_m(0.006, 0.007) == 0.0  # no steadier in calm water than on the wave


def test_no_boat_goes_out_in_higher_waves_than_a_steadier_one_of_a_calmer_use():
    """GM 49 mm, 5 under nothing on its wave, coastal, against 70 and 16 mm in sheltered water."""
    assert USES["coastal-day"].seen_m(0.049, -0.005) <= USES["sheltered-day"].seen_m(0.070, 0.016)


def test_the_name_of_its_use_is_no_promise(job):
    text = " ".join(load_words(job))
    assert f"Its limits are those of “{job.person.use.words}”: a name, and no leave" in text
    assert "calculated and not tried" in text


def test_the_loads_told_float_within_every_limit_of_the_water(job):
    """Both ends of the band floated anew, the paddler lighter by what is off, seat and gear where
    they are; no class of weight says more than the checks bear."""
    text, assessed = whom_words(job), job.fitted.assessed
    assert "undressed" not in text
    assert "Lend or sell it to nobody" in text
    least, most = (float(one) for one in re.findall(r"([\d.]+) kg \([\d.]+ lb\)", text)[:2])
    assert "in a drysuit 1.5 kg (3.3 lb) more at most" in text  # what that weighs
    load, use = assessed.loading, assessed.person.use
    assert most == pytest.approx(load.carried_kg, abs=0.051)
    for carried in (least, most):
        less = load.carried_kg - carried
        lighter = replace(load.paddler, mass_kg=load.paddler.mass_kg - less)
        own = Load(assessed.weight.mass_kg, assessed.weight.lcg_m, assessed.weight.vcg_m)
        lies = afloat(job, together(own, lighter, *load.gear))
        assert abs(lies.trim_deg) < 1.0
        assert lies.gm_m > use.least_gm_m
        assert lies.freeboard_m > use.least_freeboard_m


def test_a_load_too_light_for_a_check_is_not_told(job, monkeypatch):
    """As if some check failed from 2 kg less on: the scale may read 0.82 kg too much."""
    assessed = job.fitted.assessed
    most = float(assessed.loading.carried_kg)
    monkeypatch.setattr("sizer.built.borne._failing", lambda one: {
        "load"} if one.loading.carried_kg < most - 2.0 else set())
    least, same = load_borne_kg.__wrapped__(assessed)
    assert same == pytest.approx(most, abs=0.01)
    assert most - 2.0 + 0.82 <= least <= most - 0.67


def test_a_load_as_fitted_that_is_too_heavy_off_the_scale_is_not_told(job, monkeypatch):
    """As if some check failed from 0.5 kg more on: the scale may read 0.82 kg too little."""
    assessed = job.fitted.assessed
    fitted = float(assessed.loading.carried_kg)
    monkeypatch.setattr("sizer.built.borne._failing", lambda one: {
        "load"} if one.loading.carried_kg > fitted + 0.5 else set())
    least, most = load_borne_kg.__wrapped__(assessed)
    assert fitted - 0.82 <= most <= fitted + 0.5 - 0.82
    assert fitted - 3.35 <= least < most


def test_leave_and_ban_stand_together_on_the_first_page(job, bench):
    """Cold, company, load and what is seen from shore; a boat with too little gear for a drysuit
    is banned before the water's own caution gives leave."""
    text = " ".join(leave_words(job, bench))
    for words in ("NEVER ALONE", "launch sheet", "on the scale", "°C", "ripples only"):
        assert words in text, words
    assert "NEVER ALONE: getting in" in text
    page = owners_pages(job, bench)[0]
    for words in leave_words(job, bench):
        assert " ".join(words.split())[:90] in page
    little = replace(job, person=replace(job.person, gear_kg=2.0))
    text = " ".join(owners_pages(little, bench))
    assert text.index("stays ashore in water of 15 °C") < text.index("brings cold shock")
    assert text.count(BARRED) == 2  # in both lines of water that ask for a drysuit
    assert BARRED not in page


def test_the_launch_bears_the_same_loads_as_the_owner(job):
    sheet = words_of(launch_pdf(job))
    paddler = re.search(r"dressed paddler [\d.]+ kg \([^)]*\) ([\d.]+) to ([\d.]+) kg", sheet)
    gear = float(re.search(r"gear with all of 2 ([\d.]+) kg", sheet)[1])
    loads = re.findall(r"([\d.]+) kg \([\d.]+ lb\)", whom_words(job))[:2]
    assert [float(one) for one in loads] == pytest.approx(
        [gear + float(one) for one in paddler.groups()], abs=0.051)


def test_what_goes_in_is_one_figure(job, bench, used):
    """The gear less seven grams a litre of both bags and the boards told."""
    litres = sum(float(one.litres) for one in bench.bag_ties)
    boards = float(re.search(r"\(boards ([\d.]+) kg", used)[1])
    left = float(re.search(r"count as gear and leave ([\d.]+) kg \([^)]*\) for pads", used)[1])
    assert left == pytest.approx(job.person.gear_kg - 0.007 * litres - boards, abs=0.12)


def test_after_each_trip_panels_and_skin_are_looked_at(used):
    after = used[used.index("After each trip:"):]
    for what in ("panels", "lacing", "bags, hoses", "skin and sticks", "before the next"):
        assert what in after, what


def test_a_drysuit_worn_for_gear_costs_the_steadiness_told(job, used):
    load = job.fitted.assessed.loading
    costs = int(re.search(r"a drysuit worn for as much gear takes (\d+) mm", used)[1])
    low = sum(one.mass_kg * one.vcg_m for one in load.gear) / load.gear_kg
    up = 1.5 * (load.paddler.vcg_m - low) / load.load.mass_kg
    high = afloat(job, replace(load.load, vcg_m=load.load.vcg_m + up)).gm_m
    assert 1000.0 * (afloat(job, load.load).gm_m - high) == pytest.approx(costs, abs=0.6)


def test_who_measures_in_inches_reads_the_checks_in_inches(job, bench):
    """On Letter; the figure read back to the nearest sixteenth."""
    text = " ".join(owners_pages(job, bench, "Letter"))
    whole, top, under = re.search(r"side-deck freeboard (\d+)(?: (\d+)/(\d+))? in\b", text).groups()
    said = 25.4 * (int(whole) + int(top or 0) / int(under or 1))
    assert said == pytest.approx(1000.0 * job.fitted.assessed.particulars.freeboard_m, abs=0.81)
    assert not re.search(r"at least \d+ mm", text)


def test_gm_is_told_as_stiff_only_above_what_is_asked_for():
    assert "with more it is stiff" in BY_KEY["gm"].meaning
    assert "tender" not in BY_KEY["gm"].meaning  # a word for what a caution tells
    assert "much of it" not in BY_KEY["gm"].meaning


def test_with_the_paddler_in_the_swamped_trial_says_what_is_worked_out(job):
    found = job.mishaps.swamped
    for gm, clear, says in ((-0.1, 0.1, "TURNS OVER"), (0.1, -0.01, "under water"),
                            (None, None, "SINKS")):
        seated = replace(found.seated, gm_m=gm, rim_clearance_m=clear, freeboard_m=clear)
        told = swamped_first(replace(found, seated=seated))
        assert says in told
        assert "LEAVE THAT OUT" in told
    steady = replace(found.seated, gm_m=0.1, rim_clearance_m=0.1, freeboard_m=0.1)
    assert "LEAVE" not in swamped_first(replace(found, seated=steady))


def test_the_owners_sheet_tells_its_words_and_bears_no_builders_marks(job, bench):
    text = " ".join(owners_pages(job, bench))
    told = text[text.index("words what they mean Backband"):]
    for term in TRADE:
        sentence, = (sentence for name, sentence in GLOSSARY if name == term)
        assert f"{capital(term)} {sentence}" in told
        assert text.lower().count(term.lower()) > 1, term  # elsewhere too
    for mark in ("[p]", "[j]", "order of work", "the bench", "the wizard"):
        assert mark not in text, mark


def test_the_sheet_has_a_line_for_who_made_it(job, bench):
    assert " ".join(MADE_BY.split()) in owners_pages(job, bench)[0]


def test_the_sheet_begins_with_what_to_do_in_eight_lines(job, bench):
    page = owners_pages(job, bench)[0]
    first = page[page.index("What to do, in this order"):page.index("Whether it may go out - ")]
    assert re.findall(r" (\d)\. ", first) == [str(one) for one in range(1, 9)]
    places = [first.index(one) for one in ("Before the water", "At the water", "Each trip")]
    assert places == sorted(places)


def test_upside_down_the_rim_is_pushed_and_everybody_who_is_kept_off_it_is_told_so(job, used):
    """Where the hands of one who gets in are told, and in the wet exit's steps; the deck comes off
    before the hands go to the rim, and these before the legs."""
    told = " ".join(wet_exit_words())
    for text in (told, used):
        assert "pside down the rim may be gripped and pushed with all your strength" in text
    steps = [told.index(one) for one in (
        "An instructor shows it first", "lean forward", "pull its loop", "beside each hip",
        "hips out first", "keep hold of the boat")]
    assert steps == sorted(steps)


def test_a_boat_that_asks_for_more_than_its_paddler_is_told_what_always_goes_in(
        job, bench, used, middle_job, middle_bench):
    """By the least load told on the first page, the paddler as reckoned with, bags at seven grams
    a litre and the boards told."""
    for made, tools, text in ((job, bench, used), (*(one("small-cruiser") for one in (
            middle_job, middle_bench)), None)):
        text = text or " ".join(use_words(made, tools))
        least = float(re.search(r"with ([\d.]+) kg", whom_words(made))[1])
        litres = sum(float(one.litres) for one in tools.bag_ties)
        boards = re.search(r"\(boards ([\d.]+) kg", text)
        more = (least - float(made.fitted.assessed.loading.paddler_kg) - 0.007 * litres
                - (float(boards[1]) if boards else 0.0))
        said = re.search(r"ALWAYS TAKE AT LEAST ([\d.]+) kg", text)
        assert (said is not None) == (more > 2.0)  # which goes along always
        assert said is None or more - 0.1 <= float(said[1]) < more + 0.2
        assert f"less than {least} kg" in " ".join(each_trip_words(made))


def test_a_wave_seen_from_shore_holds_without_a_spray_deck_only_as_a_ripple(job, middle_job):
    """Half of a ripple's height stays under every rim that passes."""
    told = waters_words(job)
    assert "Both hold with and without a spray deck" in told
    use = USES["rough-water"]
    high = sea_words(use, middle_job("teaching-boat").mishaps.wave, 0.1)
    assert "no higher than 225 mm" in high
    assert "Without a spray deck ripples only, no higher than 150 mm" in high
    assert min(one.least_rim_freeboard_m for one in USES.values()) > 0.5 * 0.150


@pytest.mark.parametrize("base", ["teaching-boat", "surf-runner"])
def test_a_boat_that_falls_over_on_its_wave_says_so_beside_its_verdict(base, middle_job,
                                                                     middle_bench):
    made = middle_job(base)
    falls = any("A GM under 0 means" in one for one in made.cautions)
    assert falls == (base == "surf-runner")
    page = owners_pages(made, middle_bench(base))[0]
    assert ("does not stay up by itself" in page[:page.index("These papers made by")]) == falls
    assert any(tender_words(made)) == falls


def test_a_wake_is_met_before_the_shore_is_sought(job):
    told = waters_words(job)
    order = [told.index(one) for one in (
        "at once bow or stern towards them", "the upper body upright, hips loose",
        "flat on the water", "then turn for the nearest shore")]
    assert order == sorted(order)
    assert "the upper body upright, hips loose" in " ".join(each_trip_words(job))


def test_the_sum_of_camping_gear_and_water_is_done_for_the_camper():
    """By hand: 40 litres and 34.8 kg, of 2 litres a kilogram 2 x + y = 40 with x + y = 34.8."""
    assert camping_kg(40.0, 34.8, 2.0) == pytest.approx(5.2)
    assert camping_kg(40.0, 34.8, 3.0) == pytest.approx(2.6)
    assert camping_kg(40.0, 20.0, 2.0) == pytest.approx(20.0)  # all of it, and no water
    assert camping_kg(30.0, 34.8, 2.0) == 0.0


def test_a_camper_whose_packing_does_not_go_in_reads_so_at_the_head(middle_job, middle_bench):
    """Where half of the litres, as kilograms, is under what must always be aboard."""
    made, tools = middle_job("load-carrier"), middle_bench("load-carrier")
    text = " ".join(use_words(made, tools))
    head = " ".join(no_camping_words(made, tools))
    said = re.search(r"ALWAYS TAKE AT LEAST ([\d.]+) kg", text)
    litres = sum(map(float, re.findall(r"(\d+) litres in the", re.search(
        r"No more than [^,]*,", text)[0])))
    assert bool(head) == (made.person.use.key == "camp-touring" and said is not None
                          and 0.5 * litres < float(said[1]))
    camper = replace(made, person=replace(made.person, use=USES["camp-touring"]))
    if said is not None and 0.5 * litres < float(said[1]):
        most = litres - float(said[1])
        assert f"no more than {most:.1f} kg" in " ".join(no_camping_words(camper, tools))
        page = owners_pages(camper, tools)[0]
        assert page.index("DOES NOT GO IN") < page.index("passes") < page.index("no leave")


def test_gear_is_loaded_in_the_order_that_works(used):
    """Pedals before the panel, air out before the lacing, farthest first, tied before laced."""
    told = used[used.index("Loading, step by step"):used.index("Getting in and out")]
    steps = [told.index(one) for one in (
        "1. At the water's edge", "2. The float bag's air out", "lacing undone", "line untied",
        "3. The farthest bag first", "4. The line drawn taut", "5. The panel laced",
        "6.", "how the boat lies")]
    assert steps == sorted(steps)


def test_what_to_do_in_a_boat_that_fills_is_told_whole_once_among_the_cautions(job, bench):
    text = " ".join(owners_pages(job, bench))
    cautions = text[text.index("Read before the first launch -"):
                    text.index("Before each trip, and in the water Read")]
    assert cautions.count("do not let go of it to swim") <= 2
    assert cautions.count("keep hold") >= 3
    assert f"at the least {job.mishaps.swamped.seated.water_inside_l:.0f} litres, " in cautions


def test_near_shore_and_the_first_wind_to_stay_ashore_in_are_told_in_figures(job, bench):
    text = " ".join(leave_words(job, bench))
    assert "Near shore: no more than 50 m (164 ft)" in text
    assert "Beaufort 3 or more: stay ashore" in text
    assert "with an instructor beside you and not otherwise" in by_temperature(14.0)[1][2]
