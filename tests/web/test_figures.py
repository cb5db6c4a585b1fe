"""Typed figures: what is allowed is told in the forms of their unit."""

import pytest

from sizer.as_typed import parse_length_mm
from sizer.web.draft import Draft
from sizer.web.figures import limits_text


@pytest.mark.parametrize(("low", "high"), [(1250.0, 2200.0), (500.2, 725.5), (0.2, 20.0),
                                           (0.0, 60.0), (25.4, 1219.2)])
def test_limits_in_inches_are_fractions_inside_what_is_allowed(low, high):
    """Each can be typed as it is told, and is as near to the limit as a sixteenth."""
    told = limits_text(low, high, "in")
    least, most = (parse_length_mm(end, "in", "end") for end in told.split(" to "))
    assert "." not in told
    assert low <= least <= low + 25.4 / 16 + 1e-9
    assert high - 25.4 / 16 - 1e-9 <= most <= high


@pytest.mark.parametrize(("low", "high", "unit", "words"), [
    (500.2, 725.5, "mm", "500.2 to 725.5 mm"), (500.0, 726.0, "cm", "50 to 72.6 cm"),
    (30.0, 200.0, "kg", "30 to 200 kg"), (30.0, 200.0, "st", "4 st 10.1 to 31 st 6.9"),
    (-80.0, 80.0, "in", "-3 1/8 to 3 1/8 in"), (1250.0, 2200.0, "in",
                                                "4 ft 1 1/4 to 7 ft 2 9/16 in")])
def test_limits_are_told_in_the_forms_of_the_unit(low, high, unit, words):
    assert limits_text(low, high, unit) == words


def test_a_height_that_nobody_has_is_asked_about_in_feet_and_inches():
    fault = Draft(length_unit="in").enter("stature_mm", "9").entries.stature_mm.fault
    assert fault == "9: 4 ft 1 1/4 to 7 ft 2 9/16 in is allowed; measure again"
