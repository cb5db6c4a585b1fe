"""How each end of a stick is cut: on the stem, into its host, at the coaming, or free.

Angles are between what meets: a stick's bevel in plan is between the stick and the stem's side,
its cut in profile between the stick and the line it is cut to. Zero is along it.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hull.places import PIN_REACH_M
from sizer.hull.stick_curves import stick_points_m

TAPER_STEPS = 5  # places along a taper where the width left is told
ROUND_SHARE = 0.5  # of the stick's width: radius on a cut end, so half round; our drawing

WORDS = {
    "stem mouth": "sides tapered to the stem's thickness as the stem's drawing tells, square end "
                  "into its bird's mouth, trimmed until both faces bear",
    "stem side": "inner face bevelled to lie flat on the stem's side, end fair with its edge",
    "stem head": "lapped over the stem's head as its drawing tells, end cut to the stem's edge",
    "host": "planed to a long taper against its host, which it leaves at no angle",
    "coaming": "cut to the coaming's slope, the end rounded: nothing sharp points at the paddler",
    "free": "cut square and rounded",
}


@dataclass(frozen=True)
class StickEnd:
    """One end of a stick, told for the bench; what does not apply is None."""

    kind: str  # a key of WORDS
    on: str  # what it ends on: a stem, a stringer, the coaming or a frame
    words: str
    bevel_deg: float | None = None  # in plan, between the stick and the stem's side
    cut_deg: float | None = None  # in profile, between the stick and what it is cut to
    slope_deg: float | None = None  # of the coaming, rising forward
    round_m: float | None = None  # radius on the end
    taper: "Taper | None" = None


@dataclass(frozen=True)
class Taper:
    """How a stick is planed away where it blends into its host."""

    length_m: float  # from the parting place to where stick and host lie side by side, both whole
    tip_m: float  # of the feather edge, from the parting place, which is the stick's end
    meeting_deg: float  # between stick and host where the full width ends
    widths_m: tuple[tuple[float, float], ...]  # (from the stick's end, width left), tip first


def stick_ends(boat, curve):
    """The (forward, after) StickEnd of a stick."""
    one = curve.stringer
    return tuple(_end(boat, curve, end, row, forward) for end, row, forward in (
        (one.start, 0, True), (one.end, -1, False)))


def coaming_slope_deg(boat):
    """Slope of the line the coaming stands on, positive where it rises forward."""
    front, back = boat.opening.deck_z_m
    return float(np.degrees(np.arctan2(front - back, boat.opening.length_m)))


def _end(boat, curve, end, row, forward):
    if end.kind == "stem":
        return _on_stem(boat, curve, row, forward)
    if end.kind == "into":
        return _into_host(boat, curve, end, forward)
    x = float(curve.points_m[row, 0])
    ends = np.array([boat.opening.front_x_m, boat.opening.back_x_m])
    round_m = ROUND_SHARE * curve.stringer.width_m
    on = "coaming" if end.kind == "coaming" else _frame_at(boat, x)
    deck = curve.stringer.role in ("deck", "ridge")
    if end.kind == "coaming" or (deck and np.abs(ends - x).min() <= PIN_REACH_M):
        slope = coaming_slope_deg(boat)
        stick = -float(np.degrees(np.arctan(curve.slope[row, 1])))  # rising forward
        return StickEnd("coaming", on, WORDS["coaming"], cut_deg=abs(stick - slope),
                        slope_deg=slope, round_m=round_m)
    return StickEnd("free", on, WORDS["free"], round_m=round_m)


def _frame_at(boat, x_m):
    nearest = int(np.abs(boat.frame_x_m - x_m).argmin())
    if abs(boat.frame_x_m[nearest] - x_m) < 1e-4:
        return f"frame {boat.design.frames[nearest].name}"
    return "nothing"


def _on_stem(boat, curve, row, forward):
    stem = "bow stem" if forward else "stern stem"
    profile = boat.lines.bow_profile if forward else boat.lines.stern_profile
    base_x = float(curve.base_x_m[row])
    rise = boat.scaling.depth * float(profile(base_x, 1)) / float(boat.map.stretch(base_x))
    plan, own = curve.slope[row]
    cut = float(np.degrees(abs(np.arctan(rise) - np.arctan(own))))
    role = curve.stringer.role
    kind = {"keel": "stem mouth", "ridge": "stem head"}.get(role, "stem side")
    bevel = float(np.degrees(np.arctan(abs(plan)))) if kind == "stem side" else None
    return StickEnd(kind, stem, WORDS[kind], bevel_deg=bevel, cut_deg=cut)


def _into_host(boat, curve, end, forward):
    """The taper reaches as far as the gap between the lines is less than the stock between them.

    At any gap the stick keeps its outer half and what the host leaves of its inner half.
    """
    host = boat.lines.line(end.into)
    gap = np.linalg.norm(curve.points_m - stick_points_m(boat, host, curve.base_x_m), axis=1)
    from_end = curve.along_m if forward else curve.length_m - curve.along_m
    if not forward:
        gap, from_end = gap[::-1], from_end[::-1]
    width = curve.stringer.width_m
    outer, inner = 0.5 * width, _host_side_m(host.stringer, curve.stringer)
    apart = np.flatnonzero(gap >= inner + 0.5 * width)
    whole = int(apart[0]) if apart.size else gap.size - 1
    reach = float(from_end[whole])
    left = np.clip(outer + gap - inner, 0.0, width)
    tip = float(from_end[max(int(np.argmax(left > 0.0)) - 1, 0)])
    places = np.linspace(tip, reach, TAPER_STEPS)
    widths = np.interp(places, from_end, left)
    growth = np.gradient(gap, from_end)[whole]
    taper = Taper(reach, tip, float(np.degrees(np.arcsin(min(growth, 1.0)))),
                  tuple(zip(places.tolist(), widths.tolist(), strict=True)))
    return StickEnd("host", end.into, WORDS["host"], taper=taper)


def _host_side_m(host, stick):
    """How far the host reaches from its line towards the stick: a gunwale hangs below its line."""
    if host.role == "gunwale":
        return 0.0 if stick.role in ("deck", "ridge") else host.width_m
    return 0.5 * host.width_m
