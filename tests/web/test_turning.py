"""The boat in space: what is sent to the canvas, and that a hand's view outlives new data."""

import numpy as np
import pytest
from playwright.sync_api import expect
from screens import context_of, settled
from served import free_port, started

from sizer.hull.boat import frame_points_m, scaled_boat
from sizer.hull.scale import Scaling
from sizer.web.turning import turning_data

SCRIPT = """
import streamlit as st
from sizer.design.library import read_base
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.web.turning import put_turning

@st.cache_resource
def boat(beam):
    return scaled_boat(lines(), Scaling(beam=beam))

@st.cache_resource
def lines():
    return fair_lines(read_base("day-boat"))

beam = st.slider("Beam", 0.95, 1.15, 1.0, 0.05)
if st.checkbox("Shown", True):
    put_turning(boat(beam), boat(1.0))
"""


@pytest.fixture(scope="module")
def address(tmp_path_factory):
    """A page with the boat, a slider for its beam and a box that takes it away."""
    folder = tmp_path_factory.mktemp("turning")
    (folder / "page.py").write_text(SCRIPT)
    port, log = free_port(), folder / "log.txt"
    server = started(
        port, log, "streamlit", "run", "page.py", "--server.port", str(port), "--server.headless",
        "true", "--server.address", "127.0.0.1", "--server.fileWatcherType", "none",
        "--browser.gatherUsageStats", "false")
    yield f"http://127.0.0.1:{port}"
    server.terminate()
    server.wait(600)
    assert "Traceback" not in log.read_text()


@pytest.fixture(scope="module")
def kept(browser, address):
    """(a page, what was wrong in it)"""
    context = context_of(browser, viewport={"width": 1000, "height": 900})
    page, wrong = context.new_page(), []

    def asked(request):
        if not request.url.startswith((address, "data:", "blob:")):
            wrong.append(request.url)

    page.on("request", asked)
    page.on("pageerror", lambda error: wrong.append(str(error)))
    yield page, wrong
    context.close()


@pytest.fixture
def page(kept, address):
    """The page, loaded anew."""
    page, wrong = kept
    page.goto(address)
    settled(page)
    expect(canvas(page)).to_have_attribute("data-turn", "35,24")
    yield page
    assert not wrong


def canvas(page):
    return page.locator("canvas[role=img]")


def pixels(page):
    return canvas(page).evaluate("one => one.toDataURL()")


def zoom(page):
    return float(canvas(page).get_attribute("data-zoom"))


def drag(page, right, down):
    box = canvas(page).bounding_box()
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + right, y + down, steps=4)
    page.mouse.up()


def test_the_canvas_says_what_it_shows_and_dragging_turns_it(page, base_lines):
    boat = scaled_boat(base_lines["day-boat"], Scaling())
    expect(canvas(page)).to_have_attribute(
        "aria-label", f"Short day boat in space: {1000.0 * boat.length_m:.0f} mm long, "
        f"{1000.0 * boat.beam_m:.0f} mm wide, {len(boat.design.frames)} frames.")
    before = pixels(page)
    drag(page, 100, -30)  # 0.4 degrees a pixel
    expect(canvas(page)).to_have_attribute("data-turn", "75,12")
    assert pixels(page) != before


def test_keys_turn_and_zoom_the_boat_that_has_the_focus(page):
    before, size = pixels(page), zoom(page)
    canvas(page).focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    expect(canvas(page)).to_have_attribute("data-turn", "40,19")
    turned = pixels(page)
    assert turned != before
    page.keyboard.press("+")
    expect(canvas(page)).to_have_attribute("data-zoom", f"{1.2 * size:.3f}")
    assert pixels(page) != turned
    assert canvas(page).evaluate("one => getComputedStyle(one).outlineStyle") == "solid"


def test_a_hand_turned_view_outlives_a_new_boat_and_one_that_comes_back(page):
    drag(page, 50, 25)
    expect(canvas(page)).to_have_attribute("data-turn", "55,34")
    size, said = f"{1.2 * zoom(page):.3f}", canvas(page).get_attribute("aria-label")
    canvas(page).focus()
    page.keyboard.press("+")
    expect(canvas(page)).to_have_attribute("data-zoom", size)
    before = pixels(page)
    page.get_by_role("slider", name="Beam").press("ArrowRight")
    settled(page)
    expect(canvas(page)).not_to_have_attribute("aria-label", said)
    expect(canvas(page)).to_have_attribute("data-turn", "55,34")
    expect(canvas(page)).to_have_attribute("data-zoom", size)
    assert pixels(page) != before
    for count in (0, 1):
        page.get_by_text("Shown").click()
        expect(canvas(page)).to_have_count(count)
    expect(canvas(page)).to_have_attribute("data-turn", "55,34")


def test_buttons_show_the_boat_from_where_they_say_whole_and_without_its_skin(page):
    size = zoom(page)
    canvas(page).focus()
    for _ in range(3):
        page.keyboard.press("+")
    expect(canvas(page)).to_have_attribute("data-zoom", f"{1.2**3 * size:.3f}")
    page.get_by_role("button", name="Whole boat").click()
    expect(canvas(page)).to_have_attribute("data-zoom", f"{size:.3f}")
    expect(canvas(page)).to_have_attribute("data-turn", "35,24")
    skin = page.get_by_role("button", name="Skin")
    expect(skin).to_have_attribute("aria-pressed", "true")
    before = pixels(page)
    skin.click()
    expect(skin).to_have_attribute("aria-pressed", "false")
    assert pixels(page) != before
    for name, turn in (("From the bow", "90,0"), ("From the side", "0,0"), ("From above", "0,90")):
        page.get_by_role("button", name=name).click()
        expect(canvas(page)).to_have_attribute("data-turn", turn)


def test_the_wheel_scrolls_the_page_unless_ctrl_is_held(page):
    size = zoom(page)
    box = canvas(page).bounding_box()
    page.mouse.move(box["x"] + 200, box["y"] + 100)
    page.mouse.wheel(0, -100)
    page.keyboard.down("Control")
    page.mouse.wheel(0, -100)
    page.keyboard.up("Control")
    expect(canvas(page)).to_have_attribute("data-zoom", f"{np.exp(0.25) * size:.3f}")


def touch(page, *events):
    """Pointer events as a touch screen sends them: (name, finger, across, down)."""
    canvas(page).evaluate("""(one, events) => {
      const box = one.getBoundingClientRect();
      one.setPointerCapture = () => {};  // takes real fingers only
      for (const [name, finger, x, y] of events) {
        one.dispatchEvent(new PointerEvent("pointer" + name, {
          pointerId: finger, pointerType: "touch", bubbles: true,
          clientX: box.left + x, clientY: box.top + y }));
      }
    }""", list(events))


def test_two_fingers_zoom_and_one_turns(page):
    size = zoom(page)
    touch(page, ("down", 1, 300, 100), ("down", 2, 400, 100), ("move", 2, 500, 100),
          ("up", 2, 500, 100), ("move", 1, 310, 100), ("up", 1, 310, 100))
    expect(canvas(page)).to_have_attribute("data-zoom", f"{2 * size:.3f}")
    expect(canvas(page)).to_have_attribute("data-turn", "39,24")


def test_a_finger_that_scrolls_the_page_turns_nothing(page):
    assert canvas(page).evaluate("one => getComputedStyle(one).touchAction") == "pan-y"
    touch(page, ("down", 1, 300, 100), ("move", 1, 300, 80))
    expect(canvas(page)).to_have_attribute("data-turn", "35,16")
    touch(page, ("cancel", 1, 300, 80))  # the browser took it to scroll
    expect(canvas(page)).to_have_attribute("data-turn", "35,24")


def test_canvas_is_as_sharp_as_the_screen(browser, address):
    context = context_of(browser, viewport={"width": 390, "height": 844}, device_scale_factor=3)
    page = context.new_page()
    page.goto(address)
    settled(page)
    expect(canvas(page)).to_have_attribute("data-turn", "35,24")
    wide, shown = canvas(page).evaluate("one => [one.width, one.clientWidth]")
    assert wide == 3 * shown
    assert canvas(page).evaluate("one => one.getBoundingClientRect().right") <= 390
    context.close()


def kinds(data, kind):
    return [np.array(line["points"]) for line in data["lines"] if line["kind"] == kind]


def test_frames_pass_through_their_own_points(boat):
    data = turning_data(boat)
    frames = kinds(data, "frame")
    assert len(frames) == len(boat.frame_x_m)
    for index, ring in enumerate(frames):
        own = 1000.0 * np.array(list(frame_points_m(boat, index).values()))
        assert np.abs(ring[:, 1:] - own).max() <= 0.5
        assert np.abs(ring[:, 0] - 1000.0 * boat.frame_x_m[index]).max() <= 0.5
        inside = boat.opening.front_x_m < boat.frame_x_m[index] < boat.opening.back_x_m
        assert inside or ring[-1, 1] == 0  # closed over the middle, but not over a lap


def test_everything_sent_is_on_one_side_and_inside_the_boat(boat):
    data = turning_data(boat)
    points = np.concatenate([*(line["points"] for line in data["lines"]),
                             *data["skin"], *data["coaming"]])
    assert points[:, 1].min() >= 0
    assert points[:, 1].max() == pytest.approx(500.0 * boat.beam_m, abs=1.0)
    assert points[:, 0].min() == 0
    assert points[:, 0].max() == data["long"] == round(1000.0 * boat.length_m)
    assert len(kinds(data, "stick")) == len(boat.lines.lines)


def test_skin_reaches_from_bow_to_stern_and_leaves_the_opening_free(boat):
    data = turning_data(boat)
    skin = np.array(data["skin"])
    assert skin[0, 0, 0] == 0
    assert skin[-1, 0, 0] == data["long"]
    steps = np.diff(skin[:, 0, 0])
    assert 0 < steps.min() <= steps.max() <= 200
    rows = np.abs(boat.sections.x_m[:, None] - skin[:, -1, 0] / 1000.0).argmin(axis=0)
    edge = 1000.0 * boat.opening.half_width_m(boat.sections.x_m[rows])
    assert np.abs(skin[:, -1, 1] - edge).max() <= 0.6
    opening, coaming = boat.opening, np.array(data["coaming"])
    ends = 1000.0 * np.array([opening.front_x_m, opening.back_x_m])
    assert coaming[[0, -1], 0, 0] == pytest.approx(ends, abs=0.5)
    for column, heights in enumerate((opening.deck_z_m, opening.rim_z_m)):
        along = np.interp(coaming[1:-1, 0, 0], ends, 1000.0 * np.array(heights))
        assert np.abs(coaming[1:-1, column, 2] - along).max() <= 1.0
    inside = np.isin(skin[:, -1, 0], coaming[1:-1, 0, 0])
    assert (skin[inside, -1, 2] == coaming[1:-1, 0, 2]).all()


def test_base_is_shown_with_its_middle_on_the_boats(base_lines):
    lines = base_lines["day-boat"]
    base, boat = scaled_boat(lines, Scaling()), scaled_boat(lines, Scaling(length=1.05))
    assert not kinds(turning_data(boat), "base")
    bottom, gunwale = kinds(turning_data(boat, base), "base")
    ends = bottom[[0, -1], 0]
    assert ends.mean() == pytest.approx(500.0 * boat.length_m, abs=1.0)
    assert np.ptp(ends) == pytest.approx(1000.0 * base.length_m, abs=1.0)
    assert 2 * gunwale[:, 1].max() == pytest.approx(1000.0 * base.beam_m, abs=1.0)
