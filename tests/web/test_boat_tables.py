"""The boat page's tables say what the engine says: both sides, worst first, sought and reached."""

import re
from html import unescape

import pytest
from app_screen import engine_job
from streamlit.testing.v1 import AppTest

from sizer.export.fit_words import gave_way
from sizer.fit.facts import facts_of, room_left
from sizer.web.draft import Draft
from sizer.web.history import History

pytestmark = pytest.mark.usefixtures("no_remedies")

LIGHT = {"weight_kg": "52", "stature_mm": "1600", "hip_width_mm": "355"}


def boat_page():
    """The page alone."""
    from sizer.web.steps import boat

    boat.page()


def choose_page():
    """The page alone."""
    from sizer.web.steps import choose

    choose.page()


def drafted(base="day-boat", use="sheltered-day", held=(), unit="mm"):
    one = Draft(base=base, use=use, held=dict(held))
    for key, text in LIGHT.items():
        one = one.enter(key, text)
    return one.in_units(unit, "kg")


def shown(page, one):
    screen = AppTest.from_function(page, default_timeout=600)
    screen.session_state["mine"] = {"history": History(one)}
    screen.run()
    assert not screen.exception
    return screen


def tables(screen):
    """Rows of every table, each a list of plain texts, by the heading of its first column."""
    found = {}
    for one in screen.markdown:
        if "<table" in one.value:
            head, *rows = re.findall(r"<tr>(.*?)</tr>", one.value)
            key = plain(re.findall(r"<th.*?>(.*?)</th>", head)[0])
            found.setdefault(key, []).append(
                [[plain(cell) for cell in re.findall(r"<td.*?>(.*?)</td>", row)] for row in rows])
    return found


def plain(html):
    html = re.sub(r"<title>.*?</title>", "", html)
    return unescape(re.sub(r"<.*?>", "", html)).replace("\xa0", " ").strip()


@pytest.fixture(scope="module")
def large():
    """A small paddler in a boat held at sizes for a large one."""
    return drafted(held={"length_mm": 5100.0, "beam_mm": 690.0, "depth_mm": 285.0})


@pytest.fixture(scope="module")
def fitted(large):
    return engine_job(large).fitted


def wrongs(screen):
    """What is wrong, in order: each a plain text."""
    listed = [one.value for one in screen.markdown if "sz-wrongs" in one.value]
    return [re.sub(r"\s+", " ", plain(item)) for one in listed
            for item in re.findall(r"<li.*?<div>(.*?)</li>", one)]


def test_what_is_wrong_stands_under_the_sliders_with_its_side_and_its_remedy(large, fitted):
    screen = shown(boat_page, large)
    passing, = tables(screen)["Check"]
    worst_first = sorted((check for check in fitted.checks if check.status != "pass"),
                         key=lambda check: check.status != "fail")
    assert {check.too for check in worst_first} >= {"large"}
    found = wrongs(screen)
    for said, check in zip(found, worst_first, strict=True):
        word = {"fail": "does not pass", "caution": "caution"}[check.status]
        assert said.startswith(f"{check.name} {word}")
        side = "" if check.key == "sawn" else f"Too {check.too}. "
        assert f"{side}What mends it: {check.remedy}." in said  # what is held: tried, below
        assert said.endswith(f"Source{check.source[:1].upper()}{check.source[1:]}")
    assert sorted(row[0] for row in passing) == sorted(
        check.name for check in fitted.checks if check.status == "pass")
    assert not any("What mends it" in row[-1] for row in passing)
    order = [next(at for at, one in enumerate(screen.markdown) if words in one.value)
             for words in ("Aboard and under way", "sz-wrongs", "footbrace, ahead")]
    assert order == sorted(order)  # under what is moved, before any closer look


def test_a_window_is_told_whole(large, fitted):
    screen = shown(boat_page, large)
    rows = {row[0]: row for table in tables(screen)["Check"] for row in table}
    check = fitted.check("freeboard")
    fails, wanted, most, _ = check.window
    words = f"{wanted:.0f} mm to {most:.0f} mm; fails under {fails:.0f} mm"
    assert any(check.name in said and words in said for said in wrongs(screen)) or (
        rows[check.name][3] == words)
    assert rows["base suits the use"][2:4] == ["yes", "yes"]


def test_sought_and_reached_are_the_engines_and_what_gave_way_is_marked(large, fitted):
    rows, = tables(shown(boat_page, large))["What is sought"]
    assert [row[0].lower() for row in rows] == [
        one.aim.title.lower() for one in fitted.sought]
    for row, one in zip(rows, fitted.sought, strict=True):
        figure, per, digits = (("{:.2f}", 1.0, 2) if one.aim.unit == "times"
                               else ("{:.0f} mm", 1000.0, 0))
        assert row[1:4] == [figure.format(round(per * value, digits) + 0.0)
                            for value in (one.wanted, one.value, one.aim.scale)]
    assert [row[0].lower() for row in rows if row[4]] == [
        title.lower() for title in gave_way(fitted)]
    assert gave_way(fitted)


def test_room_left_and_seat_are_told_in_the_units_of_the_screen(fitted):
    held = {"length_mm": 5100.0, "beam_mm": 690.0, "depth_mm": 285.0}
    screen = shown(boat_page, drafted(held=held, unit="cm"))
    said = next(plain(one.value) for one in screen.markdown if "Room left:" in one.value)
    left = room_left(facts_of(fitted.assessed))
    assert f"{100.0 * left['hips_each_side']:.1f} cm each side of the hips" in said
    assert "Seat: plywood on keel and lower chine" in said
    assert f"its top {100.0 * fitted.assessed.boat.seat_z_m:.1f} cm" in said


def test_a_base_card_says_for_whom_it_was_drawn_what_it_suits_and_why_not(base_lines):
    screen = shown(choose_page, drafted("day-boat", "camp-touring"))
    cards = [plain(one.value) for one in screen.markdown if "Drawn for" in one.value]
    assert len(cards) == len(base_lines)
    for lines, card in zip((base_lines[name] for name in sorted(base_lines)), cards, strict=True):
        design = lines.design
        assert card.startswith(f"{design.name} — {design.character}. Drawn for "
                               f"{design.drawn_for.weight_kg:.1f} kg")
        assert "Suits " in card
    own = [plain(one.value) for one in screen.markdown if "For this paddler:" in one.value]
    assert len(own) == len(base_lines)
    short = own[sorted(base_lines).index("day-boat")]
    # the worst is told first, and legs may outweigh that the base does not suit the use
    assert any(why in short for why in ("little room in the ends for camping gear",
                                        "does not pass", "legs clear of the frames"))


def test_what_of_a_wish_gave_way_is_told_beside_it():
    """Roomy for a small paddler: the hips' room that was sought, and what came of it."""
    one = drafted().wish("room", 1.0)
    fitted = engine_job(one).fitted
    short = [each for each in fitted.sought
             if each.aim.wish == "room" and each.aim.title in gave_way(fitted)]
    assert short
    told, = [plain(each.value) for each in shown(boat_page, one).markdown
             if "gave way" in each.value and "Room inside:" in each.value]
    for each in short:
        assert (f"{each.aim.title} (sought {1000.0 * each.wanted:.0f} mm, "
                f"reached {1000.0 * each.value:.0f} mm)") in told
    assert not any("Room inside:" in each.value for each in shown(boat_page, drafted()).markdown)
