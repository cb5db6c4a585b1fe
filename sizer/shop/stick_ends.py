"""How each end of a stick is cut: on the stem, into its host, at the coaming, or free.

Where a stick ends is not always where its drawn line ends: a taper ends at its feather tip, and a
stick that ends at a frame runs right through its notch.

An end's cut is told on the stick's outer face, from square across it. At a stem's side the outer
face of a stick that is twisted holds its own run and the stem's edge, and the bevel that lies flat
on the stem meets the inner face in a line parallel to the cut end: told as an angle off the inner
face seen on the stick's edges, it is as far back along either edge from that edge's own end. Of one
that is not twisted both lines are told from the tape's mark, see `sizer.shop.stem_lay`.
"""

from dataclasses import dataclass

import numpy as np

from sizer.drawing.told import in_mm, size, told
from sizer.hull.places import PIN_REACH_M
from sizer.shop.shapes import along_m
from sizer.shop.stations import setting_up
from sizer.shop.stem_lay import StemLay, stem_lay
from sizer.shop.stem_sticks import KeelEnd, keel_end, tail_m
from sizer.shop.tapers import Taper, host_taper, planed_edge
from sizer.shop.trade_sizes import section_told

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
ASLANT = ("not twisted to the stem: inner face bevelled aslant to lie flat on its side, end fair "
          "with its edge")
THROUGH_WORDS = "runs right through the notch of {on} and {past} past its plywood, "


@dataclass(frozen=True)
class StickEnd:
    """One end of a stick, told for the bench; what does not apply is None."""

    kind: str  # a key of WORDS
    on: str  # what it ends on: a stem, a stringer, the coaming or a frame
    words: str
    lay: StemLay | None = None  # on a stem's side
    cut_deg: float | None = None  # off square, on the outer face
    slope_deg: float | None = None  # of the coaming, rising forward
    round_m: float | None = None  # radius on the end
    taper: Taper | None = None
    upper_longer: bool | None = None  # of a cut in profile: whether it leaves the upper edge longer
    planed: str | None = None  # the edge a taper is planed on, "lower" or "upper"
    sides: KeelEnd | None = None  # of the keel in a stem's mouth
    inside_m: float | None = None  # of its line in a stem, from the stem's middle to its side
    past_m: float = 0.0  # of the stick's end beyond its drawn line's, along it; short of it below 0

    @property
    def bevel_deg(self):
        """Off the inner face, seen on the stick's edges; None where none is alike along both."""
        return self.lay.bevel_deg if self.lay and self.lay.twisted else None

    @property
    def aslant(self):
        """The StemLay of an end that is not twisted to its stem but planed to it, else None."""
        return self.lay if self.lay and not self.lay.twisted else None


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
    frame = None if end.kind == "coaming" else next(
        (one for one in setting_up(boat).stations if abs(one.x_m - x) < SAME_PLACE_M), None)
    on = "coaming" if end.kind == "coaming" else f"frame {frame.name}" if frame else "nothing"
    past_m = _through_m(curve, row, frame, round_m, forward) if frame else 0.0
    through = told(THROUGH_WORDS, on=on, past=size(round_m, form=in_mm)) if frame else ""
    deck = curve.stringer.role in ("deck", "ridge")
    if end.kind == "coaming" or (deck and np.abs(ends - x).min() <= PIN_REACH_M):
        slope = coaming_slope_deg(boat)
        stick = -float(np.degrees(np.arctan(curve.slope[row, 1])))  # rising forward
        return StickEnd("coaming", on, told("{}{}", through, WORDS["coaming"]),
                        cut_deg=abs(stick - slope), slope_deg=slope, round_m=round_m, past_m=past_m,
                        upper_longer=(stick > slope) == forward)
    return StickEnd("free", on, told("{}{}", through, WORDS["free"]), round_m=round_m,
                    past_m=past_m)


def _through_m(curve, row, frame, round_m, forward):
    """How far a stick runs on, from its line's end at a frame's reference face: through the plywood
    where that lies ahead of it, and its rounded end beyond."""
    near, far = frame.faces_x_m
    ahead = frame.x_m - near if forward else far - frame.x_m
    return ahead * float(np.hypot(1.0, np.hypot(*curve.slope[row]))) + round_m


def _on_stem(boat, curve, row, forward):
    end = "bow" if forward else "stern"
    stem = f"{end} stem"
    kind = {"keel": "stem mouth", "ridge": "stem head"}.get(curve.stringer.role, "stem side")
    if kind == "stem mouth":
        sides = keel_end(curve.stringer, boat.design.stem(end).thickness_m, tail_m(boat, end))
        return StickEnd(kind, stem, told(WORDS[kind], sides=_sides_words(sides)), sides=sides)
    if kind == "stem head":
        profile = boat.lines.bow_profile if forward else boat.lines.stern_profile
        base_x = float(curve.base_x_m[row])
        rise = boat.scaling.depth * float(profile(base_x, 1)) / float(boat.map.stretch(base_x))
        steeper = float(np.degrees(np.arctan(rise) - np.arctan(curve.slope[row, 1])))  # going aft
        return StickEnd(kind, stem, WORDS[kind], cut_deg=abs(90.0 - abs(steeper)),
                        upper_longer=(steeper < 0.0) == forward)
    lay = stem_lay(boat, end, curve.name)
    cut = lay.cut @ lay.run
    return StickEnd(kind, stem, WORDS[kind] if lay.twisted else ASLANT, lay=lay,
                    inside_m=_inside_m(curve, forward, 0.5 * boat.design.stem(end).thickness_m),
                    cut_deg=float(np.degrees(np.arcsin(abs(cut)))), upper_longer=bool(cut < 0.0))


def _inside_m(curve, forward, half_m):
    """Along a stick's line from its end to where it is half the stem's thickness off."""
    points = curve.points_m if forward else curve.points_m[::-1]
    run, outside = along_m(points), int(np.argmax(np.abs(points[:, 1]) >= half_m))
    return float(np.interp(half_m, np.abs(points[:outside + 1, 1]), run[:outside + 1]))


def _sides_words(sides):
    if not sides.taper_m:
        return "sides as they are, no wider than the stem"
    return told("both sides tapered over the last {}, from {} to the stem's {}",
                size(sides.taper_m, form=in_mm), section_told(sides.width_m),
                section_told(sides.end_width_m))


def _into_host(boat, curve, end, forward):
    """A stick that is planed to a taper against its host."""
    tip, taper = host_taper(boat, curve, end, forward)
    edge = planed_edge(boat.design, curve.name, end.into)
    return StickEnd("host", end.into, WORDS["host"].format(edge=edge), taper=taper, planed=edge,
                    past_m=-tip)
