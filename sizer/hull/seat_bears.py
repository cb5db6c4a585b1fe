"""Whether what bears the seat between two frames bears the paddler who sits down hard on it.

A panel lies on keel and chines, which run on over the frames beside it; its plates are beams of
their own from stick to stick, laden where a sitting bone is; slats are beams of their
own from frame to frame. Taken at its worst: at the dock's edge, on sand or in the dry frame, no
water pressing from below, the wood as wet as it gets. A stick's outer face may be planed, its grain
run aslant, a scarf lie near: one share of its strength is taken off for all of that.
"""

import numpy as np

from sizer.design.woods import WOODS
from sizer.hull.inside import squares
from sizer.hull.seat import SEATED_SHARE, SIT_APART_M, SLAT_SHARE, SLAT_WOOD
from sizer.rows import along
from sizer.units import PA_PER_MPA, STANDARD_GRAVITY_MPS2

# A load let go just where it touches comes down with twice its weight: 1 + sqrt(1 + 2 h / sag) at
# a height h of 0, any handbook of strength of materials. Who lowers the body by the arms stays
# under it, who falls into the seat does not.
DROP = 2.0
# Of the bending of a beam that ends at both frames, in one that runs on over them: built in it
# would be about 0.4, over stiff frames with a span like it on either side 0.6 (tested). Frames and
# lashings give: our judgement, on the safe side.
RUNS_ON = 0.7
# Of clear, straight-grained wood's strength: grain that runs out one in fifteen leaves 0.89 (USDA
# Wood Handbook, from memory); an outer face planed to the skin and a scarf take as much again: our
# judgement.
AS_BUILT = 0.8
# Between pieces of one wood, one standard deviation of the rupture stress as a share of it (USDA
# Wood Handbook, from memory); nine of ten are no weaker than so many of them under the mean.
VARIES, NINE_OF_TEN = 0.16, 1.282
SURE_TO_BEAR = 1.0 / (1.0 - NINE_OF_TEN * VARIES)  # wanted, so that nine of ten pieces hold
# From 1 down everything has to come together: green wood, frames that give, a slow load. Wood at a
# fifth of moisture is some 1.15 times as strong, and so is wood laden for a second against the
# minutes of a test (USDA Wood Handbook, from memory); stiff frames leave 0.6 for 0.7. Without these
# margins a piece like most breaks under 0.65: our judgement.
BREAKS_BELOW = 0.65
# A plate's wood, its face grain from stick to stick: wet okoume, clear, breaks at some 36 N/mm2
# (0.7 of the Wood Handbook's 51, from memory); of five plies the three that run so leave
# 1 - (27 - 1) / 125 of a whole section, of three plies more. Holes near its ends and the lathe's
# cracks: AS_BUILT, as for sticks. Across that grain five plies keep less than half of that, three
# a ninth. Strengths: our judgement.
PLATE_WET_PA = 36e6
ALONG_PLIES = 1.0 - 26.0 / 125.0
BONE_PATCH_M = 0.100  # across the boat, that one bone's weight is spread over; our judgement
BONE_ALONG_M = 0.200  # of a plate's length that bears it: as much, and spread in it; our judgement
SLAT_UNEVEN = 1.25  # what the slat under a sitting bone bears over its share; our judgement


def bears_ratio(boats, body_kg, skin_m):
    """Strength of what bears the seat, over the stress in it as its paddler sits down hard.

    Of one Boat, or many of one design; `skin_m` (..., n, 2), half-breadth and height of the section
    at the sitting bones, keel to deck. Returns (..., k) of each of the sticks that a panel stands
    on, in their order, and last of its plates, or of its slats together (k = 1); NaN of a sling,
    which no stick bears, and of wood whose strength is not known."""
    seat = boats.design.seat
    if seat.kind != "panel":
        return _beams_ratio(boats, body_kg, skin_m)
    sticks = _beams_ratio(boats, body_kg, skin_m)
    plates = np.asarray(_plates_hold_n(boats, skin_m) / (0.5 * _force_n(body_kg)))[..., None]
    return np.concatenate([sticks, np.broadcast_to(plates, (*sticks.shape[:-1], 1))], axis=-1)


def _force_n(body_kg):
    """Of who sits down hard, on the whole seat."""
    return DROP * SEATED_SHARE * body_kg * STANDARD_GRAVITY_MPS2


def _beams_ratio(boats, body_kg, skin_m):
    """`bears_ratio` of what runs lengthwise."""
    seat, back = boats.design.seat, boats.seat_x_m
    if seat.kind == "panel":
        holds, gaps, runs_on = _holds_nm(boats, skin_m), _gaps_m(boats), RUNS_ON
    elif seat.kind == "slats":
        holds = np.array([broken_pa(SLAT_WOOD) * SLAT_SHARE * seat.width_m * seat.thickness_m**2
                          / 6.0 / SLAT_UNEVEN])  # all together
        gaps, runs_on = _between_m(boats), 1.0
    else:
        return np.full((*np.shape(body_kg * back), 1), np.nan)
    ends = (along(one, gaps[0]) for one in (back - seat.length_m, back))
    return holds / (runs_on * _force_n(body_kg) * bent_m(*gaps, *ends).max(axis=-1))[..., None]


def bent_m(start, end, front, back):
    """Greatest bending, per force on the whole patch, of a beam that ends at both its supports.

    (a b / l) (1 - c / (2 l)): an even patch c long whose middle is a and b from the supports, l
    apart. Source: any handbook of strength of materials. Of a patch that reaches past a support
    only what is between them counts, with its share of the force.
    """
    low, high = np.clip(front, start, end), np.clip(back, start, end)
    long, patch, ahead = end - start, high - low, 0.5 * (low + high) - start
    return (patch / (back - front) * ahead * (long - ahead) / long
            * (1.0 - 0.5 * patch / long))


def shares(rests_m):
    """Shares (..., k) of the seat's load that the rows of sticks bear, by the lever between them,
    from the half-breadths (..., k) where a panel lies on them, from 0 at the keel outward. A
    chine's share is that of both sides together."""
    past = np.clip((SIT_APART_M - rests_m[..., :-1]) / np.diff(rests_m), 0.0, 1.0)
    one, none = np.ones_like(past[..., :1]), np.zeros_like(past[..., :1])
    return np.concatenate([one, past], axis=-1) - np.concatenate([past, none], axis=-1)


def _sticks_under(boats, skin_m):
    """The sticks that a panel stands on, square to each the unit inward (..., k, 2), and the
    half-breadths (..., k) where it rests on them."""
    sticks = [boats.design.stringer(name) for name in boats.design.seat.stands_on]
    columns = [boats.lines.hull_sticks[one.name][0] for one in sticks]
    inward = squares(skin_m, max(columns) + 1)[..., columns, :]
    deep = np.array([one.depth_m for one in sticks])
    return sticks, inward, skin_m[..., columns, 0] + deep * inward[..., 0]


def _plates_hold_n(boats, skin_m):
    """Load of one sitting bone under which the plate below it breaks: a beam that ends on the
    keel's edge or the middle of a chine, and at the next chine's."""
    seat = boats.design.seat
    sticks, _, rests = _sticks_under(boats, skin_m)
    keel = np.full_like(rests[..., :1], 0.5 * sticks[0].width_m)
    edges = np.concatenate([keel, rests[..., 1:]], axis=-1)
    ends = SIT_APART_M - 0.5 * BONE_PATCH_M, SIT_APART_M + 0.5 * BONE_PATCH_M
    bent = bent_m(edges[..., :-1], edges[..., 1:], *ends).max(axis=-1)
    section = min(BONE_ALONG_M, seat.length_m) * seat.thickness_m**2 / 6.0
    return AS_BUILT * ALONG_PLIES * PLATE_WET_PA * section / bent


def _holds_nm(boats, skin_m):
    """Bending moment of the whole seat's load under which each of a panel's sticks breaks.

    A chine leans: a load straight down bends it both ways.
    """
    sticks, inward, rests = _sticks_under(boats, skin_m)
    wide, deep, broken = np.array([(one.width_m, one.depth_m, broken_pa(one.wood))
                                   for one in sticks]).T
    stress = 6.0 * (np.abs(inward[..., 1]) / (wide * deep**2)
                    + np.abs(inward[..., 0]) / (deep * wide**2))
    a_side = np.where(np.arange(len(sticks)) == 0, 1.0, 2.0)  # one keel, two of each chine
    bent = shares(rests) * stress
    return np.divide(broken * a_side, bent, out=np.full_like(bent, np.inf), where=bent > 0.0)


def broken_pa(wood):
    """Stress at which wet wood, as built, breaks; NaN where it is not known."""
    wet = WOODS[wood].wet_rupture_stress_mpa
    return np.nan if wet is None else AS_BUILT * wet * PA_PER_MPA


def _gaps_m(boats):
    """Ends of the spans, (..., n_frames - 1) each: from a frame's mark to the next one's, less a
    plywood's thickness. Two whose plywood lies on different sides of their marks, as those beside
    the widest section, are so far apart from middle to middle; other two leave it clear."""
    thick = np.array([frame.thickness_m for frame in boats.design.frames])
    return boats.frame_x_m[..., :-1] + thick[:-1], boats.frame_x_m[..., 1:]


def _between_m(boats):
    """The same of the one span between the two frames that slats stand on, (..., 1) each."""
    design = boats.design
    names = [frame.name for frame in design.frames]
    fore, aft = map(names.index, design.seat.stands_on)
    return (boats.frame_x_m[..., fore, None] + design.frames[fore].thickness_m,
            boats.frame_x_m[..., aft, None])
