"""Where things stand on the screen: a hand finds what it looks for, and all is reached."""

import re

from app_screen import measured
from playwright.sync_api import expect
from screens import field, go, settled

from sizer.web.steps.paddler import PROMISE

SIZES = ((360, 740), (390, 844), (768, 1024), (1366, 768), (1920, 1080))
LARGE = {"weight_kg": "150", "stature_mm": "1900", "hip_width_mm": "540"}


def resized(page, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    settled(page)


# Whether they stand clear of each other in this order down the page, at one moment.
BETWEEN = """selectors => selectors.map(selector => {
  const all = Array.from(document.querySelectorAll(selector), one => one.getBoundingClientRect());
  return all.reverse().find(one => one.height > 0);
}).every((one, at, all) => one && (!at || all[at - 1].bottom < one.top))"""
HEIGHT = "document.querySelector('[data-testid=stMain]').scrollHeight"


def place_of(page, selector):
    return page.locator(selector).bounding_box()


def place(page, name):
    box = page.locator(".st-key-undo").get_by_role("button", name=name, exact=True).bounding_box()
    return round(box["x"]), round(box["x"] + box["width"])


def test_undo_stays_in_its_place_whatever_the_strip_says(open_page):
    page, seen = open_page(390, 844), {}

    def stays(where):
        for size in ((390, 844), (1366, 768)):
            resized(page, size)
            assert place(page, "Undo") == seen.setdefault(size, place(page, "Undo")), (where, size)
            assert place(page, "Redo")[1] <= size[0]

    stays("Paddler")
    for name in ("Boat", "Water"):
        go(page, name)
        stays(name)
    page.locator(".st-key-units").get_by_text("in", exact=True).click()
    settled(page)
    expect(page.locator(".sz-strip")).to_contain_text(re.compile(r"\d\sin"))
    stays("inches")


def test_what_undo_took_back_is_told_clear_of_undo_and_of_the_cautions(open_page):
    page = open_page(*SIZES[1], one=measured())
    for size in SIZES[1::2]:
        resized(page, size)
        page.locator(".st-key-undo").get_by_role("button", name="Undo").click()
        page.wait_for_function(BETWEEN, arg=[".st-key-undo", "[data-testid=stToast]", ".sz-foot"])


def test_a_phone_shows_the_tool_and_its_first_field_and_nothing_covers_what_was_understood(
        open_page):
    page = open_page(390, 844)
    expect(page.get_by_text(PROMISE)).to_be_visible()
    said, weight, drawing = page.evaluate("""selectors => selectors.map(selector => {
        const all = Array.from(document.querySelectorAll(selector),
                               one => one.getBoundingClientRect());
        const {top, bottom} = all.find(one => one.height > 0);
        return {top, bottom};
    })""", [".sz-promise", "input[aria-label^=Weight]", ".sz-picture svg"])  # at one moment
    assert said["bottom"] < weight["top"] < weight["bottom"] < 844
    assert weight["top"] < drawing["top"]

    for label, text in (("Weight", "82"), ("Height", "1780"), ("Hip width", "385")):
        field(page, label).fill(text)
        field(page, label).press("Tab")
    settled(page)
    # Nothing covers it: no hint at the field that is typed in, no tip that opens up from below it.
    echo = page.get_by_text("understood as 385 mm").bounding_box()  # gone once more is typed
    tips = page.get_by_test_id("stTooltipIcon").filter(visible=True)
    assert all(abs(tip.bounding_box()["y"] - echo["y"]) > 150.0 for tip in tips.all())
    field(page, "Hip width").press_sequentially("5")
    expect(page.get_by_test_id("InputInstructions").filter(visible=True)).to_have_count(0)


def test_the_boat_page_is_short_and_its_moves_stand_by_its_picture(open_page):
    """On a desk and on a phone; each page opens in the size that the last was seen in."""
    sizes = {(1366, 768): 2480, (390, 844): 4200}  # of the heaviest
    page = None
    for status, one in (("does not pass", measured(LARGE)), ("passes", measured()),
                        ("caution", measured(use="fitness-paddling"))):
        page = open_page(*next(iter(sizes)), path="boat", one=one, over=page)
        expect(page.locator(".sz-strip")).to_contain_text(status)
        for size, most in sizes.items():
            resized(page, size)
            assert page.evaluate(HEIGHT) < most, status
            whole, moves = (place_of(page, f".st-key-boat_{one}") for one in ("whole", "moves"))
            above = whole if size[0] > 640 else moves
            if page.locator(".sz-wrongs").count():
                assert place_of(page, ".sz-wrongs")["y"] >= above["y"] + above["height"], status
            assert moves["x"] > whole["x"] + whole["width"] if size[0] > 640 else (
                0.0 < moves["y"] - whole["y"] - whole["height"] < 60.0), status
        sizes = dict(reversed(sizes.items()))


def test_a_slider_in_hand_stays_where_it_is_when_a_check_fails(open_page):
    """At the top of a desk's page, where the browser itself holds nothing in its place."""
    page = open_page(1280, 800, path="boat", one=measured())
    beam = page.get_by_role("slider", name=re.compile("^Beam"))
    before = beam.bounding_box()["y"]
    beam.press("Home")
    settled(page)
    expect(page.locator(".sz-strip")).to_contain_text("does not pass")
    assert page.locator(".sz-wrongs > li").count()
    assert beam.bounding_box()["y"] == before
    row = page.get_by_test_id("stSlider").filter(has=beam)
    ends = row.get_by_test_id("stSliderTickBar")
    expect(ends).to_be_visible()
    thumb = row.locator("[data-testid=stSliderThumbValue]").locator("xpath=..").bounding_box()
    assert ends.bounding_box()["y"] >= thumb["y"] + thumb["height"]


def test_every_column_of_an_own_design_is_reached(open_page):
    page = open_page(*SIZES[0], path="own")
    box = page.locator(".box").first
    last = box.locator("thead tr").last.locator("th").last
    for size in SIZES:
        resized(page, size)
        box.evaluate("one => { one.scrollLeft = 0; }")
        expect(page.get_by_text(
            "More columns to the right: move the table sideways.")).to_be_visible()
        box.evaluate("one => { one.scrollLeft = one.scrollWidth; }")
        expect(page.get_by_text("More columns to the left")).to_be_visible()
        inner, outer = last.bounding_box(), box.bounding_box()
        assert inner["x"] + inner["width"] <= outer["x"] + outer["width"] + 1.0
        assert outer["x"] + outer["width"] <= size[0]
