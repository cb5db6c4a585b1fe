"""What a fit seeks: the boat that is to this paddler what the base is to whom it was drawn for.

The base says by its own numbers what fitting means: so much room, its lines at the water, that
freeboard for that stature, that steadiness, that slenderness, those proportions. Wishes move what
is sought, never what is allowed. All at the day's load: camping gear sinks a boat, it does not draw
one.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from sizer.errors import WillNotFloat
from sizer.fit.assess import Assessed, assess
from sizer.fit.checks import ROWS
from sizer.fit.person import drawn_person
from sizer.hull.scale import Scaling

FACTORS = ("length", "beam", "depth", "crown")
SEARCH_COUNT = 61  # even sections during the search; the answer is worked out with SECTION_COUNT
INSIDE = 0.3  # of a just-noticeable change: what is sought lies this far inside the clean window


@dataclass(frozen=True)
class Wishes:
    """What the paddler would rather have, each from -1 to 1; 0 is as the base was drawn."""

    room: float = 0.0  # snug to roomy
    steadiness: float = 0.0  # livelier to steadier
    length: float = 0.0  # handier to faster


NO_WISHES = Wishes()


@dataclass(frozen=True)
class Aim:
    """One quantity that is sought; scale is how far off counts as one, our judgement."""

    key: str
    title: str
    unit: str  # as shown; SI inside
    scale: float
    value: Callable[[Assessed], float]
    wish: str = ""
    wish_reach: float = 0.0  # how far a whole wish moves it
    check: str = ""  # key of the check whose clean window it stays in, where the value is the same
    by_stature: bool = False  # sought in proportion to it


def _over(place, need):
    return lambda one: getattr(one.space, place) - getattr(one.room, need)


AIMS = (
    Aim("hip-room", "room beside the hips", "mm", 0.020, _over("hip_width_m", "hip_width_m"),
        "room", 0.030),
    Aim("thigh-room", "room over the thighs", "mm", 0.020,
        _over("thigh_height_m", "thigh_height_m"), "room", 0.015),
    Aim("knee-room", "room over the knees", "mm", 0.020, _over("knee_height_m", "knee_top_m"),
        "room", 0.015),
    Aim("foot-room", "room over the feet", "mm", 0.025, _over("foot_height_m", "foot_height_m"),
        "room", 0.015),
    Aim("lines", "day-load draft over the drawn line", "mm", 0.003,
        lambda one: one.day.draft_m - one.boat.design.drawn_for.draft_m * one.boat.scaling.depth),
    Aim("freeboard", "side-deck freeboard with the day's load", "mm", 0.008,
        lambda one: one.day.freeboard_m, check="freeboard", by_stature=True),
    Aim("gm", "steadiness (GM) with the day's load", "mm", 0.008, lambda one: one.day.gm_m,
        "steadiness", 0.012, check="gm"),
    Aim("slenderness", "slenderness for the load carried", "times", 0.12,
        lambda one: one.boat.length_m / one.day.volume_m3 ** (1.0 / 3.0), "length", 0.35),
)
PLACES = {row.key: place for place, row in enumerate(ROWS)}
# Proportions change at this cost: logarithms of length over beam, beam over depth, and the crown.
PROPORTIONS = np.array([[1.0, -1.0, 0.0, 0.0], [0.0, 1.0, -1.0, 0.0], [0.0, 0.0, 0.0, 1.0]])
PROPORTION_SCALE = np.array([0.03, 0.03, 0.12])
PROPORTION_TITLES = ("proportion of length to beam", "proportion of beam to depth", "deck crown")


@dataclass(frozen=True)
class Sought:
    """One quantity as sought and as reached, SI."""

    aim: Aim
    value: float
    wanted: float

    @property
    def off(self):
        """How far the boat is off what was sought."""
        return self.value - self.wanted

    @property
    def steps_off(self):
        """The same in steps of which one counts, never negative."""
        return abs(self.off) / self.aim.scale


@dataclass(frozen=True, eq=False)
class BaseSays:
    """What the base is to whom it was drawn for."""

    values: np.ndarray  # (n_aims,)
    stature_m: float
    opening_spare_m: tuple[float, float]  # length and width over that body's need


@lru_cache(maxsize=32)
def base_says(lines):
    """The BaseSays of a base, unscaled, with whom it was drawn for.

    Raises WillNotFloat, NotSolved: see `sizer.hydro.flotation.float_at`; BadInput for a body that
    cannot be.
    """
    drawn = drawn_person(lines.design)
    try:
        own = assess(lines, Scaling(), drawn, SEARCH_COUNT)
    except WillNotFloat as error:
        raise WillNotFloat(f"{lines.design.name} does not carry whom its own file says that it was "
                           f"drawn for: {error}") from error
    room, cockpit = own.room, lines.design.cockpit
    return BaseSays(
        np.array([aim.value(own) for aim in AIMS]), drawn.body.stature.value_m,
        (cockpit.length_m - room.opening_length_m, cockpit.width_m - room.opening_width_m))


def wanted_of(says, person, wishes, window):
    """What is sought for each of n people: (n, n_aims), inside the clean windows (4, n, n_rows)."""
    stature = person.body.stature.value_m / says.stature_m
    wanted = []
    for aim, own in zip(AIMS, says.values.tolist(), strict=True):
        value = _inside(aim, own * (stature if aim.by_stature else 1.0), window)
        if aim.wish:  # from there, or one that the window swallows would move nothing
            value = _inside(aim, value + aim.wish_reach * getattr(wishes, aim.wish), window)
        wanted.append(np.broadcast_to(value, window.shape[1]))
    return np.stack(wanted, axis=-1)


def _inside(aim, value, window):
    """A value of an Aim, inside the clean window of its check where it has one."""
    if not aim.check:
        return value
    place = PLACES[aim.check]
    inside = INSIDE * ROWS[place].scale
    low = window[:2, :, place].max(axis=0) + inside
    high = window[2:, :, place].min(axis=0) - inside
    return np.where(low <= high, np.clip(value, low, high), 0.5 * (low + high))


def offs(assessed, wanted):
    """How far boats are off what is sought, in just-noticeable changes: (n, n_aims)."""
    return np.stack([(aim.value(assessed) - value) / aim.scale
                     for aim, value in zip(AIMS, wanted.T, strict=True)], axis=-1)


def sought(assessed, wanted):
    """The tuple of Sought of one boat; wanted (n_aims,)."""
    return tuple(Sought(aim, float(aim.value(assessed)), value)
                 for aim, value in zip(AIMS, wanted.tolist(), strict=True))


def opening_wanted_m(says, design, room, hips_off_m=0.0):
    """Length and width of the opening: as much over this body's need as over whose it was drawn
    for, within the base's limits; never less than the need where the limits allow it.

    The way out must not hold hips that are wider than predicted: the need is that of the wide end,
    `hips_off_m` over the likely.
    """
    limits = design.limits
    return tuple(
        float(np.clip(max(need + spare, need + LEAST_OPENING_SPARE_M), low, high))
        for need, spare, (low, high) in (
            (room.opening_length_m, says.opening_spare_m[0], limits.cockpit_length_m),
            (room.opening_width_m + hips_off_m, says.opening_spare_m[1],
             limits.cockpit_width_m)))


LEAST_OPENING_SPARE_M = 0.0005  # so that rounding is no fail
