"""The boat page names remedies that were tried, and one tap follows them."""

import re
from dataclasses import replace

import pytest
from app_screen import (
    clicked,
    drafted,
    engine_job,
    engine_remedies,
    measured,
    of,
    opened,
    plain,
    said,
    strip,
    turned_to,
)

from sizer.design.library import shipped_text
from sizer.design.read import read_design
from sizer.design.write import design_toml
from sizer.web.workbench import sheet_with, table_of


def heavy():
    return measured({"weight_kg": "85", "stature_mm": "1780", "hip_width_mm": "400",
                     "gear_kg": "150"})


@pytest.fixture(scope="module")
def found():
    return engine_remedies(heavy(), engine_job(heavy()))


def offers_of(screen, whole=False):
    """What each remedy says, in order; with what it brings where it is asked for `whole`."""
    said_whole = [" ".join(plain(text.value).split()) for text in screen.markdown
                  if " — <span" in text.value]
    return said_whole if whole else [one.partition(" — ")[0] for one in said_whole]


def test_remedies_are_the_engines_and_doing_one_brings_what_it_promises(found):
    screen = opened("boat", heavy())
    assert "does not pass" in strip(screen)
    for remedy in found:
        assert remedy.words in said(screen)
    assert found[0].status == "pass"
    screen = clicked(screen, "mend_0", by_key=True)
    assert "passes" in strip(screen)
    assert drafted(screen).request()["gear_kg"] == found[0].request.trip.gear_kg
    assert "What mends it" not in said(screen)


def test_a_remedy_that_redraws_the_boat_says_which_boat_that_is_in_the_jobs_units():
    """As the bar has it once that is done; of a use's own gear too, of which nothing was typed."""
    one = measured({"weight_kg": "180 lb", "stature_mm": "6 ft 1 in", "hip_width_mm": "16 in"},
                   base="long-tourer", use="camp-touring", length_unit="in", mass_unit="lb")
    screen = opened("boat", one)
    offers = offers_of(screen, whole=True)
    told = next(one for one in offers if "less gear" in one)
    less, then, size, freeboard, before = re.search(
        r"([\d.]+) lb less gear \(then ([\d.]+) lb\) .* The boat is then drawn anew for \2 lb of "
        r"gear, and not checked with more: (.*), freeboard (.*), now (.*)\.$", told).groups()
    assert "kg" not in told
    assert (float(less) + float(then)) * 0.45359237 == pytest.approx(40.0, abs=0.05)
    assert f"freeboard {before} " in strip(screen)
    screen = clicked(screen, f"mend_{offers.index(told)}", by_key=True)
    assert f"{size} freeboard {freeboard} " in strip(screen)


def test_letting_go_leaves_the_other_holds():
    one = measured().hold("beam_mm", 600.0).hold("deck_crown", 1.0)
    screen = opened("boat", one)
    assert "let go of the held beam" in said(screen)
    screen = clicked(screen, f"mend_{offers_of(screen).index('let go of the held beam')}",
                     by_key=True)
    held = drafted(screen).held
    assert held.beam_mm is None
    assert held.deck_crown == 1.0


def test_deeper_sticks_make_the_base_the_builders_own(base_lines):
    """One tap: the design of their own differs in the sticks alone, the notes in it are kept."""
    screen = opened("paddler", measured({"weight_kg": "95", "stature_mm": "1800",
                                         "hip_width_mm": "400"}))
    of(screen.text_input, "Customer's name").set_value("Finch")  # now it is in the book
    screen = turned_to(screen, "boat")
    assert "make the keel 23 mm (15/16 in) deep, not 22 mm (7/8 in)" in said(screen)
    screen = clicked(screen, "mend_0", by_key=True)
    one = drafted(screen)
    assert "passes" in strip(screen)
    assert one.base == "own"
    assert one.own_design.startswith("# Short and handy")
    design, was = read_design(one.own_design, "own"), base_lines["day-boat"].design
    code = re.search(r"\b[A-Z]{2}\d{4}\b", said(screen))[0]  # whose base the next one finds
    assert design.name == one.own_name == f"Short day boat, made for {code}"
    keel = replace(was.stringer("keel"), depth_m=0.023)
    deeper = replace(was, stringers=(keel, *was.stringers[1:]))
    assert design_toml(replace(design, name=was.name)) == design_toml(deeper)


def test_a_table_under_work_is_not_passed_over(base_lines):
    """Where the base is a design still under work, its page is where it is changed."""
    text = shipped_text("day-boat")
    one = measured({"weight_kg": "95", "stature_mm": "1800", "hip_width_mm": "400"}).but(
        base="own", own_design=text, own_name="Short day boat",
        own_table=table_of(sheet_with(base_lines["day-boat"].design, text)))
    screen = opened("boat", one)
    assert "make the keel 23 mm" in said(screen)
    assert [button.label for button in screen.button if button.key == "mend_0"] == [
        "To Own design"]
