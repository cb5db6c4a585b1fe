"""The words on danger: every subject is there, and the water's own caution leads."""

import pytest

from sizer.built.departures import expected
from sizer.built.trial_weights import trial_weights
from sizer.fit.cautions import cautions_for, standing_cautions
from sizer.fit.request import read_request
from sizer.hydro.water import temperature_caution, water_at
from sizer.job import run
from sizer.units import inches_text


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


@pytest.mark.parametrize("base", ["steady-boat", "surf-runner"])
def test_nobody_is_told_to_leave_the_boat_or_to_wear_a_spray_deck_unproven(middle_job, base):
    """One wording for the water, and a deck only on a condition, wherever either is told."""
    told = middle_job(base).cautions
    for text in told:
        assert "leave it" not in text.lower()
        assert "hold on to it" not in text
        assert "Keep the spray deck on" not in text
    held = [text for text in told if "keep hold of the boat; do not let go of it to swim" in text]
    assert len(held) >= 4
    loose, = (text for text in told if "loose in the cockpit" in text)
    assert "go ashore and empty the boat" in loose
    assert "only once you have practised wet exits" in loose
    wave, = (text for text in told if text.startswith("On a wave"))
    assert "from crest to crest" in wave


@pytest.mark.parametrize(("base", "use", "tender"), [
    ("load-carrier", "coastal-day", True), ("teaching-boat", "sheltered-day", False)])
def test_a_boat_that_leaves_nothing_for_a_steadiness_trial_is_called_tender(base_lines, base, use,
                                                                            tender):
    """Beside the launch's own way of reckoning: what is safe there before any reading."""
    held = {"fixed": {"beam_mm": 690}} if tender else {}  # 22 mm less than it is made
    job = run(read_request({"base": base, "use": use, "paddler": {
        "weight_kg": 140, "stature_mm": 1930, "hip_width_mm": 470}} | held), base_lines[base])
    safest = trial_weights(job.fitted.assessed, *expected(job.fitted.assessed)["gm_m"]).safest_kg
    assert (safest < 0.5) is tender
    said = [text for text in job.cautions if "tender boat" in text]
    assert len(said) == tender
    gm, = (one for one in job.fitted.checks if one.key == "gm")
    for text in said:
        now, least = gm.value, gm.value - 1.2816 * gm.spread  # normal, one in ten
        assert now == pytest.approx(1000.0 * job.fitted.assessed.particulars.gm_m)
        said = [f"{mm:.0f} mm ({inches_text(mm, 16)} in)" for mm in (now, least)]
        assert f"its GM is {said[0]}," in text
        assert f"has {said[1]} or less" in text
