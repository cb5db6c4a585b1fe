"""What the checks and the search read: the numbers of one boat with one paddler, in SI.

Every number may as well be an array of many paddlers, (n,): the rows of `sizer.fit.checks` are
evaluated over either.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from sizer.fit.uses import RESERVE_FREEBOARD_M, Use
from sizer.hull.bending import tightest_bend
from sizer.hull.scale import Scaling
from sizer.hydro.flotation import enclosed_volume_m3
from sizer.paddler.room import Room
from sizer.rows import along, interp
from sizer.units import MM_PER_M, both_text


@dataclass(frozen=True)
class Space:
    """Clear space in the boat where the body needs it, m."""

    hip_width_m: float
    thigh_height_m: float  # above the seat
    knee_height_m: float  # above the seat
    foot_height_m: float  # above the floor
    foot_width_m: float
    footbrace_m: tuple[float, float]  # nearest and farthest, ahead of the back of the buttocks
    leg_clear_m: float  # from the legs to the plywood of the frames that they pass
    seat_clear_m: float  # from the seat, laden, to the skin
    bears_each: np.ndarray  # (..., k) of what bears the seat, as `sizer.hull.seat_bears`

    @property
    def seat_bears(self):
        """Of what is nearest to breaking; NaN where no stick bears the seat."""
        return self.bears_each.min(axis=-1)


@dataclass(frozen=True)
class Afloat:
    """The boat afloat with its load."""

    load_share: float  # of what the whole closed hull displaces
    freeboard_m: float
    rim_freeboard_m: float
    lines_off_m: float  # day-load draft over the drawn one, scaled with the depth
    trim_deg: float
    gm_m: float
    bare_gm_m: float  # without the gear; NaN where there is none
    reserve_kg: float


@dataclass(frozen=True)
class Shape:
    """The boat alone, whoever sits in it."""

    scaling: Scaling
    limits: object  # of the base design, by name of each factor
    suits: float  # 1 where the base suits the use, else 0
    opening_length_m: float
    opening_width_m: float
    bend_ratio: float
    side_deck_m: float
    frame_gap_m: float
    stringer_gap_m: float  # NaN where no deck stringer runs beside the opening


@dataclass(frozen=True)
class Mishap:
    """The boat heeled and swamped."""

    range_deg: float
    rim_deg: float
    arm_area_mrad: float
    flooded_spare_m: float
    # Told of the boat that was found, and not sought: NaN where not asked for.
    swamped_out_gm_m: float = np.nan  # bags in both ends, nobody in it
    wave_arm_area_mrad: float = np.nan  # on a crest or in a trough, whichever is less

    @property
    def known(self):
        """Whether all of it could be worked out."""
        return ~np.isnan(self.range_deg + self.flooded_spare_m)


@dataclass(frozen=True)
class Facts:
    """All that the rows read."""

    use: Use
    stature_m: float
    room: Room
    space: Space
    water: Afloat
    shape: Shape
    mishap: Mishap | None = None  # None where it was not worked out
    says: Mapping[str, str] = field(default_factory=dict)  # about this very boat, by check's key
    spread: Mapping[str, float] = field(default_factory=dict)  # as of `Assessed`


def facts_of(assessed, shape=None):
    """The Facts of an Assessed boat, or of many, without mishaps; words only of one. `shape` is
    their Shape where known."""
    person, water, day = assessed.person, assessed.upright, assessed.day
    boat = assessed.boat
    afloat = Afloat(
        load_share=water.volume_m3 / enclosed_volume_m3(boat.sections),
        freeboard_m=water.freeboard_m, rim_freeboard_m=water.rim_freeboard_m,
        lines_off_m=day.draft_m - boat.design.drawn_for.draft_m * boat.scaling.depth,
        trim_deg=water.trim_deg, gm_m=water.gm_m,
        bare_gm_m=np.where(person.gear_kg > 0.0, assessed.bare.gm_m, np.nan)[()],
        reserve_kg=(water.freeboard_m - RESERVE_FREEBOARD_M) * 100.0 * water.kg_per_cm)
    return Facts(person.use, person.body.stature.value_m, assessed.room, assessed.space, afloat,
                 shape_of(boat, person.use) if shape is None else shape,
                 says=_says(boat, person.use) if np.ndim(assessed.floats) == 0 else {},
                 spread=assessed.spread)


def _says(boat, use):
    bend = tightest_bend(boat)
    says = {"bend": f"tightest: {bend.name} at {both_text(bend.x_m * MM_PER_M)}"}
    lacks = boat.design.lacks.get(use.key)
    if lacks:
        says["suits"] = lacks
    return says


def shape_of(boat, use):
    """The Shape of a boat."""
    return Shape(
        boat.scaling, boat.design.limits, float(use.key in boat.design.suits),
        boat.opening.length_m, boat.opening.width_m, tightest_bend(boat).ratio,
        _side_deck_m(boat), _frame_gap_m(boat), _stringer_gap_m(boat))


def room_left(facts):
    """{place: m} that is over the body's need, from the space and room of Facts or of an Assessed;
    0 where nothing is. Foam that takes it up is thinner: what it is glued to has its share."""
    space, room = facts.space, facts.room
    return {"hips_each_side": max(0.5 * (space.hip_width_m - room.hip_width_m), 0.0),
            "thighs": max(space.thigh_height_m - room.thigh_height_m, 0.0),
            "knees": max(space.knee_height_m - room.knee_top_m, 0.0)}


def _side_deck_m(boat):
    x = np.linspace(boat.opening.front_x_m, boat.opening.back_x_m, 25, axis=-1)
    sections = boat.sections
    gunwale = interp(x, sections.x_m, sections.y_m[..., sections.sheer])
    return (gunwale - boat.opening.half_width_m(x)).min(axis=-1)


def _frame_gap_m(boat):
    """From the opening to the nearest frame that is not a cockpit frame; negative inside it.

    Cockpit frames near an end of the opening move with it: of them nothing is to be asked.
    """
    others = boat.frame_x_m[..., [frame.kind != "cockpit" for frame in boat.design.frames]]
    outside = np.maximum(along(boat.opening.front_x_m, others) - others,
                         others - along(boat.opening.back_x_m, others))
    return outside.min(axis=-1, initial=np.inf)


def _stringer_gap_m(boat):
    """Least clear width between coaming and the deck stringers that run beside it; else NaN."""
    x = boat.sections.x_m
    inside = (x > along(boat.opening.front_x_m, x)) & (x < along(boat.opening.back_x_m, x))
    half, beam = boat.opening.half_width_m(x), along(boat.scaling.beam, x)
    least = np.full(x.shape[:-1], np.inf)
    for column, line in enumerate(boat.lines.between, start=1):
        beside = inside & boat.alive[..., column]
        if line.stringer.role == "deck" and beside.any():
            gap = beam * line.curve(boat.base_x_m)[..., 0] - half
            least = np.minimum(least, np.where(beside, gap, np.inf).min(axis=-1))
    return np.where(np.isinf(least), np.nan, least)[()]
