"""Lengths in the notes of what is bought and in the words of the pads: in mm and in inches."""

import re

import pytest

from sizer.export.fit_words import padding_words

FIGURE = r"(?:(\d+)' )?(?:(\d+) )?(?:(\d+)/(\d+))?(\d+)?\""
CALIPER = r"(?:[\d.]+ to )?(0\.\d+) in"  # the larger of two, as the mm that stand before it
LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm\b(?! x)(?: \(([^)]*)\))?")


def inches(text):
    """What a figure such as 3' 5 7/8" says, in inches."""
    if fine := re.fullmatch(CALIPER, text):
        return float(fine[1])
    feet, whole, top, bottom, plain = (
        int(part) if part else 0 for part in re.fullmatch(FIGURE, text).groups())
    return 12 * feet + whole + plain + (top / bottom if bottom else 0)


def said(job, bench):
    yield from (item.allowance for item in bench.materials.items)
    yield padding_words(job.fitted.assessed, bench)


@pytest.mark.parametrize("base", ["day-boat", "load-carrier", "long-tourer", "surf-runner"])
def test_every_length_is_told_in_inches_too_and_they_are_the_same(base, middle_job, middle_bench):
    """To half of a sixteenth, and half a millimetre of rounding."""
    found = 0
    for text in said(middle_job(base), middle_bench(base)):
        for mm, beside in LENGTH.findall(text):
            assert beside, text
            assert abs(inches(beside.split(" x ")[-1]) - float(mm) / 25.4) < 1 / 32 + 0.52 / 25.4
            found += 1
    assert found > 20
