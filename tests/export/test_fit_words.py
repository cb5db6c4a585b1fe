"""Checks in words: both sides of every window, and what mends a miss."""

import re
from types import SimpleNamespace

import numpy as np
import pytest

from sizer.export.fit_words import (
    check_words,
    gave_way_words,
    padding_words,
    sought_rows,
    window_words,
)
from sizer.fit.check import Check
from sizer.fit.check_figures import WRITTEN, miss_words, value_words
from sizer.fit.checks import BY_KEY
from sizer.fit.facts import room_left
from sizer.fit.sought import AIMS, Sought
from sizer.units import at_least_text

OPEN = np.inf


def check_of(key, value, *window):
    return Check(BY_KEY[key], value, window)


@pytest.mark.parametrize(("check", "words"), [
    (check_of("freeboard", 0.15, 0.11, 0.115, 0.17, OPEN), "115 to 170 mm; fails under 110 mm"),
    (check_of("legs", 0.02, 0.005, -OPEN, OPEN, OPEN), "at least 5 mm"),
    (check_of("trim", 0.1, -OPEN, -OPEN, 0.5, 1.0), "at most 0.5°; fails over 1.0°"),
    (check_of("lines", 0.0, -OPEN, -0.02, 0.025, OPEN), "-20 to 25 mm"),
    (check_of("hips", 0.5, 0.4, -OPEN, 0.55, OPEN), "400 to 550 mm"),
    (check_of("load", 0.25, 0.17, 0.2, 0.33, OPEN), "20 to 33 %; fails under 17 %"),
    (check_of("suits", 1.0, -OPEN, 1.0, OPEN, OPEN), "yes"),
    (check_of("reserve", 50.0, 15.0, 19.7, OPEN, OPEN), "at least 19.7 kg; fails under 15.0 kg"),
    (check_of("knock", 0.05, -OPEN, 0.039, OPEN, OPEN), "at least 39 mm of lift"),
    (check_of("bend", 90.0, 60.0, 75.0, OPEN, OPEN),
     "at least 75 thicknesses; fails under 60 thicknesses"),
    (check_of("factor-beam", 1.0, 0.84, -OPEN, OPEN, 1.22), "84.0 to 122.0 %"),
])
def test_windows_are_told_from_side_to_side(check, words):
    assert window_words(check) == words


def test_two_sides_that_read_alike_in_sixteenths_are_told_in_thirty_seconds():
    """12.0 mm are 15/32 in, 12.6 mm nearest to 1/2: neither is less than 7/16, both at most 1/2."""
    near = check_of("seat-clear", 0.020, 0.0120, 0.0126, OPEN, OPEN)
    assert window_words(near, "in") == "at least 1/2 in; fails under 15/32 in"


def test_a_limit_in_inches_is_the_strict_one_of_every_paper():
    """110 mm are 4.33 in: 4 5/16 would be less, 4 3/8 is what the launch sheet says; 120 mm are
    4.72. An upper one is never more."""
    side = check_of("freeboard", 0.15, 0.11, 0.12, OPEN, OPEN)
    assert window_words(side, "in") == "at least 4 3/4 in; fails under 4 3/8 in"
    assert at_least_text(110.0) == "110 mm (4 3/8 in)"
    high = check_of("freeboard", 0.15, -OPEN, -OPEN, OPEN, 0.17)  # 6.69 in
    assert window_words(high, "in") == "at most 6 11/16 in"


def test_two_sides_that_differ_are_told_so():
    apart = check_of("seat-clear", 0.020, 0.0127, 0.0254, OPEN, OPEN)
    assert window_words(apart, "in") == "at least 1 in; fails under 1/2 in"


def test_values_carry_their_unit_and_no_minus_nought():
    assert value_words(check_of("lines", -0.0002, -OPEN, -0.02, 0.025, OPEN)) == "0 mm"
    assert value_words(check_of("suits", 0.0, -OPEN, 1.0, OPEN, OPEN)) == "no"


def test_a_miss_by_a_hair_is_never_told_as_its_limit():
    short = check_of("hips", 0.3998, 0.40, -OPEN, 0.45, OPEN)
    assert value_words(short) == "399.8 mm (0.2 mm under 400.0 mm)"
    assert value_words(check_of("hips", 0.4502, 0.40, -OPEN, 0.45, OPEN)) == (
        "450.2 mm (0.2 mm over 450.0 mm)")
    assert value_words(short, "in") == "15 3/4 in (less than 1/16 in under)"
    assert value_words(short, "cm") == "39.98 cm (0.02 cm under 40.00 cm)"
    assert value_words(check_of("hips", 0.39, 0.40, -OPEN, 0.45, OPEN)) == "390 mm"


@pytest.mark.parametrize(("check", "lengths", "words"), [
    (check_of("load", 0.1907, 0.17, 0.20, 0.33, OPEN), "mm",
     "load as a share of the hull: 19 %, at least 20 % wanted"),
    (check_of("together", 79.7, -OPEN, 80.0, OPEN, OPEN), "mm",
     "chance of meeting all limits at once: 79.7 of 100, at least 80.0 of 100 wanted"),
    (check_of("load", 0.196, 0.17, 0.20, 0.33, OPEN), "in",
     "load as a share of the hull: 19.6 %, at least 20.0 % wanted"),
    (check_of("load", 0.19998, 0.17, 0.20, 0.33, OPEN), None,
     "load as a share of the hull: 19.998 %, at least 20.000 % wanted"),
    (check_of("gm", 0.0621, 0.05, 0.0623, 0.12, OPEN), "mm",  # 62 mm by itself would read as met
     "initial steadiness (GM): 62.1 mm, at least 62.3 mm wanted"),
    (check_of("gm", 0.0621, 0.05, 0.0623, 0.12, OPEN), "in",
     "initial steadiness (GM): 2 7/16 in (less than 1/16 in under), at least 2 7/16 in wanted"),
    (Check(BY_KEY["sawn"], 0.0, (1.0, 1.0, OPEN, OPEN), "stern stem, tail: 48 mm, at least 50"),
     "mm", "plywood parts sound as sawn: no, stern stem, tail: 48 mm, at least 50"),
    (Check(BY_KEY["fair"], 0.014, (-OPEN, -OPEN, 0.003, 0.006), "keel, F4: bump in height"), "mm",
     "worst hollow or bump of a stick, keel, F4: bump in height: 14 mm, at most 6 mm needed"),
    (check_of("knock", 0.0254, -OPEN, 0.0381, OPEN, OPEN), "in",
     "knock taken upright: 1 in of lift, at least 1 1/2 in of lift wanted"),
    (check_of("reserve", 14.0, 15.0, 19.7, OPEN, OPEN), "in",
     "load reserve: 14 kg (31 lb), at least 15 kg (33 lb) needed"),
    (check_of("reserve", 14.98, 15.0, 19.7, OPEN, OPEN), "in",
     "load reserve: 15 kg (33 lb) (0.02 kg under), at least 15 kg (33 lb) needed")])
def test_a_miss_in_a_line_says_figure_and_limit_and_where(check, lengths, words):
    assert miss_words(check, lengths) == words


def test_every_unit_of_a_check_and_of_what_is_sought_is_written_for_people():
    assert {one.unit for one in (*BY_KEY.values(), *AIMS)} - {"of 1"} == set(WRITTEN)


def test_lift_is_the_work_under_the_righting_arm():
    """A weight that hangs 300 mm under a point has the righting arm 300 sin(heel), and rises by
    300 (1 - cos(heel)) as it is heeled."""
    heel = np.linspace(0.0, 0.5, 2001)
    area_mm_rad = 1000.0 * np.trapezoid(0.3 * np.sin(heel), heel)
    lift = value_words(check_of("knock", area_mm_rad / 1000.0, -OPEN, -OPEN, OPEN, OPEN))
    assert lift == f"{300.0 * (1.0 - np.cos(0.5)):.0f} mm of lift"


def test_a_miss_is_told_with_what_mends_it():
    loose = check_words(check_of("hips", 0.48, 0.40, -OPEN, 0.45, OPEN))
    assert "wanted 400 to 450 mm (caution)" in loose
    assert loose.endswith("What mends it: take up 40 mm (1 9/16 in) a side of the hips, "
                          "board and foam together, or take a smaller base.")
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


def test_what_is_off_is_the_difference_of_the_figures_beside_it():
    """0.4 and 1.6 mm are written 0 and 2, and 2 mm apart, though they are 1.2."""
    fitted = SimpleNamespace(sought=(Sought({aim.key: aim for aim in AIMS}["lines"], 0.0016,
                                            0.0004),))
    (_, wanted, reached, off, _), = sought_rows(fitted)
    assert (wanted, reached, off) == ("0 mm", "2 mm", "2 mm")
    assert "off by 2 mm, where 3 mm count" in gave_way_words(fitted)


def test_what_is_off_by_a_hair_less_than_counts_is_not_told_as_that():
    assert "off by a hair less, where 20 mm count" in gave_way_words(fitted_of(thigh_room=0.0197))


@pytest.mark.parametrize("base", ["day-boat", "long-tourer", "small-cruiser"])
def test_foam_is_told_as_thick_as_the_plans_have_it_and_never_as_the_room(
        base, middle_job, middle_bench):
    """What an owner reads is what is bought; with its board it fills the hips' room."""
    job, bench = middle_job(base), middle_bench(base)
    said, left = padding_words(job.fitted.assessed, bench), room_left(job.fitted.assessed)
    bought = {word: [item.size_m[0] for item in bench.materials.items if word in item.what]
              for word in ("foam hip pad", "foam pad of a thigh brace", "board of a hip pad")}
    told = [int(one) for one in re.findall(r"at most (\d+) mm", said)]
    foam = [*bought["foam hip pad"], *bought["foam pad of a thigh brace"]]
    assert told == [round(1000.0 * one) for one in foam]
    if bought["foam hip pad"]:
        both = bought["foam hip pad"][0] + bought["board of a hip pad"][0]
        room = left["hips_each_side"]  # by where any hull's spacers stand: sawn, a little off
        leaning = float(re.search(r"(\d+) mm \([^)]*\) each side of the hips", said)[1])
        assert both < leaning / 1000.0 + 0.001
        assert room - 0.008 < both < room + 0.001
    for thick in bought["foam pad of a thigh brace"]:
        assert thick < left["thighs"] - bench.frames[0].thickness_m, "a board and a flat hand"
