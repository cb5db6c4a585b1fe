"""Checks in words: both sides of every window, and what mends a miss."""

from types import SimpleNamespace

import numpy as np
import pytest

from sizer.export.fit_words import (
    check_words,
    gave_way_words,
    sought_rows,
    value_words,
    window_words,
)
from sizer.fit.checks import BY_KEY, Check
from sizer.fit.sought import AIMS, Sought

OPEN = np.inf


def check_of(key, value, *window):
    return Check(BY_KEY[key], value, window)


@pytest.mark.parametrize(("check", "words"), [
    (check_of("freeboard", 0.15, 0.11, 0.115, 0.17, OPEN), "115 to 170 mm; fails under 110"),
    (check_of("legs", 0.02, 0.005, -OPEN, OPEN, OPEN), "at least 5 mm"),
    (check_of("trim", 0.1, -OPEN, -OPEN, 0.5, 1.0), "at most 0.5 deg; fails over 1.0"),
    (check_of("lines", 0.0, -OPEN, -0.02, 0.025, OPEN), "-20 to 25 mm"),
    (check_of("hips", 0.5, 0.4, -OPEN, 0.55, OPEN), "400 to 550 mm"),
    (check_of("load", 0.25, 0.17, 0.2, 0.33, OPEN), "0.20 to 0.33 of its volume; fails under 0.17"),
    (check_of("suits", 1.0, -OPEN, 1.0, OPEN, OPEN), "yes"),
    (check_of("factor-beam", 1.0, 0.84, -OPEN, OPEN, 1.22), "0.840 to 1.220 of the base"),
])
def test_windows_are_told_from_side_to_side(check, words):
    assert window_words(check) == words


def test_values_carry_their_unit_and_no_minus_nought():
    assert value_words(check_of("lines", -0.0002, -OPEN, -0.02, 0.025, OPEN)) == "0 mm"
    assert value_words(check_of("suits", 0.0, -OPEN, 1.0, OPEN, OPEN)) == "no"


def test_a_miss_by_a_hair_is_never_told_as_its_limit():
    short = check_of("hips", 0.3998, 0.40, -OPEN, 0.45, OPEN)
    assert value_words(short) == "400 mm (0.2 mm under)"
    assert value_words(check_of("hips", 0.4502, 0.40, -OPEN, 0.45, OPEN)) == (
        "450 mm (0.2 mm over)")
    assert value_words(short, "in") == "15 3/4 in (0.2 mm under)"
    assert value_words(check_of("hips", 0.39, 0.40, -OPEN, 0.45, OPEN)) == "390 mm"


def test_a_miss_is_told_with_what_mends_it():
    loose = check_words(check_of("hips", 0.48, 0.40, -OPEN, 0.45, OPEN))
    assert "wanted 400 to 450 mm (caution)" in loose
    assert loose.endswith("What mends it: pad the hips 40 mm a side, or take a smaller base.")
    tight = check_words(check_of("hips", 0.38, 0.40, -OPEN, 0.45, OPEN))
    assert "(fail)" in tight
    assert tight.endswith("What mends it: a wider boat or base.")
    assert "mends" not in check_words(check_of("hips", 0.42, 0.40, -OPEN, 0.45, OPEN))


def fitted_of(**offs_m):
    """What a fit sought of two quantities, 100 mm of each, and what it reached."""
    aims = {aim.key: aim for aim in AIMS}
    return SimpleNamespace(sought=tuple(Sought(aims[key.replace("_", "-")], 0.1 + off, 0.1)
                                        for key, off in offs_m.items()))


def test_what_is_off_is_told_beside_what_counts():
    """17 mm over the thighs count for less than 5 mm of draft: both scales stand beside it."""
    snug = fitted_of(thigh_room=-0.017, lines=0.001)
    thighs, draft = sought_rows(snug)
    assert thighs[1:] == ("100 mm", "83 mm", "-17 mm", "20 mm")
    assert draft[1:] == ("100 mm", "101 mm", "1 mm", "3 mm")
    words = gave_way_words(snug)
    assert words.startswith("Nothing gave way")
    assert "room over the thighs: off by 17 mm, where 20 mm count" in words
    assert "felt" not in words
    words = gave_way_words(fitted_of(thigh_room=-0.017, lines=-0.005))
    assert words.endswith("or more: day-load draft over the drawn line.")


def test_what_is_off_by_a_hair_less_than_counts_is_not_told_as_that():
    assert "off by a hair less, where 20 mm count" in gave_way_words(fitted_of(thigh_room=0.0197))
