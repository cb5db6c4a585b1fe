"""The job in a real browser: after a reload, in a second tab, after the server was killed."""

import signal
from urllib.parse import parse_qs, urlsplit

import pytest
from app_screen import measured
from playwright.sync_api import expect
from screens import PATIENCE_MS, context_of, field, go, measure, press, settled, type_in
from served import free_port, started_wizard

CUT_OFF_SAYS = """() => getComputedStyle(document.querySelector("[data-testid=stApp]"), "::after")
  .content.includes("is kept in the book")"""


@pytest.fixture
def served(tmp_path):
    """(address, what kills the server and starts it anew on the same book)."""
    port, log = free_port(), tmp_path / "log.txt"
    servers = [started_wizard(port, log)]

    def again(meanwhile):
        servers[-1].send_signal(signal.SIGKILL)
        servers[-1].wait()
        meanwhile()
        servers.append(started_wizard(port, log))

    yield f"http://localhost:{port}", again
    servers[-1].terminate()
    servers[-1].wait(600)


def opened(browser, address):
    page = context_of(browser, viewport={"width": 1366, "height": 900}).new_page()
    page.goto(address)
    settled(page)
    return page


def strip(page):
    return page.locator(".sz-strip").inner_text()


def left_unheard(page, label, text):
    """Types into a field and stays in it; the server never hears what the page says from now on."""
    page.evaluate("() => { WebSocket.prototype.send = () => {}; }")
    field(page, label).fill(text)


def loaded_anew(page):
    page.reload()
    settled(page)


def test_what_is_typed_and_left_open_is_there_after_a_reload_but_not_twice(open_page):
    page = open_page(path="boat", one=measured())
    length = field(page, "Length, typed in mm")
    length.fill("4400")
    loaded_anew(page)
    expect(length).to_have_value("4400")
    type_in(page, "Length, typed in mm", "4500")
    loaded_anew(page)
    expect(length).to_have_value("4500")
    left_unheard(page, "Length, typed in mm", "4600")
    page.goto(page.url.replace("/boat", "/paddler"))
    settled(page)
    page.goto(page.url.replace("/paddler", "/boat"))  # it is typed into no other page
    settled(page)
    expect(length).to_have_value("4500")


def test_what_the_server_never_hears_as_the_page_is_left_is_there_after_a_reload(open_page):
    page = open_page(path="boat", one=measured())
    left = {"Boat": ("Length, typed in mm", "4400"), "Paddler": ("Weight", "91"),
            "Files": ("Notes", "Short legs.\nLong arms.")}
    for step, (label, text) in left.items():
        if step != "Boat":
            go(page, step)
        left_unheard(page, label, text)
        loaded_anew(page)
        expect(field(page, label)).to_have_value(text)
        settled(page)
    loaded_anew(page)  # from the book
    for step, (label, text) in reversed(left.items()):
        if step != "Files":
            go(page, step)
        expect(field(page, label)).to_have_value(text)


def test_a_figure_counts_while_it_is_typed_and_two_tabs_see_what_each_other_changes(open_page):
    page = open_page(one=measured())
    field(page, "Weight").fill("")
    field(page, "Weight").press_sequentially("91", delay=60)
    expect(page.get_by_text("understood as 91.0 kg")).to_be_visible()  # nobody left the field
    settled(page)
    other = open_page()
    other.goto(page.url)
    settled(other)
    expect(field(other, "Weight")).to_have_value("91")
    type_in(other, "Weight", "95")
    expect(page.get_by_text("Changed on another screen: weight 91 → 95 kg")).to_be_visible()
    settled(page)
    expect(field(page, "Weight")).to_have_value("95")
    type_in(page, "Height", "1700")
    expect(other.get_by_text("Changed on another screen: height 1780 → 1700 mm")).to_be_visible()


def test_a_killed_server_leaves_the_job_to_an_open_page_and_another_browser(browser, served):
    """A reload opens the address, as another browser does; on every page: test_keeping.py."""
    address, again = served
    page = opened(browser, address)
    expect(page.locator(".sz-strip")).to_contain_text("Sample paddler")  # the first visit
    measure(page)
    type_in(page, "Customer", "Ada")
    before, link = strip(page), page.url
    assert "Ada" in before
    again(meanwhile=lambda: page.wait_for_function(CUT_OFF_SAYS, timeout=PATIENCE_MS))
    page.locator("[data-test-connection-state=CONNECTED]").wait_for(timeout=PATIENCE_MS)
    settled(page)
    go(page, "Words")  # the open page has found the new server by itself
    assert strip(page) == before
    assert "/words?job=" in page.url
    other = opened(browser, link)
    assert strip(other) == before
    expect(field(other, "Weight")).to_have_value("82")
    told = urlsplit(other.url)
    assert parse_qs(told.query).keys() == {"job"}
    for word in ("82", "1780", "385", "Ada"):
        assert word not in told.path  # a port and a key may hold any figures
    other.goto(address)  # that alone leads to the list
    settled(other)
    expect(other.get_by_role("heading", name="Jobs").last).to_be_visible()
    press(other, "Open")
    expect(other.locator(".sz-strip")).to_contain_text(before.split("\n")[0])
    settled(other)
    assert strip(other) == before
    for one in (page, other):
        one.context.close()
