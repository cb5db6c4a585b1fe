"""The wizard in a real browser: undo, saved jobs, two tabs, the way back, and what goes wrong."""

import json
import re

from app_screen import MEASURES, measured
from playwright.sync_api import expect
from screens import field, go, measure, press, settled, type_in

from sizer.design.library import shipped_folder
from sizer.web.job_file import FORMAT


def test_own_design_good_and_bad(open_page, tmp_path):
    """For nobody, whom no base has to be fitted to."""
    page = open_page(path="base", one=measured({}))
    good = re.sub('(?m)^name = .*$', 'name = "Our own boat"',
                  (shipped_folder() / "teaching-boat.toml").read_text("utf-8"), count=1)
    upload, own = page.locator("input[type=file]"), page.locator("b", has_text="Our own boat")

    broken = tmp_path / "broken.toml"
    broken.write_text(good[: len(good) // 2], "utf-8")
    upload.set_input_files(broken)
    expect(page.get_by_text("This file was not used")).to_be_visible()
    settled(page)
    expect(own).to_have_count(0)

    mine = tmp_path / "mine.toml"
    mine.write_text(good, "utf-8")
    upload.set_input_files(mine)
    expect(own).to_have_count(1)
    settled(page)

    huge = tmp_path / "huge.toml"
    huge.write_bytes(b"# " + b"x" * 60_000_000)
    upload.set_input_files(huge)
    expect(page.get_by_text(re.compile("exceed|2.0 ?MB|too large", re.I)).first).to_be_visible()
    settled(page)
    expect(own).to_have_count(1)


def test_undo_and_redo_walk_through_what_was_entered(open_page):
    page = open_page(one=measured(MEASURES | {"hip_width_mm": ""}))
    type_in(page, "Hip width", "385")
    go(page, "Boat")
    strip = page.locator(".sz-strip")
    before = strip.inner_text()
    beam = page.get_by_role("slider", name=re.compile("^Beam"))
    at = beam.input_value()
    beam.press("ArrowRight")
    expect(page.get_by_text("Beam, mm — held")).to_be_visible()
    settled(page)
    after = strip.inner_text()
    assert after != before
    press(page, "Undo")
    expect(strip).to_have_text(before, use_inner_text=True)
    expect(beam).to_have_value(at)
    press(page, "Redo")
    expect(strip).to_have_text(after, use_inner_text=True)
    go(page, "Paddler")
    for _ in range(2):
        press(page, "Undo")
    expect(field(page, "Hip width")).to_have_value("")
    expect(field(page, "Height")).to_have_value("1780")


def test_a_saved_job_opens_in_another_session(open_page, tmp_path):
    page = open_page()
    measure(page, "13 st 4", "5'10\"", "38,5 cm")
    page.get_by_role("radio", name="cm", exact=True).click()
    settled(page)
    go(page, "Boat")
    page.get_by_role("slider", name="Room inside").press("ArrowRight")
    expect(page.get_by_text("roomier").first).to_be_visible()
    settled(page)
    beam = page.get_by_role("slider", name=re.compile("^Beam"))
    beam.press("ArrowRight")
    expect(page.get_by_text("Beam, cm — held")).to_be_visible()
    settled(page)
    strip = page.locator(".sz-strip").inner_text()
    go(page, "Files")
    page.get_by_role("textbox", name="Notes").fill("blue skin")
    page.get_by_role("textbox", name="Notes").press("Tab")
    settled(page)
    with page.expect_download() as caught:
        page.get_by_role("button", name="Save this job").click()
    name = caught.value.suggested_filename
    assert re.fullmatch(r"([A-Z]{2}\d{4}-)?job-day-boat-\d{4}-\d\d-\d\d\.json", name)
    saved = tmp_path / name
    caught.value.save_as(saved)
    wishes = json.loads(saved.read_text("utf-8"))["wishes"]
    assert wishes["wished"] == {"room": 0.5}
    assert wishes["follow"] is False

    other = open_page(path="files")
    damaged = tmp_path / "damaged.json"
    damaged.write_bytes(saved.read_bytes()[:-40])
    upload = other.locator("input[type=file]")
    upload.set_input_files(damaged)
    expect(other.get_by_role("alert").filter(has_text="damaged")).to_be_visible()
    expect(other.locator(".sz-strip")).to_contain_text("Sample paddler")
    newer = tmp_path / "newer.json"
    newer.write_text(saved.read_text("utf-8").replace(
        f'"sizer_job": {FORMAT}', f'"sizer_job": {FORMAT + 1}'), "utf-8")
    upload.set_input_files(newer)
    expect(other.get_by_text("newer version")).to_be_visible()
    upload.set_input_files(saved)
    expect(other.get_by_text("The job of the file is open")).to_be_visible()
    settled(other)
    expect(other.get_by_role("textbox", name="Notes")).to_have_value("blue skin")
    other.get_by_role("radio", name="cm", exact=True).click()
    settled(other)
    _, boat = strip.split("\n", 1)  # the same boat under a code of its own
    expect(other.locator(".sz-strip")).to_contain_text(boat, use_inner_text=True)
    go(other, "Paddler")
    expect(field(other, "Height")).to_have_value("177.8")


def test_two_tabs_do_not_mix_customers(open_page):
    first, second = (open_page(one=measured(MEASURES | {"weight_kg": weight}))
                     for weight in ("77", "100"))
    one, two = first.locator(".sz-strip").inner_text(), second.locator(".sz-strip").inner_text()
    assert one != two
    type_in(second, "Height", "1800")
    expect(second.get_by_text("understood as 1800 mm")).to_be_visible()
    go(first, "Boat")
    expect(first.locator(".sz-strip")).to_have_text(one, use_inner_text=True)
    first.get_by_role("slider", name=re.compile("^Depth")).press("ArrowRight")
    expect(first.get_by_text("Depth, mm — held")).to_be_visible()
    go(second, "Boat")
    expect(second.get_by_text("— held")).to_have_count(0)
    go(first, "Paddler")
    expect(field(first, "Weight")).to_have_value("77")
    expect(field(first, "Height")).to_have_value("1780")


def test_the_browser_goes_back_to_what_was_entered_and_to_the_job_before(open_page):
    page = open_page(one=measured(MEASURES | {"weight_kg": "77"}))
    go(page, "Boat")
    go(page, "Words")
    page.go_back()
    settled(page)
    expect(page.get_by_text("Beam, mm")).to_be_visible()
    page.go_back()
    settled(page)
    expect(field(page, "Weight")).to_have_value("77")
    assert "77" not in page.url
    press(page, "Clear for a new customer")
    type_in(page, "Weight", "66")  # the first figure begins another job
    page.go_back()
    settled(page)
    page.go_back()
    expect(field(page, "Weight")).to_have_value("77")
