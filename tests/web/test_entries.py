"""Nothing typed is lost, whatever is touched next without leaving the field first."""

import re

import pytest
from app_screen import measured
from playwright.sync_api import expect
from screens import field, go, press, settled, type_in

DESKTOP = {"width": 1440, "height": 900}
PHONE = {"width": 390, "height": 844, "has_touch": True, "is_mobile": True}
SIZES = pytest.mark.parametrize("size", [DESKTOP, PHONE], ids=["desktop", "phone"])
HOLDS_MS = (0, 40, 90)  # how long a button of the mouse is held down; a tap is always short


def hit(page, one, turn):
    """A tap where there is a screen to touch, else a click, short or long."""
    if page.evaluate("navigator.maxTouchPoints"):
        one.tap(no_wait_after=True)
    else:
        one.click(delay=HOLDS_MS[turn], no_wait_after=True)


def typed_open(page, label, text):
    """Types over what stands in a field and stays in it."""
    one = field(page, label)
    one.fill("")
    one.press_sequentially(text)
    return one


def link(page, name):
    return page.locator(".st-key-links").get_by_role("button", name=name)


@SIZES
def test_a_link_undo_a_choice_and_the_units_come_after_what_was_being_typed(open_page, size):
    """Links by the shortest and the longest hold on a desk, the choice by the one between; all by
    a tap on a phone."""
    wanted = {"Weight": ("82", "Shop", 0), "Hip width": ("382", "Words", 2)}
    given = {"stature_mm": "1780"}
    if size is PHONE:
        given["hip_width_mm"] = wanted.pop("Hip width")[0]
    page = open_page(**size, one=measured(given))
    for label, (text, where, turn) in wanted.items():
        typed_open(page, label, text)
        hit(page, link(page, where), turn)
        page.wait_for_url(re.compile(where.lower()))
        settled(page)
        go(page, "Paddler")
        expect(field(page, label)).to_have_value(text)
    expect(page.locator(".sz-strip")).to_contain_text("freeboard")
    assert page.get_by_text("understood as").count() == 3

    typed_open(page, "Weight", "90")
    hit(page, page.get_by_role("button", name="Undo"), 0)
    expect(field(page, "Weight")).to_have_value("82")
    settled(page)
    press(page, "Redo")
    expect(field(page, "Weight")).to_have_value("90")
    press(page, "Undo")

    typed_open(page, "Height", "1751")
    hit(page, page.get_by_text("standing", exact=True), 1)
    expect(page.get_by_role("radio", name="standing")).to_be_checked()
    expect(page.get_by_text("understood as 1751 mm")).to_be_visible()
    settled(page)

    typed_open(page, "Hip width", "400")
    hit(page, page.get_by_role("radio", name="in", exact=True), 2)
    expect(field(page, "Hip width, in")).to_have_value("15.75")
    settled(page)
    page.get_by_role("radio", name="mm", exact=True).click()
    expect(field(page, "Hip width, mm")).to_have_value("400")


def test_next_goes_on_at_its_first_touch_after_the_last_measure(open_page):
    """By a tap: test_reach.py."""
    page = open_page(**DESKTOP)
    press(page, "Clear for a new customer")
    expect(page.get_by_text("No boat yet")).to_be_visible()
    press(page, "Next: use and base")
    expect(page.get_by_role("alert").filter(
        has_text="Still to measure: weight, height, hip width")).to_be_visible()
    type_in(page, "Weight", "82")
    type_in(page, "Height", "1780")
    for turn in (0, 2):
        type_in(page, "Hip width", "")
        expect(page.get_by_text("No boat yet")).to_be_visible()
        typed_open(page, "Hip width", "385")
        hit(page, page.get_by_role("button", name="Next: use and base"), turn)
        page.wait_for_url(re.compile("/base"))
        settled(page)
        expect(page.locator(".sz-strip")).to_contain_text("freeboard")
        go(page, "Paddler")
        expect(field(page, "Hip width")).to_have_value("385")


def test_gear_is_kept_the_same_way(open_page):
    page = open_page(path="base")
    typed_open(page, "Gear", "9")  # one sign: every base is fitted anew for each
    hit(page, page.get_by_role("button", name="Choose Long tourer"), 0)
    expect(page.locator(".sz-strip")).to_contain_text("Long tourer")
    expect(field(page, "Gear")).to_have_value("9")


def test_notes_and_a_variants_name_are_kept_the_same_way(open_page):
    page = open_page(path="files")
    page.get_by_role("textbox", name="Notes").press_sequentially("blue skin")
    hit(page, link(page, "Trade-offs"), 0)
    expect(page.locator(".sz-map-says")).to_be_visible()
    press(page, "Keep this boat")
    typed_open(page, "Name of variant 1", "Light")
    hit(page, link(page, "Files"), 0)
    expect(page.get_by_role("textbox", name="Notes")).to_have_value("blue skin")
    go(page, "Trade-offs")
    expect(field(page, "Name of variant 1")).to_have_value("Light")


def test_notes_left_open_are_kept_over_a_reload_and_undone_in_one_step(open_page):
    page = open_page(path="files", one=measured())
    notes = page.get_by_role("textbox", name="Notes")
    for words in ("blue skin", ", two hatches"):
        told = page.evaluate("window.szSent || 0")
        notes.press_sequentially(words)
        page.wait_for_function("told => window.szSent > told", arg=told, timeout=20_000)
        settled(page)
        expect(notes).to_be_focused()
    page.reload()
    settled(page)
    expect(notes).to_have_value("blue skin, two hatches")
    press(page, "Undo")
    expect(notes).to_have_value("")


def test_a_slider_moved_by_keys_keeps_its_place_when_the_page_is_left_at_once(open_page):
    page = open_page(path="boat")
    for turn in (0, 2):
        beam = page.get_by_role("slider", name=re.compile("^Beam"))
        aim = float(beam.input_value()) + 1
        beam.press("ArrowRight")
        hit(page, link(page, "Words"), turn)
        page.wait_for_url(re.compile("/words"))
        settled(page)
        expect(page.locator(".sz-strip")).to_contain_text(f"{aim:.0f} mm")
        go(page, "Boat")
