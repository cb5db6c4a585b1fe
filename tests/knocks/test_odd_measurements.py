"""Tables of a dry fit and readings of a launch, broken and far off: answered, or refused in
sentences with their places."""

import json
import math
from functools import cache

import numpy as np
from hypothesis import event, example, given
from hypothesis import strategies as st

from sizer.built.dry_fit import dry_fit
from sizer.built.points import CENTRE, points_of
from sizer.built.table import COLUMNS, DATUMS, SIDE_WORDS, read_measured
from sizer.built.trial import AFLOAT, RANGES, read_trial
from sizer.cli.built import taught
from sizer.errors import BadInput, NotSolved, WillNotFloat
from sizer.export.built_answer import dry_fit_answer
from sizer.export.numbers import json_text
from sizer.fit.check import STATUSES
from sizer.fit.request import read_request
from sizer.hydro.water import KINDS
from sizer.job import run
from tests.knocks.conftest import answered, knocks
from tests.knocks.test_odd_requests import ANYTHING, asked, lines_of, numbers_in, within

BASES = ("day-boat", "teaching-boat")
SMALL = within(-0.03, 0.03)  # as boats are off, in m; beyond, a row is a mistake
POINT = st.integers(0, 400)
OTHER = st.none() | POINT  # end of a diagonal
ROWS = st.lists(st.tuples(POINT, OTHER, SMALL, SMALL), min_size=1, max_size=30)
MISTAKES = st.lists(st.tuples(POINT, OTHER, within(-1.0, 1.0), within(-1.0, 1.0)), max_size=2)
CELLS = st.one_of(st.sampled_from((*COLUMNS, *SIDE_WORDS, "F4", "keel", "gunwale", "", '"', "-",
                                   "1e9", "15 1/4 in", "NaN", "9" * 400, "٣", "\0", "\r", "#")),
                  st.text(max_size=6))


@cache
def job_of(base):
    return run(read_request(asked(base, "coastal-day", 82.0, 1780.0, 385.0)), lines_of(base))


@cache
def points(base):
    return points_of(job_of(base).fitted.assessed.boat)


def table(base, rows, datum):
    """CSV of some points and diagonals of a base, each so many metres off, heights from a datum."""
    found, lines = points(base), [",".join(COLUMNS[:9])]
    for index, other, out, up in rows:
        at = index % len(found.keys)
        key, half, high = found.keys[at], *(found.at[at] + (out, up + DATUMS[datum]))
        if other is None:
            side, half = ("both", "") if key[0] == CENTRE else (key[0], f"{1e3 * abs(half):.1f}")
            lines.append(",".join((side, *key[1:], half, f"{1e3 * high:.1f}", "", "", "", "")))
            continue
        other %= len(found.keys)
        length = np.linalg.norm(found.place_m[at] - found.place_m[other]) + out
        ends = [("port" if side == CENTRE else side, *rest)
                for side, *rest in (key, found.keys[other])]
        lines.append(",".join((*ends[0], "", "", f"{1e3 * abs(length):.1f}", *ends[1])))
    return "\n".join(lines)


def refused_in_sentences(refused):
    assert isinstance(refused, (BadInput, NotSolved, WillNotFloat)), refused
    assert str(refused).encode()
    assert all(fault.place for fault in getattr(refused, "faults", ()))
    event(type(refused).__name__)


def is_whole(answer):
    told = json.loads(json_text(answer))
    assert all(map(math.isfinite, numbers_in(told)))
    assert any("PFD" in one for one in told["cautions"])


@knocks(10)
@given(st.sampled_from(BASES), ROWS, st.just([]) | MISTAKES, st.sampled_from(list(DATUMS)),
       within(0.0002, 0.02), st.just([]) | st.lists(
           st.tuples(st.floats(0.0, 1.0), st.integers(0, 9), CELLS), max_size=3))
def test_any_table_of_a_dry_fit_is_answered_or_refused_with_its_places(
        base, rows, mistakes, datum, tape_m, breaks):
    text = table(base, [*rows, *mistakes], datum)
    for share, taken, put in breaks:
        at = int(share * len(text))
        text = text[:at] + put + text[at + taken:]
    measured, refused = answered(read_measured, text, "mm", datum)
    found, refused = answered(dry_fit, job_of(base), measured, tape_m) if measured else (
        None, refused)
    if refused:
        refused_in_sentences(refused)
        return
    event(found.built.status)
    assert found.built.status in STATUSES
    is_whole(dry_fit_answer(job_of(base), found))


def reading(*keys, some=False):
    each = {key: within(*RANGES[key]) for key in keys}
    return st.fixed_dictionaries({}, optional=each) if some else st.fixed_dictionaries(each)


TRIALS = st.fixed_dictionaries({}, optional={
    "boat_kg": within(*RANGES["boat_kg"]), "load_kg": within(*RANGES["load_kg"]),
    "water": st.fixed_dictionaries({"kind": st.sampled_from(sorted(KINDS)),
                                    "temperature_c": within(*RANGES["temperature_c"])}),
    "afloat": st.lists(reading(*AFLOAT, some=True), max_size=3),
    "heel": st.lists(reading("kg", "off_centre_mm", "height_mm", "heel_deg"), max_size=4)})


@knocks(6)
@given(st.sampled_from(BASES), TRIALS,
       st.dictionaries(st.sampled_from(("boat_kg", "water", "afloat", "heel")), ANYTHING,
                       max_size=1))
@example("day-boat", {"afloat": [{}]}, {})
@example("day-boat", {"heel": [{"kg": 60.0, "off_centre_mm": 600.0, "height_mm": 1500.0,
                                "heel_deg": 2.2250738585072014e-308}]}, {})  # no GM is so large
def test_any_launch_is_answered_or_refused_in_sentences(base, trial, odd):
    read, refused = answered(read_trial, trial | odd)
    answer, refused = answered(taught, job_of(base), read) if read else (None, refused)
    if refused:
        refused_in_sentences(refused)
    else:
        event("answered")
        is_whole(answer)
