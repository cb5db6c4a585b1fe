"""The trade-offs in a real browser: curves, the map, and boats kept side by side."""

import re

import pytest
from playwright.sync_api import expect
from screens import field, go, measure, press, settled, type_in

from sizer.fit.request import read_request
from sizer.fit.what_if import curve, drag_N, passing_map, sweep
from sizer.job import run

REQUEST = {"base": "day-boat", "use": "sheltered-day", "paddler": {
    "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
TRADE = re.compile("Trade-offs")
PADDLER = re.compile("Paddler")
STATUS_WORDS = {"pass": "passes", "caution": "caution", "fail": "does not pass"}


@pytest.fixture(scope="module")
def job(base_lines):
    return run(read_request(REQUEST), base_lines["day-boat"])


@pytest.fixture(scope="module")
def heavier(base_lines):
    request = REQUEST | {"paddler": REQUEST["paddler"] | {"weight_kg": 105}}
    return run(read_request(request), base_lines["day-boat"])


def at_trade(open_page, **size):
    page = open_page(**size)
    measure(page)
    go(page, TRADE)
    expect(page.locator(".sz-map-says")).to_be_visible(timeout=60_000)
    settled(page)
    return page


def pick(page, label, option):
    box = page.get_by_role("combobox", name=label)
    box.scroll_into_view_if_needed()
    settled(page)  # a list that is open while the page scrolls closes again
    box.press("ArrowDown")
    page.get_by_role("option", name=option, exact=True).click()
    settled(page)


def table_rows(page, heading):
    """Texts of a visible table by first cell, and its headings."""
    table = page.locator(".sz-table", has=page.get_by_text(heading, exact=True)).locator(
        "visible=true")
    heads = table.locator("th").all_inner_texts()
    rows = [[text.replace("\xa0", " ") for text in row.locator("td").all_inner_texts()]
            for row in table.locator("tbody tr").all()]
    return heads, {row[0]: row[1:] for row in rows}


def test_curve_of_another_result_shows_todays_value_as_the_strip_does(open_page, job):
    page = at_trade(open_page)
    says = page.locator(".sz-curve-says")
    gm_mm = job.fitted.assessed.particulars.gm_m * 1000
    expect(says).to_contain_text(f"steadiness (GM) {gm_mm:.0f} mm")
    pick(page, "Result", "side-deck freeboard")
    pick(page, "Over", "length")
    boat, water = job.fitted.assessed.boat, job.fitted.assessed.particulars
    length, freeboard = f"{boat.length_m * 1000:.0f} mm", f"{water.freeboard_m * 1000:.0f} mm"
    expect(page.locator(".sz-strip")).to_contain_text(f"freeboard {freeboard}")
    expect(page.locator(".sz-strip")).to_contain_text(length)
    expect(says).to_contain_text(f"Today, length {length}: side-deck freeboard {freeboard}")
    found = curve(sweep(job.fitted.assessed, False, "length"), "freeboard", 1.8)
    low, high = (f"{edge * 1000:.0f} mm" for edge in found.passing[0])
    expect(says).to_contain_text(f"Every check of the boat passes from {low} to {high}")
    page.get_by_text("The curve as a table").click()
    heads, rows = table_rows(page, "its checks")
    assert heads == ["Length", "side-deck freeboard", "its checks", "every check"]
    assert len(rows) == found.at.size
    assert rows[f"{length} (today)"][0] == freeboard
    first = rows[f"{found.at[0] * 1000:.0f} mm"]
    assert first == [f"{found.value[0] * 1000:.0f} mm", STATUS_WORDS[found.status[0]],
                     STATUS_WORDS[found.overall[0]]]


def test_drag_follows_the_speed_slider_and_so_does_the_table(open_page, job):
    page = at_trade(open_page)
    press(page, "Keep this boat")
    pick(page, "Result", "drag")
    slider = page.get_by_role("slider", name="Speed, knots")
    for _ in range(5):
        slider.press("ArrowRight")
    expect(page.locator(".sz-curve-says")).to_contain_text("drag at 4.0 knots")
    drag = f"{drag_N(job.fitted.assessed, 4.0 * 1852 / 3600):.1f} N"
    expect(page.locator(".sz-curve-says")).to_contain_text(drag)
    expect(page.locator(".sz-curve-says")).to_contain_text("no check limits it")
    row = page.locator("tr", has_text="Drag at 4.0 knots").locator("visible=true")
    expect(row.locator("td").nth(1)).to_have_text(drag)


def test_map_sentence_and_table_are_the_engines(open_page, job):
    page = at_trade(open_page)
    pick(page, "Up", "length")  # the two are swapped, never the same
    pick(page, "Across", "gear")
    expect(page.get_by_role("combobox", name="Up")).to_have_value("length")
    found = passing_map(job.fitted.assessed, False, "gear", "length")
    cells = [status for row in found.status for status in row]
    says = page.locator(".sz-map-says")
    expect(says).to_contain_text(
        f"Of {len(cells)} boats tried, {cells.count('pass')} pass every check, "
        f"{cells.count('caution')} have a caution and {cells.count('fail')} do not pass.",
        timeout=60_000)
    expect(says).to_contain_text(f"Today's boat: {STATUS_WORDS[job.fitted.status]}")
    page.get_by_text("The map as a table").click()
    _, rows = table_rows(page, "what does not pass")
    top = rows[f"{found.up_at[-1] * 1000:.0f} mm"]
    failing = {name for status, names in zip(found.status[-1], found.names[-1], strict=True)
               if status == "fail" for name in names}
    assert set(top[-1].split(", ")) == failing


def test_pointing_at_a_failing_boat_names_its_checks(open_page, job):
    page = at_trade(open_page)
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


def test_two_variants_compare_with_the_engine_get_a_name_and_lead_back(
        open_page, job, heavier):
    page = at_trade(open_page)
    press(page, "Keep this boat")
    go(page, PADDLER)
    type_in(page, "Weight", "105")
    go(page, TRADE)
    press(page, "Keep this boat")
    type_in(page, "Name of variant 1", "<b>Light</b> & quick")
    heads, rows = table_rows(page, "Size or result")
    assert heads == ["Size or result", "Now", "<b>Light</b> & quick", "Variant 2"]
    light, now = job.fitted.assessed, heavier.fitted.assessed
    beam = (light.boat.beam_m - now.boat.beam_m) * 1000
    assert beam < -0.5
    assert rows["Beam"] == [
        f"{now.boat.beam_m * 1000:.0f} mm",
        f"{light.boat.beam_m * 1000:.0f} mm (−{-beam:.0f} mm)",
        f"{now.boat.beam_m * 1000:.0f} mm (±0 mm)"]
    load = light.loading.load.mass_kg - now.loading.load.mass_kg
    assert rows["Load in all"][1] == f"{light.loading.load.mass_kg:.1f} kg (−{-load:.1f} kg)"
    reach = job.mishaps.mover_sums.vanishing_deg - heavier.mishaps.mover_sums.vanishing_deg
    assert rows["Range of stability"][1].startswith(
        f"{job.mishaps.mover_sums.vanishing_deg:.0f}°")
    assert f"{abs(reach):.0f}°)" in rows["Range of stability"][1]
    assert rows["Checks"] == [STATUS_WORDS[one.fitted.status] for one in (heavier, job, heavier)]

    page.get_by_role("button", name="Go back to this one").first.click()
    settled(page)
    expect(page.locator(".sz-strip")).to_contain_text(f"{light.boat.beam_m * 1000:.0f} mm")
    go(page, PADDLER)
    expect(field(page, "Weight")).to_have_value("82")
    go(page, TRADE)
    _, rows = table_rows(page, "Size or result")
    assert rows["Beam"][1].endswith("(±0 mm)")
    page.get_by_role("button", name="Delete").first.click()
    settled(page)
    expect(field(page, "Name of variant 1")).to_have_value("Variant 2")
    heads, _ = table_rows(page, "Size or result")
    assert heads == ["Size or result", "Now", "Variant 2"]


def test_no_more_than_four_are_kept_and_a_blank_name_is_none(open_page):
    page = at_trade(open_page)
    keep = page.get_by_role("button", name="Keep this boat")
    for count in range(1, 5):
        press(page, "Keep this boat")
        expect(field(page, f"Name of variant {count}")).to_have_value(f"Variant {count}")
    expect(keep).to_be_disabled()
    expect(page.get_by_text("Four are kept: delete one to keep another.")).to_be_visible()
    type_in(page, "Name of variant 2", "   ")
    expect(field(page, "Name of variant 2")).to_have_value("Variant 2")
    page.get_by_role("button", name="Delete").nth(1).click()
    settled(page)
    expect(keep).to_be_enabled()
    press(page, "Keep this boat")
    expect(field(page, "Name of variant 4")).to_have_value("Variant 2")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_phone_shows_it_all_without_scrolling_sideways(open_page, scheme):
    page = at_trade(open_page, width=390, height=844, color_scheme=scheme)
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


def test_choices_are_still_there_after_another_page(open_page):
    page = at_trade(open_page)
    pick(page, "Over", "deck crown")
    go(page, re.compile("Water"))
    go(page, TRADE)
    expect(page.get_by_role("combobox", name="Over")).to_have_value("deck crown")
    expect(page.locator(".sz-curve-says")).to_contain_text("deck crown")
