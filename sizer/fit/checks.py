"""The checks: each is one row, a quantity with a window, and nothing about it is written twice.

Below `fails_below` and above `fails_above` the check fails: such a boat is more likely than not to
miss the limit. It passes cleanly where the odds of meeting the limit are CLEAN_ODDS or better,
which moves the wanted sides in by so much of the check's spread (`sizer.fit.odds`), and where the
boat is also inside the row's own `wanted_from` and `wanted_to`. Between, it is a caution. A row
reads `sizer.fit.facts.Facts`, whose numbers are those of one boat with one paddler or arrays of
many; whoever shows, searches, counts or draws a check looks it up here by its key.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.special import ndtr, ndtri

from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.fit.uses import RESERVE_FREEBOARD_M, STATURE_M, WAVE_SHARE
from sizer.hull.seat import LEAST_CLEAR_M
from sizer.hull.seat_bears import BREAKS_BELOW, SURE_TO_BEAR
from sizer.units import MM_PER_M, both_text

JUDGEMENT = "our judgement"
PRACTICE = "common practice, no source; the figure is our judgement"
BODY_SOURCE = ("body: ANSUR II survey (Gordon et al. 2014) where predicted; "
               "clearance: our judgement")
CENTRE_GOOD_TO_M = 0.025  # the seated centre's height, and so GM; stated, not proved
CENTRE_SOURCE = ("seated centre: our model on de Leva 1996 and ANSUR II, good to about "
                 f"{both_text(CENTRE_GOOD_TO_M * MM_PER_M)}; limit: our judgement, no standard "
                 "covers kayaks")
RIGHTING_SOURCE = ("calm water, paddler upright to 35 degrees of lean: our model; "
                   "limit: our judgement")
WAVE_SOURCE = ("static balance on a sine wave, without the water's own motion; the wave's height "
               "by use and the limit: our judgement")
FLOODED_SOURCE = ("lost buoyancy, worked examples in Barrass & Derrett; margins: our judgement")
BEARS_SOURCE = ("strength of green wood: USDA Wood Handbook, from memory; how hard one sits down, "
                "how stiffly frames hold and the wood as built: our judgement")
FILE_SOURCE = "base design file"

# Just-noticeable changes: what one unit of shortfall weighs in the search. Our judgement.
NOTICED_M, NOTICED_DEG, NOTICED_KG, NOTICED_FACTOR, NOTICED_SHARE = 0.010, 4.0, 5.0, 0.01, 0.01
NOTICED_STRENGTH = 0.1  # of what the sticks under the seat bear, as often as they are laden
# Room past which nothing touches: thighs and knees no longer hold the boat. Our judgement: up to
# half of it on each side is taken up by padding as a matter of course.
MOST_LEG_SPARE_M = 0.100
MOST_FOOT_SPARE_M = 0.140
LEG_CLEAR_M = 0.005  # least between legs and a frame's plywood; our judgement
BRACE_SPARE_M = 0.020  # of the footbrace's travel, for other shoes and postures; our judgement
MOST_OPENING_M = (0.920, 0.560)  # past it a spray deck must be made to measure; our judgement
SIDE_DECK_M = 0.040  # least deck between opening and gunwale; our judgement
FRAME_GAP_M = 0.030  # least from the opening to a frame that does not carry it; our judgement
DECK_STRINGER_GAP_M = 0.010  # least from the coaming to a deck stringer beside it; our judgement
TRIM_DEG = (0.5, 1.0)  # wanted and most; our judgement
DRAWN_LINES_M = (-0.020, 0.025)  # day-load draft off the drawn waterline; our judgement
# Load over the whole hull, under which there is too much boat: our judgement. Legs and knees take a
# share of the hull that does not shrink with weight, so small boats stand lower than large ones.
LOAD_SHARE = (0.17, 0.20)
CLEAN_ODDS = 0.80  # of meeting a limit, from which a check passes cleanly; our judgement
OPEN = np.inf


@dataclass(frozen=True)
class Row:
    """One check. `value` and the window's sides read Facts; all in SI, degrees for angles."""

    key: str
    title: str
    unit: str  # as shown
    scale: float  # a just-noticeable change, in SI
    value: Callable | None  # None of what is found on the bench
    meaning: str
    source: str
    fails_below: Callable | None = None
    wanted_from: Callable | None = None
    wanted_to: Callable | None = None
    fails_above: Callable | None = None
    small: str = "a larger or wider boat of this base, or a larger base"  # what mends too little
    large: str = "a smaller base"  # what mends too much; {pad} is half of what is over the need
    mishap: bool = False  # read off the heeled or flooded boat, which costs more
    sought: bool = True  # False where stouter sticks mend it, and no other shape of the boat

    @property
    def factor(self):
        """From SI to the unit shown."""
        return MM_PER_M if self.unit in ("mm", "mm rad") else 1.0


@dataclass(frozen=True)
class Check:
    """One row worked out for one boat with one paddler; value and window in SI."""

    row: Row
    value_si: float
    window_si: tuple[float, float, float, float]  # as the Row's sides; infinite where open
    says: str = ""  # what is said of this very boat, after the row's meaning
    sd_si: float | None = None  # of what is kept inside the limit; None where it is not known

    @property
    def key(self):
        return self.row.key

    @property
    def name(self):
        return self.row.title

    @property
    def unit(self):
        return self.row.unit

    @property
    def source(self):
        return self.row.source

    @property
    def meaning(self):
        """What is measured and why, and what is said of this boat."""
        return f"{self.row.meaning}; {self.says.rstrip('.')}" if self.says else self.row.meaning

    @property
    def value(self):
        """In the unit shown."""
        return self.value_si * self.row.factor

    @property
    def window(self):
        """(fails_below, wanted_from, wanted_to, fails_above) in the unit shown; None where open."""
        return tuple(side * self.row.factor if np.isfinite(side) else None
                     for side in self.window_si)

    @cached_property
    def status(self):
        """pass, caution or fail."""
        return STATUSES[codes_of(self.value_si, self.window_si)]

    @property
    def is_hard(self):
        """Whether it can fail."""
        return self.window_si[0] > -OPEN or self.window_si[3] < OPEN

    @property
    def odds(self):
        """That such a boat meets the limit with such a paddler, or what is wanted where it has no
        limit; None where its spread is not known."""
        if self.sd_si is None:
            return None
        low, from_, to, high = self.window_si
        return float(met(self.value_si, *((low, high) if self.is_hard else (from_, to)),
                         self.sd_si))

    @property
    def spread(self):
        """One standard deviation of what is kept inside the limit, in the unit shown; or None."""
        return None if self.sd_si is None else self.sd_si * self.row.factor

    @property
    def _nearest(self):
        """(side's index, margin in SI) of the limit that counts: negative where it is missed."""
        value, (low, from_, to, high) = self.value_si, self.window_si
        missed = [(0, value - low), (3, high - value)]
        wanted = [(1, value - from_), (2, to - value)]
        for pairs in (missed, wanted):
            index, margin = min(pairs, key=lambda pair: pair[1])
            if margin < 0.0:
                return index, margin
        return min((pair for pair in (*missed, *wanted)), key=lambda pair: pair[1])

    @property
    def limit(self):
        """The side of the window that counts most: the one missed, or the nearest; None if open."""
        side = self.window_si[self._nearest[0]]
        return side * self.row.factor if np.isfinite(side) else None

    @property
    def sense(self):
        """Whether that limit is a least or a most."""
        return "at least" if self._nearest[0] < 2 else "at most"

    @property
    def margin(self):
        """How far inside that limit, in the unit shown; None where the window is open."""
        margin = self._nearest[1]
        return margin * self.row.factor if np.isfinite(margin) else None

    @property
    def too(self):
        """"small", "large" or "": which side of the window is missed."""
        if self.status == "pass":
            return ""
        return "small" if self._nearest[0] < 2 else "large"

    @property
    def remedy(self):
        """What mends it; "" where nothing is missed."""
        if not self.too:
            return ""
        low = self.window_si[0]
        pad = 0.5 * (self.value_si - low) * MM_PER_M if np.isfinite(low) else 0.0
        return getattr(self.row, self.too).format(pad=both_text(pad))


STATUSES = ("pass", "caution", "fail")
FAIL = STATUSES.index("fail")
SIDES = (("fails_below", -OPEN), ("wanted_from", -OPEN), ("wanted_to", OPEN), ("fails_above", OPEN))


def codes_of(value, window):
    """Index into STATUSES of values (...) and windows (4, ...), or of one value and its sides."""
    low, from_, to, high = window
    missed, short = (value < low) | (value > high), (value < from_) | (value > to)
    return FAIL * missed + (short > missed)  # short, but not missed


def overall(checks):
    """The worst status among checks."""
    statuses = {check.status for check in checks}
    return next(one for one in reversed(STATUSES) if one in statuses)


def values_of(rows, facts):
    """Values of some rows, SI: (n_rows, ...); NaN where a check has nothing to measure."""
    return np.array(np.broadcast_arrays(*(row.value(facts) for row in rows)), float)


def windows_of(rows, facts):
    """Windows of some rows, SI: (4, n_rows, ...), infinite where open.

    Where the facts tell a check's spread, it is wanted so far inside its limit as is met at
    CLEAN_ODDS. All else reads only who paddles, for what and in which base: whatever the boat's
    size, it stays.
    """
    every = [clean_window(*(open_ if getattr(row, side) is None else getattr(row, side)(facts)
                            for side, open_ in SIDES), facts.spread.get(row.key, 0.0))
             for row in rows]
    shape = np.broadcast_shapes(*(np.shape(side) for window in every for side in window))
    found = np.empty((len(SIDES), len(rows), *shape))
    for index, window in enumerate(every):
        for place, side in enumerate(window):
            found[place, index] = side
    return found


def clean_window(low, from_, to, high, sd):
    """The window, four sides (...), whose wanted sides lie so far inside their limits, by a spread
    (...) of the value."""
    inside = clean_inside(high - low, sd)
    return low, np.maximum(from_, low + inside), np.minimum(to, high - inside), high


# How many standard deviations inside each of two limits CLEAN_ODDS is met, by how many lie between
# them: one from each side's share missed, the other left over. Nearer together, it never is.
_SHARES = np.linspace(0.5, 1.0 - 1e-6, 200) * (1.0 - CLEAN_ODDS)
_INSIDE_SDS = -ndtri(_SHARES)
_APART_SDS = _INSIDE_SDS - ndtri(1.0 - CLEAN_ODDS - _SHARES)


def clean_inside(apart, sd):
    """How far inside its limits a value with this spread is met at CLEAN_ODDS.

    Parameters
    ----------
    apart : (...) between the limits; infinite where one is open
    sd : (...) in the same unit

    Returns
    -------
    (...); more than half of `apart` where it is met nowhere between them
    """
    if np.ndim(apart) == 0 and apart == np.inf:  # one end, as most have: the last of the table
        return _INSIDE_SDS[-1] * sd
    with np.errstate(divide="ignore", invalid="ignore"):
        sds = np.where(sd > 0.0, apart / np.where(sd > 0.0, sd, 1.0), np.inf)
    found = np.interp(np.minimum(sds, _APART_SDS[-1]), _APART_SDS, _INSIDE_SDS)
    return found * sd


def met(value, low, high, sd):
    """The odds that a value with this spread lies between two limits, either of which may be open;
    1 or 0 where the spread is 0."""
    sds = np.where(np.asarray(sd) > 0.0, sd, 1.0)
    under, over = (value - low) / sds, (high - value) / sds
    sure = np.where((value >= low) & (value <= high), 1.0, 0.0)
    return np.where(np.asarray(sd) > 0.0, np.maximum(ndtr(under) + ndtr(over) - 1.0, 0.0), sure)


def read_rows(rows, facts):
    """Values (n_rows, ...) and windows (4, n_rows, ...) of some rows: a window for every value."""
    values, window = values_of(rows, facts), windows_of(rows, facts)
    one_for_all = (1,) * (values.ndim - window.ndim + 1)
    return values, np.broadcast_to(window.reshape(*window.shape, *one_for_all),
                                   (len(SIDES), *values.shape))


def checks_of(facts, rows=None):
    """The Checks of one boat with one paddler: every row that has something to measure."""
    if rows is None:
        rows = [row for row in ROWS if facts.mishap is not None or not row.mishap]
    return checks_read(rows, *read_rows(rows, facts), facts.says, facts.spread)


def checks_read(rows, values, window, says, spread):
    """The Checks of rows that were read: values (n_rows,), windows (4, n_rows)."""
    return tuple(Check(row, value, sides, says.get(row.key, ""), spread.get(row.key))
                 for row, value, sides in zip(
                     rows, values.tolist(), map(tuple, window.T.tolist()), strict=True)
                 if not np.isnan(value))


def _room(key, title, value, need, most_spare, meaning, large, small):
    """A place where the body must go in, and is held no longer where it is too loose."""
    return Row(key, title, "mm", NOTICED_M, value, meaning, BODY_SOURCE, fails_below=need,
               wanted_to=lambda f: need(f) + most_spare(f), small=small, large=large)


_PAD_LEGS = ("take up {pad} under the deck, board and foam together, lower the foredeck, or "
             "take a smaller base")
_BODY = (
    _room("hips", "hips beside the seat", lambda f: f.space.hip_width_m,
          lambda f: f.room.hip_width_m, lambda f: f.use.most_hip_spare_m,
          "clear width at hip height between the spacers, or the stringers where none stands; too "
          "little pinches and holds, too much and the boat does not follow the body",
          "take up {pad} a side of the hips, board and foam together, or take a smaller base",
          "a wider boat or base"),
    _room("thighs", "thighs under the deck", lambda f: f.space.thigh_height_m,
          lambda f: f.room.thigh_height_m, lambda f: MOST_LEG_SPARE_M,
          "clear height over the seat where the thighs go under the deck", _PAD_LEGS,
          "a higher foredeck"),
    _room("knees", "knees under the deck", lambda f: f.space.knee_height_m,
          lambda f: f.room.knee_top_m, lambda f: MOST_LEG_SPARE_M,
          "clear height over the seat at the bent knees; too little traps the legs", _PAD_LEGS,
          "a higher foredeck"),
    _room("feet", "feet under the deck", lambda f: f.space.foot_height_m,
          lambda f: f.room.foot_height_m, lambda f: MOST_FOOT_SPARE_M,
          "clear height for shod feet at the footbrace, so that they draw back freely",
          "raise the heels on a pad, or take a smaller base", "a higher foredeck or a deeper boat"),
    Row("feet-wide", "feet side by side", "mm", NOTICED_M, lambda f: f.space.foot_width_m,
        "clear width for two shoes at the footbrace", BODY_SOURCE,
        fails_below=lambda f: f.room.foot_width_m, small="smaller shoes, or a wider base"),
    Row("legs", "legs clear of the frames", "mm", NOTICED_M, lambda f: f.space.leg_clear_m,
        "least distance from hips to heels to the inner edge of the frames that they pass",
        BODY_SOURCE, fails_below=lambda f: LEG_CLEAR_M,
        small="another seat place, a deeper boat, or frames moved in the base"),
    Row("brace-far", "footbrace can go forward", "mm", NOTICED_M,
        lambda f: f.space.footbrace_m[1] - f.room.foot_rest_ahead_m,
        "what the footbrace can still go forward from where the soles are; it ends short of the "
        "next frame", BODY_SOURCE,
        fails_below=lambda f: 0.0, wanted_from=lambda f: BRACE_SPARE_M,
        small="a footbrace mounted farther ahead, or a longer boat"),
    Row("brace-near", "footbrace can come back", "mm", NOTICED_M,
        lambda f: f.room.foot_rest_ahead_m - f.space.footbrace_m[0],
        "what the footbrace can still come back from where the soles are", BODY_SOURCE,
        fails_below=lambda f: 0.0, wanted_from=lambda f: BRACE_SPARE_M,
        small="a footbrace mounted nearer, blocks on it, or a smaller base"),
    Row("way-out-long", "opening long enough", "mm", NOTICED_M, lambda f: f.shape.opening_length_m,
        "length of the cockpit to get in and, above all, out; prove it by wet exits", BODY_SOURCE,
        fails_below=lambda f: f.room.opening_length_m,
        wanted_to=lambda f: np.maximum(MOST_OPENING_M[0], f.room.opening_length_m),
        small="a longer opening", large="a spray deck made to measure"),
    Row("way-out-wide", "opening wide enough", "mm", NOTICED_M, lambda f: f.shape.opening_width_m,
        "width of the cockpit past the hips, so that nothing holds you on the way out",
        BODY_SOURCE, fails_below=lambda f: f.room.opening_width_m,
        wanted_to=lambda f: np.maximum(MOST_OPENING_M[1], f.room.opening_width_m),
        small="a wider opening", large="a spray deck made to measure"),
    Row("seat-clear", "seat clear of the skin", "mm", NOTICED_M, lambda f: f.space.seat_clear_m,
        "least distance from the seat to the skin with the paddler on it, its sag taken off",
        JUDGEMENT, fails_below=lambda f: LEAST_CLEAR_M,
        small="a thicker or shorter seat, or another kind of seat in the base"),
    Row("seat-bears", "sticks under the seat bear", "times", NOTICED_STRENGTH,
        lambda f: f.space.seat_bears,
        "how often the stick under the seat that is nearest to breaking, or the slats that are the "
        "seat, bear the paddler who sits down hard in the dry frame or at the dock's edge: wood "
        "wet and as built, no water to help", BEARS_SOURCE,
        fails_below=lambda f: BREAKS_BELOW, wanted_from=lambda f: SURE_TO_BEAR,
        small="deeper sticks or stronger wood under the seat, in the base, or a base for heavier "
              "paddlers", sought=False),
)

_WATER = (
    Row("load", "load as a share of the hull", "of its volume", NOTICED_SHARE,
        lambda f: f.water.load_share,
        "everything afloat over what the whole closed hull displaces; a light load in much hull is "
        "blown about and never sits on its lines, a heavy one leaves no reserve", JUDGEMENT,
        fails_below=lambda f: LOAD_SHARE[0], wanted_from=lambda f: LOAD_SHARE[1],
        wanted_to=lambda f: f.use.most_load_share, small="a smaller boat or base",
        large="less gear, or a larger boat or base"),
    Row("freeboard", "side-deck freeboard", "mm", NOTICED_M, lambda f: f.water.freeboard_m,
        "lowest side deck over the water; less and waves come aboard sooner, more and wind catches "
        "it and the paddler reaches down", PRACTICE,
        fails_below=lambda f: f.use.least_freeboard_m,
        wanted_to=lambda f: f.use.most_freeboard_m * f.stature_m / STATURE_M,
        small="less gear, or a deeper or larger boat", large="a shallower or smaller boat"),
    Row("rim", "rim freeboard", "mm", NOTICED_M, lambda f: f.water.rim_freeboard_m,
        "lower end of the cockpit rim over the water; below it an open cockpit fills", JUDGEMENT,
        fails_below=lambda f: f.use.least_rim_freeboard_m,
        small="less gear, or a deeper boat"),
    Row("lines", "draft against the drawn waterline", "mm", NOTICED_M,
        lambda f: f.water.lines_off_m,
        "how much deeper than the drawn waterline, scaled with the depth, the boat floats with the "
        "day's load; negative floats high", JUDGEMENT, wanted_from=lambda f: DRAWN_LINES_M[0],
        wanted_to=lambda f: DRAWN_LINES_M[1], small="a smaller boat or base",
        large="a larger boat or base"),
    Row("trim", "trim", "deg", 0.2, lambda f: f.water.trim_deg,
        "how far from level the boat floats with the seat where it is; positive is stern deeper",
        JUDGEMENT, fails_below=lambda f: -TRIM_DEG[1], wanted_from=lambda f: -TRIM_DEG[0],
        wanted_to=lambda f: TRIM_DEG[0], fails_above=lambda f: TRIM_DEG[1],
        small="weight moved aft, or another seat place",
        large="weight moved forward, or another seat place"),
    Row("gm", "initial steadiness (GM)", "mm", NOTICED_M, lambda f: f.water.gm_m,
        "metacentric height with the usual seated posture: the boat's first resistance to heeling; "
        "much of it is stiff and jerky in waves", CENTRE_SOURCE,
        fails_below=lambda f: f.use.least_gm_m,
        wanted_to=lambda f: f.use.most_gm_m,
        small="a wider boat, a lower seat, or a steadier base",
        large="a narrower boat, or a use on sheltered water"),
    Row("gm-bare", "steadiness without the gear (GM)", "mm", NOTICED_M,
        lambda f: f.water.bare_gm_m,
        "metacentric height with the paddler alone: gear low in a boat steadies it, and is not "
        "always aboard", CENTRE_SOURCE,
        wanted_from=lambda f: f.use.least_gm_m,
        small="its gear, or bags of water as heavy, low in it whenever it is paddled; a wider "
              "boat, or a steadier base"),
    Row("reserve", "load reserve", "kg", NOTICED_KG, lambda f: f.water.reserve_kg,
        "load that can be added before the side deck is at "
        f"{both_text(RESERVE_FREEBOARD_M * MM_PER_M)} over the water", JUDGEMENT,
        fails_below=lambda f: f.use.least_reserve_kg, small="less gear, or a larger boat"),
)


def _factor_row(name, title):
    return Row(f"factor-{name}", title, "of the base", NOTICED_FACTOR,
               lambda f: getattr(f.shape.scaling, name),
               "how far the base design may be stretched, from its file", FILE_SOURCE,
               fails_below=lambda f: getattr(f.shape.limits, name)[0] - 1e-6,
               fails_above=lambda f: getattr(f.shape.limits, name)[1] + 1e-6,
               small="a smaller base", large="a larger base")


_BUILD = (
    *(_factor_row(*one) for one in (
        ("length", "length against the base's"), ("beam", "beam against the base's"),
        ("depth", "depth against the base's"), ("crown", "deck crown against the base's"))),
    Row("suits", "base suits the use", "of 1", 1.0, lambda f: f.shape.suits,
        "whether the base names this use among those that it suits", FILE_SOURCE,
        wanted_from=lambda f: 1.0, small="a base that suits it, or another use"),
    Row("bend", "radius of the tightest bend", "radius/thickness", 10.0,
        lambda f: f.shape.bend_ratio,
        f"of a stringer, in thicknesses of that stick; under {EASY_BEND_RATIO:.0f} choose clear "
        f"straight grain, under {CAREFUL_BEND_RATIO:.0f} steam or laminate",
        "USDA Wood Handbook strengths; bands: our judgement between shop rules",
        fails_below=lambda f: CAREFUL_BEND_RATIO, wanted_from=lambda f: EASY_BEND_RATIO,
        small="thinner stock, or steam or laminate that stick"),
    Row("side-deck", "deck beside the opening", "mm", NOTICED_M, lambda f: f.shape.side_deck_m,
        "deck left between coaming and gunwale, to lash and to sew to", JUDGEMENT,
        fails_below=lambda f: SIDE_DECK_M, small="a narrower opening or a wider boat"),
    Row("frame-gap", "cockpit clear of frames", "mm", NOTICED_M, lambda f: f.shape.frame_gap_m,
        "nearest frame that does not carry the coaming, from the opening's ends", JUDGEMENT,
        fails_below=lambda f: FRAME_GAP_M, small="a shorter opening or a longer boat"),
    Row("stringer-gap", "cockpit clear of deck stringers", "mm", NOTICED_M,
        lambda f: f.shape.stringer_gap_m,
        "deck stringers beside the coaming must not run into it", JUDGEMENT,
        fails_below=lambda f: DECK_STRINGER_GAP_M, small="a narrower opening or a wider boat"),
)

_MISHAP = (
    Row("range", "range of stability", "deg", NOTICED_DEG, lambda f: f.mishap.range_deg,
        "heel to which a paddler who keeps the upper body upright is still righted; beyond it the "
        "boat capsizes by itself", RIGHTING_SOURCE, wanted_from=lambda f: f.use.least_range_deg,
        small="a wider or deeper boat", mishap=True),
    Row("rim-angle", "heel where the rim goes under", "deg", NOTICED_DEG,
        lambda f: f.mishap.rim_deg,
        "water comes over the cockpit rim from there on when the spray deck is off",
        RIGHTING_SOURCE, wanted_from=lambda f: f.use.least_rim_deg,
        small="a wider or deeper boat, or a narrower opening", mishap=True),
    Row("knock", "knock taken upright", "mm rad", 0.003, lambda f: f.mishap.arm_area_mrad,
        "the work of a wave or a slip that capsizes or fills the boat, paddler upright: the area "
        "under the righting arm, told as how high the same work would lift boat and paddler",
        RIGHTING_SOURCE,
        wanted_from=lambda f: f.use.least_arm_area_mrad, small="a wider or deeper boat",
        mishap=True),
    Row("flooded", "rim and side deck to spare, swamped", "mm", NOTICED_M,
        lambda f: f.mishap.flooded_spare_m,
        "what rim and side deck keep over what is asked of them in calm water, swamped, with the "
        "paddler in the seat and float bags in both ends", FLOODED_SOURCE,
        fails_below=lambda f: 0.0, small="less aboard, or a larger base", mishap=True),
    Row("swamped-out", "swamped, steady beside you (GM)", "mm", NOTICED_M,
        lambda f: f.mishap.swamped_out_gm_m,
        "metacentric height swamped, with nobody in it and both ends full of float bags: a boat "
        "that stays upright can be held on to and emptied, one that does not rolls over at a touch",
        FLOODED_SOURCE, wanted_from=lambda f: 0.0,
        small="gear stowed lower or left ashore, or a wider base", mishap=True),
    Row("wave", "knock taken on a wave", "mm rad", 0.003, lambda f: f.mishap.wave_arm_area_mrad,
        "the same work on a crest or in a trough of the boat's own length, whichever takes less, "
        "paddler upright, spray deck on; stiff, light or low-ended boats bear least",
        WAVE_SOURCE, wanted_from=lambda f: WAVE_SHARE * f.use.least_arm_area_mrad,
        small="calmer water, or a base that is less wide or has fuller ends", mishap=True),
)

ROWS = (*_BODY, *_WATER, *_BUILD, *_MISHAP)
PLAIN = tuple(row for row in ROWS if not row.mishap)  # they come first

# Found on the finished boat alone, by `sizer.fit.bench_found`; among its checks where not passed.
FAIR = Row("fair", "worst hollow or bump of a stick", "mm", 0.001, None,
           "how far it is off a fair line", JUDGEMENT, small="",
           large="a foredeck nearer the base's own, a length nearer to what the legs ask, or move "
                 "that point at the dry fit")
SAWN = Row("sawn", "plywood parts sound as sawn", "of 1", 1.0, None,
           "whether plywood, notches and holes of every frame and stem come out sound as sawn",
           JUDGEMENT, small="another base, or a size nearer to the base's own", large="")
BENCH = (FAIR, SAWN)
# Of all the others together, by `sizer.fit.odds`; among a boat's checks where it is not passed.
TOGETHER = Row("together", "chance of meeting all limits at once", "of 100", 1.0, None,
               "of a hundred such paddlers in such boats, those who meet every limit that can fail",
               "the inputs' spread: survey and our judgement; share wanted: our judgement",
               wanted_from=lambda f: 100.0 * CLEAN_ODDS,
               small="measure what is only predicted, or a boat with more to spare in what is "
                     "nearest to its limit")
BY_KEY = {row.key: row for row in (*ROWS, *BENCH, TOGETHER)}
