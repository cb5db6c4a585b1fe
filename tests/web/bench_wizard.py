"""How long the wizard takes to answer, in a real browser, and what its server holds in memory.

Run with `.venv/bin/python -m pytest tests/web/bench_wizard.py -s`; prints, asserts no time.
"""

import re
import statistics
import time
from pathlib import Path

from playwright.sync_api import expect
from screens import go, press


def test_slider_to_redrawn_boat(open_page):
    page = open_page()
    press(page, "Fill in a sample paddler")
    go(page, "3 Boat")
    times = []
    for _ in range(10):
        slider = page.get_by_role("slider", name=re.compile("^Beam"))
        aim = float(slider.input_value()) + 1
        begun = time.perf_counter()
        slider.press("ArrowRight")
        expect(page.locator(".sz-strip")).to_contain_text(f"{aim:.0f} mm")
        times.append(1000 * (time.perf_counter() - begun))
    print(f"\nslider to redrawn boat: median {statistics.median(times):.0f} ms of ten, "
          f"longest {max(times):.0f} ms")


def test_first_page(open_page, wizard):
    begun = time.perf_counter()
    page = open_page()
    cold = time.perf_counter() - begun
    begun = time.perf_counter()
    page.reload()
    expect(page.get_by_role("heading", name="Measure the paddler")).to_be_visible()
    print(f"\nfirst page: {cold:.2f} s, again {time.perf_counter() - begun:.2f} s")
    port = wizard.rsplit(":", 1)[1]
    for status in Path("/proc").glob("[0-9]*/status"):
        if f"--port\0{port}\0" in (status.parent / "cmdline").read_text():
            held = re.search(r"VmHWM:\s+(\d+)", status.read_text()).group(1)
            print(f"server memory at most: {int(held) / 1024:.0f} MB")
