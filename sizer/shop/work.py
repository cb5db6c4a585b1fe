"""The order of work from the strongback to the first launch, declared once in work.toml.

Sheets show the steps, hours and cost hang on their keys. Words hold {names} of this boat's figures,
which `sizer.shop.work_figures` works out, {at_KEY} where they send a builder to another step: its
number and title, and lengths that are every boat's, in mm alone, which are told in both units:
{size[80]}, {size[8 to 10]}, {at_most[3]}, {at_least[15]}. [p] marks what is common practice, no
source, and [j] our own judgement.
"""

import tomllib
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from sizer.shop.said import both, both_range
from sizer.units import MM_PER_M, at_least_text, at_most_text

MARKED = {"[p]": "common practice, no source", "[j]": "our own judgement"}
# What the hours of a step grow with: `counted` tells how many of it a boat has.
HOURS = ("boat", "frame", "stick", "scarf", "lashing", "strip", "seam_m", "skin_m2", "bag")
PHASES = ("prepare", "frame", "tie", "fit out", "skin", "finish")
GLUE_WAIT_H = 24.0  # of a glue-up within a step, as `wait_h` of one at its end; our judgement
VARNISH_WAIT_H = 24.0  # to dry before cord is drawn over it; our judgement
TEXTS = ("title", "do", "check", "why", "danger")


@dataclass(frozen=True)
class Step:
    """One step of the work."""

    key: str  # never changes: a shop's hours are kept by it
    phase: str  # one of PHASES
    title: str
    do: str
    check: str  # what to measure before going on, with this boat's figure
    why: str
    danger: str  # the caution at the step where the danger is; "" where there is none
    hours: str  # what its hours grow with, one of HOURS
    wait_h: float = 0.0  # to dry or cure, told at its {wait} or {wait_time}; our judgement
    helpers: int = 0  # whom it takes besides the builder, at the most

    @property
    def acts(self):
        """What to do, one after the other: each line of `do` that says anything."""
        return [line.strip() for line in self.do.splitlines() if line.strip()]


    @property
    def waits(self):
        """{name: words} of how long it waits, where it does."""
        time = f"{self.wait_h:.0f} hours"
        return {"wait_time": time, "wait": f"Then wait {time}, or as its maker says. [j]"}


class _Told:
    """Tells what a name in work.toml is asked for, a length in mm, in both units."""

    def __init__(self, tell):
        self._tell = tell

    def __getitem__(self, asked):
        return self._tell(*map(float, str(asked).split(" to ")))


LENGTHS = {"size": _Told(lambda *mm: both_range(*mm) if len(mm) > 1 else both(mm[0] / MM_PER_M)),
           "at_most": _Told(at_most_text), "at_least": _Told(at_least_text)}


@cache
def steps():
    """All Steps in the builder's order, their {names} not filled in."""
    text = Path(__file__).with_suffix(".toml").read_text(encoding="utf-8")
    return tuple(Step(**row) for row in tomllib.loads(text)["step"])


def called():
    """{"at_" and a step's key: its number and title, as words}."""
    return {f"at_{one.key}": f"step {number}, “{one.title}”"
            for number, one in enumerate(steps(), start=1)}


def filled(figures):
    """The Steps with a boat's figures, {name: words}; KeyError, where a name in them has none."""
    figures = {**LENGTHS, **called(), **figures}
    return tuple(replace(step, **{one: getattr(step, one).format_map({**figures, **step.waits})
                                  for one in TEXTS}) for step in steps())


def waits_h():
    """All that dries and cures, one after the other, without coats of which the tin tells."""
    within = sum(one.do.count("{glue_wait}") * GLUE_WAIT_H
                 + one.do.count("{varnish_wait}") * VARNISH_WAIT_H for one in steps())
    return within + sum(one.wait_h for one in steps())


def counted(bench):
    """{one of HOURS: how many of it a boat's Bench has}: what the hours of its steps grow with."""
    bought = bench.materials
    return {
        "boat": 1, "frame": len(bench.frames), "stick": len(bought.sides),
        "scarf": sum(len(side.middles_m) for _, side in bought.sides),
        "lashing": bought.lashing.count,
        "strip": sum(one.count for one in bought.coaming.strips),
        "seam_m": bought.seams.seam_m + bought.seams.coaming_m,
        "skin_m2": float(bought.skin.area_m2), "bag": len(bench.bag_ties)}
