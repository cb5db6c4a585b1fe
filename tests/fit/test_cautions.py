"""The words on danger: every subject is there, and the water's own caution leads."""

import pytest

from sizer.fit.cautions import cautions_for, standing_cautions
from sizer.hydro.water import temperature_caution, water_at


@pytest.mark.parametrize(
    "subject",
    ["calculated, not a trial", "PFD", "fastened", "Dress for the water", "takes your breath",
     "strength to swim", "no flotation of its own", "float bags at both ends", "wet exits",
     "near shore and with company", "Local rules", "instructed practice"],
)  # fmt: skip
def test_standing_cautions_cover_every_subject(subject):
    assert sum(subject in text for text in standing_cautions()) == 1


def test_standing_cautions_name_excluding_standards_as_excluding():
    (text,) = [text for text in standing_cautions() if "ISO" in text or "CFR" in text]
    assert "ISO 12217-3" in text
    assert "33 CFR 183" in text
    assert "exclude canoes and kayaks" in text
    assert "nothing here claims to meet them" in text


def test_cautions_for_puts_the_water_first():
    water = water_at("salt", 8)
    assert cautions_for(water) == (temperature_caution(8), *standing_cautions())


def test_cautions_are_short_sentences():
    for text in cautions_for(water_at("fresh", 12)):
        assert text[0].isupper()
        assert text.endswith(".")
        assert len(text) < 220
