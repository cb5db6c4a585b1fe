"""Twenty people at one wizard at once: what is theirs stays theirs, and the server's memory flat.

Run with `SIZER_LOAD_MINUTES=10 .venv/bin/python -m pytest tests/web/bench_load.py -s`; prints how
long a slider took and what the server held, asserts no time.
"""

import asyncio
import json
import os
import random
import re
import shutil
import statistics
import time
from contextlib import suppress
from pathlib import Path

import pytest
from conftest import FLAGS
from playwright.async_api import Error, async_playwright, expect
from screens import CALM, IDLE, PATIENCE_MS, WATCHED
from served import free_port, started_wizard

from sizer.book.drafts import draft
from sizer.book.jobs import jobs
from sizer.book.opening import open_book
from sizer.web.work import PATIENCE_S

MINUTES = float(os.environ.get("SIZER_LOAD_MINUTES", "3"))
SESSIONS = int(os.environ.get("SIZER_LOAD_SESSIONS", "20"))
THINKS_S = tuple(map(float, os.environ.get("SIZER_LOAD_THINKS_S", "2 6").split()))  # between moves
SAID = {}  # what each page told beside: where it went, what it raised
# A minute at the usual pace; who thinks longer has been everywhere only after as many moves.
WARM_S = 15.0 * statistics.mean(THINKS_S)
SETTLED_SHARE, GROWS_MB = 1.15, 40.0  # of its memory once warm; our judgement


def parents():
    """{pid: its parent's} of all living processes."""
    found = {}
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            state, parent = stat.read_text().rpartition(")")[2].split()[:2]
            if state != "Z":
                found[int(stat.parent.name)] = int(parent)
    return found


def descendants(pid):
    """Pids of all processes that a process began, and those began."""
    every, found, new = parents(), set(), {pid}
    while new:
        new = {child for child, parent in every.items() if parent in new} - found
        found |= new
    return found


def held_mb(pid):
    """Memory that a process holds."""
    status = Path(f"/proc/{pid}/status").read_text()
    return int(re.search(r"VmRSS:\s+(\d+)", status).group(1)) / 1024.0


def used_s(pid):
    """Time that a process has had of all processors."""
    user, system = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()[11:13]
    return (int(user) + int(system)) / os.sysconf("SC_CLK_TCK")


async def settled(page):
    await page.wait_for_function(CALM, arg=IDLE)


async def go(page, step):
    await page.locator(".st-key-links").get_by_role("button", name=step).click()
    await expect(page.locator(".sz-unseen[role=heading]")).to_have_text(step, timeout=PATIENCE_MS)
    await settled(page)


async def told(page, work):
    """What `work` comes to; where it fails, what the page shows then is told."""
    try:
        return await work
    except (Error, AssertionError) as error:
        print(f"\n{error}\non {page.url}: {await page.inner_text('body')}\n"
              f"{(await page.content())[-2000:]}", *SAID[page], sep="\n")
        raise


async def opened(browser, address):
    context = await browser.new_context(viewport={"width": 1280, "height": 900})
    context.set_default_timeout(PATIENCE_MS)
    await context.add_init_script(WATCHED)
    page = await context.new_page()
    said = SAID.setdefault(page, [])
    page.on("pageerror", lambda error: said.append(f"raised: {error}"))
    page.on("crash", lambda _: said.append("crashed"))
    page.on("console", lambda one: said.append(one.text) if one.type == "error" else None)
    page.on("framenavigated", lambda frame: said.append(f"went to {frame.url}"))
    await page.goto(f"{address}/paddler")
    await settled(page)
    return page


async def typed(page, label, text):
    one = page.get_by_role("textbox", name=re.compile(f"^{label}"))
    await one.fill(text)
    await one.press("Tab")
    await settled(page)


async def arrived(browser, address, number):
    """(page, key of the job) of one person, with measures of their own typed in."""
    page = await opened(browser, address)
    for label, text in (("Weight", f"{60 + number}"), ("Height", f"{1650 + 8 * number}"),
                        ("Hip width", f"{370 + 3 * number}")):
        await typed(page, label, text)
    return page, re.search(r"job=([\w-]+)", page.url).group(1)


async def at_work(page, key, number, until, moves):
    """Moves sliders and types another weight until the end; the weight that stands then."""
    chance, own = random.Random(number), f"{60 + number}"
    while time.monotonic() < until:
        await go(page, "Boat")
        for _ in range(4):
            await asyncio.sleep(chance.uniform(*THINKS_S))
            slider = page.get_by_role("slider", name=re.compile("^Beam"))
            aim = float(await slider.input_value())
            way = "ArrowRight" if aim < float(await slider.get_attribute("max")) else "ArrowLeft"
            aim += 1.0 if way == "ArrowRight" else -1.0
            begun = time.perf_counter()
            await slider.press(way)
            await expect(page.locator(".sz-strip")).to_contain_text(f"{aim:.0f} mm",
                                                                    timeout=PATIENCE_MS)
            moves.append(time.perf_counter() - begun)
            await settled(page)
        await go(page, "Paddler")
        weight = page.get_by_role("textbox", name=re.compile("^Weight"))
        assert await weight.input_value() == own, "another's weight"
        own = f"{60.0 + number + chance.randint(0, 9) / 10.0:.1f}"
        await typed(page, "Weight", own)
        assert key in page.url, "another's job"
    return own


async def begun_range(page, pid):
    """Begins a size range; the processes it takes, but for the one that all share."""
    before = descendants(pid)
    await go(page, "Size range")
    await page.get_by_role("button", name="Work it out").click()
    await expect(page.get_by_text("Working,")).to_be_visible(timeout=PATIENCE_MS)
    found = {one for one in descendants(pid) - before if "resource_tracker" not in command(one)}
    assert found
    return found


def command(pid):
    """The command line of a process; "" of one that has ended."""
    with suppress(OSError):
        return Path(f"/proc/{pid}/cmdline").read_text()
    return ""


async def gone(pids, within_s):
    """Waits until no such process is left; how long that took."""
    begun = time.monotonic()
    while pids & parents().keys():
        assert time.monotonic() - begun < within_s, "its processes are still there"
        await asyncio.sleep(0.5)
    return time.monotonic() - begun


async def watched(pid, until, held):
    """Notes what the server holds; how much of the processors' time it took meanwhile."""
    begun = used_s(pid)
    while time.monotonic() < until:
        held.append((time.monotonic(), held_mb(pid)))
        await asyncio.sleep(2.0)
    return used_s(pid) - begun


def when_warm(held):
    """What the server held after its first WARM_S, or at the end of a shorter run."""
    return next((mb for at, mb in held if at - held[0][0] > WARM_S), held[-1][1])


def said_of(moves, held, took_s):
    load = os.getloadavg()
    by_minute = [f"{mb:.0f}" for number, (_, mb) in enumerate(held) if number % 30 == 0]
    print(f"\n{SESSIONS} sessions, {THINKS_S[0]:g} to {THINKS_S[1]:g} s between moves, "
          f"{MINUTES:g} minutes, load {load[0]:.1f} {load[1]:.1f}: "
          f"{len(moves)} slider moves, median {statistics.median(moves):.2f} s, longest "
          f"{max(moves):.1f} s; server {held[0][1]:.0f} MB at first, {when_warm(held):.0f} MB "
          f"after {WARM_S:.0f} s, {held[-1][1]:.0f} MB at the end ({' '.join(by_minute)}); it had "
          f"the processors for {took_s / len(moves):.2f} s a move, with all that is drawn beside")


async def loaded(port, server):
    """All of it; ([(when, MB)], {key: weight that stands})."""
    address = f"http://localhost:{port}"
    found = shutil.which("chromium") or shutil.which("chromium-browser") or "google-chrome"
    moves, held = [], []
    async with async_playwright() as playwright:
        browser = await playwright.chromium.launch(executable_path=found, args=FLAGS)
        beside = await opened(browser, address)
        people = [await arrived(browser, address, number) for number in range(SESSIONS)]
        processes = await begun_range(beside, server.pid)
        until = time.monotonic() + 60.0 * MINUTES
        *weights, took_s = await asyncio.gather(
            *(told(page, at_work(page, key, number, until, moves))
              for number, (page, key) in enumerate(people)), watched(server.pid, until, held))
        said_of(moves, held, took_s)
        if await beside.get_by_role("button", name="Stop").count():
            await beside.get_by_role("button", name="Stop").click()
            await settled(beside)
        stopped = await gone(processes, 60.0)
        processes = await begun_range(beside, server.pid)
        await beside.context.close()
        closed = await gone(processes, PATIENCE_S + 60.0)
        last = await opened(browser, address)
        await begun_range(last, server.pid)
        left = descendants(server.pid)
        server.terminate()
        server.wait(120)
        await gone(left, 60.0)
        await browser.close()
    print(f"\nprocesses of a stopped range gone in {stopped:.1f} s, of a closed page in "
          f"{closed:.0f} s, of an ended server at once")
    return held, dict(zip((key for _, key in people), weights, strict=True))


def beside_a_wizard(folder, work):
    """What `work(port, server)` comes to, the server's log in a folder without an exception."""
    port, log = free_port(), folder / "log.txt"
    server = started_wizard(port, log)
    try:
        found = asyncio.run(work(port, server))
    finally:
        server.kill()
        server.wait()
    said = log.read_text()
    assert "Traceback" not in said, said
    return found


def assert_settled(held):
    """What the server holds grows no more once it is warm."""
    assert held[-1][1] < SETTLED_SHARE * when_warm(held) + GROWS_MB


shows_processes = pytest.mark.skipif(not Path("/proc").exists(),
                                     reason="looks at processes as Linux shows them")


@shows_processes
def test_twenty_people_at_once(tmp_path):
    held, own = beside_a_wizard(tmp_path, loaded)
    book = open_book(tmp_path / "book")
    kept = {row.key: json.loads(draft(book, row.key).draft_json)["entries"]["weight_kg"]["text"]
            for row in jobs(book)}
    book.close()
    assert len(own) == SESSIONS
    assert {key: kept[key] for key in own} == own
    assert_settled(held)
