"""The shipped bases with the paddler and gear that each was drawn for.

The bands are the design brief's own: no published figures for such boats were found.
"""

from collections import Counter

import numpy as np
import pytest

from sizer.design.woods import CAREFUL_BEND_RATIO
from sizer.fit.request import drawn_request
from sizer.fit.uses import USES
from sizer.hull.bending import tightest_bend
from sizer.hydro.particulars import float_upright
from sizer.hydro.water import water_at
from sizer.job import run

PENCIL_M = 0.00025  # half a pencil line of 0.5 mm; our judgement


@pytest.fixture(scope="module")
def afloat(boat, drawn_load):
    return float_upright(boat.sections, drawn_load, water_at(boat.design.drawn_for.water, 15.0))


def test_trim_is_level_within_half_a_degree(afloat):
    assert abs(afloat.trim_deg) < 0.5


def test_gm_is_20_to_120_mm(afloat):
    assert 0.020 <= afloat.gm_m <= 0.120


def test_prismatic_coefficient_is_050_to_062(afloat):
    assert 0.50 <= afloat.prismatic_coefficient <= 0.62


def test_side_deck_freeboard_is_110_to_190_mm(afloat):
    assert 0.110 <= afloat.freeboard_m <= 0.190


def test_floats_on_the_lines_it_was_drawn_to(boat, afloat):
    drawn = boat.design.drawn_for
    assert afloat.draft_m == pytest.approx(drawn.draft_m, abs=0.005)
    assert afloat.waterline_length_m == pytest.approx(drawn.waterline_length_m, rel=0.02)


def test_every_stick_bends_cold(boat):
    assert tightest_bend(boat).ratio >= CAREFUL_BEND_RATIO


def hollows(line, column):
    """Stretches that bend away from round by more than a pencil line, and on which side."""
    x = np.linspace(line.start_x_m, line.end_x_m, 2001)
    slope = line.curve(x, 1)[:, column]
    change = np.diff(slope)
    starts = np.flatnonzero(np.diff(np.sign(change), prepend=np.nan))
    seen = []
    for first, last in zip(starts, [*starts[1:], change.size], strict=True):
        if abs(slope[last] - slope[first]) * (x[last] - x[first]) / 8.0 > PENCIL_M:
            seen.append(int(np.sign(change[first])))
    return [side for at, side in enumerate(seen) if at == 0 or side != seen[at - 1]]


def test_lines_from_stem_to_stem_are_round_in_plan_and_sheer_sweeps_one_way(lines):
    for line in lines.lines:
        if (line.stringer.start.kind, line.stringer.end.kind) == ("stem", "stem"):
            name = line.stringer.name
            assert hollows(line, 0) in ([], [-1]), name
            assert hollows(line, 1) == [1], name


def test_lines_that_blend_or_end_short_turn_once_at_most(lines):
    for line in lines.lines:
        for column in range(2):
            assert len(hollows(line, column)) <= 2, line.stringer.name


def test_there_are_five_bases_a_plain_one_and_one_that_blends(base_lines):
    designs = [lines.design for lines in base_lines.values()]
    chines = [Counter(one.role for one in design.stringers)["chine"] for design in designs]
    frames = [len(design.frames) for design in designs]
    ends = [{end.kind for one in design.stringers for end in (one.start, one.end)}
            for design in designs]
    assert len(designs) >= 5
    assert (1, min(frames)) in list(zip(chines, frames, strict=True))  # the plain one has fewest
    assert any("into" in kinds for kinds in ends)


def test_bases_say_of_every_use_that_they_suit_it_or_what_they_lack(base_lines):
    for lines in base_lines.values():
        design = lines.design
        assert design.drawn_for.use in design.suits
        assert {*design.suits, *design.lacks} == set(USES), design.name


def test_the_whole_job_of_whom_it_was_drawn_for_passes(lines):
    """Odds of all limits together and what is sawn among it."""
    job = run(drawn_request("base.toml", lines), lines)
    assert [check.key for check in job.fitted.checks if check.status != "pass"] == []
