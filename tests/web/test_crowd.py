"""The crowd's page in a real browser: runs beside the wizard, is stopped, keeps what it found."""

import csv
import io
import json
import re

from playwright.sync_api import expect
from screens import downloaded, go, settled

from sizer.fit.checks import BY_KEY

RUN_MS = 600_000
PEOPLE = """name,weight_kg,stature_mm,hip_width_mm
=Ann,62,1660,372
Bo,80,1790,385
Cy,91,1830,402
,1750,75,380
"""


def listed(page, text=PEOPLE):
    page.get_by_text("My own list").click()
    settled(page)
    page.locator("input[type=file]").set_input_files(
        {"name": "people.csv", "mimeType": "text/csv", "buffer": text.encode()})
    expect(page.get_by_text("people that can be used")).to_be_visible()


def test_a_run_is_stopped_and_a_range_goes_on_while_other_pages_are_looked_at(open_page):
    """Then the same people are fitted one by one, and their list is put away; the crowd that is
    drawn begins and is stopped in test_crowd_page.py."""
    page = open_page(path="sizes")
    listed(page)
    expect(page.get_by_text(
        "people.csv: people that can be used 3, rows that cannot 1")).to_be_visible()
    expect(page.get_by_role("alert").filter(has_text="row 5")).to_be_visible()
    for odd, said in ((b"\xff\xfe\x00", "byte 0 is not UTF-8 text"), (b"weight\n80\n", "weight")):
        settled(page)  # till then the field that took the last file may stand beside the new one
        page.locator("input[type=file]").set_input_files(
            {"name": "odd.csv", "mimeType": "text/csv", "buffer": odd})
        told = page.get_by_role("alert").filter(has_text="nothing was changed")
        expect(told.filter(has_text=said)).to_be_visible()
        expect(page.get_by_text("people.csv: people that can be used 3")).to_be_visible()
    page.get_by_role("slider", name="Sizes, at most").press("Home")  # each costs a package
    settled(page)
    page.get_by_role("button", name="Work it out").click()
    expect(page.get_by_role("status").filter(has_text="Working")).to_be_visible()
    page.get_by_role("button", name="Stop").click()
    expect(page.get_by_role("button", name="Work it out")).to_be_visible()
    expect(page.get_by_role("heading", name=re.compile("sizes? of"))).to_have_count(0)
    expect(page.get_by_text("people.csv: people that can be used 3")).to_be_visible()
    settled(page)
    page.get_by_role("button", name="Work it out").click()
    expect(page.get_by_role("status").filter(has_text="Working")).to_be_visible()
    go(page, "Boat")
    expect(page.get_by_text("Beam, mm")).to_be_visible()
    go(page, "Size range")
    expect(page.get_by_role("heading", name=re.compile("1 size of Short day boat"))).to_be_visible(
        timeout=RUN_MS)
    expect(page.get_by_text("Which size for this customer?")).to_be_visible()
    expect(page.get_by_text("take this one")).to_be_visible()
    verdicts = page.locator(".sz-table", has=page.get_by_text("tightest", exact=True))
    tightest = verdicts.locator("tbody td:nth-child(3)").all_inner_texts()
    assert set(tightest) <= {row.title for row in BY_KEY.values()}  # told by title, never by key
    page.reload()  # a session of its own: result, files, people and settings are there again
    settled(page)
    expect(page.get_by_role("heading", name=re.compile("1 size of Short day boat"))).to_be_visible()
    expect(page.get_by_text("Made from people.csv, 3 people; Short day boat")).to_be_visible()
    expect(page.get_by_text("Changed since this was worked out")).to_have_count(0)
    expect(page.get_by_role("slider", name="Sizes, at most")).to_have_value("1")
    sizes = list(csv.reader(io.StringIO(downloaded(page, "sizes.csv"), newline="")))
    assert any("CAUTION" in "".join(row) for row in sizes)
    answer = json.loads(downloaded(page, "range.json"))
    assert answer["people"] == {"read": 4, "counted": 3, "bad": 1}
    shares = [size["share"] for size in answer["sizes"]]
    assert sum(shares) + answer["left_out_share"] > 0.999
    assert [row[0] for row in sizes if row and row[0].startswith("Size ")] == [
        size["name"] for size in answer["sizes"]]

    page.get_by_text("Fit everyone one by one").click()
    settled(page)
    page.get_by_role("button", name="Work it out").click()
    expect(page.get_by_role("heading", name="Everyone fitted")).to_be_visible(timeout=RUN_MS)
    lines = [line for line in downloaded(page, "Results").splitlines()
             if not line.startswith(("#", '"#'))]
    rows = list(csv.DictReader(lines))
    assert [row["status"] == "bad row" for row in rows] == [False, False, False, True]
    assert rows[0]["label"] == "'=Ann"
    page.get_by_role("button", name="Put this list away").click()
    expect(page.get_by_text("people that can be used")).to_have_count(0)
    expect(page.get_by_role("button", name="Work it out")).to_be_disabled()


def test_who_fits_the_boat_at_hand_is_shown_without_the_page_being_touched(open_page):
    page = open_page(390, 844, path="sizes")
    page.get_by_role("button", name="Work out who fits").click()
    expect(page.locator(".sz-work-who_fits")).to_be_visible()
    expect(page.get_by_role("columnheader", name="ended by").first).to_be_attached(timeout=RUN_MS)
    expect(page.get_by_text("heaviest, with gear")).to_be_visible()
    expect(page.get_by_text("opening wide enough").first).to_be_visible()
    expect(page.get_by_text("The paddler of this boat, ")).to_contain_text("passes")
    expect(page.get_by_text("built like the paddler at hand")).to_be_visible()
    settled(page)
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
