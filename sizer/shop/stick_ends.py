"""How each end of a stick is cut: on the stem, into its host, at the coaming, or free.

Where a stick ends is not always where its drawn line ends: the feather tip of a taper, which a tape
finds, lies short of the parting place, where the two lines meet; and a stick that ends at a frame
runs right through its notch.

An end's cut is told on the stick's outer face, from square across it. At a stem's side the outer
face's end lies on the stem: so the face holds the stick's own run and the stem's edge, and the
bevel that lies flat on the stem meets the inner face in a line parallel to the cut end. Told as an
angle off the inner face seen on the stick's edges, it is as far back along either edge from that
edge's own end.
"""

from dataclasses import dataclass

import numpy as np

from sizer.hull.places import PIN_REACH_M
from sizer.hull.stick_curves import stick_points_m
from sizer.shop.stations import setting_up
from sizer.shop.stem_sticks import KeelEnd, keel_end, tail_m
from sizer.units import MM_PER_M

TAPER_STEPS = 5  # places along a taper where the width left is told
SAME_PLACE_M = 1e-4  # a line that ends nearer to a frame's reference face ends at it
ROUND_SHARE = 0.5  # of the stick's width: radius on a cut end, so half round; our drawing

WORDS = {
    "stem mouth": "{sides}, square end into its bird's mouth, trimmed until both faces bear",
    "stem side": "inner face bevelled to lie flat on the stem's side, end fair with its edge",
    "stem head": "lapped over the stem's head as its drawing tells, end cut to the stem's edge",
    "host": "planed on its {edge} edge to a long taper against its host, which it leaves at no "
            "angle",
    "coaming": "cut square to the slope that the coaming stands on, the end rounded: nothing sharp "
               "points at the paddler",
    "free": "cut square and rounded",
}
THROUGH_WORDS = "runs right through the notch of {on} and {past} past its plywood, "


@dataclass(frozen=True)
class StickEnd:
    """One end of a stick, told for the bench; what does not apply is None."""

    kind: str  # a key of WORDS
    on: str  # what it ends on: a stem, a stringer, the coaming or a frame
    words: str
    bevel_deg: float | None = None  # off the inner face, seen on the stick's edges
    cut_deg: float | None = None  # off square, on the outer face
    slope_deg: float | None = None  # of the coaming, rising forward
    round_m: float | None = None  # radius on the end
    taper: "Taper | None" = None
    upper_longer: bool | None = None  # of a cut in profile: whether it leaves the upper edge longer
    planed: str | None = None  # the edge a taper is planed on, "lower" or "upper"
    sides: KeelEnd | None = None  # of the keel in a stem's mouth
    past_m: float = 0.0  # of the stick's end beyond its drawn line's, along it; short of it below 0


@dataclass(frozen=True)
class Taper:
    """How a stick is planed away where it blends into its host, told from its feather tip."""

    length_m: float  # from the tip to where stick and host lie side by side, both whole
    meeting_deg: float  # between stick and host where the full width ends
    widths_m: tuple[tuple[float, float], ...]  # (from the tip, width left), the tip first


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
    frame = None if end.kind == "coaming" else _frame_at(boat, x)
    on = "coaming" if end.kind == "coaming" else f"frame {frame.name}" if frame else "nothing"
    past_m = _through_m(curve, row, frame, round_m, forward) if frame else 0.0
    through = THROUGH_WORDS.format(on=on, past=f"{round_m * MM_PER_M:.0f} mm") if frame else ""
    deck = curve.stringer.role in ("deck", "ridge")
    if end.kind == "coaming" or (deck and np.abs(ends - x).min() <= PIN_REACH_M):
        slope = coaming_slope_deg(boat)
        stick = -float(np.degrees(np.arctan(curve.slope[row, 1])))  # rising forward
        return StickEnd("coaming", on, through + WORDS["coaming"], cut_deg=abs(stick - slope),
                        slope_deg=slope, round_m=round_m, past_m=past_m,
                        upper_longer=(stick > slope) == forward)
    return StickEnd("free", on, through + WORDS["free"], round_m=round_m, past_m=past_m)


def _frame_at(boat, x_m):
    """The Station of the frame whose reference face is here, None where there is none."""
    return next((one for one in setting_up(boat).stations
                 if abs(one.x_m - x_m) < SAME_PLACE_M), None)


def _through_m(curve, row, frame, round_m, forward):
    """How far a stick runs on, from its line's end at a frame's reference face: through the plywood
    where that lies ahead of it, and its rounded end beyond."""
    near, far = frame.faces_x_m
    ahead = frame.x_m - near if forward else far - frame.x_m
    return ahead * float(np.hypot(1.0, np.hypot(*curve.slope[row]))) + round_m


def _on_stem(boat, curve, row, forward):
    stem = "bow stem" if forward else "stern stem"
    profile = boat.lines.bow_profile if forward else boat.lines.stern_profile
    base_x = float(curve.base_x_m[row])
    rise = boat.scaling.depth * float(profile(base_x, 1)) / float(boat.map.stretch(base_x))
    plan, own = curve.slope[row]
    steeper = float(np.degrees(np.arctan(rise) - np.arctan(own)))  # the stem's edge, going aft
    role = curve.stringer.role
    kind = {"keel": "stem mouth", "ridge": "stem head"}.get(role, "stem side")
    if kind == "stem mouth":
        end = "bow" if forward else "stern"
        sides = keel_end(curve.stringer, boat.design.stem(end).thickness_m, tail_m(boat, end))
        return StickEnd(kind, stem, WORDS[kind].format(sides=_sides_words(sides)), sides=sides)
    run, edge = (np.array(way) / np.linalg.norm(way)
                 for way in ((1.0, plan, own), (1.0, 0.0, rise)))
    face = np.cross(run, edge) / np.linalg.norm(np.cross(run, edge))  # square to the outer face
    bevel = (float(np.degrees(np.arctan2(abs(run[1]), abs(face[1]))))
             if kind == "stem side" else None)
    return StickEnd(kind, stem, WORDS[kind], bevel_deg=bevel,
                    cut_deg=float(np.degrees(np.arcsin(abs(run @ edge)))),
                    upper_longer=(steeper < 0.0) == forward)


def _sides_words(sides):
    if not sides.taper_m:
        return "sides as they are, no wider than the stem"
    wide, left, long = (f"{one * MM_PER_M:.0f}" for one in (
        sides.width_m, sides.end_width_m, sides.taper_m))
    return f"both sides tapered over the last {long} mm, from {wide} to the stem's {left} mm"


def _into_host(boat, curve, end, forward):
    """A stick that is planed to a taper against its host."""
    host = boat.lines.line(end.into)
    gap = np.linalg.norm(curve.points_m - stick_points_m(boat, host, curve.base_x_m), axis=1)
    from_end = curve.along_m if forward else curve.length_m - curve.along_m
    if not forward:
        gap, from_end = gap[::-1], from_end[::-1]
    tip, taper = blend(gap, from_end, curve.stringer.width_m,
                       _host_side_m(host.stringer, curve.stringer))
    return StickEnd("host", end.into, WORDS["host"].format(edge=_edge(boat, curve, end.into)),
                    taper=taper, planed=_edge(boat, curve, end.into), past_m=-tip)


def _edge(boat, curve, host):
    """The edge that lies on the host: stringers stand in the design from keel to ridge."""
    names = [one.name for one in boat.design.stringers]
    return "lower" if names.index(host) < names.index(curve.name) else "upper"


def blend(gap, from_end, width, inner):
    """The feather tip's place from where two lines part, and the Taper from it.

    At any gap the stick keeps its outer half and what the host leaves of its inner half. The taper
    reaches as far as the gap between the lines is less than the stock between them.

    Parameters
    ----------
    gap : (n,) m between the lines, rising from 0
    from_end : (n,) m along the stick's line, from the parting place
    width : m, of the stick
    inner : m, that the host reaches from its line towards the stick
    """
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
