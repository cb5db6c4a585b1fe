"""Everything marked along a stick, in one tape pull from its finished forward end."""

from dataclasses import dataclass

import numpy as np

from sizer.shop.stem_sticks import LAP_M
from sizer.shop.stringers import bent_thickness_m

FULL_M = 1e-4  # of width: a taper is whole where less is missing


@dataclass(frozen=True)
class TapeMark:
    """One mark on a stick; what does not apply is None."""

    along_m: float  # from the finished forward end
    kind: str  # "end", "taper", "scarf" or "frame"
    what: str
    width_m: float | None = None  # left there, where a taper runs
    face_deg: float | None = None  # of the outer face at a frame, from level
    rise_m: float | None = None  # of the outer face over the width that is left
    turn_deg: float | None = None  # of the outer face since the frame before, positive upright


def stick_marks(stick):
    """The TapeMarks of a Stick, forward first."""
    marks = [
        TapeMark(0.0, "end", f"end {_end_words(stick.forward)}", _left_m(stick.forward)),
        TapeMark(stick.length_m, "end", f"end {_end_words(stick.after)}", _left_m(stick.after)),
        *_tapers(stick), *_sides(stick), *_frames(stick),
        *(TapeMark(middle, "scarf", f"scarf{f', {side}' if side else ''}, middle")
          for side, joints in stick.sides.items() for middle in joints.middles_m)]
    return tuple(sorted(marks, key=lambda mark: mark.along_m))


def bevel_back_m(stick, end):
    """How far back an end's bevel runs along each edge from that edge's own end, over the thickness
    it is bevelled through; None where there is none."""
    if not end.bevel_deg:
        return None
    return float(bent_thickness_m(stick.stringer)[0] / np.tan(np.radians(end.bevel_deg)))


def cut_high_m(stick, end):
    """What of a stick's height, seen from the side, is left at an end to be cut: a ridge's lap."""
    high = bent_thickness_m(stick.stringer)[1]
    return min(LAP_M, high) if end.kind == "stem head" else high


def cut_back_m(stick, end):
    """How far back an end's cut runs, seen from the side; None where its end is square."""
    if end.cut_deg is None:
        return None
    return float(cut_high_m(stick, end) * np.tan(np.radians(end.cut_deg)))


def marked_above(stick):
    """Whether the tape, on the moulded line, runs along what is the upper edge seen from the side:
    on a gunwale's upper corner, and on the upper face of what lies on the deck."""
    return stick.stringer.role in ("gunwale", "deck", "ridge")


def beyond_m(stick, end):
    """(2,) m that the upper and the lower edge of an end, seen from the side, stand beyond its mark
    on the tape: one of them on it, or it midway of both; 0 where the end is square."""
    back = cut_back_m(stick, end) or 0.0
    rows = np.array([0.0, -1.0]) if marked_above(stick) else np.array([0.5, -0.5])
    return rows * back * (1.0 if end.upper_longer else -1.0)


def over_all_m(stick):
    """A Stick's finished length from long point to long point."""
    return stick.length_m + sum(float(beyond_m(stick, end).max())
                                for end in (stick.forward, stick.after))


def scarf_faces(stick):
    """Where a scarf's slope is seen, and where it is a line square across: what lies flat on the
    centre line has an upper and a lower face and two sides."""
    one = stick.stringer
    faces, edges = (("upper", "lower"), ("port", "starboard")) if one.count == 1 else (
        ("outer", "inner"), ("upper", "lower"))
    side = "side" if one.count == 1 else "edge"
    seen, square = (((faces, "face"), (edges, side)) if one.width_m < one.depth_m else
                    ((edges, side), (faces, "face")))
    return ("the {} and the {} {}".format(*seen[0], seen[1]),
            "{} and {} {}".format(*square[0], square[1]))


def _end_words(end):
    if end.taper is not None:
        return f"on {end.on}, feather tip"
    return "free" if end.on == "nothing" else f"past {end.on}" if end.past_m else f"on {end.on}"


def _tapers(stick):
    for end, forward in ((stick.forward, True), (stick.after, False)):
        if end.taper is None:
            continue
        for place, width in end.taper.widths_m[1:]:
            whole = stick.stringer.width_m - width < FULL_M
            yield TapeMark(place if forward else stick.length_m - place, "taper",
                           "taper ends, whole" if whole else "taper", width)


def _left_m(end):
    """Width of a keel's tapered end."""
    return end.sides.end_width_m if end.sides and end.sides.taper_m else None


def _sides(stick):
    """Where a keel's sides are whole, at each end."""
    for place, end, way in ((0.0, stick.forward, 1.0), (stick.length_m, stick.after, -1.0)):
        if end.sides and end.sides.taper_m:
            yield TapeMark(place + way * end.sides.taper_m, "taper", "taper ends, both sides",
                           end.sides.width_m)


def _frames(stick):
    turns = (None, *stick.twists_deg)
    for crossing, turn in zip(stick.crossings, turns, strict=True):
        lies = "aft" if crossing.far_m > crossing.along_m else "forward"
        left = stick.left_m(crossing.along_m)
        yield TapeMark(crossing.along_m, "frame", f"{crossing.frame}, plywood {lies}",
                       width_m=left if stick.stringer.width_m - left > FULL_M else None,
                       face_deg=crossing.angle_deg, turn_deg=turn,
                       rise_m=float(left * np.sin(np.radians(crossing.angle_deg))))
