"""The hip pads, foam on a board a side that is glued and screwed to the spacer beside the hips; and
whether the hips go between the spacers as they are sawn.

Skin bears nothing, so a pad needs wood behind it, and beside the hips that is the spacer between
two cockpit frames. What is over of the hips' room is taken from there, not from the skin. Our
drawing and our judgement: what holds the hips holds the one who wants out.

The fit's own check of the hips works with where the spacers stand in any hull
(`sizer.hull.spacers`); a tenon that had to be short or moved for a lashing hole's sake puts its
board a little higher or lower.
"""

from dataclasses import dataclass, replace

import numpy as np

from sizer.fit.assess import HIP_HEIGHT_M
from sizer.paddler.room import HIP_SIDE_M
from sizer.shop.boards import sit_x_m
from sizer.shop.pattern_checks import length_check
from sizer.shop.said import both
from sizer.shop.seat import edges_m
from sizer.shop.spacers import ends_x_m, face_m, leaning_at, spacers

LONG_M = 0.250  # of a pad and its board, its middle at the sitting bones; our drawing
THICK_M = 0.012  # of the board, from the frames' sheets; our drawing
REACH_M = 0.050  # of both under the hips' widest place, at most, and over it; our drawing
OVER_SEAT_M = 0.018  # from the seat's outer edge up to a board, at least; our drawing
LEAST_LONG_M = 0.120  # a shorter one is no pad; our judgement
LEAST_PAD_M = 0.003  # the thinnest foam that is sold; common practice, no source
FREE_M = 0.003  # a side that the thickest pad leaves free, level, over HIP_SIDE_M; our judgement
LEAST_SIDE_M = THICK_M + LEAST_PAD_M + FREE_M + HIP_SIDE_M  # hips to a spacer with a board
SCREWS = 4  # of a board, in a row along the spacer's middle; our drawing


@dataclass(frozen=True)
class HipPads:
    """Where boards and pads are, port and starboard alike; heights over the baseline."""

    spacer: str
    fore_x_m: float  # of both ends, from the boat's foremost point
    aft_x_m: float
    low_m: float
    high_m: float
    hips_z_m: float  # where the hips are widest
    spacer_m: tuple[float, float, float]  # its middle's half-breadth and height there, its height
    lean_deg: float  # of spacer and board from upright, outward
    thick_m: float  # of the spacer
    pad_m: float  # the most of foam, which leaves FREE_M free, square to the board

    @property
    def board_m(self):
        """Thickness, length and height of a board."""
        return (THICK_M, round(self.aft_x_m - self.fore_x_m, 3), round(
            (self.high_m - self.low_m) / np.cos(np.radians(self.lean_deg)), 3))

    @property
    def size_m(self):
        """Thickness, length and height of a pad."""
        return round(self.pad_m, 3), *self.board_m[1:]

    @property
    def room_m(self):
        """Level, from the bare spacer to the clothed hips."""
        return self.taken_m + FREE_M

    @property
    def taken_m(self):
        """Of that, what board and thickest foam take."""
        return (THICK_M + self.pad_m) / np.cos(np.radians(self.lean_deg))

    def face_m(self, z_m, behind_m=0.0):
        """Half-breadth of the board's inner face at a height, or of what is so far behind it."""
        return face_m((*self.spacer_m[:2], self.lean_deg), z_m,
                      0.5 * self.thick_m + THICK_M - behind_m)


def hip_pads(assessed, patterns, spacers, seat):
    """The HipPads of an Assessed boat among its FramePatterns and Spacers, over its SeatBuilt; None
    where no room is over or no spacer is beside the hips."""
    frames, x = {one.name: one for one in patterns}, sit_x_m(assessed.boat)
    spacer = beside_hips(assessed.boat, frames, spacers)
    if spacer is None:
        return None
    first, last = ends_x_m(spacer, frames)
    fore, aft = max(first, x - 0.5 * LONG_M), min(last, x + 0.5 * LONG_M)
    if aft - fore < LEAST_LONG_M:
        return None
    half, middle, lean = leaning_at(spacer, frames, 0.5 * (fore + aft))
    hips = assessed.boat.seat_z_m + HIP_HEIGHT_M
    tall = 0.5 * spacer.high_m * np.cos(np.radians(lean))
    lowest = edges_m(seat)[1][1] + OVER_SEAT_M
    found = HipPads(
        spacer.name, fore, aft, float(max(min(hips - REACH_M, middle - tall), lowest)),
        float(max(hips + REACH_M, middle + tall)), hips, (half, middle, spacer.high_m), lean,
        spacer.thickness_m, 0.0)
    room = found.face_m(hips) - 0.5 * assessed.room.hip_width_m
    pad = float((room - FREE_M) * np.cos(np.radians(lean)))
    return replace(found, pad_m=pad) if pad >= LEAST_PAD_M else None


def room_words(pads):
    """What the room beside the hips is made of, from HipPads: the one sum that papers tell."""
    return (f"beside the hips {both(pads.room_m + HIP_SIDE_M)} a side, level, where the hips are "
            "widest, half-way along the boards, from the bare spacer to the undressed body: "
            f"{both(HIP_SIDE_M)} clothing and room to roll, {both(pads.taken_m)} board "
            f"({both(THICK_M)} thick) and foam (at most {both(pads.pad_m)} thick), which "
            f"lean, {both(FREE_M)} free")


def hip_checks(patterns, assessed):
    """A tuple of the check of an Assessed boat's hips; empty where no spacer stands beside them."""
    frames = {one.name: one for one in patterns}
    spacer = beside_hips(assessed.boat, frames, spacers(patterns))
    if spacer is None:
        return ()
    return (length_check(
        spacer.name, "both hips", "hips between the spacers", between_m(assessed, frames, spacer),
        "at least", assessed.room.hip_width_m,
        "clear width between the spacers where the hips are widest, against hips, clothing and "
        "what they need to roll; less pinches and holds"),)


def beside_hips(boat, frames, made):
    """The one of some Spacers that the sitting bones are beside; None where none is."""
    x = sit_x_m(boat)
    return next((one for one in made for fore, aft in [ends_x_m(one, frames)] if fore < x < aft),
                None)


def between_m(assessed, frames, spacer):
    """Clear width between a Spacer and its twin at the height where the hips are widest, or at the
    edge of the boards that is nearest to it."""
    leaning = leaning_at(spacer, frames, sit_x_m(assessed.boat))
    _, middle, lean_deg = leaning
    reach = 0.5 * spacer.high_m * np.cos(np.radians(lean_deg))
    at = np.clip(assessed.boat.seat_z_m + HIP_HEIGHT_M, middle - reach, middle + reach)
    return 2.0 * face_m(leaning, at, 0.5 * spacer.thickness_m)
