"""The sliders beside the boat: each moves and holds what it says and nothing else."""

import re

import pytest
from app_screen import engine_job, opened
from playwright.sync_api import expect
from screens import press, settled
from streamlit.testing.v1 import AppTest

from sizer.units import plain
from sizer.web.history import History

SIZES = ("Length", "Beam", "Depth", "Cockpit length", "Cockpit width", "Seat", "Foredeck crown")
WISHES = ("Room inside", "Steadiness", "Length for the load")
HELD = "— held"


def boat_page():
    """The page alone, with the sample paddler in it."""
    from sizer.web.steps import boat

    boat.page()


@pytest.fixture
def screen(book, no_remedies):
    return AppTest.from_function(boat_page, default_timeout=600).run()


def slider(screen, label):
    return next(one for one in screen.slider if one.label.startswith(f"{label},"))


def wish(screen, label):
    return next(one for one in screen.select_slider if one.label == label)


def held(screen):
    return [one.label.split(",")[0] for one in screen.slider if one.label.endswith(HELD)]


def drafted(screen):
    return screen.session_state["mine"]["history"].present


def places(screen):
    return {one.label.split(",")[0]: one.value for one in screen.slider}


def engine_boat(screen):
    """The engine's own answer to what the draft asks."""
    return engine_job(drafted(screen)).fitted.assessed.boat


def test_a_held_size_leaves_the_others_as_fitted_and_is_let_go_by_itself(screen):
    before = places(screen)
    moved = slider(screen, "Beam")
    moved.set_value(moved.value + 9.0).run()
    slider(screen, "Depth").set_value(before["Depth"] - 4.0).run()
    assert held(screen) == ["Beam", "Depth"]
    now = before | {"Beam": before["Beam"] + 9.0, "Depth": before["Depth"] - 4.0}
    assert places(screen) == now
    screen.button(key="release_beam_mm").click().run()
    assert held(screen) == ["Depth"]
    assert places(screen) == before | {"Depth": before["Depth"] - 4.0}
    assert drafted(screen).request()["fixed"].keys() == {"depth_mm"}


def test_the_others_follow_where_they_are_asked_to(screen):
    before = places(screen)
    slider(screen, "Beam").set_value(before["Beam"] - 25.0).run()
    assert not screen.exception
    screen.toggle[0].set_value(True).run()
    assert held(screen) == ["Beam"]
    after, boat = places(screen), engine_boat(screen)
    assert drafted(screen).request()["follow"] is True
    assert after["Length"] == pytest.approx(1000.0 * boat.length_m, abs=0.5)
    assert abs(after["Length"] - before["Length"]) > 1.0
    screen.button(key="release_beam_mm").click().run()
    assert places(screen) == before
    assert drafted(screen).follow is False  # the next that is held moves nothing unasked


def test_each_place_of_a_wish_is_a_step_that_undo_takes_back(no_remedies):
    screen = opened("boat")
    for place in ("roomy", "snug"):
        wish(screen, "Room inside").set_value(place).run()
    for before in ("roomy", "as drawn"):
        next(one for one in screen.button if one.label == "Undo").click().run()
        assert wish(screen, "Room inside").value == before


def test_a_wish_moves_the_boat_and_is_part_of_the_request(screen):
    before = places(screen)
    wish(screen, "Length for the load").set_value("faster").run()
    assert drafted(screen).request()["wishes"] == {"length": 0.5}
    assert held(screen) == []
    boat = engine_boat(screen)
    assert places(screen)["Length"] == pytest.approx(1000.0 * boat.length_m, abs=0.5)
    assert places(screen)["Length"] > before["Length"] + 20.0
    wish(screen, "Length for the load").set_value("as drawn").run()
    assert "wishes" not in drafted(screen).request()
    assert places(screen) == before


def test_a_wish_that_nothing_leaves_room_for_says_how_far_a_size_goes_by_hand(screen):
    vain = "this wish moves nothing"
    wish(screen, "Steadiness").set_value("lively").run()
    told, = (plain(one.value) for one in screen.markdown if vain in one.value)
    assert told.startswith('<p class="sz-why">Steadiness: this wish moves nothing: what else is '
                           "sought of this boat weighs more than a wish. ")
    last = float(re.search(r"Held by hand, beam (\d+) mm still passes every check", told)[1])
    stop = re.search(r"past it: ([^:]+): ", told)[1]
    beam = slider(screen, "Beam")
    for held_mm, status in ((last, "pass"), (last - 1.0, "caution")):
        beam.set_value(held_mm).run()
        job = engine_job(drafted(screen))
        assert job.fitted.status == status
        beam = slider(screen, "Beam")
    assert stop in {check.name for check in job.fitted.checks if check.status != "pass"}
    screen.button(key="release_beam_mm").click().run()
    screen.session_state["mine"]["history"] = History(drafted(screen).but(use="coastal-day"))
    wish(screen, "Steadiness").set_value("livelier").run()
    assert not any(vain in one.value for one in screen.markdown)


@pytest.mark.parametrize("label", SIZES)
def test_every_size_is_held_by_its_own_slider_and_let_go_again(screen, label):
    before = places(screen)
    moved = slider(screen, label)
    moved.set_value(moved.value - moved.step).run()
    assert held(screen) == [label]
    assert places(screen) == pytest.approx(before | {label: before[label] - moved.step}, abs=1.0)
    next(one for one in screen.button if one.label == "Let go").click().run()
    assert held(screen) == []
    assert places(screen) == before


def test_keys_pressed_fast_hold_one_size_only_also_while_the_others_follow(open_page):
    """In the end the fit moves every other slider while the browser still tells their old places.
    """
    page = open_page(path="boat")
    seat = page.get_by_role("slider", name=re.compile("^Seat,"))  # all do so, by the test before
    start = float(seat.input_value())
    for _ in range(6):
        seat.press("ArrowLeft")
    expect(page.get_by_role("slider", name=re.compile(f"^Seat,.*{HELD}"))).to_be_visible()
    settled(page)
    assert float(seat.input_value()) < start
    assert page.get_by_role("slider", name=re.compile(HELD)).count() == 1
    expect(seat).to_be_focused()
    press(page, "Let go")
    expect(page.get_by_role("slider", name=re.compile(HELD))).to_have_count(0)
    assert float(seat.input_value()) == start

    length = page.get_by_role("slider", name=re.compile("^Length,"))
    start = float(length.input_value())
    for label in ("Depth", "Beam"):
        page.get_by_role("slider", name=re.compile(f"^{label},")).press("ArrowLeft")
        expect(page.get_by_role("slider", name=re.compile(f"^{label},.*{HELD}"))).to_be_visible()
        settled(page)
    page.get_by_role("button", name="Let go").and_(
        page.locator(".st-key-release_depth_mm button")).click()
    expect(page.get_by_role("slider", name=re.compile(HELD))).to_have_count(1)
    beam = page.get_by_role("slider", name=re.compile(f"^Beam,.*{HELD}"))
    expect(beam).to_be_visible()
    settled(page)
    page.get_by_text("Let the other sizes follow").click()
    settled(page)
    for _ in range(2):
        for _ in range(10):
            beam.press("ArrowLeft")
        settled(page)
    expect(page.get_by_role("slider", name=re.compile(HELD))).to_have_count(1)
    expect(beam).to_be_focused()
    assert abs(float(length.input_value()) - start) > 3.0
    press(page, "Let go")
    expect(page.get_by_role("slider", name=re.compile(HELD))).to_have_count(0)
    assert float(length.input_value()) == start


def typed(screen, label):
    return next(one for one in screen.text_input if one.label.startswith(f"{label}, typed"))


def test_a_typed_size_is_read_in_any_form_and_holds_that_size_alone(screen):
    before = places(screen)
    typed(screen, "Beam").set_value("2 ft 1/2").run()  # 24 1/2 in, where mm are the shop's unit
    assert drafted(screen).request()["fixed"] == {"beam_mm": pytest.approx(622.3, abs=1e-9)}
    assert typed(screen, "Beam").value == "2 ft 1/2"
    assert held(screen) == ["Beam"]
    assert places(screen) == before | {"Beam": 622.0}
    slider(screen, "Beam").set_value(630.0).run()
    assert typed(screen, "Beam").value == "630"
    typed(screen, "Depth").set_value("24.4 cm").run()
    assert held(screen) == ["Beam", "Depth"]
    screen.button(key="release_beam_mm").click().run()
    assert held(screen) == ["Depth"]
    assert typed(screen, "Beam").value == f"{before['Beam']:.0f}"
    assert not screen.exception


def test_a_typed_size_that_the_base_does_not_allow_moves_nothing_and_says_so(screen):
    before = places(screen)
    for text, words in (("9000", "mm is allowed here"), ("wide", "write a length such as")):
        typed(screen, "Beam").set_value(text).run()
        assert typed(screen, "Beam").value == text
        assert sum(words in one.value for one in screen.markdown) == 1
        assert (held(screen), places(screen)) == ([], before)
    slider(screen, "Beam").set_value(before["Beam"] + 1.0).run()
    assert not any("sz-fault" in one.value for one in screen.markdown)


@pytest.mark.parametrize("unit", ["mm", "cm", "in"])
def test_what_is_allowed_is_told_as_the_slider_ends(screen, unit):
    screen.session_state["mine"]["history"] = History(drafted(screen).in_units(unit, "kg"))
    screen.run()
    for label in ("Length", "Beam", "Cockpit length"):
        typed(screen, label).set_value("9000 mm").run()
        said = next(told for one in screen.markdown if "9000 mm: " in (told := plain(one.value)))
        least, most = re.search(rf"9000 mm: (.*) to (.*) {unit} is allowed here", said).groups()
        if unit == "in":
            moved = next(one for one in screen.select_slider if one.label.startswith(f"{label},"))
            assert (least, most) == (moved.options[0], moved.options[-1])
        else:
            moved = slider(screen, label)
            assert (float(least), float(most)) == pytest.approx((moved.min, moved.max))
        typed(screen, label).set_value("").run()
    if unit == "in":
        length = next(one for one in screen.select_slider if one.label.startswith("Length,"))
        assert length.value == typed(screen, "Length").value  # both in feet and inches
        assert " ft " in length.value


def test_speed_gear_and_crown_are_typed_in_the_forms_of_their_trade(screen):
    typed(screen, "Speed").set_value("4 mph").run()
    assert drafted(screen).speed_mps == pytest.approx(4 * 1609.344 / 3600)
    typed(screen, "Gear").set_value("22 lb").run()
    assert drafted(screen).entries.gear_kg.value == pytest.approx(22 * 0.45359237, abs=0.05)
    typed(screen, "Foredeck crown").set_value("95 %").run()
    assert drafted(screen).request()["fixed"] == {"deck_crown": pytest.approx(0.95)}


def test_inches_are_moved_in_sixteenths_and_hold_what_they_say(screen):
    """24 5/16 in is 617.5375 mm, and one step more is a sixteenth more."""
    screen.session_state["mine"]["history"] = History(drafted(screen).in_units("in", "lb"))
    screen.run()
    beam = next(one for one in screen.select_slider if one.label.startswith("Beam, in"))
    places = beam.options
    assert beam.value in places
    assert {len(place.split()) for place in places} == {1, 2}
    wanted = places[places.index("24 5/16") + 1]
    assert wanted == "24 3/8"
    beam.set_value(wanted).run()
    assert drafted(screen).request()["fixed"] == {"beam_mm": pytest.approx(619.125, abs=1e-9)}
    held_one = next(one for one in screen.select_slider if one.label.startswith("Beam, in"))
    assert (held_one.value, held_one.label) == ("24 3/8", f"Beam, in {HELD}")
