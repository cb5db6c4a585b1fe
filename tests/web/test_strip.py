"""The strip above every page tells one boat: its sizes, freeboard and verdict."""

import pytest
from app_screen import (
    clicked,
    drafted,
    engine_job,
    measured,
    of,
    opened,
    ran,
    strip,
    turned_to,
)
from test_dry_fit_page import fitted_on, frozen
from test_keeping import key_of

from sizer.built.asked import asked_of, measured_of
from sizer.built.dry_fit import dry_fit
from sizer.built.points import points_of
from sizer.units import length_text

pytestmark = pytest.mark.usefixtures("book")


@pytest.fixture(scope="module")
def fitted():
    return engine_job(measured())


@pytest.fixture(scope="module")
def asked(fitted):
    return asked_of(points_of(fitted.fitted.assessed.boat), fitted.setting_up)


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
    built = dry_fit(fitted, measured_of(asked, typed, fitted.setting_up.baseline_height_m),
                    0.002).built.assessed
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
