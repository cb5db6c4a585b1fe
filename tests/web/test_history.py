"""Undo, redo, and what is entered put back."""

import json
from math import inf

import pytest

from sizer.web.differences import differences
from sizer.web.draft import Draft
from sizer.web.entered import Entered
from sizer.web.history import MOST_STEPS, PAUSE_S, History


def stepped(*values):
    history = History(values[0])
    for value in values[1:]:
        history = history.step(value)
    return history


def test_undo_and_redo_walk_through_whole_values():
    history = stepped("a", "b", "c")
    back = history.undone().undone()
    assert (back.present, back.undone().present) == ("a", "a")
    assert back.redone().present == "b"
    assert back.redone().redone().redone().present == "c"
    assert history.present == "c"  # nothing was changed in place


def test_a_new_change_ends_what_could_be_redone():
    history = stepped("a", "b").undone().step("c")
    assert not history.future
    assert history.undone().present == "a"


def test_an_amended_value_is_no_step():
    history = stepped("a", "b").amend("B")
    assert history.present == "B"
    assert history.undone().present == "a"
    assert history.undone().redone().present == "B"


def test_only_the_last_steps_are_kept():
    history = stepped(*range(MOST_STEPS + 50))
    assert len(history.past) == MOST_STEPS
    assert history.past[-1] == MOST_STEPS + 48


def test_units_and_another_writing_of_a_figure_are_no_difference():
    one = Draft().enter("stature_mm", "1778")
    assert not one.in_units("in", "lb").differs(one)
    assert not one.enter("stature_mm", "177.8 cm").differs(one)
    assert one.but(notes="blue").differs(one)
    fit = one.but(dry_fit=one.dry_fit.enter("length", "4700", "mm", (0.0, 9000.0)))
    assert fit.differs(one)
    assert not fit.in_units("in", "lb").differs(fit)
    assert one.enter("stature_mm", "1779").differs(one)
    assert one.enter("stature_mm", "tall").differs(one.enter("stature_mm", "taller"))
    assert one.wish("room", 0.5).differs(one)


def test_what_is_entered_survives_json_and_comes_back_in_the_units_of_now():
    one = Draft(bags_l=(20.0, 15.0), speed_mps=2.1).enter("weight_kg", "11 st 9")
    one = one.enter("stature_mm", "5 ft 10").hold("beam_mm", 600.0).hold("seat_shift_mm", 0.0)
    kept = Entered.model_validate(json.loads(one.wishes().model_dump_json()))
    other = Draft(length_unit="in", mass_unit="lb", notes="mine").taking(kept)
    assert other.entries.stature_mm.value == one.entries.stature_mm.value == 1778.0
    assert other.entries.stature_mm.text == "70"
    assert other.entries.weight_kg.text == "163"
    assert other.request() == one.request()
    assert other.request()["fixed"] == {"beam_mm": 600.0, "seat_shift_mm": 0.0}
    assert (other.bags_l, other.speed_mps, other.length_unit) == ((20.0, 15.0), 2.1, "in")
    assert other.notes == "mine"


def test_the_first_figure_of_a_customer_clears_the_sample():
    one = Draft().enter("gear_kg", "9").with_sample().enter("weight_kg", "90")
    assert not one.sample
    assert one.entries.stature_mm.value is None
    assert one.entries.gear_kg.value == 9.0
    assert one.enter("stature_mm", "1800").entries.weight_kg.value == 90.0


def test_a_figure_far_too_large_is_told_and_kept_as_typed():
    entry = Draft().enter("weight_kg", "1" + 9 * "0").entries.weight_kg
    assert entry.value is None
    assert entry.fault
    assert entry.text == "1000000000"


def test_a_new_customer_finds_no_trace_of_the_last():
    last = Draft(use="coastal-day", base="long-tourer", water_kind="salt", water_c=4.0,
                 bags_l=(9.0, 9.0), speed_mps=2.5, follow=True, hip_measured="standing",
                 notes="paid", length_unit="in", mass_unit="lb").enter("gear_kg", "30")
    last = last.enter("weight_kg", "200").hold("beam_mm", 600.0).wish("length", -1.0)
    new = last.new_customer()
    assert new.wishes() == Draft(length_unit="in", mass_unit="lb").wishes()
    assert (new.variants, new.notes) == ((), "")


def test_another_boat_taken_keeps_notes_and_mark():
    last = Draft(notes="paid").enter("weight_kg", "80")
    noted = last.enter("weight_kg", "81").but(notes="paid, collected", mark="Ada")
    back = noted.taking(last)
    assert (back.notes, back.mark) == ("paid, collected", "Ada")
    assert back.entries == last.entries


def test_a_figure_typed_letter_by_letter_is_one_step_until_a_pause():
    typed = History("").step("1", "height", 10.0).step("17", "height", 10.9)
    typed = typed.step("178", "height", 12.5)
    assert typed.undone().present == ""
    paused = typed.step("179", "height", 12.5 + PAUSE_S)
    assert paused.undone().present == "178"
    anew = typed.step("192", "height", 13.0, anew=True)
    assert anew.step("192.5", "height", 14.0).undone().present == "178"
    other = typed.step("9", "weight", 12.6)
    assert other.undone().present == "178"
    assert typed.undone().step("2", "height", 12.6).undone().present == ""


def test_what_is_moved_bit_by_bit_is_one_step_until_something_else_is_entered():
    moved = History("as fitted")
    for at_s, size in enumerate(("570", "568", "566")):
        moved = moved.step(size, "beam", 100.0 * at_s, pause_s=inf)
    assert moved.undone().present == "as fitted"
    assert moved.undone().redone().present == "566"
    other = moved.step("deeper", "depth", 301.0, pause_s=inf).step("564", "beam", 302.0,
                                                                   pause_s=inf)
    assert [one.present for one in (other.undone(), other.undone().undone())] == ["deeper", "566"]


def test_what_another_screen_changed_is_told_in_words():
    one = Draft(mass_unit="kg").enter("weight_kg", "82")
    other = one.enter("weight_kg", "90").hold("beam_mm", 600.0).but(use="coastal-day", notes="x")
    assert differences(one, other) == [
        "weight 82 → 90 kg", "beam as fitted → held at 600 mm",
        f"use {one.use} → coastal-day", "notes"]
    assert differences(other, one)[1] == "beam held at 600 mm → as fitted"
    wished = one.in_units("in", "lb").hold("beam_mm", 609.6).hold("seat_shift_mm", -25.4)
    assert differences(one.in_units("in", "lb"), wished.wish("room", 0.5)) == [
        "beam as fitted → held at 24 in", "seat shift as fitted → held at −1 in",
        "room as drawn → roomier"]
    assert differences(one, one) == []


@pytest.mark.parametrize(("units", "key", "text", "says"), [
    ({}, "stature_mm", "178", "if you mean 178 cm, write the unit"),
    ({}, "stature_mm", "-3", "1250 to 2200 mm is allowed; measure again"),
    ({}, "weight_kg", "300", "30 to 200 kg is allowed; if you mean 300 lb"),
    ({}, "gear_kg", "151", "0 to 150 kg is allowed"),
    ({"mass_unit": "st"}, "weight_kg", "80", "4 st 10.1 to 31 st 6.9 is allowed; if you mean 80 k"),
    ({"length_unit": "in"}, "hip_width_mm", "38", "if you mean 38 cm"),
])
def test_a_figure_that_nobody_has_is_asked_about_where_it_stands(units, key, text, says):
    one = Draft(**units).enter(key, text)
    assert says in one.entries[key].fault
    assert (one.entries[key].text, one.entries[key].value) == (text, None)
    assert not one.ready()
