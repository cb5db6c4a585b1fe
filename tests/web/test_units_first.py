"""Figures in both units are told in the reader's own first; all else of a text stays."""

import pytest

from sizer.web.units_first import units_first

BOTH = {  # as it is written: as one reads it who counts in inches and pounds
    "rim 60 mm (2 3/8 in) over": "rim 2 3/8 in (60 mm) over",
    "from 10 to 20 mm (3/8 to 13/16 in)": "from 3/8 to 13/16 in (10 to 20 mm)",
    "4.57 m (15 ft 1/2 in) long": "15 ft 1/2 in (4.57 m) long",
    'middle 319 mm (12 9/16") behind': 'middle 12 9/16" (319 mm) behind',
    "319 mm (12 9/16&quot;)": "12 9/16&quot; (319 mm)",
    "−5 mm (−3/16 in)": "−3/16 in (−5 mm)",
    "<b>90 kg (199 lb)</b>, 13.1 N (2.9 lbf)": "<b>199 lb (90 kg)</b>, 2.9 lbf (13.1 N)",
    "49 litres (12.9 US gal) at 10 °C (50 °F)": "12.9 US gal (49 litres) at 50 °F (10 °C)"}
AS_THEY_ARE = ("2440 x 1220 mm (4 ft)", "20 to 30 mm (13/16 in)", "9 mm (as sold)",
               "3 sticks (2 in fir)", "10 mm (2 in all)")


@pytest.mark.parametrize("text", BOTH)
def test_the_readers_own_unit_is_first(text):
    assert units_first(text, "in", "lb") == units_first(text, "in", "st") == BOTH[text]
    assert units_first(text, "mm", "kg") == units_first(text, "cm", "kg") == text


def test_lengths_and_masses_each_follow_their_own_unit():
    assert units_first("5 mm (3/16 in), 9 kg (20 lb)", "mm", "lb") == "5 mm (3/16 in), 20 lb (9 kg)"
    assert units_first("5 mm (3/16 in), 9 kg (20 lb)", "in", "kg") == "3/16 in (5 mm), 9 kg (20 lb)"


@pytest.mark.parametrize("text", AS_THEY_ARE)
def test_what_is_no_pair_stays_as_it_is(text):
    assert units_first(text, "in", "lb") == text
