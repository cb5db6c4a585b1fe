"""From opening to a printed setting-up sheet in few taps or keys, and the focus on the way.

Says how long it took with `-s`; asserts no time.
"""

import csv
import io
import json
import re
import time
import zipfile

import pytest
from app_screen import measured
from playwright.sync_api import expect
from screens import downloaded, field, settled

from sizer.export.answer import job_answer
from sizer.fit.request import read_request
from sizer.job import run

HEADING = ".sz-unseen[role=heading]"
FIRST_LINK = "Skip to main content"
MADE, SHEET = "All files of revision A", "The setting-up sheet alone, A4"
REQUEST = {"base": "day-boat", "use": "sheltered-day", "paddler": {
    "weight_kg": 82, "stature_mm": 1780, "hip_width_mm": 385}}
MEASURES = (("Weight", "82"), ("Height", "1780"), ("Hip width", "385"))
FEWER_TAPS_THAN, FEWER_KEYS_THAN = 12, 45  # as wanted; our judgement
SEEN = re.compile("waterline|profile|side", re.IGNORECASE)
IN_HAND = """() => { let at = document.activeElement;
  while (at.shadowRoot) at = at.shadowRoot.activeElement;
  return (at.getAttribute('aria-label') || at.innerText || '').trim(); }"""


def arrived(page, title):
    """The page is drawn, and its heading is in hand."""
    expect(page.locator(HEADING)).to_have_text(title)
    expect(page.locator(HEADING)).to_be_focused()
    settled(page)


def is_sheet(download):
    with open(download.path(), "rb") as file:
        return "setting-up" in download.suggested_filename and file.read(5) == b"%PDF-"


def is_station_list(text, own):
    """The engine's own numbers, to the tenth of a mm that is printed, under the cautions."""
    rows = list(csv.reader(io.StringIO(text, newline="")))
    header, *body = [row for row in rows if not row[0].startswith("#")]
    assert any("CAUTION" in row[0] for row in rows)
    assert [row[0] for row in body] == [station["name"] for station in own["stations"]]
    for row, station in zip(body, own["stations"], strict=True):
        given = dict(zip(header, row, strict=True))
        assert float(given["strongback mark mm"]) == pytest.approx(
            station["strongback_mm"], abs=0.051)
        for name, breadth in station["half_breadths_mm"].items():
            assert float(given[f"{name} half-breadth mm"]) == pytest.approx(breadth, abs=0.051)


def test_a_phone_in_the_dark_prints_the_sheet_in_few_taps(open_page, base_lines):
    """By the way of a stranger, who is led from page to page and sees all of them; then the other
    files, read back."""
    begun = time.monotonic()
    page = open_page(390, 844, color_scheme="dark", has_touch=True, is_mobile=True)
    taps = []

    def tap(target):
        taps.append(target)
        target.tap()

    for label, text in MEASURES:
        tap(field(page, label))
        settled(page)  # a hand waits for the phone's keys to come up
        expect(field(page, label)).to_be_focused()  # not drawn anew under it
        page.keyboard.type(text)
        assert field(page, label).input_value() == text, f"{label}: keys were lost"
    for name, title, seen in (
            ("Next: use and base", "Use and base", page.get_by_text("coastal day trips")),
            ("Next: the boat", "Boat", page.get_by_role("img", name=SEEN)),
            ("Next: trade-offs", "Trade-offs", page.locator(".js-plotly-plot")),
            ("Next: the water", "Water", page.get_by_role("heading", name="Heeled")),
            ("Next: the bench", "Bench", page.get_by_role("heading", name="Set up the frames")),
            ("Next: the files", "Files", page.get_by_role("textbox", name="Notes"))):
        tap(page.get_by_role("button", name=name))
        arrived(page, title)
        expect(seen.locator("visible=true").first).to_be_visible()
    tap(page.get_by_role("button", name=re.compile("^Issue revision")))
    with page.expect_download() as caught:
        tap(page.get_by_role("button", name=SHEET))
    assert is_sheet(caught.value)
    assert len(taps) < FEWER_TAPS_THAN
    print(f"\nphone: {len(taps)} taps, {time.monotonic() - begun:.1f} s")

    own = job_answer(run(read_request(REQUEST), base_lines["day-boat"]))
    is_station_list(downloaded(page, "Station list, mm"), own)
    assert json.loads(downloaded(page, "Everything"))["size"] == own["size"]
    assert "in" in downloaded(page, "Station list, inches")


def test_enter_goes_on_from_the_last_measure_and_stays_where_one_is_only_corrected(open_page):
    page = open_page(1366, 768, one=measured())
    for label, text in (("Weight", "90"), ("Hip width", "400"), ("Inseam", "830")):
        if label == "Inseam":
            page.get_by_text("More measures, if you have them").click()
        field(page, label).fill(text)
        field(page, label).press("Enter")
        expect(page.get_by_text(re.compile(f"understood as {text}"))).to_be_visible()
        settled(page)
        expect(page.locator(HEADING)).to_have_text("Paddler")
        expect(field(page, label)).to_be_focused()
    page.get_by_role("button", name="Clear for a new customer").click()
    settled(page)
    for label, text in MEASURES:
        field(page, label).fill(text)
    field(page, label).press("Enter")
    arrived(page, "Use and base")


def is_whole_package(path, lines):
    with zipfile.ZipFile(path) as packed:
        assert packed.testzip() is None
        lead = packed.namelist()[0].removesuffix("read-me-first.txt")
        assert re.fullmatch(r"[A-Z]{2}\d{4}-rev-A-", lead)
        names = {name.removeprefix(lead) for name in packed.namelist()}
        assert {"setting-up.pdf", "customer.pdf", "patterns-A4.pdf", "plywood-layout.pdf",
                "stations-mm.csv"} <= names
        stations = packed.read(f"{lead}stations-mm.csv").decode("utf-8-sig")
        assert "PFD" in packed.read(f"{lead}read-me-first.txt").decode("utf-8")
    job = run(read_request(REQUEST), lines)
    mark = f"{job.setting_up.stations[0].strongback_m * 1000:.1f}"
    assert f"F1,solid,forward,aft of the mark,{mark}" in stations


def test_keys_alone_print_the_sheet_in_few_presses_and_the_package_comes_whole(open_page,
                                                                               base_lines):
    page = open_page(1366, 768)
    presses, met = [], []  # keys, and what was in hand on the way

    def press(*keys):
        for key in keys:
            presses.append(key)
            page.keyboard.press(key)

    def reach(name, way="Tab"):
        """Presses a key until a control whose name begins so is in hand."""
        while not (in_hand := page.evaluate(IN_HAND)).startswith(name):
            met.append(in_hand[:24])
            assert len(presses) < FEWER_KEYS_THAN, (name, met)
            press(way)

    reach("Skip the menu")
    press("Enter")
    expect(page.locator(HEADING)).to_be_focused()
    reach("Weight")
    for label, text in MEASURES:
        if label != "Weight":
            press("Tab")
        press(*text)
        assert field(page, label).input_value() == text, f"{label}: keys were lost"
    press("Enter")
    arrived(page, "Use and base")
    reach("7 Files", "Shift+Tab")
    press("Enter")
    arrived(page, "Files")
    reach("Issue revision")
    press("Enter")
    expect(page.get_by_role("button", name=MADE)).to_be_focused()  # what was made is in hand
    reach(SHEET)
    with page.expect_download() as caught:
        press("Enter")
    assert is_sheet(caught.value)
    assert len(presses) < FEWER_KEYS_THAN, met
    print(f"\nkeys: {len(presses)} presses")
    for name in (MADE, "Download "):
        with page.expect_download() as caught:
            page.get_by_role("button", name=name).click()
        with open(caught.value.path(), "rb") as file:
            assert file.read(1)
        if name == MADE:
            is_whole_package(caught.value.path(), base_lines["day-boat"])
