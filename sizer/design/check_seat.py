"""What the seat stands on has to be there, in the design file's own millimetres."""

from itertools import pairwise

from sizer.design.extent import EDGE_MM, span_mm
from sizer.design.records import SIT_AHEAD_M
from sizer.units import MM_PER_M

STANDS_ON = ("seat", "stands_on")


def seat_faults(file):
    """What the seat stands on and cannot, as (path, value, allowed)."""
    if file.seat.kind == "panel":
        yield from _panel(file)
    else:
        yield from _between_frames(file)


def _panel(file):
    sticks = {one.name: one for one in file.stringer}
    first, *others = names = file.seat.stands_on
    for name in names:
        if name not in sticks:
            yield STANDS_ON, repr(name), "a stick's name from [[stringer]], for a panel"
    if first in sticks and sticks[first].role != "keel":
        yield STANDS_ON, f"{first!r} first", "a panel lies on the keel first, then on chines"
    for name in others:
        if name in sticks and sticks[name].role != "chine":
            yield STANDS_ON, f"{name!r}, a {sticks[name].role}", "only chines after the keel"
    order = list(sticks)
    for inner, outer in pairwise(name for name in others if name in sticks):
        if order.index(outer) <= order.index(inner):
            yield (STANDS_ON, f"{outer!r} after {inner!r}",
                   "each once, going outward, in the order of [[stringer]]")
    for name in dict.fromkeys(name for name in names if name in sticks):
        yield from _reaches(file, sticks[name])


def _reaches(file, stick):
    """A stick under a panel runs along all of it, wherever the seat slides."""
    front, back = span_mm(file, stick)
    seat_front, seat_back = _slid_mm(file, file.seat.length_mm)[0], _slid_mm(file, 0.0)[1]
    if front is None or back is None:  # told as a landing that is missing
        return
    if front > seat_front + EDGE_MM or back < seat_back - EDGE_MM:
        yield (STANDS_ON, f"{stick.name!r} from {front:g} to {back:g} mm",
               f"a stick all along the seat, slide and all: {seat_front:g} to {seat_back:g} mm")


def _between_frames(file):
    seat, frames = file.seat, {one.name: one for one in file.frame}
    known = [frames[name] for name in seat.stands_on if name in frames]
    for name in seat.stands_on:
        if name not in frames:
            yield STANDS_ON, repr(name), f"a frame's name from [[frame]], for {seat.kind}"
    for frame in known:
        if frame.kind == "stem":
            yield STANDS_ON, f'{frame.name!r} of kind "stem"', "frames of another kind"
    if len(seat.stands_on) != 2:
        yield STANDS_ON, f"{len(seat.stands_on)} names", "exactly two frames, fore then aft"
    elif len(known) == 2:
        yield from _either_side(file, *known)


def _either_side(file, fore, aft):
    """Whoever sits there sits between both frames, wherever the seat slides."""
    if fore.x_mm >= aft.x_mm:
        yield (STANDS_ON, f"{fore.name!r} at {fore.x_mm:g}, {aft.name!r} at {aft.x_mm:g} mm",
               "two frames, fore then aft")
        return
    nearest, farthest = _slid_mm(file, SIT_AHEAD_M * MM_PER_M)
    if not (fore.x_mm < nearest and farthest < aft.x_mm):
        yield (STANDS_ON, f"{fore.name!r} at {fore.x_mm:g}, {aft.name!r} at {aft.x_mm:g} mm",
               "one frame on each side of the sitting place, slide and all: "
               f"{nearest:g} to {farthest:g} mm")


def _slid_mm(file, ahead_mm):
    """Foremost and aftmost x of a point so far ahead of the buttocks' back as the seat slides."""
    forward, aft = file.cockpit.seat_slide_mm
    at = file.cockpit.seat_x_mm - ahead_mm
    return at - forward, at + aft
