"""How long the wizard takes to answer, in a real browser, and what its server holds in memory.

Run with `.venv/bin/python -m pytest tests/web/bench_wizard.py -s`; prints, asserts no time.
"""

import re
import statistics
import time
from pathlib import Path

from playwright.sync_api import expect
from screens import go, measure, settled, type_in

SAID = "text => document.querySelector('.sz-strip').innerText.includes(text)"  # at each frame


def test_first_page(browser, wizard):
    page = browser.new_page()  # without the guard of the tests, which slows every request
    times = []
    for _ in range(6):
        begun = time.perf_counter()
        page.goto(f"{wizard}/paddler")
        page.wait_for_selector(".sz-strip:has-text('freeboard')")
        times.append(time.perf_counter() - begun)
    page.close()
    print(f"\nfirst page with its worked sample: {times[0]:.2f} s, again "
          f"{statistics.median(times[1:]):.2f} s (median of five)")


def test_slider_to_redrawn_boat(open_page):
    page = open_page()
    go(page, "Boat")
    for look in ("The body's room", "Turn it round", "Sections"):
        page.get_by_role("radio", name=look).click()
        times = []
        for _ in range(10):
            slider = page.get_by_role("slider", name=re.compile("^Beam"))
            aim = float(slider.input_value()) + 1
            settled(page)
            begun = time.perf_counter()
            slider.press("ArrowRight")
            page.wait_for_function(SAID, arg=f"{aim:.0f} mm")  # an expect looks too seldom to time
            times.append(1000 * (time.perf_counter() - begun))
        print(f"\nslider to redrawn boat, {look}: median {statistics.median(times):.0f} ms of "
              f"ten, longest {max(times):.0f} ms")


def test_trade_offs_ready(open_page):
    times = []
    for weight in ("70", "76", "82", "88", "94"):  # each a boat that was not worked out before
        page = open_page()
        measure(page, weight)
        begun = time.perf_counter()
        page.locator(".st-key-links").get_by_role("button", name="Trade-offs").click()
        page.wait_for_selector(".sz-map-says")
        times.append(time.perf_counter() - begun)
    print(f"\ntrade-offs with their map: {times[0]:.2f} s, again "
          f"{statistics.median(times[1:]):.2f} s (median of four other paddlers)")


def test_memory_after_fifty_fits_in_ten_sessions(open_page, wizard):
    for session in range(10):
        page = open_page()
        measure(page, f"{60 + session}")
        go(page, "Boat")
        for fit in range(4):
            go(page, "Paddler")
            type_in(page, "Weight", f"{62 + 3 * session + fit}")
            go(page, "Boat")
            expect(page.locator(".sz-strip")).to_contain_text("freeboard")
    port = wizard.rsplit(":", 1)[1]
    for status in Path("/proc").glob("[0-9]*/status"):
        if f"--port\0{port}\0" in (status.parent / "cmdline").read_text():
            held = re.search(r"VmHWM:\s+(\d+)", status.read_text()).group(1)
            print(f"\nserver memory at most, fifty fits in ten sessions: {int(held) / 1024:.0f} MB")
