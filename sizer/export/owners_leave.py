"""Whether the owner's boat may go out: what comes first, for whom it is, in which water, waves and
wind. The limits' own reasons stand where they are declared; the rest is our judgement."""

from sizer.built.borne import load_borne_kg
from sizer.export.pages import INNER_MM, air, beside, table, words
from sizer.export.pdf_canvas import BOLD
from sizer.fit.dressed import HEAVIER_KG, LEAST_LEFT_KG, dressed_cautions, left_kg
from sizer.fit.mishaps import LEAST_BAGS
from sizer.fit.uses import (
    MOST_WIND_BEAUFORT,
    MOST_WIND_KN,
    MOST_WIND_SEEN,
    RIPPLES,
    RIPPLES_M,
    ROUND_WAVES,
)
from sizer.hydro.mover import UPRIGHT
from sizer.hydro.water import WARM_C, by_temperature
from sizer.shop.aboard import all_boards_kg, drysuit_words
from sizer.shop.said import both_far
from sizer.units import KN_PER_MPS, MM_PER_M, at_most_text, both_mass, both_text, temperature_text

# Of the sheet's letters, and of its tables'; beside what is done: our drawing.
TEXT_PT, WATER_PT, WHEN_MM = 9.3, 8.4, 36.0
LEAVE, EACH_TRIP, WET_EXIT, USING = (
    "Whether it may go out", "Before each trip, and in the water", "A wet exit", "Using it")
MAY_BE_PADDLED = ("the first box under “May it be paddled?” of its launch sheet is ticked and "
                  "signed")
NEAR_SHORE_M = 50.0  # that a swimmer who holds a full boat gets ashore from; our judgement
# (when, [what]), numbered through; where each is told.
ORDER = (
    ("Before the water", (
        f"Read this sheet, its words at the end. “{LEAVE}” holds every day.",
        "Buy float bags, an air pump and what always goes along (“Before each trip”).",
        f"Find an instructor and company. Learn wet exits (“{WET_EXIT}”) and getting back in with "
        "them, in a boat that is proved on the water: not in this one.",
        "On a lawn or thick mats, no stones, a helper by: try seat, pedals, way out, in your "
        "thickest clothes.")),
    ("At the water", (
        "The launch sheet, top down, three with you: two helpers, who writes; one of them has "
        "shown you how to get in. It says when to stop.",
        "Its first box “may be paddled” ticked: then wet exits in it there, an instructor beside "
        "you.")),
    ("Each trip", (
        "Measure the water, look at waves and wind; bags firm, pedals pinned; weigh all.",
        f"Company beside you; in and out at the edge (“{USING}”); then sponge, look.")))
# When a boat may go out at all.
NOT_YET = (f"Not before it was sat in, weighed and launched, near shore, and {MAY_BE_PADDLED}; ask "
           "for that sheet. Its second box: in it only as that box says, never on a trip. Anything "
           "else: not paddled until worked out again from what was measured.")
NOT_ALONE = ("NEVER ALONE: getting in, emptying it and getting back in ask for a second. Always "
             "with company beside you that has practised with you how you get back in, until an "
             "instructor who saw you in it, on water no colder and no rougher, says that you may "
             f"lead; in water under {temperature_text(WARM_C)} in a wetsuit or drysuit all of you.")
MEASURE = ("Measure the water, not the air, each time, and keep to its line here; the colder, the "
           f"sooner it disables you. Near shore: no more than {both_far(NEAR_SHORE_M)} from where "
           "you can land and stand, our judgement.")
BARRED = "Not in this boat as it is, see above: it stays ashore."
TURN_BACK = (f"Where you see whitecaps, short chop, surf or the wakes of motor boats, stay ashore. "
             f"Where they come while you are out: at once bow or stern towards them, {UPRIGHT}, "
             "the paddle's blade flat on the water, until the worst has passed; then turn for the "
             "nearest shore.")
MOST_WIND = (f"wind, gusts too, no more than {MOST_WIND_KN / KN_PER_MPS:.0f} m/s "
             f"({MOST_WIND_KN:g} knots, Beaufort {MOST_WIND_BEAUFORT}): {MOST_WIND_SEEN}")
# Of a boat not tried yet.
UNTRIED = (f"Beaufort {MOST_WIND_BEAUFORT + 1} or more: stay ashore. Higher waves only with an "
           "instructor beside you who has seen you in the boat in waves as told here, and only a "
           "little higher. "
           "Our judgement; local rules come first.")


def owners_cautions(job):
    """A Job's cautions without that on the least bags, which are none of an owner's: the bags that
    are bought fill the ends."""
    return [one for one in job.cautions
            if job.mishaps.bags.bow_l is None or not one.startswith(LEAST_BAGS)]


def order_blocks():
    """What to do, numbered through, beside when."""
    number = 0
    for when, steps in ORDER:
        told = [words(f"{number + count}. {step}", TEXT_PT)
                for count, step in enumerate(steps, start=1)]
        yield beside(words(when, TEXT_PT, BOLD), told, WHEN_MM, INNER_MM)
        number += len(steps)


def leave_blocks(job, bench):
    """`leave_words` of a Job and its Bench, the table of the water's temperature among them."""
    *before, waters = leave_words(job, bench)
    yield from (words(f"- {one}", TEXT_PT) for one in before)
    yield table(("the water", "what it asks for", "who goes, and for what"),
                by_temperature(job.person.water.temperature_c,
                               BARRED if barred(job, bench) else ""),
                (3.8, 7.9, 8.3), INNER_MM, WATER_PT)
    yield air()
    yield words(f"- {waters}", TEXT_PT)


def leave_words(job, bench):
    """What must be so before a Job's boat goes out, leave and ban in one place: paragraphs."""
    return [NOT_YET, NOT_ALONE, whom_words(job),
            *dressed_cautions(job.person, job.mishaps.swamped), *_drysuit_barred(job, bench),
            MEASURE, waters_words(job)]


def _drysuit_barred(job, bench):
    """That a drysuit leaves too little of the gear, where no caution says so and it is so."""
    if barred(job, bench) and not any(dressed_cautions(job.person, job.mishaps.swamped)):
        yield drysuit_words(*_carried(job, bench))


def barred(job, bench):
    """Whether a Job's boat stays ashore in water that asks for a drysuit."""
    left = left_kg(*_carried(job, bench), HEAVIER_KG)
    return left < LEAST_LEFT_KG or any(dressed_cautions(job.person, job.mishaps.swamped))


def drysuit_told(job, bench):
    """What a drysuit leaves of the gear, where that is enough: else it is told as what bars it."""
    if not barred(job, bench):
        yield drysuit_words(*_carried(job, bench))


def _carried(job, bench):
    """The gear a Job's boat is fitted with, kg, its Swamped, and what its boards weigh, kg."""
    return (float(job.fitted.assessed.loading.gear_kg), job.mishaps.swamped,
            all_boards_kg(bench.thigh, bench.hip_pads))


def waters_words(job):
    """As `sea_words`, of a Job."""
    return sea_words(job.person.use, job.mishaps.wave, float(job.fitted.assessed.particulars.gm_m))


def sea_words(use, wave, gm_m):
    """For which water a boat is, as a Use, an OnWave and GM in calm water have it: what is seen
    from shore and the most of wave and wind until it was tried, then what it was worked out for;
    the OnWave is None where it could not be worked out."""
    if wave is None:
        return (f"Worked out for calm water and no wave. Look before you set out: {_seen(0.0)}; "
                f"{MOST_WIND}. {UNTRIED} {TURN_BACK}")
    seen_m = use.seen_m(gm_m, _low_gm_m(wave))
    return (f"Look from the shore before you set out: {_seen(seen_m)}; {MOST_WIND}. "
            f"{_without_deck(seen_m)}{UNTRIED} {TURN_BACK} It is worked out for calm water and for "
            f"{_worked_out(wave)}. Shorter waves of that height are steeper and turn it over "
            "sooner.")


def tender_words(job):
    """That a Job's boat does not stay up by itself on the wave it was worked out for, where that
    is so: beside its checks, which may pass all the same."""
    wave = job.mishaps.wave
    if wave is not None and round(_low_gm_m(wave) * MM_PER_M) < 0:
        yield (f"PASSING IS FOR CALM WATER: in {_worked_out(wave)}, it does not stay up by itself. "
               "Out only in what is told of wave and wind.")


def _low_gm_m(wave):
    return min(one.gm_m for one in (wave.arms.crest, wave.arms.trough))


def _worked_out(wave):
    """The wave of an OnWave, in words."""
    return (f"waves {both_text(wave.arms.height_m * MM_PER_M)} high that are, from one crest to "
            "the next, as long as the boat")


def _without_deck(seen_m):
    """How far waves so high hold for the open cockpit: a ripple stays under every rim that passes
    its check."""
    if seen_m <= 0.0:
        return ""
    if seen_m <= RIPPLES_M:
        return "Both hold with and without a spray deck. "
    return (f"Without a spray deck {RIPPLES}, no higher than "
            f"{at_most_text(RIPPLES_M * MM_PER_M)}. ")


def _seen(height_m):
    """Waves so high as one sees them from shore."""
    if height_m <= 0.0:
        return "calm water, no waves at all"
    what = RIPPLES if height_m <= RIPPLES_M else ROUND_WAVES
    return f"{what}, no higher than {at_most_text(height_m * MM_PER_M)} from trough to crest"


def whom_words(job):
    """Whom the boat is for, and the loads that its checks bear."""
    least, most = (both_mass(kg) for kg in load_borne_kg(job.fitted.assessed))
    return (f"For one paddler, the one it was fitted to, with {least} to {most} on the scale: "
            "paddler dressed for the water, with paddle and spray deck, gear, float bags, pads and "
            "boards together; the dressed paddler alone as the launch sheet lets pass, in a "
            f"drysuit {both_mass(HEAVIER_KG)} more at most. Lend or sell it to nobody, even of "
            "that weight, before it is fitted again to that body.")
