"""What if: a result along one dimension, and where every check passes over two.

Built on boats tried beside the fitted one, see `sizer.fit.tried`: only what is named moves.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.fit.check import OPEN, overall
from sizer.fit.mishaps import quick_righting
from sizer.fit.stretches import passing_stretches
from sizer.fit.tried import (
    DIMENSIONS,
    Dimension,
    Tried,
    settings_of,
    today_setting,
    tried,
    unit_size,
    verdicts,
)
from sizer.hydro.drag import drag_curve, drag_sections, wetted

LEAST_COUNT = 2
ROWS_AT_ONCE = 7  # of a map: side by side they cost less each


@dataclass(frozen=True)
class Result:
    """What can be asked about."""

    key: str
    words: str
    unit: str  # "m", "deg" or "N"
    check: str = ""  # key of the check whose own value this is; "" for none

    @property
    def concerned(self):
        """Keys of the checks of the matter: one, or none."""
        return (self.check,) if self.check else ()


RESULTS = {one.key: one for one in (
    Result("freeboard", "side-deck freeboard", "m", "freeboard"),
    Result("gm", "steadiness (GM)", "m", "gm"),
    Result("range", "range of stability", "deg", "range"),
    Result("drag", "drag", "N"),
    Result("hips", "hip room", "m", "hips"))}


@dataclass(frozen=True, eq=False)
class Sweep:
    """Boats along one dimension, between the base's limits, today's among them."""

    dimension: Dimension
    at: np.ndarray  # (n,) rising, in the dimension's unit
    tried: tuple[Tried, ...]
    today: int  # index of today's boat
    passing: tuple[tuple[float, float], ...]  # where every check passes


@dataclass(frozen=True, eq=False)
class Curve:
    """One result along one dimension, only where it could be worked out; arrays are (n,)."""

    dimension: Dimension
    result: Result
    at: np.ndarray  # rising, in the dimension's unit
    value: np.ndarray  # in the result's unit, always finite
    window: tuple[float, float, float, float]  # of the check, as in `checks.Check`; all infinite
    status: tuple[str, ...]  # of the checks concerned; all "pass" where none is
    overall: tuple[str, ...]  # of every check
    bands: tuple[tuple[float, float], ...]  # where the checks concerned pass; () without any
    passing: tuple[tuple[float, float], ...]  # where every check passes
    today: int  # index of today's boat


@dataclass(frozen=True, eq=False)
class PassingMap:
    """Every check's worst status over two dimensions; rows run along `up`."""

    across: Dimension
    up: Dimension
    across_at: np.ndarray  # (n,)
    up_at: np.ndarray  # (m,)
    status: tuple[tuple[str, ...], ...]  # m rows of n
    names: tuple[tuple[tuple[str, ...], ...], ...]  # m by n: checks of that status, none if "pass"
    today: tuple[float, float]  # today's place across and up


def sweep(assessed, seat_held, dimension, count=25):
    """Boats along one dimension.

    Parameters
    ----------
    assessed : Assessed, today's fitted boat
    seat_held : whether its seat is held, or else slides
    dimension : key of DIMENSIONS
    count : evenly spaced boats beside today's

    Raises
    ------
    BadInput at "dimension" and "count".
    """
    _refuse([dimension], [count])
    today = today_setting(assessed, dimension)
    settings = np.union1d(settings_of(assessed, dimension, count), today)
    size = unit_size(assessed, dimension)

    def try_at(places):
        return tried(assessed, seat_held, {dimension: places})

    boats = try_at(settings)
    passing = passing_stretches(settings, boats, try_at)
    return Sweep(DIMENSIONS[dimension], settings * size, boats,
                 int(np.searchsorted(settings, today)),
                 tuple((first * size, last * size) for first, last in passing))


def curve(swept, result, speed_mps):
    """One result of a sweep.

    Parameters
    ----------
    swept : Sweep
    result : key of RESULTS
    speed_mps : of the drag

    Raises
    ------
    BadInput at "result"; at "speed_mps" as `sizer.hydro.drag.drag_curve`, for drag.
    """
    if result not in RESULTS:
        raise BadInput([_unknown("result", result, RESULTS)])
    asked = RESULTS[result]
    there = [index for index, one in enumerate(swept.tried) if one.assessed is not None]
    boats = [swept.tried[index] for index in there]
    keys = asked.concerned
    concerned = [checks_by_key(one.checks, keys) for one in boats]
    value = ([drag_N(one.assessed, speed_mps) for one in boats] if result == "drag"
             else [checks[0].value_si for checks in concerned])
    today = there.index(swept.today)
    return Curve(
        swept.dimension, asked, swept.at[there], np.array(value),
        concerned[today][0].window_si if keys else (-OPEN, -OPEN, OPEN, OPEN),
        tuple(overall(checks) if checks else "pass" for checks in concerned),
        tuple(overall(one.checks) for one in boats),
        _stretches(swept.at, swept.tried, keys) if keys else (),
        swept.passing, today)


def passing_map(assessed, seat_held, across, up, count=(15, 13), tell=lambda share: None):
    """Where every check passes, over two dimensions, today's boat among those tried.

    Parameters
    ----------
    assessed, seat_held : as `sweep`
    across, up : two keys of DIMENSIONS
    count : boats across and up
    tell : is called with the share done after every few rows

    Raises
    ------
    BadInput at "across", "up" and "count".
    """
    _refuse([across, up], count)
    axes = [_through(settings_of(assessed, key, size), today_setting(assessed, key))
            for key, size in zip((across, up), count, strict=True)]
    found, near = [], quick_righting(assessed)
    for first in range(0, axes[1].size, ROWS_AT_ONCE):
        rows = axes[1][first:first + ROWS_AT_ONCE]
        lot = verdicts(assessed, seat_held, {
            across: np.tile(axes[0], rows.size), up: np.repeat(rows, axes[0].size)}, near)
        found += [lot[at:at + axes[0].size] for at in range(0, len(lot), axes[0].size)]
        tell(len(found) / axes[1].size)
    sizes = [unit_size(assessed, key) for key in (across, up)]
    return PassingMap(
        DIMENSIONS[across], DIMENSIONS[up], axes[0] * sizes[0], axes[1] * sizes[1],
        tuple(tuple(status for status, _ in row) for row in found),
        tuple(tuple(names for _, names in row) for row in found),
        tuple(today_setting(assessed, key) * size
              for key, size in zip((across, up), sizes, strict=True)))


def _through(settings, today):
    """Settings of which the nearest between the ends is moved onto today's boat."""
    if settings.size > 2 and today not in settings:
        settings[1 + np.argmin(np.abs(settings[1:-1] - today))] = today
    return settings


def drag_N(assessed, speed_mps):
    """Drag of an assessed boat at one speed; raises as `sizer.hydro.drag.drag_curve`."""
    hull = wetted(drag_sections(assessed.boat), assessed.particulars, assessed.person.water)
    return float(drag_curve(hull, speed_mps).total_N[0])


def _refuse(keys, counts):
    places = ("across", "up") if len(keys) == 2 else ("dimension",)
    faults = [_unknown(place, key, DIMENSIONS) for place, key in zip(places, keys, strict=True)
              if key not in DIMENSIONS]
    if len(keys) == 2 and keys[0] == keys[1]:
        faults.append(Fault("up", f"{keys[1]!r:.40}", "another dimension than across"))
    faults += [Fault("count", f"{count!r:.40}", f"{LEAST_COUNT} boats or more")
               for count in counts if not count >= LEAST_COUNT]
    if faults:
        raise BadInput(faults)


def _unknown(place, key, allowed):
    return Fault(place, f"{key!r:.40}", "one of " + ", ".join(allowed))


def checks_by_key(checks, keys):
    """Checks of these keys, in the order of the keys."""
    by_key = {check.key: check for check in checks}
    return [by_key[key] for key in keys]


def _slack(tried, keys):
    """How far the checks of these keys are inside a clean pass, in just-noticeable changes; None
    where the boat could not be worked out."""
    if tried.assessed is None:
        return None
    return min(_clean_margin(check) / check.row.scale
               for check in checks_by_key(tried.checks, keys))


def _clean_margin(check):
    low, from_, to, high = check.window_si
    return min(check.value_si - max(low, from_), min(to, high) - check.value_si)


def _stretches(at, tried, keys):
    """Where the checks of these keys pass; edges lie on straight lines between boats.

    Beside a boat that does not float, the stretch ends at the last one that does.
    """
    slack = [_slack(one, keys) for one in tried]
    pieces = []
    for (start, first), (end, last) in pairwise(zip(at.tolist(), slack, strict=True)):
        passes = [one is not None and one >= 0.0 for one in (first, last)]
        if not any(passes):
            continue
        low, high = start, end
        if not all(passes):
            if first is None or last is None:
                edge = end if first is None else start
            else:
                edge = start + (end - start) * first / (first - last)
            low, high = (start, edge) if passes[0] else (edge, end)
        if pieces and pieces[-1][1] == low:
            pieces[-1] = (pieces[-1][0], high)
        else:
            pieces.append((low, high))
    return tuple(pieces)
