"""The one line of the trade-offs against the engine, without a browser."""

import re
from fractions import Fraction

import pytest
from app_screen import clicked, drafted, engine_job, measured, of, opened, ran, said

from sizer.fit.moves import moves


@pytest.fixture(scope="module")
def job():
    return engine_job(measured())


def typed(screen, label, text):
    of(screen.text_input, label).set_value(text)
    return ran(screen)


def gm_words(job, by_m):
    found, = moves(job.fitted.assessed, False, "beam", [by_m], 1.8)
    gm = found.changes[0]
    return f"GM {1000 * gm.before:.0f} to {1000 * gm.after:.0f} mm"


def test_line_is_there_at_once_and_follows_what_is_typed_and_stepped(job):
    screen = opened("trade")
    assert f"25 mm narrower: {gm_words(job, -0.025)}" in said(screen)
    assert "the job keeps its boat until this is held" in said(screen)
    screen = typed(screen, "By, mm", "-40")
    assert f"40 mm narrower: {gm_words(job, -0.040)}" in said(screen)
    screen = clicked(screen, "+")
    assert f"35 mm narrower: {gm_words(job, -0.035)}" in said(screen)
    assert drafted(screen).held.beam_mm is None


def test_an_amount_that_cannot_be_says_why_and_moves_nothing(job):
    screen = typed(opened("trade"), "By, mm", "-4000")
    assert "-4000: this base allows" in said(screen)
    screen = typed(screen, "By, mm", "some")
    assert "write an amount" in said(screen)
    assert "25 mm narrower" in said(screen)


def test_what_a_base_allows_is_told_in_fractions_of_an_inch_inside_it(job):
    boat, limits = job.fitted.assessed.boat, job.lines.design.limits
    own = boat.beam_m / boat.scaling.beam  # of the base as drawn
    screen = typed(opened("trade", measured().in_units("in", "kg")), "By, in", "-99 in")
    for words in ("This base allows (.*?) to (.*?) in from here",
                  r"-99 in: this base allows (.*?) to (.*?) in from here"):
        for told, factor in zip(re.search(words, said(screen)).groups(), limits.beam, strict=True):
            left_in = (factor * own - boat.beam_m) / 0.0254
            inches = sum(map(Fraction, told.strip("+-").split()))
            assert told.startswith("-" if left_in < 0.0 else "+")
            assert 0.0 <= abs(left_in) - float(inches) < 1.0 / 16.0


def test_hold_this_makes_it_so_and_leaves_the_other_sizes(job):
    screen = typed(opened("trade"), "By, mm", "-40")
    screen = clicked(screen, "Hold this")
    boat, one = job.fitted.assessed.boat, drafted(screen)
    assert one.held.beam_mm == pytest.approx(1000.0 * boat.beam_m - 40.0)
    assert [key for key, size in one.held if size is not None] == ["beam_mm"]
    now = engine_job(one).fitted.assessed.boat
    assert now.length_m == pytest.approx(boat.length_m)
    assert now.depth_m == pytest.approx(boat.depth_m)
    assert "Nothing is moved" in said(screen)
