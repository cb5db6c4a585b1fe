"""What is read a second time, as the tape says it: a breadth across whole, all else as it is."""

import pytest

from sizer.built.as_built import Along
from sizer.built.measures import Reach
from sizer.built.read_twice import is_far, read_twice

HALF_IN_M = 0.0127


def test_more_than_six_millimetres_and_three_spreads_of_the_tape_are_read_twice():
    assert not is_far(0.0059, 0.002)
    assert is_far(0.0061, 0.002)
    assert is_far(-0.0061, 0.0002)  # a fine tape asks no more often
    assert not is_far(-0.0089, 0.003)
    assert is_far(-0.0091, 0.003)


def test_half_an_inch_across_is_told_as_half_breadth_and_across():
    across = Reach("half_breadth", 0.1, "both", "F6", "garboard")
    (said,) = read_twice([across], [0.5 * HALF_IN_M], Along(), 0.002, "in")
    assert said.startswith("The half-breadth of garboard at F6 is 1/4 in (across: 1/2 in) more "
                           "than designed")
    assert not [*read_twice([across], [0.0029], Along(), 0.002, "in")]  # 5.8 mm across
    (said,) = read_twice([across], [-0.0031], Along(), 0.002, "mm")
    assert "is 3.1 mm (across: 6.2 mm) less than designed" in said


@pytest.mark.parametrize(("along", "words"), [
    (Along((("F3", -0.007), ("F4", 0.005))), "The mark of F3 is 7.0 mm less"),
    (Along((), 0.008), "The length over all is 8.0 mm more")])
def test_marks_and_the_length_are_read_twice_too(along, words):
    (said,) = read_twice([], [], along, 0.002, "mm")
    assert said.startswith(words)
