"""Requests over the whole range that is taken: each is answered, or refused in a sentence.

What came down once stays as an example.
"""

import json
import math
from functools import cache

import pytest
from hypothesis import assume, event, example, given
from hypothesis import strategies as st

from sizer.design.allowed import BODY_MASS_INDEX_KGPM2
from sizer.design.library import read_base, shipped_names
from sizer.errors import NotSolved, WillNotFloat
from sizer.export.answer import full_answer, job_answer
from sizer.export.numbers import json_text
from sizer.fit.check import STATUSES
from sizer.fit.person import person_of
from sizer.fit.request import WISHES, read_request
from sizer.fit.sizes import sizes_mm
from sizer.fit.solve import Fitted, fit_many
from sizer.fit.study import study
from sizer.fit.uses import USES
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.paddler.measures import RANGES, REQUIRED, read_paddler
from tests.knocks.conftest import answered, knocks

HELD_M = ("length", "beam", "depth")
STUDY_EVERY = 4  # of so many answered one is studied, which costs as much again


@cache
def lines_of(base):
    return fair_lines(read_base(base))


def within(low, high):
    """Any number of a range, its ends often."""
    return st.one_of(st.just(low), st.just(high), st.floats(low, high))


@st.composite
def paddlers(draw):
    given = {key: draw(within(*RANGES[key])) for key in REQUIRED}
    stature = given["stature_mm"] / 1000.0
    low, high = (index * stature**2 for index in BODY_MASS_INDEX_KGPM2)
    lowest, highest = RANGES["weight_kg"]
    assume(low <= highest and high >= lowest)
    given["weight_kg"] = draw(within(max(lowest, 1.001 * low), min(highest, 0.999 * high)))
    more = {key: draw(within(*ends)) for key, ends in RANGES.items()
            if key not in REQUIRED and draw(st.integers(0, 5)) == 0}
    _, refused = answered(read_paddler, given | more)
    return given if refused else given | more


@st.composite
def held_sizes(draw, base):
    lines = lines_of(base)
    boat, limits = scaled_boat(lines, Scaling()), lines.design.limits
    ranges = {f"{name}_mm": [1000.0 * getattr(boat, f"{name}_m") * one
                             for one in getattr(limits, name)] for name in HELD_M}
    ranges |= {f"{name}_mm": [1000.0 * one for one in getattr(limits, f"{name}_m")]
               for name in ("cockpit_length", "cockpit_width")}
    forward, aft = lines.design.cockpit.seat_slide_m
    ranges |= {"deck_crown": limits.crown, "seat_shift_mm": (-1000.0 * forward, 1000.0 * aft)}
    return {key: draw(within(*ends)) for key, ends in ranges.items() if draw(st.booleans())}


@st.composite
def trips(draw):
    """A request but for its paddler."""
    base = draw(st.sampled_from(shipped_names()))
    given = {"base": base, "use": draw(st.sampled_from(list(USES)))}
    for key, of in (("gear_kg", within(0.0, 150.0)), ("follow", st.booleans()),
                    ("wishes", st.fixed_dictionaries({}, optional={
                        key: within(-1.0, 1.0) for key in WISHES})),
                    ("water", st.fixed_dictionaries({"kind": st.sampled_from(["fresh", "salt"]),
                                                     "temperature_c": within(0.0, 30.0)})),
                    ("fixed", held_sizes(base))):
        if draw(st.booleans()):
            given[key] = draw(of)
    return given


def asked(base, use, weight_kg, stature_mm, hip_width_mm, **more):
    return {"base": base, "use": use, "paddler": {
        "weight_kg": weight_kg, "stature_mm": stature_mm, "hip_width_mm": hip_width_mm}, **more}


ALL_HELD = {"length_mm": 4892.0, "beam_mm": 737.5, "depth_mm": 267.9, "deck_crown": 1.6}


@knocks(4, 0.05)
@given(st.builds(lambda trip, body: trip | {"paddler": body}, trips(), paddlers()),
       st.integers(0, STUDY_EVERY - 1))
@example(asked("long-tourer", "coastal-day", 60.9, 1250.0, 414.0, gear_kg=150.0), 0)
@example(asked("long-tourer", "fitness-paddling", 87.0, 1715.0, 250.0), 0)
@example(asked("teaching-boat", "coastal-day", 130.0, 2200.0, 514.0, gear_kg=150.0), 0)
@example(asked("steady-boat", "coastal-day", 80.0, 1750.0, 390.0, fixed=ALL_HELD, follow=True), 0)
@example(asked("teaching-boat", "sheltered-day", 109.265625, 1250.0, 600.0, gear_kg=150.0, fixed={
    "length_mm": 3569.0, "depth_mm": 216.0, "seat_shift_mm": -80.0}), 0)  # the rim goes under
@example(asked("day-boat", "sheltered-day", 30.0, 1250.0, 250.0, fixed={
    "cockpit_width_mm": 560.0}), 0)  # no arm is left under the coaming
def test_every_valid_request_is_answered(given, skipped):
    job, refused = answered(lambda: run(read_request(given), lines_of(given["base"])))
    if refused:
        assert isinstance(refused, (WillNotFloat, NotSolved)), refused
        assert str(refused)
        event(type(refused).__name__)
        return
    assert job.fitted.status in STATUSES
    assert job.cautions
    answer = json.loads(json_text(job_answer(job) if skipped else full_answer(
        job, study(job.fitted.assessed, job.mishaps.rigid))))
    assert all(math.isfinite(one) for one in numbers_in(answer))
    event(job.fitted.status)


LOT = 16


@knocks(2, 1.0 / LOT)
@given(trips(), st.lists(paddlers(), min_size=LOT, max_size=LOT), st.integers(0, LOT - 1))
def test_people_side_by_side_are_each_answered_as_if_alone(trip, bodies, index):
    lines = lines_of(trip["base"])
    asked_for = [read_request(trip | {"paddler": body}) for body in bodies]
    persons = [person_of(one) for one in asked_for]
    choices = asked_for[0].fixed, asked_for[0].wishes, asked_for[0].follow
    many = fit_many(lines, persons, *choices)
    for one in many:
        event(one.status if isinstance(one, Fitted) else type(one).__name__)
        assert isinstance(one, (Fitted, WillNotFloat, NotSolved)), one
    alone, = fit_many(lines, persons[index:index + 1], *choices)
    assert type(alone) is type(many[index])
    if isinstance(alone, Fitted):
        assert alone.status == many[index].status
        assert sizes_mm(alone.assessed.boat) == pytest.approx(
            sizes_mm(many[index].assessed.boat), abs=0.1)


def numbers_in(value):
    """Every number of a parsed answer."""
    if isinstance(value, dict):
        value = value.values()
    if isinstance(value, (list, type({}.values()))):
        for one in value:
            yield from numbers_in(one)
    elif isinstance(value, float):
        yield value


ANYTHING = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20)
    | st.sampled_from(["day-boat", "a\0.toml", "\ud800", ".toml", "\udcff.toml", "/", "1e999"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner,
                                                                max_size=3), max_leaves=6)
PLACES = ("base", "use", "paddler", "gear_kg", "water", "fixed", "follow", "wishes")


@knocks(300)
@given(st.dictionaries(st.sampled_from(PLACES) | st.text(max_size=8), ANYTHING, max_size=4))
@example({"base": "a\0.toml"})
@example({"base": "day-boat", "x\ud800\n": 1})
@example({"base": "day-boat", "water": {"kind": [], "temperature_c": {}}})
def test_a_request_of_anything_is_read_or_refused_in_lines_that_print(odd):
    given = asked("day-boat", "coastal-day", 82.0, 1780.0, 385.0) | odd
    request, refused = answered(read_request, given)
    if request:
        _, refused = answered(read_base, request.trip.base)
    for fault in refused.faults if refused else ():
        assert str(fault).encode()
        assert "\n" not in str(fault)
