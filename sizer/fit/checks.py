"""The checks: each is one row, and nothing about it is written twice.

What a row and its check are is told in `sizer.fit.check`; whoever shows, searches, counts or draws
a check looks it up here by its key.
"""

import numpy as np

from sizer.design.woods import CAREFUL_BEND_RATIO, EASY_BEND_RATIO
from sizer.fit import owner_rules
from sizer.fit.check import (
    CLEAN_ODDS,
    Row,
    checks_read,
    clean_window,
    read_rows,
    values_of,
)
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
FRAME_GAP_M = 0.030  # least from the opening to a frame not of the cockpit's own; our judgement
DECK_STRINGER_GAP_M = 0.010  # least from the coaming to a deck stringer beside it; our judgement
TRIM_DEG = (0.5, 1.0)  # wanted and most; our judgement
DRAWN_LINES_M = (-0.020, 0.025)  # day-load draft off the drawn waterline; our judgement
# Load over the whole hull, under which there is too much boat: our judgement. Legs and knees take a
# share of the hull that does not shrink with weight, so small boats stand lower than large ones.
LOAD_SHARE = (0.17, 0.20)


def checks_of(facts, rows=None):
    """The Checks of one boat with one paddler: every row that has something to measure."""
    if rows is None:
        rows = [row for row in ROWS if facts.mishap is not None or not row.mishap]
    return checks_read(rows, *read_rows(rows, facts), facts.says, facts.spread)


def checks_within(facts, limits, spread):
    """As `checks_of`, without words of this very boat, where its windows are known.

    Parameters
    ----------
    facts : Facts with a mishap
    limits : (4, n_rows) windows of every row, were nothing to stray
    spread : as `Assessed.spread`
    """
    window = clean_window(*limits, np.array([spread.get(row.key, 0.0) for row in ROWS]))
    return checks_read(ROWS, values_of(ROWS, facts), np.stack(window), {}, spread)


def _room(key, title, value, need, most_spare, meaning, large, small):
    """A place where the body must go in, and is held no longer where it is too loose."""
    return Row(key, title, "mm", NOTICED_M, value, meaning, BODY_SOURCE, fails_below=need,
               wanted_to=lambda f: need(f) + most_spare(f), small=small, large=large,
               rule_small=owner_rules.WAY_OUT)


_PAD_LEGS = ("take up {pad} under the deck, board and foam together, lower the foredeck, or "
             "take a smaller base")
BRACE_BORED = ("Its holes are bored in less of it, where these pedals leave no gap for a foot: the "
               "bench says from where to where")
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
        fails_below=lambda f: f.room.foot_width_m, small="smaller shoes, or a wider base",
        rule_small=owner_rules.WAY_OUT),
    Row("legs", "legs clear of the frames", "mm", NOTICED_M, lambda f: f.space.leg_clear_m,
        "least distance from hips to heels to the inner edge of the frames that they pass",
        BODY_SOURCE, fails_below=lambda f: LEG_CLEAR_M,
        small="another seat place, a deeper boat, or frames moved in the base",
        rule_small=owner_rules.WAY_OUT),
    Row("brace-far", "room ahead of the footbrace", "mm", NOTICED_M,
        lambda f: f.space.footbrace_m[1] - f.room.foot_rest_ahead_m,
        "what the frames leave the footbrace to go forward from where the soles are; it ends short "
        f"of the next frame. {BRACE_BORED}", BODY_SOURCE,
        fails_below=lambda f: 0.0, wanted_from=lambda f: BRACE_SPARE_M,
        small="a footbrace mounted farther ahead, or a longer boat"),
    Row("brace-near", "room behind the footbrace", "mm", NOTICED_M,
        lambda f: f.room.foot_rest_ahead_m - f.space.footbrace_m[0],
        "what the frames leave the footbrace to come back from where the soles are. "
        f"{BRACE_BORED}", BODY_SOURCE,
        fails_below=lambda f: 0.0, wanted_from=lambda f: BRACE_SPARE_M,
        small="a footbrace mounted nearer, blocks on it, or a smaller base"),
    Row("way-out-long", "opening long enough", "mm", NOTICED_M, lambda f: f.shape.opening_length_m,
        "length of the cockpit to get in and, above all, out; prove it by wet exits", BODY_SOURCE,
        fails_below=lambda f: f.room.opening_length_m,
        wanted_to=lambda f: np.maximum(MOST_OPENING_M[0], f.room.opening_length_m),
        small="a longer opening", large="a spray deck made to measure",
        rule_small=owner_rules.WAY_OUT),
    Row("way-out-wide", "opening wide enough", "mm", NOTICED_M, lambda f: f.shape.opening_width_m,
        "width of the cockpit past the hips, so that nothing holds you on the way out",
        BODY_SOURCE, fails_below=lambda f: f.room.opening_width_m,
        wanted_to=lambda f: np.maximum(MOST_OPENING_M[1], f.room.opening_width_m),
        small="a wider opening", large="a spray deck made to measure",
        rule_small=owner_rules.WAY_OUT),
    Row("seat-clear", "seat clear of the skin", "mm", NOTICED_M, lambda f: f.space.seat_clear_m,
        "least distance from the seat to the skin with the paddler on it, its sag taken off",
        JUDGEMENT, fails_below=lambda f: LEAST_CLEAR_M,
        small="a thicker or shorter seat, or another kind of seat in the base",
        rule_small=owner_rules.SEAT_CLEAR),
    Row("seat-bears", "sticks under the seat bear", "times the paddler", NOTICED_STRENGTH,
        lambda f: f.space.seat_bears,
        "how often the stick under the seat that is nearest to breaking, the plates that lie on it "
        "or the slats that are the seat bear the paddler who sits down hard in the dry frame or at "
        "the dock's edge: wood wet and as built, no water to help, all at its worst at once; under "
        f"1 a poor piece breaks, under {BREAKS_BELOW:g} most do even without that worst",
        BEARS_SOURCE,
        fails_below=lambda f: BREAKS_BELOW, wanted_from=lambda f: SURE_TO_BEAR,
        small="deeper sticks or stronger wood under the seat, thicker plates or slats, in the "
              "base, or a base for heavier paddlers",
        rule_small=owner_rules.SEAT_BEARS, sought=False),
)

_WATER = (
    Row("load", "load as a share of the hull", "of its volume", NOTICED_SHARE,
        lambda f: f.water.load_share,
        "everything afloat over what the whole closed hull displaces; a light load in much hull is "
        "blown about and never sits on its lines, a heavy one leaves no reserve", JUDGEMENT,
        fails_below=lambda f: LOAD_SHARE[0], wanted_from=lambda f: LOAD_SHARE[1],
        wanted_to=lambda f: f.use.most_load_share, small="a smaller boat or base",
        large="less gear, or a larger boat or base", rule_small=owner_rules.WIND,
        rule_large=owner_rules.LOADED),
    Row("freeboard", "side-deck freeboard", "mm", NOTICED_M, lambda f: f.water.freeboard_m,
        "lowest side deck over the water; less and waves come aboard sooner, more and wind catches "
        "it and the paddler reaches down", PRACTICE,
        fails_below=lambda f: f.use.least_freeboard_m,
        wanted_to=lambda f: f.use.most_freeboard_m * f.stature_m / STATURE_M,
        small="less gear, or a deeper or larger boat", large="a shallower or smaller boat",
        rule_small=owner_rules.LOADED, rule_large=owner_rules.WIND),
    Row("rim", "rim freeboard", "mm", NOTICED_M, lambda f: f.water.rim_freeboard_m,
        "lower end of the cockpit rim over the water; below it an open cockpit fills", JUDGEMENT,
        fails_below=lambda f: f.use.least_rim_freeboard_m,
        small="less gear, or a deeper boat", rule_small=owner_rules.CALM),
    Row("lines", "draft against the drawn waterline", "mm", NOTICED_M,
        lambda f: f.water.lines_off_m,
        "how much deeper than the drawn waterline, scaled with the depth, the boat floats with the "
        "day's load; negative floats high", JUDGEMENT, wanted_from=lambda f: DRAWN_LINES_M[0],
        wanted_to=lambda f: DRAWN_LINES_M[1], small="a smaller boat or base",
        large="a larger boat or base", rule_small=owner_rules.WIND, rule_large=owner_rules.LOADED),
    Row("trim", "trim", "deg", 0.2, lambda f: f.water.trim_deg,
        "how far from level the boat floats with the seat where it is; positive is stern deeper",
        JUDGEMENT, fails_below=lambda f: -TRIM_DEG[1], wanted_from=lambda f: -TRIM_DEG[0],
        wanted_to=lambda f: TRIM_DEG[0], fails_above=lambda f: TRIM_DEG[1],
        small="weight moved aft, or another seat place",
        large="weight moved forward, or another seat place", rule_small=owner_rules.STOWED,
        rule_large=owner_rules.STOWED),
    Row("gm", "initial steadiness (GM)", "mm", NOTICED_M, lambda f: f.water.gm_m,
        "metacentric height with the usual seated posture: the boat's first resistance to heeling; "
        "with less than is asked for the paddler balances it, with more it is stiff and jerky in "
        "waves", CENTRE_SOURCE,
        fails_below=lambda f: f.use.least_gm_m,
        wanted_to=lambda f: f.use.most_gm_m,
        small="a wider boat, a lower seat, or a steadier base",
        large="a narrower boat, or a use on sheltered water", rule_small=owner_rules.TENDER,
        rule_large=owner_rules.STIFF),
    Row("gm-bare", "steadiness without the gear (GM)", "mm", NOTICED_M,
        lambda f: f.water.bare_gm_m,
        "metacentric height with the paddler alone: gear low in a boat steadies it, and is not "
        "always aboard", CENTRE_SOURCE,
        wanted_from=lambda f: f.use.least_gm_m,
        small="its gear, or bags of water as heavy, low in it whenever it is paddled; a wider "
              "boat, or a steadier base",
        rule_small=owner_rules.WITH_GEAR),
    Row("reserve", "load reserve", "kg", NOTICED_KG, lambda f: f.water.reserve_kg,
        "a margin and no load to carry: what more would bring the side deck to "
        f"{both_text(RESERVE_FREEBOARD_M * MM_PER_M)} over the water", JUDGEMENT,
        fails_below=lambda f: f.use.least_reserve_kg, small="less gear, or a larger boat",
        rule_small=owner_rules.LOADED),
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
        wanted_from=lambda f: 1.0, small="a base that suits it, or another use",
        rule_small=owner_rules.NOT_DRAWN_FOR_IT),
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
        "from the opening's ends to the nearest frame that is none of the cockpit's own, which "
        "move with it", JUDGEMENT,
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
        small="a wider or deeper boat", rule_small=owner_rules.CALM, mishap=True),
    Row("rim-angle", "heel where the rim goes under", "deg", NOTICED_DEG,
        lambda f: f.mishap.rim_deg,
        "water comes over the cockpit rim from there on when the spray deck is off",
        RIGHTING_SOURCE, wanted_from=lambda f: f.use.least_rim_deg,
        small="a wider or deeper boat, or a narrower opening", rule_small=owner_rules.CALM,
        mishap=True),
    Row("knock", "knock taken upright", "mm rad", 0.003, lambda f: f.mishap.arm_area_mrad,
        "the work of a wave or a slip that capsizes or fills the boat, paddler upright: the area "
        "under the righting arm, told as how high the same work would lift boat and paddler",
        RIGHTING_SOURCE,
        wanted_from=lambda f: f.use.least_arm_area_mrad, small="a wider or deeper boat",
        rule_small=owner_rules.CALM, mishap=True),
    Row("flooded", "rim and side deck to spare, swamped", "mm", NOTICED_M,
        lambda f: f.mishap.flooded_spare_m,
        "what rim and side deck keep over what is asked of them in calm water, swamped, with the "
        "paddler in the seat and float bags in both ends", FLOODED_SOURCE,
        fails_below=lambda f: 0.0, small="less aboard, or a larger base",
        rule_small=owner_rules.SWAMPED, mishap=True),
    Row("swamped-out", "swamped, steady beside you (GM)", "mm", NOTICED_M,
        lambda f: f.mishap.swamped_out_gm_m,
        "metacentric height as full inside as the sea, nobody in it, both ends full of float bags: "
        "steady it can be held on to and emptied, else it rolls over at a touch; a wet exit leaves "
        "more water and less of this, told with the cautions",
        FLOODED_SOURCE, wanted_from=lambda f: 0.0,
        small="gear stowed lower or left ashore, or a wider base", rule_small=owner_rules.SWAMPED,
        mishap=True),
    Row("wave", "knock taken on a wave", "mm rad", 0.003, lambda f: f.mishap.wave_arm_area_mrad,
        "the same work on a crest or in a trough of the boat's own length, whichever takes less, "
        "paddler upright, spray deck on; stiff, light or low-ended boats bear least",
        WAVE_SOURCE, wanted_from=lambda f: WAVE_SHARE * f.use.least_arm_area_mrad,
        small="calmer water, or a base that is less wide or has fuller ends",
        rule_small=owner_rules.CALM, mishap=True),
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
