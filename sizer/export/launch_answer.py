"""What a launch teaches as plain JSON values; cautions first."""

from sizer.border import outside
from sizer.built.learnt import UNLIKELY
from sizer.built.steadiness import LESS, STEADY, STOPPED, UNTOLD
from sizer.export.answer import imprint_answer
from sizer.export.numbers import mm, named, number
from sizer.hydro.water import WARM_C
from sizer.shop.deep import clear_words
from sizer.units import temperature_text

SWAMPED_FIRST = "With NOBODY IN IT. With the paddler in"
ONLY_PRACTISED = "only later, an instructor beside, by who has practised wet exits in this boat"
UNSTEADY = ("More likely than not this boat with this paddler is less steady than its use asks at "
            "least: do not go out in it so; sit lower, carry ballast low, or build wider.")
EVEN = 0.5
UNPROVED = ("Its steadiness stays unproved: wet exits in it first, then paddled, only in water as "
            "deep as told for the trial, two helpers and an instructor beside, until it was worked "
            "out again")
HELD = ("Less deep, at the edge, one only gets in and out, a helper's hands on both gunwales all "
        "the time: there a head meets the bottom.")
# One drill for every time it goes over; our judgement, an instructor's comes first.
OVER = ("IT GOES OVER, wherever that is, practised first with nobody in it: the paddler comes out "
        "as in a wet exit, at once; helper 2 lifts the head out of the water, by the PFD's "
        "shoulders; helper 1 keeps the boat off the paddler. Not out within a breath, or less deep "
        "than told: both turn the boat up by its gunwales, the paddler in it. Then STOP.")
LIGHT_FIRST = ("Begin with a weight so small that the heel is a degree or two: a narrow boat with "
               "a stiffly held body turns over under less than one expects.")
TOO_HEAVY = "A paddler too heavy is not made up for by less gear: STOP."
# However the rim slopes along the boat: a phone upright on its long edge shows the tilt along that,
# by a 75th too much where the rim slopes 9 degrees; flat, it would show both slopes together.
GAUGE = ("the phone taped upright to the lath's side, its long edge along it (an angle gauge with "
         "its scale along it): so it shows the tilt across the boat alone, however the rim slopes "
         "fore and aft")
# What comes out of a boat held under is more than it takes in by itself: it is worked out with
# water as high inside as outside.
SWAMP_SO = ("press one gunwale under until water runs in over the rim, let it up, then bail, or "
            "pour in, until the water inside stands as high as outside")
# By what `steadiness` finds.
VERDICTS = {
    STEADY: "as steady as is asked for.",
    UNTOLD: f"nearer to the limit than it is read: the trial cannot tell. {UNPROVED}.",
    LESS: "less steady than is asked for: not paddled until it was worked out again.",
    STOPPED: "a swing so far ends the trial: not paddled until it was worked out again."}


def trial_cautions(assessed):
    """What comes before any trial of an Assessed boat; tuple of texts."""
    return (
        "Nobody sits in it for a trial who has not practised wet exits with an instructor, in "
        "another boat, one that is proven.",
        f"Make the trials near shore, in warm ({temperature_text(WARM_C)} or more), calm "
        f"{clear_words(assessed)}; two helpers, one of them only to hold; every PFD fastened; no "
        f"spray deck, so that nothing holds you in. {HELD}",
        OVER,
        LIGHT_FIRST,
    )


def launch_answer(job, found, judged, most_moment_kgm, gm_odds, hard_odds, weights):
    """The contract's answer to a launch.

    Parameters
    ----------
    found : Lesson
    judged : of `sizer.built.steadiness.steadiness`
    most_moment_kgm : weight times distance that this boat bears before it turns over
    gm_odds, hard_odds : (before, after), odds that GM is above what the use asks at least, and that
        every check that can fail is met; None as of `odds_after`
    weights : TrialWeights by what is known after the readings"""
    return {
        "cautions": [*trial_cautions(job.fitted.assessed), *job.cautions],
        "job": imprint_answer(job.imprint),
        "says": [*([UNSTEADY] if unsteady(gm_odds[1]) else []), *found.says,
                 *judged_words(judged, found)],
        "predicted": _figures(found, "before"),
        "measured": {"readings": [_reading(*one) for one in found.readings],
                     "gm_of_each_heel_mm": [mm(one) for one in found.gm_readings_m]},
        "learnt": _figures(found, "after"),
        "left_out": [outside(name)[0] for name in found.left_out],
        "likelihood": number(found.likelihood),
        **{f"odds_{when}": {"gm": number(gm), "all_hard": number(hard)}
           for when, gm, hard in zip(("before", "after"), gm_odds, hard_odds, strict=True)},
        "next_weights": None if disagree(found) else {
            **named(weights, "off_centre_m", "safest_kg"),
            "steps": [{"heel_deg": number(heel), "kg": number(kg)} for heel, kg in weights.steps]},
        "turns_over_at_kgm": number(most_moment_kgm),
        "plus_minus": "of predicted and learnt: nine in ten lie within; of readings: one standard "
                      "deviation",
    }


def swamped_first(swamped):
    """How a Swamped boat is tried, and what it is worked out to do with the paddler in."""
    if swamped.can_be_paddled:
        return f"{SWAMPED_FIRST} {ONLY_PRACTISED}."
    does = ("SINKS" if swamped.seated.stays_upright is None else
            "lies with rim or side deck under water" if swamped.seated.stays_upright else
            "TURNS OVER")
    return (f"{SWAMPED_FIRST} it {does}, as worked out: LEAVE THAT OUT. It is tried "
            f"{ONLY_PRACTISED}.")


def unsteady(odds):
    """Whether UNSTEADY is to be said at these odds of `gm_odds` after a launch."""
    return odds is not None and odds < EVEN


def judged_words(judged, found):
    """What `steadiness` found, in a sentence; none where that is None, nor that it is steady where
    the readings of a Lesson disagree."""
    if judged is not None and not (judged[0] == STEADY and disagree(found)):
        verdict, deg, by = judged
        yield (f"Steadiness trial: it swings {deg:.2f}°" + (
            f", {by.stop_deg:.1f}° is the most: " if verdict == STOPPED else
            f" in the mean, {by.steady_deg:.2f}° or less is steady, over {by.less_deg:.2f}° is "
            "not: ") + VERDICTS[verdict])


def disagree(found):
    """Whether the readings of a Lesson disagree, so that no weight more is safe."""
    return bool(found.left_out) or found.likelihood < UNLIKELY


def _figures(found, when):
    """Every figure with its ±, "before" or "after"."""
    figures = {}
    for one in found.learnt:
        key, per = outside(one.key)
        stem, _, unit = key.rpartition("_")
        figures[key] = number(getattr(one, when) * (per or 1.0))
        figures[f"{stem}_plus_minus_{unit}"] = number(
            getattr(one, f"{when}_plus_minus") * (per or 1.0))
    return figures


def _reading(name, *figures):
    """A reading with its name and figures as outside: `bow_m` in mm as `bow_mm`."""
    key, per = outside(name)
    return {"reading": key} | {name: number(value * (per or 1.0)) for name, value in zip(
        ("predicted", "measured", "plus_minus"), figures, strict=True)}
