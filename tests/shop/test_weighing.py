"""What is taken off the boat's weight on the scale, against its boards' sizes."""

from types import SimpleNamespace

import pytest

from sizer.shop.aboard import boards_kg, take_off_words


def test_boards_weigh_their_volume_of_plywood():
    """Okoume at 450 kg/m3: 12 x 100 x 250 mm is 0.135 kg, either way round; two of each."""
    thigh = SimpleNamespace(wide_m=0.250)
    hips = SimpleNamespace(board_m=(0.012, 0.250, 0.100))
    assert boards_kg(thigh, hips) == (("thigh braces", pytest.approx(0.270)),
                                      ("hip pads", pytest.approx(0.270)))
    said = take_off_words(thigh, hips)
    assert "stay in it and count as gear: subtract 0.54 kg (1.19 lb) from" in said
    assert "boards of hip pads stay in it" in take_off_words(None, hips)


def test_nothing_is_taken_off_where_no_board_is_in():
    assert boards_kg(None, None) == ()
    assert "subtract nothing" in take_off_words(None, None)
