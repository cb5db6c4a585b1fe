"""The long taper of a stick that blends into another, its host: how wide it is left, and where.

The feather tip, which a tape finds, lies short of the parting place, where the two lines meet.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil

import numpy as np

from sizer.hull.stick_curves import stick_curve, stick_points_m

TAPER_STEPS = 5  # places along a taper where the width left is told
TIP_TIE_M = 0.040  # from the feather tip to the first lashing round stick and host; our judgement
TIES_APART_M = 0.080  # at most from one to the next, and to a frame's plywood; our judgement


@dataclass(frozen=True)
class Taper:
    """How a stick is planed away where it blends into its host, told from its feather tip."""

    length_m: float  # from the tip to where stick and host lie side by side, both whole
    meeting_deg: float  # between stick and host where the full width ends
    widths_m: tuple[tuple[float, float], ...]  # (from the tip, width left), the tip first

    def left_m(self, from_tip_m):
        """The width left at a place from the tip, by what is told of it."""
        return float(np.interp(from_tip_m, *zip(*self.widths_m, strict=True)))


def ties_from_tip_m(free_m):
    """Where a stick is lashed to its host, from its feather tip: first near it, then evenly up to
    where a frame holds both, or they part, `free_m` from the tip."""
    run = max(free_m - TIP_TIE_M, 0.0)
    count = max(ceil(run / TIES_APART_M - 1e-9), 1)
    first = min(TIP_TIE_M, 0.5 * free_m)
    return tuple(first + run * row / count for row in range(count))


def host_taper(boat, curve, end, forward):
    """The feather tip's place from the end of a StickCurve that blends, and the Taper from it."""
    host = boat.lines.line(end.into)
    gap = np.linalg.norm(curve.points_m - stick_points_m(boat, host, curve.base_x_m), axis=1)
    from_end = curve.along_m if forward else curve.length_m - curve.along_m
    if not forward:
        gap, from_end = gap[::-1], from_end[::-1]
    return blend(gap, from_end, curve.stringer.width_m,
                 _host_side_m(host.stringer, curve.stringer))


def planed_edge(design, name, host):
    """The edge on the host, "lower" or "upper": stringers stand in the design from keel up."""
    names = [one.name for one in design.stringers]
    return "lower" if names.index(host) < names.index(name) else "upper"


def planed_at_m(boat, stick, x_m):
    """What a stick's tapers have taken off its lower and its upper edge at any of some x."""
    taken = {"lower": 0.0, "upper": 0.0}
    for edge, from_x_m, from_tip_m, taper in _tapers(boat, stick.name):
        left = max(taper.left_m(np.interp(x, from_x_m, from_tip_m)) for x in x_m)
        taken[edge] += stick.width_m - left
    return taken["lower"], taken["upper"]


@lru_cache(maxsize=64)
def _tapers(boat, name):
    """(edge, rising x, place from the tip there, Taper) of each end of a stick that blends."""
    one = boat.design.stringer(name)
    ends = [(end, forward) for end, forward in ((one.start, True), (one.end, False))
            if end.kind == "into"]
    found, curve = [], stick_curve(boat, name) if ends else None
    for end, forward in ends:
        tip, taper = host_taper(boat, curve, end, forward)
        from_end = curve.along_m if forward else curve.length_m - curve.along_m
        found.append((planed_edge(boat.design, name, end.into), curve.points_m[:, 0],
                      from_end - tip, taper))
    return tuple(found)


def blend(gap, from_end, width, inner):
    """The feather tip's place from where two lines part, and the Taper from it.

    At any `gap` between the lines, (n,) m rising from 0 at (n,) m from the parting place, the stick
    keeps its outer half and what the host leaves of its inner half, reaching `inner` from its line.
    The taper reaches as far as the gap is less than the stock between them."""
    outer = 0.5 * width
    apart = np.flatnonzero(gap >= inner + 0.5 * width)
    whole = int(apart[0]) if apart.size else gap.size - 1
    reach = float(from_end[whole])
    left = np.clip(outer + gap - inner, 0.0, width)
    tip = float(np.interp(inner - outer, gap[:whole + 1], from_end[:whole + 1]))
    places = np.linspace(tip, reach, TAPER_STEPS)
    widths = np.interp(places, from_end, left)
    growth = np.gradient(gap, from_end)[whole]
    taper = Taper(reach - tip, float(np.degrees(np.arcsin(min(growth, 1.0)))),
                  tuple(zip((places - tip).tolist(), widths.tolist(), strict=True)))
    return tip, taper


def _host_side_m(host, stick):
    """How far the host reaches from its line towards the stick: a gunwale hangs below its line."""
    if host.role == "gunwale":
        return 0.0 if stick.role in ("deck", "ridge") else host.width_m
    return 0.5 * host.width_m
