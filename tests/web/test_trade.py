"""The trade-offs in a real browser: curves, the map, and boats kept side by side."""

import pytest
from app_screen import measured
from playwright.sync_api import expect
from screens import press, settled

from sizer.fit.request import read_request
from sizer.fit.what_if import passing_map
from sizer.job import run

REQUEST = {"base": "day-boat", "use": "sheltered-day", "paddler": {
    "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}


@pytest.fixture(scope="module")
def job(base_lines):
    return run(read_request(REQUEST), base_lines["day-boat"])


def at_trade(open_page, **size):
    page = open_page(**size, path="trade", one=measured())
    expect(page.locator(".sz-map-says")).to_be_visible()
    settled(page)
    return page


def pick(page, label, option):
    box = page.get_by_role("combobox", name=label)
    box.scroll_into_view_if_needed()
    settled(page)  # a list that is open while the page scrolls closes again
    box.press("ArrowDown")
    page.get_by_role("option", name=option, exact=True).click()
    settled(page)


def test_a_phone_shows_it_all_and_pointing_at_a_failing_boat_names_its_checks(open_page, job):
    """Nothing scrolls sideways on the phone; then, on a desk, a hand points at the map."""
    page = at_trade(open_page, width=390, height=844)
    press(page, "Keep this boat")
    press(page, "Keep this boat")
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
    for plot in page.locator(".js-plotly-plot").all():
        box = plot.bounding_box()
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= 390
        for text in plot.locator("text").all():
            words, said = text.bounding_box(), text.text_content()
            if said.strip() and words:
                assert words["x"] >= box["x"] - 1, said
                assert words["x"] + words["width"] <= box["x"] + box["width"] + 1, said
    pick(page, "Result", "hip room")
    expect(page.locator(".sz-curve-says")).to_contain_text("hip room")
    expect(page.locator(".sz-foot")).to_be_in_viewport()

    page.set_viewport_size({"width": 1440, "height": 900})
    settled(page)
    found = passing_map(job.fitted.assessed, False, "length", "beam")
    assert found.status[0][0] == "fail"
    plot = page.locator(".js-plotly-plot").nth(1)
    plot.scroll_into_view_if_needed()
    area = plot.locator(".plot .heatmaplayer image, .heatmaplayer image").first.bounding_box()
    page.mouse.move(area["x"] + 8, area["y"] + area["height"] - 8)
    hover = plot.locator(".hoverlayer")
    expect(hover).to_contain_text("does not pass")
    for name in found.names[0][0]:
        expect(hover).to_contain_text(name)
