"""Undo takes back what was entered last, on whichever page, nothing else, and says what it was."""

import re
from dataclasses import replace

import pytest
from app_screen import APP, clicked, drafted, measured, of, opened, ran, said, strip, turned_to
from streamlit.testing.v1 import AppTest
from test_keeping import at, key_of

from sizer.book.jobs import job, jobs, set_state
from sizer.book.settings import keep_shop
from sizer.shop.money import USUAL
from sizer.shop.settings import SHOP
from sizer.web.bench_entered import DryFitEntered
from sizer.web.differences import differences
from sizer.web.draft import Draft, Variant
from sizer.web.history import History
from sizer.web.keeping import keep, money_now, shop_book, shop_now
from sizer.web.keeping import opened as opened_history

pytestmark = pytest.mark.usefixtures("book", "no_remedies")

PLACE = "across/both/F6/bilge"


def put_in(screen, key, text):
    """After a text typed into the field whose key begins so."""
    next(one for one in (*screen.text_input, *screen.text_area)
         if one.key.startswith(f"{key}:")).set_value(text)
    return ran(screen)


def toasts(screen):
    return [one.value for one in screen.toast]


@pytest.mark.parametrize(("path", "key", "text", "read", "told"), [
    ("launch", "launch_afloat_side_mm", "299", lambda one: one.launch.text("afloat_side_mm"),
     "launch, freeboard at the side, 299 mm → blank"),
    ("files", "notes", "blue skin", lambda one: one.notes, "notes"),
    ("paddler", "mark", "Ada", lambda one: one.mark, "mark Ada → blank")],
    ids=["launch", "notes", "mark"])
def test_undo_takes_back_what_was_entered_last_and_leaves_the_measures(
        path, key, text, read, told):
    screen = opened("paddler", measured({"weight_kg": "82", "stature_mm": "1780"}))
    boat = strip(put_in(screen, "hip_width_mm", "385"))
    screen = put_in(turned_to(screen, path), key, text)
    assert read(drafted(screen)) == text
    screen = clicked(screen, "Undo")
    assert read(drafted(screen)) == ""
    assert strip(screen) == boat
    assert toasts(screen) == [f"Undo: {told}"]
    screen = clicked(screen, "Redo")
    assert read(drafted(screen)) == text
    again = clicked(at(key_of(screen), path), "Undo")  # after a reload too
    assert read(drafted(again)) == ""
    assert strip(again) == boat
    assert "hip width 385 mm → blank" in toasts(clicked(again, "Undo"))[0]


def test_undo_on_the_dry_fit_takes_back_a_measure_and_brings_back_all_that_were_taken_away():
    screen = opened("dryfit")
    boat = strip(screen)
    first = screen.text_input[0].key.partition(":")[0]
    designed = screen.text_input[0].placeholder.removeprefix("designed: ")
    screen = clicked(put_in(screen, first, designed), "Next measure")
    second = screen.text_input[0].key.partition(":")[0]
    screen = put_in(screen, second, "120")
    keys = {first.removeprefix("dry_"), second.removeprefix("dry_")}
    assert drafted(screen).dry_fit.entries.keys() == keys
    of(screen.checkbox, "Yes, take away all 2").check()
    screen = clicked(ran(screen), "Take all of them away")
    assert drafted(screen).dry_fit.entries == {}
    screen = clicked(screen, "Undo")
    assert drafted(screen).dry_fit.entries.keys() == keys
    screen = clicked(screen, "Undo")
    assert drafted(screen).dry_fit.entries.keys() == {first.removeprefix("dry_")}
    assert "120 mm → blank" in toasts(screen)[0]
    assert strip(screen) == boat


def test_undo_brings_back_texts_in_the_units_of_now():
    screen = put_in(opened("launch"), "launch_boat_kg", "17.5")
    screen = put_in(screen, "launch_afloat_bow_mm", "254")
    screen = put_in(screen, "launch_afloat_bow_mm", "300")
    for label, unit in (("Lengths in", "in"), ("Weights in", "lb")):
        of(screen.segmented_control, label).set_value(unit)
        ran(screen)
    launch = drafted(clicked(screen, "Undo")).launch
    assert (launch.text("boat_kg"), launch.text("afloat_bow_mm")) == ("38.6", "10")
    assert (launch.values()["boat_kg"], launch.values()["afloat_bow_mm"]) == (17.5, 254.0)


def test_a_sister_boats_undo_never_brings_back_the_measures_of_the_first(book):
    screen = put_in(opened("launch", measured(mark="Ann")), "launch_boat_kg", "17.5")
    first = key_of(screen)
    screen = clicked(turned_to(screen, "jobs"), f"more_{first}", by_key=True)
    screen = clicked(clicked(screen, "copy", by_key=True), "go_launch", by_key=True)
    assert key_of(screen) != first
    assert drafted(clicked(screen, "Undo")).launch.entries == {}


def test_undo_on_the_shops_page_takes_back_a_setting_and_leaves_the_job():
    screen = opened("shop", measured().enter("weight_kg", "91"))
    one = drafted(screen)
    screen = put_in(screen, "shop_cutter_mm", "8")
    screen = put_in(screen, "shop_cutter_mm", "99")
    screen = put_in(screen, "shop_hour", "52")
    of(screen.selectbox, "Relief").set_value("t-bone")
    screen = clicked(ran(screen), "All as they came")
    assert shop_now() == SHOP
    screen = clicked(screen, "Undo")
    assert (shop_now().cutter_m, shop_now().relief) == (0.008, "t-bone")
    assert of(screen.text_input, "Router's cutter").value == "99"
    assert "1 to 25 mm is allowed" in said(screen)
    for told in ("Relief", "An hour of work, 52 → 40", "Router's cutter, diameter, 99 → 8",
                 "Router's cutter, diameter, 8 → 6"):
        assert f"Undo: {told}" in toasts(clicked(screen, "Undo"))[0]
    assert (shop_now(), money_now()) == (SHOP, USUAL[1])
    assert of(screen.text_input, "Router's cutter").value == "6"
    assert toasts(clicked(screen, "Undo")) == ["There is nothing to undo."]
    screen = clicked(screen, "Redo")
    assert shop_now().cutter_m == 0.008
    assert drafted(screen) == one
    keep_shop(shop_book()[0], replace(SHOP, cutter_m=0.004))  # on another screen
    assert toasts(clicked(screen, "Undo")) == ["There is nothing to undo."]
    assert shop_now().cutter_m == 0.004


def bases(screen):
    """(name of the design on the table, base of the job)."""
    (name,) = re.findall("([A-Z][a-z ]+, own copy) : [0-9]+ mm long", said(screen))
    return name, drafted(screen).own_name or drafted(screen).base


def test_undo_takes_back_a_hold_in_one_step_however_often_it_was_nudged():
    screen = opened("boat", measured())
    start = of(screen.slider, "Beam,").value
    for nudged in (1.0, 2.0, 3.0):
        of(screen.slider, "Beam,").set_value(start + nudged)
        ran(screen)
    last = drafted(screen).held.beam_mm
    assert last == start + 3.0
    clicked(screen, "Undo")
    assert drafted(screen).held.beam_mm is None
    assert toasts(screen) == [f"Undo: beam held at {last:.0f} mm → as fitted"]
    assert drafted(clicked(screen, "Redo")).held.beam_mm == last


def test_undo_beside_the_own_design_takes_back_its_table_and_the_base_taken_of_it():
    screen = opened("own", measured())
    day, tourer = "Short day boat, own copy", "Long tourer, own copy"
    assert bases(screen) == (day, "day-boat")
    screen = clicked(screen, "copy_long-tourer", by_key=True)
    screen = clicked(screen, "Use as base design")
    assert bases(screen) == (tourer, tourer)
    assert "is the base design now" in said(screen)
    for press, on_table, base, told in (
            ("Undo", tourer, "day-boat", f"own name {tourer} → blank"),
            ("Undo", day, "day-boat", f"the table of {tourer}"),
            ("Undo", day, "day-boat", "There is nothing to undo."),
            ("Redo", tourer, "day-boat", f"the table of {tourer}"),
            ("Redo", tourer, tourer, f"own name blank → {tourer}")):
        screen = clicked(screen, press)
        assert bases(screen) == (on_table, base)
        assert "is the base design now" not in said(screen)
        assert told in toasts(screen)[0]


def test_an_own_design_takes_the_place_of_an_issued_boats_base_only_when_asked(book):
    screen = put_in(opened("paddler", measured(mark="Ann")), "weight_kg", "83")
    screen = put_in(turned_to(screen, "launch"), "launch_boat_kg", "17.5")
    key, one = key_of(screen), drafted(screen)
    set_state(book, key, "launched")
    screen = clicked(turned_to(screen, "own"), "Use as base design")
    assert f"{job(book, key).code} is launched: on another base" in said(screen)
    assert drafted(screen) == one
    screen = clicked(screen, "Leave this job as it is")
    assert "is launched: on another base" not in said(screen)
    screen = clicked(clicked(screen, "Use as base design"), "A new job on it")
    assert key_of(screen) != key
    assert (drafted(screen).base, drafted(screen).launch.entries) == ("own", {})
    assert drafted(screen).request()["paddler"] == one.request()["paddler"]
    assert opened_history(key)[1].present == one
    other = clicked(at(key, "own"), "Use as base design")
    other = clicked(other, "Use it in this job all the same")
    assert (key_of(other), drafted(other).base) == (key, "own")
    assert drafted(other).launch == one.launch


@pytest.mark.parametrize("path", ["jobs", "sizes", "words"])
def test_there_is_no_undo_where_nothing_of_the_job_is_entered(path):
    assert "Undo" not in [one.label for one in opened(path).button]


def test_what_undo_would_change_is_told_in_words():
    fit = DryFitEntered().enter(PLACE, "436", "mm", (0.0, 900.0))
    one = Draft(dry_fit=fit)
    assert differences(Draft(), one) == ["dry fit, breadth across of bilges at F6, blank → 436 mm"]
    assert differences(one, one.but(dry_fit=fit.but(accepted=True, tape_mm=3.0))) == [
        "dry fit tape 2.0 → 3.0", "dry fit accepted"]
    many = fit
    for number in range(5):
        many = many.enter(f"mark/F{number}", "900", "mm", (0.0, 9000.0))
    assert differences(one, one.but(dry_fit=many)) == ["dry fit, 5 figures"]
    launch = Draft().launch.enter("heel2_deg", "2.5", "deg", (0.0, 30.0))
    (said,) = differences(Draft(), Draft(launch=launch))
    assert said == "launch, heel of reading 2, blank → 2.5 °"


def test_a_history_with_a_full_dry_fit_comes_back_whole_and_is_written_once():
    """Each step of a hundred holds up to two hundred figures; only what is new in it is written."""
    one = measured(variants=(Variant(name="first", wishes=measured().wishes()),))
    history = History(one)
    for number in range(200):
        one = one.but(dry_fit=one.dry_fit.enter(
            f"half_breadth/starboard/F{number}/gunwale", f"{number}.5", "mm", (0.0, 900.0)))
        history = history.step(one)
    history = history.step(one.but(launch=one.launch.enter("boat_kg", "17", "kg", (3.0, 90.0))))
    kept = keep(None, history.undone())
    _, found = opened_history(kept.key)
    assert (found.present, found.past, found.future) == (
        history.undone().present, history.undone().past, history.undone().future)
    with shop_book()[0].reading() as db:
        steps = db.execute("SELECT history FROM drafts").fetchone()[0]
    light = len(measured().model_dump_json())
    assert len(steps) < 101 * (2 * light + 200 * 25)


def test_steps_of_a_book_from_before_leave_what_stands_beside_the_boat(book):
    """They hold nothing of dry fit and launch, and notes only as they were by then."""
    one = measured()
    now = one.enter("weight_kg", "91").but(notes="paid", dry_fit=DryFitEntered().enter(
        PLACE, "436", "mm", (0.0, 900.0)))
    kept = keep(None, History(now, past=(one,)))
    light = one.model_dump_json(exclude={"own_design", "dry_fit", "launch"})
    with book.writing() as db:
        db.execute("UPDATE drafts SET history = ?", (
            f'{{"past": [[{light}, [null]]], "future": [], "designs": {{}}}}',))
    back = opened_history(kept.key)[1].undone().present
    assert back.entries.weight_kg.text == "82"
    assert (back.notes, back.dry_fit.text(PLACE)) == ("paid", "436")


def test_undo_with_nothing_to_take_back_says_so():
    screen = clicked(opened("paddler"), "Undo")
    assert toasts(screen) == ["There is nothing to undo."]
    assert "understood as 82.0 kg" in said(screen)


def test_undo_and_redo_take_a_refused_text_out_of_a_sizes_field():
    screen = opened("boat")
    typed = "typed.held.beam_mm.mm"
    screen = put_in(screen, typed, "600")
    held = strip(screen)
    screen = put_in(screen, typed, "abc")
    assert "abc: " in said(screen)

    def told():
        return next(one.value for one in screen.text_input if one.key.startswith(f"{typed}:"))

    assert told() == "abc"
    for label, boat in (("Undo", None), ("Redo", held)):
        screen = put_in(clicked(screen, label), "typed.held.depth_mm.mm", "xyz")
        assert "abc" not in said(screen)
        assert told() == strip(screen).split(" × ")[1].removesuffix(" mm")
        assert boat in (None, strip(screen))
    assert told() == "600"


def test_undo_where_nothing_was_entered_is_told_makes_no_job_and_looks_so(book):
    """On the sample, as a first visit has it."""
    screen = AppTest.from_file(APP, default_timeout=600)
    screen.session_state["mine"] = {"go": "boat"}
    screen = ran(screen)
    (button,) = [one for one in screen.button if one.label == "Undo"]
    assert button.proto.type == "tertiary"
    screen = clicked(screen, "Undo")
    assert toasts(screen) == ["There is nothing to undo."]
    assert jobs(book) == ()
    screen = put_in(screen, "typed.held.beam_mm.mm", "600")
    assert len(jobs(book)) == 1
    (button,) = [one for one in screen.button if one.label == "Undo"]
    assert button.proto.type == "secondary"
