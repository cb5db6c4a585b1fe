"""What if: a result along one dimension, and where every check passes over two.

Built on boats tried beside the fitted one, see `sizer.fit.tried`: only what is named moves.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.errors import BadInput, Fault
from sizer.fit.checks import overall
from sizer.fit.tried import (
    DIMENSIONS,
    Dimension,
    Tried,
    attempt_with,
    settings_of,
    today_setting,
    unit_size,
)
from sizer.hydro.drag import drag_curve, drag_sections, wetted
from sizer.units import MM_PER_M

LEAST_COUNT = 2
NOT_AFLOAT = "does not float with its rim clear"


@dataclass(frozen=True)
class Result:
    """What can be asked about."""

    key: str
    words: str
    unit: str  # "m", "deg" or "N"
    limited_by: tuple[str, ...]  # checks whose own value this is, the first one read
    also: tuple[str, ...] = ()  # checks of the same matter with another value


RESULTS = {one.key: one for one in (
    Result("freeboard", "side-deck freeboard", "m",
           ("side-deck freeboard", "not too high in the wind")),
    Result("gm", "steadiness (GM)", "m",
           ("initial steadiness (GM)",), ("steadiness sitting tall (GM)",)),
    Result("range", "range of stability", "deg", ("range of stability",)),
    Result("drag", "drag", "N", ()),
    Result("hips", "hip room", "m", ("hips beside the seat",)))}


@dataclass(frozen=True, eq=False)
class Sweep:
    """Boats along one dimension, between the base's limits, today's among them."""

    dimension: Dimension
    at: np.ndarray  # (n,) rising, in the dimension's unit
    tried: tuple[Tried | None, ...]  # None where the boat does not float
    today: int  # index of today's boat


@dataclass(frozen=True, eq=False)
class Curve:
    """One result along one dimension, only where the boat floats; arrays are (n,)."""

    dimension: Dimension
    result: Result
    at: np.ndarray  # rising, in the dimension's unit
    value: np.ndarray  # in the result's unit, always finite
    low: float | None  # what the checks ask at least
    high: float | None  # and at most
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
    attempt = attempt_with(assessed, seat_held)
    return Sweep(DIMENSIONS[dimension], settings * unit_size(assessed, dimension),
                 tuple(attempt({dimension: setting}) for setting in settings.tolist()),
                 int(np.searchsorted(settings, today)))


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
    there = [index for index, one in enumerate(swept.tried) if one is not None]
    boats = [swept.tried[index] for index in there]
    at = swept.at[there]
    concerned = [_named(one.checks, (*asked.limited_by, *asked.also)) for one in boats]
    own = [_named(one.checks, asked.limited_by) for one in boats]
    value = ([drag_N(one.assessed, speed_mps) for one in boats] if result == "drag"
             else [_si(checks[0].value, checks[0]) for checks in own])
    limits = {check.sense: _si(check.limit, check) for check in (own[0] if boats else ())}
    return Curve(
        swept.dimension, asked, at, np.array(value), limits.get("at least"),
        limits.get("at most"),
        tuple(overall(checks) if checks else "pass" for checks in concerned),
        tuple(overall(one.checks) for one in boats),
        _stretches(swept.at, swept.tried, (*asked.limited_by, *asked.also)) if own[0] else (),
        _stretches(swept.at, swept.tried), there.index(swept.today))


def passing_map(assessed, seat_held, across, up, count=(15, 13), tell=lambda share: None):
    """Where every check passes, over two dimensions, today's boat among those tried.

    Parameters
    ----------
    assessed, seat_held : as `sweep`
    across, up : two keys of DIMENSIONS
    count : boats across and up
    tell : is called with the share done after each row, since a whole map takes seconds

    Raises
    ------
    BadInput at "across", "up" and "count".
    """
    _refuse([across, up], count)
    axes = [_through(settings_of(assessed, key, size), today_setting(assessed, key))
            for key, size in zip((across, up), count, strict=True)]
    attempt = attempt_with(assessed, seat_held)
    found = []
    for other in axes[1].tolist():
        found.append([_worst(attempt({across: one, up: other})) for one in axes[0].tolist()])
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


def _named(checks, names):
    """Checks of these names, in the order of the names."""
    by_name = {check.name: check for check in checks}
    return [by_name[name] for name in names]


def _si(value, check):
    return value / MM_PER_M if check.unit == "mm" else value


def _worst(tried):
    """The worst status, and the names of the checks that have it."""
    if tried is None:
        return "fail", (NOT_AFLOAT,)
    status = overall(tried.checks)
    return status, () if status == "pass" else tuple(
        check.name for check in tried.checks if check.status == status)


def _stretches(at, tried, names=None):
    """Where all checks, or those of these names, pass; edges lie on straight lines between boats.

    Beside a boat that does not float, the stretch ends at the last one that does.
    """
    slack = [None if one is None else min(
        (check.margin - check.band) / check.scale
        for check in (one.checks if names is None else _named(one.checks, names)))
        for one in tried]
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
