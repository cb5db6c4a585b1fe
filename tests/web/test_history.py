"""Undo, redo, and wishes that are put back."""

import json

from sizer.web.draft import Draft
from sizer.web.history import MOST_STEPS, History


def typed(one, history, key, text):
    one.enter(key, text)
    history.note(one.wishes())


def test_undo_and_redo_put_back_what_was_typed():
    one, history = Draft(), History()
    history.note(one.wishes())
    for text in ("70", "80", "ninety"):
        typed(one, history, "weight_kg", text)
    one.take(history.undone())
    assert one.entries["weight_kg"].text == "80"
    one.take(history.undone())
    assert one.entries["weight_kg"].value == 70.0
    one.take(history.redone())
    one.take(history.redone())
    assert one.entries["weight_kg"].text == "ninety"
    assert one.entries["weight_kg"].fault
    assert not history.future


def test_a_new_change_ends_what_could_be_redone():
    one, history = Draft(), History()
    history.note(one.wishes())
    typed(one, history, "weight_kg", "70")
    one.take(history.undone())
    typed(one, history, "stature_mm", "1700")
    assert not history.future
    one.take(history.undone())
    assert one.entries["stature_mm"].text == ""


def test_switching_units_is_no_step():
    one, history = Draft(), History()
    typed(one, history, "weight_kg", "70")
    one.switch_units("in", "lb")
    history.note(one.wishes())
    assert not history.past


def test_only_the_last_steps_are_kept():
    one, history = Draft(), History()
    for kg in range(MOST_STEPS + 50):
        typed(one, history, "weight_kg", f"{kg + 40}")
    assert len(history.past) == MOST_STEPS


def test_wishes_survive_json_and_come_back_in_the_units_of_now():
    one = Draft()
    one.enter("weight_kg", "11 st 9")
    one.enter("stature_mm", "5 ft 10")
    one.held["beam_mm"], one.bags_l, one.speed_mps = 600.0, (20.0, 15.0), 2.1
    wishes = json.loads(json.dumps(one.wishes()))
    other = Draft(length_unit="in", mass_unit="lb")
    other.take(wishes)
    assert other.entries["stature_mm"].value == one.entries["stature_mm"].value == 1778.0
    assert other.entries["stature_mm"].text == "70"
    assert other.entries["weight_kg"].text == "163"
    assert other.request() == one.request()
    assert (other.bags_l, other.speed_mps, other.length_unit) == ((20.0, 15.0), 2.1, "in")


def test_the_first_figure_of_a_customer_clears_the_sample():
    one = Draft()
    one.load_sample()
    one.enter("weight_kg", "90")
    assert not one.sample
    assert one.entries["stature_mm"].value is None
    one.enter("stature_mm", "1800")
    assert one.entries["weight_kg"].value == 90.0
