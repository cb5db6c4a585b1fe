"""What holds the paddler beside the seat: the backband behind, the footbrace ahead."""

from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString

from sizer.fit.assess import BRACE_SHORT_M
from sizer.hull.boat import sections_at
from sizer.shop.stations import setting_up
from sizer.shop.trade_sizes import cord_text

HOLE_STEP_M = 0.025  # of the holes along a footbrace's rail; our drawing
PIN_M = 0.008  # stainless pin through cheek and rail; our drawing
PINS_AFT_M = (0.020, 0.045)  # of a pedal's pins behind its sole, a step apart; our drawing
GROOVE_M = (0.010, 0.003)  # of a rail on both sides of a frame, where a lashing lies: length, depth
PIN_CLEAR_M = 0.012  # from a pin to a frame's plywood, clear of the groove; our judgement
LEAST_TIE_M = 0.15  # of a backband's tie ahead of the band, so that it pulls fore and aft; ours
TIE_ROOM_M = 0.025  # of gunwale ahead of its frame, for the tie beside the lashing; our judgement
LOOP_AHEAD_M = 0.5 * TIE_ROOM_M  # of a tie's loop, its middle, of that frame's face; our drawing
BACK_ROUND_M = 0.25  # radius of a band drawn round a back; our judgement
BAND_M = (0.012, 0.070)  # thickness and height of the backband as drawn
TIE_CORD_MM, ELASTIC_MM = 4, 5  # thickness of the ties and of the elastic cord; our judgement
TIE_CORD = f"{cord_text(TIE_CORD_MM)} cord"  # of ties, float bags' panels and noses, gear's loops
ELASTIC_M = 1.0  # of it, with its knots; our judgement
RAIL_OVER_M = 0.020  # of a rail past its fore frame, for the lashings; our drawing
RAIL_PAST_M = 0.045  # and past the after one, for lashings and stop; our drawing


ELASTIC_TIED = "plywood beside the ridge"  # what of its frame the cord goes round; our drawing
SHEET = "Footbrace, backband, pads"  # the title of what all this is drawn on


@dataclass(frozen=True)
class Backband:
    """Where the band crosses behind the back, and where its ties go, one a side.

    They lead forward: a back that leans on the band pulls them. A light elastic cord aft only keeps
    the band up while nobody leans on it.
    """

    x_m: float
    over_seat_m: float
    z_m: float
    frame: str  # the ties go to the gunwales there, ahead of its plywood
    behind: str  # the frame that the elastic cord goes to
    tie_x_m: float  # of that plywood's forward face
    loop_x_m: float  # middle of the loop that a tie goes to
    tie_half_breadth_m: float
    tie_z_m: float
    tie_m: float  # length of each from the band's end to its loop, straight
    eyes_m: float  # from the eye in its one end to that in the other, which the ties go to


@dataclass(frozen=True)
class Footbrace:
    """Its places, ahead of the back of the buttocks, and the rails that carry it, one a side."""

    nearest_m: float  # nearest and farthest that a pair of holes holds
    set_m: float  # for this paddler
    farthest_m: float
    fore_frame: str
    aft_frame: str
    start_x_m: float  # of the rails' forward ends
    rail_m: float  # length of each rail, with its ends past both frames
    soles_m: tuple[float, ...]  # where the soles can stand, from the rails' forward ends
    sole_m: float  # this paddler's, one of them

    @property
    def holes_m(self):
        """Middles of a rail's holes, from its forward end."""
        return tuple(sorted({round(sole + aft, 6) for sole in self.soles_m
                             for aft in PINS_AFT_M}))


def backband(boat):
    """The Backband of a boat: its ties go to the first frame that is far enough ahead of it."""
    height, seat_x = boat.design.cockpit.backband_height_m, boat.seat_x_m
    up = setting_up(boat)
    aft = next((one for one in up.stations if one.faces_x_m[0] >= seat_x), up.stations[-1])
    ahead = next((one for one in reversed(up.stations)
                  if one.faces_x_m[0] <= seat_x - LEAST_TIE_M), up.stations[0])
    gunwale = boat.lines.gunwale.stringer
    half, z = ahead.points_m[gunwale.name]
    z = z - up.baseline_height_m - 0.5 * gunwale.width_m  # the loop's bight is on its inner face
    half = half - gunwale.depth_m
    at = boat.seat_z_m + height
    tie = ahead.faces_x_m[0]
    loop = tie - LOOP_AHEAD_M
    eyes = boat.design.seat.width_m
    away = (loop - seat_x, half - 0.5 * eyes, z - at)
    return Backband(seat_x, height, at, ahead.name, aft.name, tie, loop, half, z,
                    float(np.linalg.norm(away)), float(eyes))


def eye_m(band, leant_on=False):
    """Where a Backband's starboard eye is, along the boat and off its middle: laid straight, or
    drawn round a back that leans on it."""
    half = 0.5 * band.eyes_m
    if not leant_on:
        return band.x_m, half
    turn = half / BACK_ROUND_M
    return band.x_m - BACK_ROUND_M * (1.0 - np.cos(turn)), BACK_ROUND_M * np.sin(turn)


def tie_path_m(band, patterns, leant_on=False):
    """The way of a Backband's starboard tie, (n, 3), from its loop on the gunwale round the plywood
    of its frame, one of FramePatterns, which reaches farther in there than the gunwale does, to the
    band's eye: along the boat, half-breadth, height over the baseline; as `eye_m`."""
    pattern = next(one for one in patterns if one.name == band.frame)
    half, high = band.tie_half_breadth_m, band.tie_z_m
    wood = pattern.wood.intersection(LineString([(0.0, high), (half, high)]))
    inner = half if wood.is_empty else wood.bounds[0]
    aft, (ends_x, eye) = band.tie_x_m + pattern.thickness_m, eye_m(band, leant_on)
    start, end = (band.loop_x_m, half, high), (ends_x, eye, band.z_m)
    if inner >= np.interp(aft, (band.loop_x_m, ends_x), (half, eye)):
        return np.array([start, end])  # straight by it
    return np.array([start, (band.tie_x_m, inner, high), (aft, inner, high), end])


def tie_round_m(band, patterns, leant_on=False):
    """Length of each of a Backband's ties, as `tie_path_m` goes."""
    path = tie_path_m(band, patterns, leant_on)
    return float(np.linalg.norm(np.diff(path, axis=0), axis=1).sum())


def cased_m(path):
    """From a tie's eye to the middle of what cases it, along its way as `tie_path_m`: there it lies
    on the middle of the plywood's edge, on none where it goes straight."""
    steps = np.linalg.norm(np.diff(path, axis=0), axis=1)
    return float(steps[-1] + 0.5 * steps[-2]) if len(steps) > 1 else None


def gunwale_inside_m(boat, x_m):
    """Half-breadth of the gunwale's inner face and height of its upper edge, at a place."""
    gunwale = boat.lines.gunwale.stringer
    skin = sections_at(boat, np.array([x_m]))
    row = skin.sheer
    return float(skin.y_m[0, row]) - gunwale.depth_m, float(skin.z_m[0, row])


def footbrace(assessed):
    """The Footbrace of an Assessed boat: this paddler's place, and from it hole by hole all those
    in the base's range that end as far short of the fore frame as the fit counts on, and whose
    pins go through the rails clear of the after frame.

    A place that a frame bars goes to the nearest one that it leaves.
    """
    boat = assessed.boat
    fore, aft = rails(boat)
    start = fore.faces_x_m[0] - RAIL_OVER_M
    clear = 0.5 * PIN_M + PIN_CLEAR_M
    first = fore.faces_x_m[1] + BRACE_SHORT_M - start
    last = aft.faces_x_m[0] - clear - max(PINS_AFT_M) - start
    back, ahead = (boat.seat_x_m - reach - start for reach in assessed.space.footbrace_m)
    wanted = boat.seat_x_m - assessed.room.foot_rest_ahead_m - start
    sole = float(np.clip(wanted, first, last))
    below = max(np.floor((sole - max(first, ahead)) / HOLE_STEP_M), 0.0)
    above = max(np.floor((min(last, back) - sole) / HOLE_STEP_M), 0.0)
    soles = (sole + HOLE_STEP_M * np.arange(-below, above + 1.0)).tolist()
    nearest, at, farthest = (float(boat.seat_x_m - start - one)
                             for one in (soles[-1], sole, soles[0]))
    return Footbrace(nearest, at, farthest, fore.name, aft.name, float(start),
                     rail_long_m(boat), tuple(soles), sole)


def rail_long_m(boat):
    """Length of each of the footbrace's rails."""
    fore, aft = rails(boat)
    return float(aft.faces_x_m[1] - fore.faces_x_m[0] + RAIL_OVER_M + RAIL_PAST_M)


def rails(boat):
    """Stations of the frames fore and aft of the footbrace, which its rails join."""
    near = boat.seat_x_m - boat.design.cockpit.footbrace_reach_m[0] * boat.map.legs
    stations = setting_up(boat).stations
    fore = max((one for one in stations if one.faces_x_m[1] < near), key=lambda one: one.x_m,
               default=stations[0])
    aft = next((one for one in stations if one.faces_x_m[1] >= near), stations[-1])
    return fore, aft
