"""Every page of the wizard against the engine's own answers, without a browser."""

import json
import re
from dataclasses import replace
from fractions import Fraction

import pytest
from app_screen import (
    clicked,
    drafted,
    engine_job,
    engine_study,
    measured,
    of,
    opened,
    plain,
    ran,
    rows,
    said,
    strip,
    turned_to,
    whose,
)

from sizer.crowd.people import read_people
from sizer.crowd.population import Recipe, population_lines
from sizer.design.library import shipped_names, shipped_text
from sizer.drawing.record import Text
from sizer.export.glossary import GLOSSARY
from sizer.fit.cautions import standing_cautions
from sizer.fit.checks import BY_KEY
from sizer.fit.mishaps import aboard_of
from sizer.fit.study import study
from sizer.fit.what_if import drag_N
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hydro.ends import End
from sizer.hydro.flooded import flooded
from sizer.paddler.body import predict
from sizer.paddler.measures import read_paddler
from sizer.scenes.measuring import how_to_measure_all
from sizer.scenes.side_view import side_view
from sizer.units import inches_text
from sizer.units import plain as spaced
from sizer.web import session
from sizer.web.draft import Draft
from sizer.web.entered import LABELS
from sizer.web.steps import boat as boat_step
from sizer.web.steps.paddler import NEEDED, OPTIONAL

STATUS_WORDS = {"pass": "passes", "caution": "caution", "fail": "does not pass"}
TENDER = {"weight_kg": "88", "stature_mm": "1850", "hip_width_mm": "380"}
TOO_LARGE = {"weight_kg": "150", "stature_mm": "1900", "hip_width_mm": "540"}


pytestmark = pytest.mark.usefixtures("no_remedies")

BESIDE = {"own": "The job's boat, not the one drawn here: "}


@pytest.fixture(scope="module")
def job():
    return engine_job(measured())


def mm(value_m):
    return f"{1000.0 * value_m:.0f} mm"


def size(boat):
    return " × ".join(mm(value) for value in (boat.length_m, boat.beam_m, boat.depth_m))


def test_the_strip_says_the_fitted_boat_on_every_page(job):
    screen, boat = opened("paddler"), job.fitted.assessed.boat
    for path in ("paddler", "base", "boat", "trade", "water", "bench", "files", "dryfit",
                 "launch", "own", "sizes", "words"):
        words = strip(turned_to(screen, path)).removeprefix(BESIDE.get(path, ""))
        assert words.startswith(f"{boat.design.name} {size(boat)}")
        assert f"freeboard {mm(job.fitted.assessed.particulars.freeboard_m)}" in words
        assert STATUS_WORDS[job.fitted.status] in words
        assert "dress for the water. PFD on and fastened." in said(screen)


def test_paddler_page_shows_the_body_as_predicted(job):
    screen = opened("paddler")
    table, body = rows(screen, "Measure"), predict(job.request.measured)
    for name, key in (("sitting height", "sitting_height"), ("inseam", "inseam"),
                      ("shoulder width", "shoulder_width")):
        measure = getattr(body, key)
        assert table[name] == [mm(measure.value_m), f"± {mm(measure.plus_minus_m)}"]
    of(screen.text_input, "Inseam").set_value("81 cm")
    assert rows(ran(screen), "Measure")["inseam"] == ["810 mm", "measured"]
    assert "understood as 810 mm = 31 7/8 in" in said(screen)


def test_first_visit_shows_a_worked_sample_until_a_figure_is_typed():
    screen = opened("paddler", measured({}).with_sample())
    assert whose(screen) == "Sample paddler"
    assert strip(screen).startswith("Short day boat")
    assert "a paddler of our own invention" in said(screen)
    assert [one.value for one in screen.text_input] == [""] * len(screen.text_input)
    of(screen.text_input, "Weight").set_value("90")
    assert strip(ran(screen)).startswith("No boat yet")
    assert of(screen.text_input, "Weight").value == "90"
    assert drafted(screen).missing() == ("stature_mm", "hip_width_mm")


def test_bad_figures_get_a_sentence_and_stay_in_the_field():
    screen = opened("paddler", measured({}))
    for label, text in (("Weight", "eighty"), ("Height", "3000"), ("Hip width", "0.385")):
        of(screen.text_input, label).set_value(text)
    words = said(ran(screen))
    assert "✕ 'eighty'" in words or "✕ eighty" in words
    of(screen.text_input, "Weight").set_value("82")
    words = said(ran(screen))
    assert "if you mean 0.385 m, write the unit" in words
    assert "1250 to 2200 mm" in words
    assert [of(screen.text_input, label).value for label in ("Weight", "Height", "Hip width")] == [
        "82", "3000", "0.385"]


def test_hips_that_were_not_measured_are_predicted_and_every_page_says_so():
    screen = opened("paddler", measured({"weight_kg": "74", "stature_mm": "1715"}))
    assert strip(screen).startswith("No boat yet")
    of(screen.radio, "Hips were measured").set_value("predicted")
    assert of(ran(screen).radio, "Predict them for").value == "predicted"
    of(screen.radio, "Predict them for").set_value("predicted-woman")
    hip = predict(read_paddler(drafted(ran(screen)).request()["paddler"])).hip_sitting
    assert drafted(screen).request()["paddler"]["hip_measured"] == "predicted-woman"
    assert (f"predicted at {mm(hip.value_m)} ± {mm(hip.plus_minus_m)}; the opening is made for "
            f"hips of {mm(hip.high_m)}. Measure before you build") in said(screen)
    assert of(screen.text_input, "Hip width").disabled
    for path in ("boat", "water"):
        assert "hips not measured, only predicted" in strip(turned_to(screen, path))
        assert "The hips were not measured" in said(screen)
    of(turned_to(screen, "paddler").radio, "Hips were measured").set_value("sitting")
    assert strip(ran(screen)).startswith("No boat yet")


def test_a_paddler_measured_whole_is_not_called_predicted():
    """Of 121 kg, of whom few were surveyed, with all of the form filled in."""
    whole = {"weight_kg": "121", "stature_mm": "1880", "hip_width_mm": "440", "inseam_mm": "850",
             "sitting_height_mm": "970", "foot_length_mm": "285", "shoe_length_mm": "310",
             "shoulder_width_mm": "500"}
    told = strip(opened("boat", measured(whole, base="load-carrier", use="camp-touring")))
    assert "heavier than nearly all who were surveyed" in told
    assert "or predicted" not in told


@pytest.mark.parametrize("path", ["boat", "trade", "water", "bench", "dryfit", "launch", "files"])
def test_every_caution_is_on_the_page_the_boats_own_before_those_of_every_boat(path):
    one = measured(TENDER, base="surf-runner", use="rough-water") if path == "boat" else measured()
    cautions = engine_job(one).cautions
    screen = opened(path, one)
    listed = [plain(item).strip() for note in screen.markdown if "<li>" in note.value
              and "sz-caution" in note.value for item in re.findall("<li>(.*?)</li>", note.value)]
    assert sorted(listed) == sorted(cautions)
    assert set(listed[-len(standing_cautions()):]) == set(standing_cautions())
    own = [caution for caution in cautions if caution not in standing_cautions()]
    assert listed[:len(own)] == own
    assert path != "boat" or own[0].startswith("A tender boat")
    titles = [one.label for one in screen.expander] + [one.value for one in screen.subheader]
    assert [title.partition(" (")[0] for title in titles if "What to know" in title] == [
        "What to know of this boat and its paddler", "What to know before every launch"]


def test_a_shoes_size_is_no_length_and_is_told_under_its_field():
    """A foot of 9 5/8 in; 8 in are 203 mm, 0.125 of a height of 64 in."""
    inches = measured({"weight_kg": "142", "stature_mm": "64", "hip_width_mm": "15 1/4",
                       "shoe_length_mm": "8"}, length_unit="in", mass_unit="lb")
    size = "the size in a shoe is no length: measure it outside, heel to toe"
    for one, why in ((inches, "with stature 5 ft 4 in (1626 mm) allowed is"),
                     (inches.enter("foot_length_mm", "9 5/8"),
                      "a shoe is longer than its foot, 9 5/8 in (244 mm)")):
        screen = opened("paddler", one)
        (told,) = (plain(mark.value) for mark in screen.markdown
                   if size in mark.value and "sz-echo" in mark.value)
        assert "Paddling shoe length 8 in (203 mm): " in told
        assert why in told
        words = said(clicked(screen, "Next: use and base"))
        assert "Cannot be right, see there: paddling shoe length." in words


def test_sizes_let_go_with_another_base_or_use_are_told(few_bases):
    few_bases("day-boat", "long-tourer")
    one = measured(length_unit="in").hold("length_mm", 4572.0)
    screen = clicked(opened("base", one), "Choose Long tourer")
    assert drafted(screen).held.length_mm is None
    assert "Let go: length held at 15 ft." in said(screen)
    screen = opened("base", one)
    of(screen.radio, "Intended use").set_value("camp-touring")
    assert "since the use is another. Let go: length held at 15 ft." in said(ran(screen))
    assert "Let go" not in said(clicked(opened("base", measured()), "Choose Long tourer"))


def test_next_names_what_is_missing_and_goes_on_once_it_is_there():
    screen = opened("paddler", measured({"weight_kg": "82", "inseam_mm": "much"}))
    assert "Still to measure" not in said(screen)
    words = said(clicked(screen, "Next: use and base"))
    assert "Still to measure: height, hip width. Cannot be right, see there: inseam." in words
    of(screen.text_input, "Height").set_value("1780")
    of(screen.text_input, "Inseam").set_value("")
    assert "Still to measure: hip width." in said(ran(screen))
    of(screen.text_input, "Hip width").set_value("385")
    clicked(screen, "Next: use and base")  # the figure and the button in one go
    assert [one.value for one in screen.header] == ["What for?", "Which base design?"]


def test_units_switch_without_losing_what_was_typed():
    screen = opened("paddler", measured({"weight_kg": "82", "stature_mm": "1781",
                                         "hip_width_mm": "385"}))
    of(screen.text_input, "Hip width").set_value("390")  # left open: read in the units of its label
    of(screen.segmented_control, "Lengths in").set_value("in")
    of(screen.segmented_control, "Weights in").set_value("lb")
    ran(screen)
    assert of(screen.text_input, "Height, in").value == "70.12"
    assert of(screen.text_input, "Hip width, in").value == "15.35"
    assert of(screen.text_input, "Weight, lb").value == "180.8"
    turned_to(turned_to(screen, "boat"), "paddler")
    of(screen.segmented_control, "Lengths in").set_value("mm")
    of(screen.segmented_control, "Weights in").set_value("kg")
    ran(screen)
    assert [of(screen.text_input, label).value for label in ("Weight", "Height", "Hip width")] == [
        "82", "1781", "390"]


def test_a_new_customer_finds_no_trace_of_the_last_on_any_page():
    last = measured(use="coastal-day", base="long-tourer", water_kind="salt", notes="paid").hold(
        "beam_mm", 560.0).enter("gear_kg", "33")
    screen = opened("paddler", last)
    of(screen.text_input, "Customer").set_value("Ada")
    assert "0 mm" in strip(ran(screen))
    last = drafted(screen)
    assert whose(screen).endswith(" · Ada")
    clicked(screen, "Clear for a new customer")
    assert drafted(clicked(screen, "Back to")) == last  # a slip of the finger loses nothing
    clicked(screen, "Clear for a new customer")
    assert strip(screen).startswith("No boat yet")
    assert {one.value for one in screen.text_input} == {""}
    turned_to(screen, "base")
    assert of(screen.text_input, "Gear").value == ""
    assert of(screen.radio, "Intended use").value == "sheltered-day"
    assert of(screen.radio, "Water").value == "fresh"
    assert next(one for one in screen.button if one.label == "Chosen").key == "choose_day-boat"
    assert of(turned_to(screen, "files").text_area, "Notes").value == ""
    assert "Back to" not in [one.label[:7] for one in screen.button]


def test_pages_that_need_a_boat_say_what_is_missing_and_lead_back():
    screen = opened("paddler", measured({}))
    for path in ("boat", "trade", "water", "bench", "files", "dryfit", "launch"):
        assert "Measure the paddler first" in said(turned_to(screen, path))
    clicked(screen, "Go to the paddler")
    assert [one.value for one in screen.header] == ["Measure the paddler"]


def test_a_figure_that_cannot_be_read_is_what_the_pages_say_is_lacking():
    screen = opened("paddler", measured().enter("stature_mm", "tall"))
    assert strip(screen) == "No boat yet. Height 'tall': this cannot be read."
    for path in ("boat", "trade", "files", "dryfit"):
        assert "Height 'tall': this cannot be read; write a length" in said(
            turned_to(screen, path))
        assert "Measure the paddler first" not in said(screen)
        assert "Undo" in [one.label for one in screen.button]  # the way back to what was there
    both = opened("boat", measured({"weight_kg": "heavy", "hip_width_mm": "385"}))
    assert "Weight 'heavy': this cannot be read" in said(both)
    assert "Measure the paddler first: height." in said(both)
    gear = clicked(opened("boat", measured().enter("gear_kg", "much")), "Go to use and base")
    assert "Which base design?" in [one.value for one in gear.header]


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_each_field_shows_forms_that_it_takes_and_understands_alike(unit):
    one = Draft(length_unit=unit)
    screen = opened("paddler", one)
    for field in screen.text_input[1:]:
        first, *others = re.split(", | or ", field.placeholder.removeprefix("like "))
        key = field.key.partition(":")[0]
        value = one.enter(key, first).entries[key].value
        assert value is not None, field.label
        assert others, field.label
        for text in others:
            assert one.enter(key, text).entries[key].value == pytest.approx(value, abs=1.0), text


def test_base_cards_say_what_each_base_does_for_this_paddler(base_lines):
    one = measured()
    words = said(opened("base", one))
    for base in base_lines:
        assessed = engine_job(one.on(base)).fitted
        assert (f"For this paddler: {STATUS_WORDS[assessed.status]} {size(assessed.assessed.boat)},"
                f" {assessed.assessed.weight.mass_kg:.1f} kg") in words


def test_where_the_chosen_base_does_not_pass_those_that_do_are_named_the_surest_first(base_lines):
    one = measured({"weight_kg": "60", "stature_mm": "1500", "hip_width_mm": "380"},
                   base="surf-runner", use="coastal-day")
    odds = {base: found.odds_all_hard for base in base_lines
            if (found := engine_job(one.on(base)).fitted).status == "pass"}
    assert 1 < len(odds) < len(base_lines)
    screen = opened("base", one)
    assert better_of(screen) == sorted(odds, key=lambda base: -odds[base])
    surest = better_of(screen)[0]
    clicked(screen, f"better_{surest}", by_key=True)
    assert drafted(screen).base == surest
    assert better_of(screen) == []


def test_of_bases_that_pass_alike_the_surer_ones_are_named_to_take(base_lines):
    """The same paddler, on the base that passes least surely of several."""
    one = measured({"weight_kg": "60", "stature_mm": "1500", "hip_width_mm": "380"},
                   use="coastal-day")
    odds = {base: found.odds_all_hard for base in base_lines
            if (found := engine_job(one.on(base)).fitted).status == "pass"}
    least = min(odds, key=odds.get)
    screen = opened("base", one.on(least))
    surer = better_of(screen)
    assert surer
    assert surer == [base for base in sorted(odds, key=lambda base: -odds[base])
                     if round(100.0 * odds[base]) > round(100.0 * odds[least])]
    assert f"{len(odds)} bases come out alike" in said(screen)
    assert (f"{round(100.0 * odds[least])} of 100 such paddlers meet every limit that can fail; "
            "surer are") in said(screen)
    screen = clicked(screen, f"better_{surer[0]}", by_key=True)
    assert "no other is surer" in said(screen)


def better_of(screen):
    """Keys of the bases that are named to take instead."""
    return [button.key.removeprefix("better_") for button in screen.button
            if button.key and button.key.startswith("better_")]


def test_where_no_base_passes_that_is_said(few_bases):
    few_bases("day-boat", "load-carrier")
    largest = {"weight_kg": "180", "stature_mm": "2000", "hip_width_mm": "600"}
    assert "No base does better for this paddler" in said(opened("base", measured(largest)))


def test_a_base_card_says_what_the_base_reads_and_what_is_wanted(few_bases):
    few_bases("small-cruiser")
    one = measured({"weight_kg": "150", "stature_mm": "1780", "hip_width_mm": "520"},
                   base="small-cruiser")
    found = engine_job(one).fitted
    check = next(check for check in found.checks if check.status == "fail")
    assert check.unit == "mm"
    assert check.value < check.window[0] - 0.5
    assert (f"{check.name}: {check.value:.0f} mm, at least {check.window[0]:.0f} mm needed"
            in said(opened("base", one)))


def test_a_base_card_says_which_part_does_not_come_out_sound(few_bases):
    """Its last frame so far aft that the stern stem's tail has no room on the keel."""
    few_bases()
    text = shipped_text("surf-runner")
    assert text.count("x_mm = 4220") == 1
    one = measured({"weight_kg": "45", "stature_mm": "1480", "hip_width_mm": "330"},
                   use="coastal-day", base=session.OWN, own_name="own.toml",
                   own_design=text.replace("x_mm = 4220", "x_mm = 4235"))
    found = engine_job(one).fitted
    check, = [check for check in found.checks if check.status == "fail"]
    assert check.key == "sawn"
    assert "tail" in check.says
    assert f"{check.name}: no, {check.says}" in said(opened("base", one))


def test_boat_page_says_sizes_and_drag_as_the_engine_does_and_holds_a_size(job):
    screen, boat = opened("boat"), job.fitted.assessed.boat
    assert of(screen.slider, "Beam").value == round(1000.0 * boat.beam_m)
    assert of(screen.slider, "Depth").value == round(1000.0 * boat.depth_m)
    newtons = drag_N(job.fitted.assessed, 1.8)
    assert f"about {newtons:.1f} N ({newtons / 4.44822:.1f} lbf) of drag" in said(screen)
    of(screen.slider, "Speed").set_value(4.0)
    newtons = drag_N(job.fitted.assessed, 4.0 * 1852 / 3600)
    assert f"{newtons:.1f} N ({newtons / 4.44822:.1f} lbf) of drag" in said(ran(screen))
    of(screen.slider, "Beam").set_value(round(1000.0 * boat.beam_m) + 5.0)
    of(screen.slider, "Gear").set_value(20.0)
    held = engine_job(drafted(ran(screen)))
    assert held.request.trip.gear_kg == 20.0
    assert held.fitted.assessed.boat.beam_m == pytest.approx(boat.beam_m + 0.005, abs=0.0006)
    assert size(held.fitted.assessed.boat) in strip(screen)
    assert "held by you" in said(screen)
    assert size(held.fitted.assessed.boat) in strip(turned_to(screen, "water"))


def test_a_picture_is_drawn_once_while_its_boat_stays(monkeypatch):
    drawn = []
    monkeypatch.setattr(boat_step, "side_view", lambda *what, **form: (
        drawn.append(form) or side_view(*what, **form)))
    screen = opened("boat")
    ran(screen)
    assert drawn == [{}, {"narrow": True}]
    beam = of(screen.slider, "Beam")
    beam.set_value(beam.value + 5.0)
    ran(screen)
    assert drawn == 2 * [{}, {"narrow": True}]


def test_next_stays_with_measures_that_no_body_has_together():
    screen = opened("paddler", measured().enter("weight_kg", "190").enter("stature_mm", "1600"))
    told = ("Weight 190 kg: with stature 1600 mm (5 ft 3 in) allowed is 31 to 179 kg "
            "(68 to 395 lb)")
    assert told in said(clicked(screen, "Next: use and base"))
    assert "Measure the paddler" in [one.value for one in screen.header]
    assert told in strip(turned_to(screen, "base"))
    assert said(screen).count(told) == 1 + len(shipped_names())  # on each base's card
    for path in ("paddler", "base", "boat", "files"):
        assert "paddler." not in said(turned_to(screen, path))
    turned_to(screen, "paddler")
    of(screen.text_input, "Weight").set_value("82")
    of(screen.text_input, "Height").set_value("1780")
    assert "Which base design?" in [one.value for one in clicked(
        ran(screen), "Next: use and base").header]


def test_undo_and_redo_walk_from_page_to_page(job):
    screen = opened("boat")
    before = strip(screen)
    of(screen.slider, "Beam").set_value(of(screen.slider, "Beam").value + 9.0)
    after = strip(ran(screen))
    assert after != before
    turned_to(screen, "water")
    assert strip(clicked(screen, "Undo")) == before
    assert strip(clicked(screen, "Redo")) == after
    assert of(turned_to(screen, "boat").slider, "Beam").label.endswith("held")


def test_undo_takes_back_each_correction_of_one_figure():
    screen = opened("paddler")
    for text in ("90", "95"):
        of(screen.text_input, "Weight").set_value(text)
        ran(screen)
    for text in ("90", "82"):
        clicked(screen, "Undo")
        assert of(screen.text_input, "Weight").value == text


def test_a_paddler_too_large_is_told_what_would_have_to_give():
    one = measured(TOO_LARGE)
    found = engine_job(one).fitted
    short = [check for check in found.checks if check.status == "fail"]
    assert short
    screen = opened("boat", one)
    for check in short:
        assert f"Too {check.too}. What mends it: {check.remedy}." in said(screen)
    assert "This boat does not pass" in said(turned_to(screen, "bench"))
    assert "This boat does not pass" in said(turned_to(screen, "files"))


def test_water_page_says_what_the_engine_says(job):
    screen, more = opened("water"), engine_study(job)
    table, sums = rows(screen, "Case"), job.mishaps.mover_sums
    assert table["paddler keeps upright"][0] == (
        f"{1000.0 * sums.greatest_arm_m:.0f} mm at {sums.greatest_arm_deg:.0f}°")
    assert f"at {more.pace.effort_w[0]:.0f} W" in said(screen)
    changes = rows(screen, "Change")
    for one in more.changes:
        drag = round(one.change.drag_3kn_N, 1)
        assert changes[one.name][-2] == (f"{drag:+.1f} N" if drag else "0.0 N")
    fitted, heeled, _ = more.under_way.values()
    assert f"{fitted[1].says} An estimate, not a trial" in said(screen)
    assert "no kayak was measured" in said(screen)
    paddled = rows(screen, "Wind, paddled at")
    assert len(paddled) == len(fitted)
    for cells, way, edged in zip(paddled.values(), fitted, heeled, strict=True):
        assert cells[1:3] == [f"{100.0 * one.lead:+.0f} %" for one in (way, edged)]
        assert cells[4] == f"{10_000.0 * way.skeg_m2:.0f}"
        assert cells[5].endswith(f" to {10_000.0 * way.skeg_high_m2:.0f}")


def test_figures_and_steps_of_the_pages_are_in_inches_where_those_are_chosen(job):
    """20 mm are 12.6 sixteenths, 10 mm 6.3, 50 mm 31.496, 25 mm 15.7."""
    screen, sums = opened("water", measured().in_units("in", "lb")), job.mishaps.mover_sums
    assert {"11 lb more paddler", "seat 13/16 in further aft", "seat 13/16 in higher",
            "3/8 in more beam"} <= rows(screen, "Change").keys()
    assert "seat 1 15/16 in farther aft" in rows(screen, "Side areas")
    assert rows(screen, "Case")["paddler keeps upright"][0] == (
        f"{inches_text(1000.0 * sums.greatest_arm_m, 16)} in at {sums.greatest_arm_deg:.0f}°")
    # 1 lbf is 4.448222 N, 1 sq ft 929.0304 cm2: NIST SP 811, appendix B
    foot_pounds = sums.energy_open_j / (4.448222 * 0.3048)
    assert rows(screen, "Case")["paddler keeps upright"][2] == f"{foot_pounds:.1f} ft·lbf"
    more = engine_study(job)
    above = more.wind.above.area_m2 / 0.09290304
    assert rows(screen, "Side areas")["as fitted"][0] == f"{above:.1f} sq ft"
    assert {cells[-1].removeprefix("+").removeprefix("-") for cells in
            rows(screen, "Change").values()} == {
        f"{abs(one.change.drag_4kn_N) / 4.448222:.2f} lbf" for one in more.changes}
    skeg = more.under_way["as_fitted"][0].skeg_m2
    assert next(iter(rows(screen, "Wind, paddled at").values()))[4] == f"{skeg / 6.4516e-4:.0f}"
    charts = [json.loads(one.proto.spec)["layout"]["yaxis"]["title"]["text"]
              for one in screen.get("plotly_chart")]
    assert "drag, lbf (estimate)" in charts
    assert [one for one in charts if "arm" in one] == [
        "righting arm, in", "righting arm, in, paddler upright"]
    assert "GM is good to about 1 in" in said(turned_to(screen, "trade"))
    surer = said(turned_to(screen, "boat"))
    assert re.search(r"steadiness known to [\d /]+ in instead of [\d /]+ in", surer)


def test_water_page_says_of_a_case_that_it_is_not_known(monkeypatch):
    def sunk(*given):
        found = study(*given)
        return replace(
            found, other_curves=dict.fromkeys(found.other_curves), wind_seat_aft=None,
            under_way={name: ways if name == "as_fitted" else None
                       for name, ways in found.under_way.items()},
            changes=tuple(replace(one, change=None) for one in found.changes))

    monkeypatch.setattr(session, "study", sunk)
    unknown = "not known: it sinks so, or finds no rest"
    screen = opened("water")
    assert rows(screen, "Side areas")["seat 50 mm farther aft"] == [unknown, *3 * "–"]
    assert {tuple(cells) for cells in rows(screen, "Change").values()} == {
        (unknown, *4 * "–")}
    for cells in rows(screen, "Wind, paddled at").values():
        assert cells[2:4] == 2 * [unknown]


def test_other_float_bags_float_the_boat_as_the_engine_says(job):
    screen, assessed = opened("water"), job.fitted.assessed
    bow, stern = (of(screen.slider, f"Float bag, {end}") for end in ("bow", "stern"))
    assert (bow.value, stern.value) == (job.mishaps.swamped.bow_l, job.mishaps.swamped.stern_l)
    bow.set_value(bow.value - 15)
    stern.set_value(stern.value - 9)
    before = said(screen)
    litres = bow.value, stern.value

    def engine(seated):
        return flooded(assessed.boat, assessed.weight, aboard_of(assessed, seated),
                       *map(End, litres), assessed.person.water).says

    assert engine(True) not in before
    assert engine(True) in said(ran(screen))
    # it would not stay upright under this paddler
    assert any("nobody in the seat" in one.value for one in screen.markdown)
    assert drafted(screen).bags_l == litres
    of(screen.radio, "The paddler is").set_value("in the water beside")
    assert engine(False) in said(ran(screen))
    turned_to(turned_to(screen, "bench"), "water")
    assert engine(False) in said(screen)  # the choice is still there
    assert of(screen.slider, "Float bag, bow").value == litres[0]


def test_bench_page_lists_every_station_of_the_setting_up(job):
    table = rows(opened("bench"), "Frame")
    stations = job.setting_up.stations
    assert list(table) == [one.name for one in stations]
    for one in stations:
        kind, _, mark, spacing, *heights = table[one.name]
        assert kind == one.kind
        assert [mark, *heights] == [f"{1000.0 * size:.1f}" for size in (
            one.strongback_m, one.keel_height_m, one.gunwale_height_m)]
        assert float(spacing) == pytest.approx(1000.0 * one.spacing_m, abs=0.101)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_spacings_add_up_to_the_marks_as_they_are_read(unit):
    table = rows(opened("bench", measured().in_units(unit, "kg")), "Frame")

    def read(text):
        return sum(Fraction(part) for part in text.split())

    marks = [read(row[2]) for row in table.values()]
    spacings = [read(row[3]) for row in table.values()]
    assert spacings == [to - at for at, to in zip([0, *marks], marks, strict=False)]


@pytest.mark.parametrize(("unit", "words"), [("mm", "mm"), ("in", "inches")])
def test_bench_page_is_in_the_chosen_unit_throughout(job, unit, words):
    """Table, drawing and caption; on a phone too, where every point has a row of its own."""
    screen = opened("bench", measured().in_units(unit, "kg"))

    def shown(value_m):
        mm = 1000.0 * value_m
        if unit == "mm":
            return f"{mm:.1f}"
        whole, part = divmod(Fraction(round(round(mm, 1) / 25.4 * 32), 32), 1)
        return " ".join(str(size) for size in (whole, part) if size) or "0"

    stations = job.setting_up.stations
    (drawing,) = [spaced(one.value) for one in screen.markdown
                  if "Strongback from above" in one.value]
    (table,) = [spaced(one.value) for one in screen.markdown if "Frame, " in one.value
                and "spacing" in one.value]
    (points,) = [spaced(one.value) for one in screen.markdown if "stringer</th>" in one.value]
    narrow = points.split("sz-narrow")[1]
    for one in stations:
        assert f">{shown(one.strongback_m)}</text>" in drawing
        assert f">{shown(one.gunwale_height_m)}</text>" in drawing
        assert table.count(f'<td class="sz-n">{shown(one.strongback_m)}</td>') >= 2
        for out, up in one.points_m.values():
            assert (f'<td class="sz-n">{shown(out)}</td><td class="sz-n">{shown(up)}</td>'
                    in narrow)
    assert narrow.count("<tr>") == 1 + sum(len(one.points_m) for one in stations)
    caption = next(one.value for one in screen.caption if "strongback" in one.value)
    assert f"marks in {words} from" in caption


def test_files_page_carries_every_caution_of_the_job_and_offers_every_list(job):
    screen = opened("files")
    words = said(screen)
    for caution in job.cautions:
        assert " ".join(caution.split()) in words
    labels = {one.proto.label for one in screen.get("download_button")}
    assert labels == {
        "Station list, mm (CSV)", "Station list, inches (CSV)", "Offsets, mm (CSV)",
        "Offsets, feet-inches-eighths (CSV)", "As a base design (TOML)", "Everything (JSON)",
        "Quote for the customer, A4 (PDF)", "Quote for the customer, Letter (PDF)", "Save this job"}


def test_own_design_page_draws_the_base_and_undoes_like_the_wizard(base_lines):
    screen, boat = opened("own"), scaled_boat(base_lines["day-boat"], Scaling())
    first = f"{mm(boat.length_m)} long, {mm(boat.beam_m)} wide, {mm(boat.depth_m)} deep"
    assert first in said(screen)
    other = scaled_boat(base_lines["long-tourer"], Scaling())
    clicked(screen, "copy_long-tourer", by_key=True)
    assert f"{mm(other.length_m)} long, {mm(other.beam_m)} wide" in said(screen)
    assert first in said(clicked(screen, "Undo"))
    clicked(clicked(screen, "Redo"), "Use as base design")
    assert "here: Long tourer, own copy" in strip(screen)


def test_an_unfair_own_design_is_taken_only_with_its_verdict():
    text = shipped_text("day-boat")
    bent = text.replace("gunwale = [304.5, 251]", "gunwale = [280, 251]")
    assert bent != text
    screen = opened("own", measured(base="own", own_design=bent, own_name="bent"))
    assert "Boats of this base do not pass" in said(screen)
    clicked(screen, "Use as base design, though it does not pass")
    assert ("is the base design now. As drawn, with whom it was drawn for, it does not pass: "
            "worst hollow or bump of a stick") in said(screen)


def test_size_range_page_counts_the_people_of_the_survey():
    people = [one.given["paddler"] for one in
              read_people(list(population_lines(Recipe(500, 1, 0.5, 0.0, 1.0))), "csv")]
    tall = [one["stature_mm"] for one in people]
    heavy = [one["weight_kg"] for one in people]
    assert (f"{len(people)} people, {min(tall):.0f} mm to {max(tall):.0f} mm tall, "
            f"{min(heavy):.1f} kg to {max(heavy):.1f} kg.") in said(opened("sizes"))


def test_words_page_tells_every_word_and_every_check():
    screen = opened("words")
    words = said(screen)
    for term, sentence in GLOSSARY:
        assert f"{term} {sentence}" in words
    for row in BY_KEY.values():
        assert f"{row.title} : {row.meaning}." in words
    screen.text_input[0].set_value("freeboard")
    found = said(ran(screen))
    assert "backband" not in found
    assert "freeboard" in found


def test_every_measure_is_pictured_under_the_name_of_its_field():
    drawn = {one.text for one in how_to_measure_all().strokes if isinstance(one, Text)}
    named = {LABELS[key].lower() for key, _ in (*NEEDED, *OPTIONAL)}
    assert named - drawn == {"weight", "paddling shoe length"}  # a scale; as the foot, outside


def test_no_line_ends_within_a_size_of_stock():
    """Three quarters by one and a quarter, broken after the one, reads as by one."""
    screen = opened("bench", measured().in_units("in", "lb"))
    tables = [one.value for one in screen.markdown if ">stock<" in one.value
              or ">allowance<" in one.value]
    cells = re.findall(r"[^<>]* × [^<>]*", " ".join(tables))
    assert len(tables) == 2
    assert any("/" in cell for cell in cells)
    assert not [cell for cell in cells if re.search(r"\d \d+/\d|\d in\b", cell)]


def test_water_temperature_is_typed_in_either_unit_and_told_in_both(few_bases):
    few_bases("day-boat")
    screen = opened("base", measured().in_units("in", "lb"))
    label = "Water temperature, the water's own and not the air's"
    assert of(screen.text_input, label).label.endswith("°F")
    assert of(screen.text_input, label).value == "50"  # 10 °C
    of(screen.text_input, label).set_value("48")
    screen = ran(screen)
    assert drafted(screen).water_c == pytest.approx(80 / 9)
    assert "understood as 48 °F (8.9 °C)" in said(screen)
    assert "Water 48 °F (8.9 °C): dress for the water" in said(screen)
    of(screen.text_input, label).set_value("9")  # no water is at 9 °F: asked, not guessed
    screen = ran(screen)
    assert "9: 32 to 86 °F, or 0 to 30 °C with its unit, is allowed" in said(screen)
    assert "No boat yet. Water temperature 9: 32 to 86 °F" in said(screen)
    assert "°F (8.9 °C): dress" not in said(screen)
    assert drafted(screen).water_c == pytest.approx(80 / 9)
    for path in ("boat", "files"):  # no paper of a temperature that was not meant
        page = turned_to(screen, path)
        assert [one.label for one in page.button if one.label.startswith(("Go to", "Issue"))] == [
            "Go to use and base"]
    again = opened("base", drafted(screen))  # as after a reload
    assert of(again.text_input, label).value == "9"
    metric = drafted(screen).in_units("mm", "kg")
    assert metric.water_unread == "9 °F"
    assert metric.at_fault()["water_c"].startswith("9 °F: 0 to 30 °C, or 32 to 86 °F")
    screen = turned_to(screen, "base")
    of(screen.text_input, label).set_value("8.4 C")
    screen = ran(screen)
    assert drafted(screen).water_c == 8.4
    assert "No boat yet" not in said(screen)
    screen = opened("base", drafted(screen).in_units("mm", "kg"))
    assert of(screen.text_input, label).label.endswith("°C")
    assert of(screen.text_input, label).value == "8.4"
    of(screen.text_input, label).set_value("48°F")
    assert drafted(ran(screen)).water_c == pytest.approx(80 / 9)


@pytest.mark.parametrize("path", ["boat", "launch", "base"])
def test_no_line_of_a_page_ends_within_a_length(path):
    screen = opened(path, measured().in_units("in", "lb"))
    words = [re.sub(r"<.*?>", "|", one.value) for one in screen.markdown]
    assert any("\xa0in" in one for one in words)
    assert not [one for one in words if re.search(r"\d \d+/\d|\d (in|mm|kg|lb)\b|\bft \d", one)]


def test_the_foot_tells_what_to_do_in_a_boat_that_fills(job):
    """Where it cannot be paddled then; in the words of its own cautions."""
    assert not job.mishaps.swamped.can_be_paddled
    foot, = (one.value for one in opened("boat").markdown if "sz-foot" in one.value)
    asked = re.search(r"If this boat fills: ([^<]*)<", foot.replace("\N{NO-BREAK SPACE}", " "))[1]
    assert asked.startswith("get out of the cockpit and keep hold of the boat")
    assert any(asked in caution for caution in job.cautions)
