"""A page is there whole, whatever was touched while it was on its way; a white one comes back."""

import ast
import re
from pathlib import Path

import pytest
from app_screen import measured, opened, ran
from playwright.sync_api import expect
from screens import go, settled
from streamlit.proto.ForwardMsg_pb2 import ForwardMsg

import sizer.web

BODY = range(7, 12)  # places of the water page behind what every page has


def message(data):
    found = ForwardMsg()
    found.ParseFromString(data)
    return found


class Line:
    """The websocket of a page: what the server says can be held back, or lost."""

    def __init__(self, page):
        self.held, self.holding, self.lost, self.sent = [], False, lambda said: False, 0
        page.route_web_socket(re.compile("_stcore/stream"), self.opened)

    def opened(self, page_end):
        self.page_end, server = page_end, page_end.connect_to_server()
        page_end.on_message(lambda data: self.to_server(server, data))
        server.on_message(self.to_page)

    def to_server(self, server, data):
        self.sent += 1
        server.send(data)

    def to_page(self, data):
        if self.holding:
            self.held.append(data)
        elif not self.lost(message(data)):
            self.page_end.send(data)

    def at_rest(self):
        """Whether the last that the server said is that nothing runs."""
        last = message(self.held[-1]) if self.held else None
        return (last is not None and last.HasField("session_status_changed")
                and not last.session_status_changed.script_is_running)

    def let_go(self):
        self.holding = False
        for data in self.held:
            self.page_end.send(data)


def test_a_page_that_went_white_comes_back_and_who_moves_a_slider_on_the_way_to_the_next_gets_both(
        open_page):
    page = open_page(path="boat", one=measured(), fresh=True)
    line, raised, job = Line(page), [], page.url.rpartition("job=")[2]
    page.reload()
    settled(page)
    page.on("pageerror", lambda error: raised.append(str(error)))

    def lost(said):
        return not raised and said.HasField("delta") and said.metadata.delta_path[1:2] and (
            said.metadata.delta_path[1] in BODY)

    line.lost = lost
    # By itself, to where it was when it went white, on a slow machine before its address changed.
    with page.expect_navigation(url=re.compile("/(water|boat)")):
        page.locator(".st-key-links").get_by_role("button", name="Water").click()
        while not raised:
            page.wait_for_timeout(50)
    assert "Bad delta path index" in raised[0]
    settled(page)
    expect(page.get_by_role("button", name=re.compile("^Next: (the bench|trade-offs)"))
           ).to_be_visible()
    assert page.url.endswith(f"job={job}")
    go(page, "Paddler")
    expect(page.get_by_role("textbox", name=re.compile("^Weight"))).to_have_value("82")

    go(page, "Boat")
    beam = page.get_by_role("slider", name=re.compile("^Beam"))
    aim = float(beam.input_value()) + 1
    line.holding, sent = True, line.sent
    page.locator(".st-key-links").get_by_role("button", name="Water").click()
    beam.press("ArrowRight")
    while line.sent < sent + 2 or not line.at_rest():
        page.wait_for_timeout(50)
    line.let_go()
    settled(page)
    expect(page.locator(".sz-unseen[role=heading]")).to_have_text("Water")
    expect(page.get_by_role("button", name="Next: the bench")).to_be_visible()
    expect(page.locator(".sz-strip")).to_contain_text(f"{aim:.0f} mm")


def told_places(screen):
    """(label, where it stands, where a browser that knows nothing of it puts it) of each widget."""
    for one in (*screen.slider, *screen.number_input):
        least = one.proto.default
        yield one.label, one.value, least if isinstance(least, float) else least[0]
    for one in (*screen.text_input, *screen.text_area, *screen.checkbox, *screen.toggle):
        yield one.label, one.value, one.proto.default
    for one in (*screen.radio, *screen.selectbox):
        yield one.label, one.index, one.proto.default
    for one in screen.select_slider:
        at = one.value if isinstance(one.value, int) else one.options.index(one.value)
        yield one.label, at, int(one.proto.default[0])
    for one in screen.button_group:
        yield one.label, list(one.indices), list(one.proto.default)


@pytest.mark.parametrize("path", ["paddler", "base", "boat", "trade", "sizes", "dryfit", "shop"])
def test_each_drawing_tells_where_every_widget_stands(book, path):
    screen = ran(opened(path))  # drawn twice, the first as if it never came to the browser
    places = list(told_places(screen))
    assert len(places) > 2
    for label, stands, told in places:
        assert stands == told, label


def test_every_run_draws_the_whole_page():
    for path in Path(sizer.web.__file__).parent.rglob("*.py"):
        asked = {one.attr for one in ast.walk(ast.parse(path.read_text("utf-8")))
                 if isinstance(one, ast.Attribute)}
        assert not asked & {"fragment", "dialog"}, path.name
