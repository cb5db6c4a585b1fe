"""The boat page names remedies that were tried, and one tap follows them."""

import pytest
from app_screen import clicked, drafted, measured, opened, said, strip

from sizer.fit.request import read_request
from sizer.job import run
from sizer.remedies import remedies


def heavy():
    return measured({"weight_kg": "85", "stature_mm": "1780", "hip_width_mm": "400",
                     "gear_kg": "150"})


@pytest.fixture(scope="module")
def found(base_lines):
    job = run(read_request(heavy().request()), base_lines["day-boat"])
    others = {key: one for key, one in base_lines.items() if key != "day-boat"}
    return remedies(job.request, job.lines, job.fitted, others)


def test_remedies_are_the_engines_and_doing_one_brings_what_it_promises(found):
    screen = opened("boat", heavy())
    assert "does not pass" in strip(screen)
    for remedy in found:
        assert remedy.words in said(screen)
    assert found[0].status == "pass"
    screen = clicked(screen, "mend_0", by_key=True)
    assert "passes" in strip(screen)
    assert drafted(screen).request()["gear_kg"] == found[0].request.trip.gear_kg
    assert "What mends it" not in said(screen)


def test_letting_go_leaves_the_other_holds(base_lines):
    one = measured().hold("beam_mm", 600.0).hold("deck_crown", 1.0)
    screen = opened("boat", one)
    assert "let go of the held beam" in said(screen)
    screen = clicked(screen, "mend_1", by_key=True)  # another base comes first
    held = drafted(screen).held
    assert held.beam_mm is None
    assert held.deck_crown == 1.0
