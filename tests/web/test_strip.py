"""The strip above every page tells one boat: its sizes, freeboard and verdict."""

import re

import pytest
from app_screen import (
    APP,
    at,
    clicked,
    drafted,
    engine_dry_fit,
    measured,
    of,
    opened,
    plain,
    ran,
    said,
    strip,
    turned_to,
)
from streamlit.testing.v1 import AppTest
from test_dry_fit_page import fitted_on, frozen
from test_keeping import key_of

from sizer.book.jobs import jobs
from sizer.book.summary import size_in
from sizer.units import length_text

pytestmark = pytest.mark.usefixtures("book", "no_remedies")


def accepted_on(screen, book):
    """The screen of a dry fit with its boat issued, and accepted as it stands."""
    screen.text_input[0].set_value(screen.text_input[0].placeholder.removeprefix("designed: "))
    screen = ran(screen)  # in the book from then on
    frozen(book, key_of(screen), drafted(screen))
    screen = clicked(ran(screen), "Accept it")
    assert drafted(screen).dry_fit.accepted
    return screen


def test_what_is_entered_after_an_accepted_dry_fit_is_told_whole(book, asked, fitted):
    """Once another size is entered: as the same job without a dry fit has it, and said to be
    another; undone, the boat that stands is told again."""
    screen = accepted_on(opened("dryfit", fitted_on(asked, off_mm=3.0)), book)
    stands = strip(screen)
    typed = {key: value / 1000.0 for key, value in drafted(screen).dry_fit.values().items()}
    built = engine_dry_fit(fitted, asked, typed).built.assessed
    sizes = " × ".join(length_text(1000.0 * size_m, "mm") for size_m in (
        built.boat.length_m, built.boat.beam_m, built.boat.depth_m))
    freeboard = length_text(1000.0 * built.particulars.freeboard_m, "mm")
    assert f"as it stands: {sizes} freeboard {freeboard} " in stands
    screen = turned_to(screen, "boat")
    wider_mm = 1000.0 * fitted.fitted.assessed.boat.beam_m + 15.0
    of(screen.text_input, "Beam").set_value(f"{wider_mm:.0f}")
    screen = ran(screen)
    name, told = strip(screen).split(" not the boat that was built: ")
    assert f"{name} {told}" == strip(opened("boat", drafted(screen).new_boat()))
    assert f"× {wider_mm:.0f} mm ×" in told
    assert strip(clicked(screen, "Undo")) == stands


def test_the_list_of_jobs_has_the_sizes_of_the_strip_in_every_unit():
    """558.3 mm is nearest to 22 in; 558 mm, its whole millimetres, to 21 15/16."""
    for unit in ("mm", "cm", "in"):
        screen = opened("boat", measured(mark="Ann").in_units(unit, "kg"))
        of(screen.text_input, "Beam").set_value("558.3 mm")
        screen = ran(screen)
        assert (unit != "in") or "× 22 in ×" in strip(screen)
        listed = next(plain(one.value) for one in turned_to(screen, "jobs").markdown
                      if "at hand" in one.value)
        boat = strip(screen).split(" freeboard")[0]  # its name and sizes
        assert " ".join(listed.split()).count(boat) == 1


def test_jobs_of_older_books_are_listed_as_they_were():
    assert size_in("4650 x 560 x 290 mm", "in") == "15 ft 3 1/16 in × 22 1/16 in × 11 7/16 in"
    assert size_in("4650 x 560 x 290", "cm") == "465.0 cm × 56.0 cm × 29.0 cm"
    assert size_in("unknown", "mm") == "unknown"


def ends(text):
    return re.search(r": ([\d/ ft]+?)(?: in)? to ([\d/ ft]+) in is allowed", text).groups()


def test_the_bases_limits_are_the_same_on_boat_and_trade_offs():
    """And a size at its limit, as it is read, may be typed."""
    screen = opened("boat", measured().in_units("in", "lb"))
    of(screen.text_input, "Beam").set_value("99")
    screen = ran(screen)
    low, high = ends(said(screen))
    of(screen.text_input, "Beam").set_value(high)
    screen = ran(screen)
    assert f"× {high} in ×" in strip(screen)
    assert "is allowed" not in said(screen)
    ring = of(turned_to(screen, "trade").select_slider, "Ring: beam")
    assert (ring.options[0], ring.options[-1]) == (f"{low} in", f"{high} in")


def test_each_table_of_the_boat_says_which_load_its_figures_are_of():
    """The day boat is drawn for 8 kg of gear, which is 17.6 lb."""
    told = said(opened("boat", measured().in_units("in", "lb").enter("gear_kg", "22")))
    assert "GM and trim are with this job's 22 lb of gear" in told
    assert ("“With the day's load” is with 18 lb of gear, what its base was drawn for. All other "
            "figures are with this job's 22 lb") in told


def test_the_strip_over_an_own_design_says_whose_boat_it_is():
    assert strip(opened("own")).startswith(
        "The job's boat, not the one drawn here: Short day boat")
    assert strip(opened("boat")).startswith("Short day boat")


@pytest.mark.parametrize("began", ["own", "paddler"])
def test_a_visit_that_begins_on_own_design_makes_no_job_of_the_sample_paddler(book, began):
    screen = AppTest.from_file(APP, default_timeout=600)
    screen.session_state["mine"] = {"go": "own", "view": {"began": began}}
    screen = clicked(ran(screen), "copy_load-carrier", by_key=True)
    (row,) = jobs(book)  # kept, so that a reload has it
    again = turned_to(at(row.key), "own")
    assert drafted(again).own_table.name() == "Load carrier, own copy"
    assert ("No boat yet" in strip(again)) == (began == "own")
    assert drafted(again).sample == (began != "own")
    assert drafted(clicked(screen, "Undo")).sample == (began != "own")
