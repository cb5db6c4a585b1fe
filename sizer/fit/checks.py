"""The checks: what was asked of the boat, what it gives, and what that means.

A check's margin is how far the value is inside its limit, in the check's unit. A hard check fails
below zero margin and cautions inside its band; a soft one only ever cautions.
"""

from dataclasses import dataclass

import numpy as np

from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.fit.uses import RESERVE_FREEBOARD_M
from sizer.hull.bending import tightest_bend
from sizer.units import MM_PER_M

JUDGEMENT = "our judgement"
PRACTICE = "common practice, no source; the figure is our judgement"
BODY_SOURCE = ("body: ANSUR II survey (Gordon et al. 2014) where predicted; "
               "clearance: our judgement")
CENTRE_SOURCE = ("seated centre: our model on de Leva 1996 and ANSUR II, good to about 25 mm; "
                 "limit: our judgement, no standard covers kayaks")

SIDE_DECK_M = 0.040  # least deck between opening and gunwale; our judgement
FRAME_GAP_M = 0.030  # least from the opening to a frame that does not carry it; our judgement
DECK_STRINGER_GAP_M = 0.010  # least from the coaming to a deck stringer beside it; our judgement
MOST_TRIM_DEG = 1.0  # our judgement
DRAWN_LINES_M = 0.025  # draft off the drawn waterline; our judgement


@dataclass(frozen=True)
class Check:
    """One check record."""

    name: str
    value: float
    limit: float
    sense: str  # "at least" or "at most"
    unit: str
    band: float  # margin under which a met limit is still a caution
    hard: bool
    scale: float  # what one unit of shortfall weighs in the search: a just-noticeable change
    meaning: str
    source: str

    @property
    def margin(self):
        """How far inside the limit."""
        inside = self.value - self.limit
        return inside if self.sense == "at least" else -inside

    @property
    def status(self):
        """pass, caution or fail."""
        if self.margin < 0.0:
            return "fail" if self.hard else "caution"
        return "caution" if self.margin < self.band else "pass"


def all_checks(assessed):
    """Every check of one assessed boat, in the order a builder would ask."""
    return (*_body(assessed), *_water(assessed), *_build(assessed))


def overall(checks):
    """The worst status among checks."""
    statuses = {check.status for check in checks}
    return next(one for one in ("fail", "caution", "pass") if one in statuses)


def _mm(name, value_m, sense, limit_m, meaning, source, band_m=0.0, hard=True):
    return Check(name, value_m * MM_PER_M, limit_m * MM_PER_M, sense, "mm", band_m * MM_PER_M,
                 hard, 10.0, meaning, source)


def _body(assessed):
    room, space, opening = assessed.room, assessed.space, assessed.boat.opening
    near, far = space.footbrace_m
    yield _mm("hips beside the seat", space.hip_width_m, "at least", room.hip_width_m,
              "clear width between the stringers at hip height; too little pinches and holds",
              BODY_SOURCE)
    yield _mm("thighs under the deck", space.thigh_height_m, "at least", room.thigh_height_m,
              "clear height over the seat where the thighs go under the deck", BODY_SOURCE)
    yield _mm("knees under the deck", space.knee_height_m, "at least", room.knee_top_m,
              "clear height over the seat at the bent knees; too little traps the legs",
              BODY_SOURCE)
    yield _mm("feet under the deck", space.foot_height_m, "at least", room.foot_height_m,
              "clear height for shod feet at the footbrace, so that they draw back freely",
              BODY_SOURCE)
    yield _mm("feet side by side", space.foot_width_m, "at least", room.foot_width_m,
              "clear width for two shoes at the footbrace", BODY_SOURCE)
    yield _mm("footbrace far enough", room.foot_rest_ahead_m, "at most", far,
              "the legs' reach against the footbrace's farthest place", BODY_SOURCE, 0.02)
    yield _mm("footbrace near enough", room.foot_rest_ahead_m, "at least", near,
              "the legs' reach against the footbrace's nearest place", BODY_SOURCE, 0.02)
    yield _mm("opening long enough", opening.length_m, "at least", room.opening_length_m,
              "length of the cockpit to get in and, above all, out; prove it by wet exits",
              BODY_SOURCE)
    yield _mm("opening wide enough", opening.width_m, "at least", room.opening_width_m,
              "width of the cockpit past the hips, so that nothing holds you on the way out",
              BODY_SOURCE)


def _water(assessed):
    use, water, boat = assessed.person.use, assessed.particulars, assessed.boat
    drawn_draft = boat.design.drawn_for.draft_m * boat.scaling.depth
    reserve = (water.freeboard_m - RESERVE_FREEBOARD_M) * 100.0 * water.kg_per_cm
    yield _mm("side-deck freeboard", water.freeboard_m, "at least", use.least_freeboard_m,
              "lowest side deck over the water; less and waves come aboard sooner",
              PRACTICE, 0.005)
    yield _mm("not too high in the wind", water.freeboard_m, "at most", use.most_freeboard_m,
              "a high side catches wind and makes the paddle reach down", PRACTICE, hard=False)
    yield _mm("rim freeboard", water.rim_freeboard_m, "at least", use.least_rim_freeboard_m,
              "lower end of the cockpit rim over the water; below it an open cockpit fills",
              JUDGEMENT, 0.005)
    yield _mm("floats on its lines", abs(water.draft_m - drawn_draft), "at most", DRAWN_LINES_M,
              "draft against the drawn waterline, scaled with the depth", JUDGEMENT, hard=False)
    yield Check("trim", abs(water.trim_deg), MOST_TRIM_DEG, "at most", "deg", 0.5, True, 0.2,
                "how far from level the boat floats with the seat where it is", JUDGEMENT)
    yield _mm("initial steadiness (GM)", water.gm_m, "at least", use.least_gm_m,
              "metacentric height with the usual seated posture: the boat's first resistance to "
              "heeling", CENTRE_SOURCE, 0.005)
    yield _mm("steadiness sitting tall (GM)", assessed.gm_cautious_m, "at least",
              use.least_gm_cautious_m,
              "the same with the mass centre at the high end of the model", CENTRE_SOURCE,
              hard=False)
    yield Check("load reserve", reserve, use.least_reserve_kg, "at least", "kg", 2.0, True, 5.0,
                f"what could be added until the side deck is {RESERVE_FREEBOARD_M * MM_PER_M:.0f} "
                "mm over the water", JUDGEMENT)


def _build(assessed):
    boat = assessed.boat
    limits = boat.design.limits
    for name, factor, (low, high) in (
        ("length factor", boat.scaling.length, limits.length),
        ("beam factor", boat.scaling.beam, limits.beam),
        ("depth factor", boat.scaling.depth, limits.depth),
        ("deck crown factor", boat.scaling.crown, limits.crown),
    ):
        upper = high - factor < factor - low
        yield Check(name, factor, high if upper else low, "at most" if upper else "at least",
                    "of the base", 0.0, True, 0.01,
                    "how far the base design may be stretched, from its file", "base design file")
    bend = tightest_bend(boat)
    yield Check("stringers bend cold", bend.ratio, CAREFUL_BEND_RATIO, "at least",
                "radius/thickness", EASY_BEND_RATIO - CAREFUL_BEND_RATIO, True, 10.0,
                f"tightest bend: {bend.name} at {bend.x_m * MM_PER_M:.0f} mm; under "
                f"{EASY_BEND_RATIO:.0f} choose clear straight grain, under "
                f"{CAREFUL_BEND_RATIO:.0f} steam or laminate",
                "USDA Wood Handbook strengths; bands: our judgement between shop rules")
    yield _mm("deck beside the opening", _side_deck_m(boat), "at least", SIDE_DECK_M,
              "deck left between coaming and gunwale, to lash and to sew to", JUDGEMENT)
    yield _mm("cockpit clear of frames", _frame_gap_m(boat), "at least", FRAME_GAP_M,
              "nearest frame that does not carry the coaming, from the opening's ends", JUDGEMENT)
    gap = _deck_stringer_gap_m(boat)
    if gap is not None:
        yield _mm("cockpit clear of deck stringers", gap, "at least", DECK_STRINGER_GAP_M,
                  "deck stringers beside the coaming must not run into it", JUDGEMENT)


def _side_deck_m(boat):
    x = np.linspace(boat.opening.front_x_m, boat.opening.back_x_m, 25)
    gunwale = np.interp(x, boat.sections.x_m, boat.sections.y_m[:, boat.sections.sheer])
    return float(np.min(gunwale - boat.opening.half_width_m(x)))


def _frame_gap_m(boat):
    """From the opening to the nearest frame that is not a cockpit frame; negative inside it."""
    others = np.array([x for x, frame in zip(boat.frame_x_m, boat.design.frames, strict=True)
                       if frame.kind != "cockpit"])
    outside = np.maximum(boat.opening.front_x_m - others, others - boat.opening.back_x_m)
    return float(outside.min())


def _deck_stringer_gap_m(boat):
    """Least clear width between coaming and the deck stringers that run beside it."""
    x = boat.sections.x_m
    inside = (x > boat.opening.front_x_m) & (x < boat.opening.back_x_m)
    half = boat.opening.half_width_m(x)
    gaps = [
        boat.scaling.beam * line.curve(boat.map.base_x_m(x[rows]))[:, 0] - half[rows]
        for column, line in enumerate(boat.lines.between, start=1)
        if line.stringer.role == "deck" and (rows := inside & boat.alive[:, column]).any()]
    return float(min(gap.min() for gap in gaps)) if gaps else None
