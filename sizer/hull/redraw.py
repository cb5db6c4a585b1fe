"""A scaled boat written back as a base design of its own: to keep, to edit, to scale again."""

from dataclasses import replace

import numpy as np

from sizer.design.records import Frame, Limits
from sizer.hull.boat import frame_points_m


def redrawn(boat, name, drawn_for):
    """The BaseDesign of this name whose unscaled lines are this boat's, for whom it was fitted to.

    Its battens are bent anew through the moved frame points, so between frames its curves lie
    within 1.5 mm of the scaled ones (tested). Factor limits keep the same sizes in reach. It suits
    the use that it was fitted to, beside those of its base."""
    design, scaling = boat.design, boat.scaling
    frames = tuple(
        Frame(frame.name, frame.kind, float(boat.frame_x_m[index]), frame.thickness_m,
              frame_points_m(boat, index))
        for index, frame in enumerate(design.frames))
    moved = {frame.x_m: new.x_m for frame, new in zip(design.frames, frames, strict=True)}
    limits, use = design.limits, drawn_for.use
    return replace(
        design, name=name, drawn_for=drawn_for, frames=frames,
        suits=design.suits if use in design.suits else (*design.suits, use),
        lacks={other: what for other, what in design.lacks.items() if other != use},
        limits=Limits(*(
            (min(low / factor, 1.0), max(high / factor, 1.0)) for (low, high), factor in (
                (limits.length, scaling.length), (limits.beam, scaling.beam),
                (limits.depth, scaling.depth), (limits.crown, scaling.crown))),
            limits.cockpit_length_m, limits.cockpit_width_m),
        stringers=tuple(replace(one, start=_moved(one.start, boat, moved),
                                end=_moved(one.end, boat, moved)) for one in design.stringers),
        bow=_stem(design.bow, boat), stern=_stem(design.stern, boat),
        cockpit=_cockpit(boat))


def _moved(end, boat, moved):
    if end.x_m is None:
        return end
    return replace(end, x_m=moved.get(end.x_m, float(boat.map(end.x_m))))


def _stem(stem, boat):
    x, z = stem.profile_m.T
    return replace(stem, profile_m=np.column_stack([boat.map(x), boat.scaling.depth * z]),
                   lands_m={name: float(boat.map(at)) for name, at in stem.lands_m.items()})


def _cockpit(boat):
    opening, cockpit, legs = boat.opening, boat.design.cockpit, boat.map.legs
    forward, aft = cockpit.seat_slide_m
    shift = boat.scaling.seat_shift_m
    return replace(
        cockpit, front_x_m=opening.front_x_m, back_x_m=opening.back_x_m,
        width_m=opening.width_m, rim_front_z_m=opening.rim_z_m[0],
        rim_back_z_m=opening.rim_z_m[1], seat_x_m=boat.seat_x_m,
        seat_slide_m=(forward + shift, aft - shift),
        footbrace_reach_m=tuple(reach * legs for reach in cockpit.footbrace_reach_m))
