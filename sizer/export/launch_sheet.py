"""The launch sheet as PDF, to fill in at the water, in the order in which it is done."""

import numpy as np

from sizer.built.borne import load_borne_kg
from sizer.built.departures import expected
from sizer.built.heights import heights_expected, swamped_expected
from sizer.built.steadiness import first_trial
from sizer.built.trial import FELT, FELT_STOPS, SITTING, SWAMPED, SWAMPED_STOPS
from sizer.export.feet import MADE_BY, alone, ground
from sizer.export.glossary import words_told
from sizer.export.launch_answer import swamped_first, trial_cautions
from sizer.export.launch_trial import PAD_PT, off_words, trial_blocks
from sizer.export.pages import INNER_MM, air, heading, table, undivided, whole, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import USUAL_PAPER
from sizer.hull.weight import AS_WEIGHED
from sizer.hydro.flooded import RIM_MARGIN_M, SIDE_DECK_MARGIN_M
from sizer.shop.aboard import ABOARD, aboard_rows, gear_words
from sizer.shop.work_room import getting_in_words
from sizer.units import MM_PER_M, NO_BREAK, at_least_text, both_mass, both_text

FIGURES_PAD_PT = 3.0  # a hand writes there
TRADE = ("gunwale", "heel", "port", "rim", "starboard", "swamped", "wet exit")  # of GLOSSARY
IN_PT, LEAD_PT = 9.0, 9.0  # of what is read before, ashore; our drawing
WHEN = "before anybody gets in"  # the cautions are read
ON_PAPER = (
    "With this paper alone: from the top down, row by row, and no farther than it says, however "
    "steady the boat seems. Send the filled sheet, with the line at its head, to whoever made "
    "these papers: from it the boat can be worked out again. It tells what the paddler weighs: "
    "show it to your helpers and to nobody else.")
NOT_UNTIL = (
    "NOT PADDLED UNTIL every blank of the tables is filled in, who made these papers too; what was "
    "felt under way is ticked after the first trip. STOP at the first figure that is off by more "
    "than its ± or past its limit, and at the first heel over the most: no trial after it, not "
    "paddled until worked out again from this sheet.")
ON_SCREEN = ("With the wizard: type each reading in its page “Launch” before the next weight "
             "goes aboard.")
# Our judgement.
BRING = (
    "Bring: who has shown you how to get in, two helpers who can stand and lift there, PFDs, warm "
    "clothes; a scale for people and one that tells 0.05 kg (0.1 lb); the gear, or as much water "
    "in closed bags; the weights below, each weighed with its wet cloth and its cord, about 1 m (3 "
    "ft); a straight lath as long as the boat is wide; a phone or an angle gauge that shows tenths "
    "of a degree, waterproof, on a wrist cord; a rule, a stick with the depth above marked, a "
    "thermometer, pump and bailer, whistle, a pencil, this sheet in a clear bag.")
EMPTY_FIRST = (
    "For an hour, tied to the shore by both end loops: [   ] dry, or no more than a cup of water   "
    "[   ] leaks, marked: mended before anybody sits in it. Then blow up the float bags again: "
    "cold water softens them.")
READ_SO = ("Wet exits practised? Then in as told above, at the edge, sitting still, a helper's "
           "hands under both gunwales; the other holds the rule plumb and reads each to the right "
           "and to the left: half of their sum is written.")
FILLED = (
    "Still there, the paddler out, gear and both bags in: helpers press one gunwale under until it "
    "has filled as far as it will, let go and read. To empty it: to the edge, one at each end, "
    "roll it on its side and lift by the end loops little by little.")
WHO = "Launched by ____________________ on ____________ at ________________________"


def launch_pdf(job, paper=USUAL_PAPER):
    """The sheet of a Job on "A4" or "Letter"; bytes, the same for the same job."""
    assessed = job.fitted.assessed
    return alone(job, ground(job, paper, when=WHEN).titled("Launch").sheet(
        *(words(one, face=BOLD) for one in trial_cautions(assessed)),
        *(words(one, LEAD_PT, BOLD) for one in (NOT_UNTIL, ON_PAPER)),
        words(ON_SCREEN, LEAD_PT), words(BRING, LEAD_PT), words(words_told(TRADE), LEAD_PT),
        words(WHO, LEAD_PT), words(MADE_BY, LEAD_PT),
        *heading("Ashore"), *_aboard(job), _figures(_weighed(assessed)),
        *heading("Afloat with nobody in it"), words(EMPTY_FIRST),
        *heading("Getting in and out"), *(undivided(one, IN_PT) for one in getting_in_words(job)),
        *heading("Afloat with the paddler sitting still"), words(READ_SO),
        whole(_figures(_afloat(assessed))), *trial_blocks(job),
        *heading("Swamped, bags tied in, helpers beside"),
        words(swamped_first(job.mishaps.swamped), face=BOLD), words(FILLED),
        *_swamped(assessed, job.mishaps.swamped), *_ticked(SWAMPED, SWAMPED_STOPS),
        *heading("What the paddler felt"),
        *_ticked([one for one in FELT if one[0] in SITTING], FELT_STOPS),
        words("After the first trip, for whoever made these papers:"),
        _choices([one for one in FELT if one[0] not in SITTING])), when=WHEN)


def first_weight_words(job):
    """What the trial may begin with, in one sentence for the order of work."""
    weights = first_trial(job.fitted)
    if weights.safest_kg <= 0.0:
        return "none with weights: none that is safe tells how steady it is, as calculated."
    return (f"begin with {both_mass(weights.first[1])}, {off_words(weights.place)}, never on rim "
            f"or lip; at most {both_mass(weights.safest_kg)}: {both_mass(weights.turns_over_kg)} "
            "there turn it over.")


def stiff_words(job):
    """What turns a Job's boat over under a paddler held stiff, for its owner: every angle of heel
    elsewhere is of one who keeps upright over it."""
    weights = first_trial(job.fitted)
    upright = ("Every angle of heel here is for a paddler who keeps the upper body upright over "
               "the boat.")
    if weights.turns_over_kg <= 0.0:
        return f"{upright} Held stiff, this boat does not stand by itself as calculated."
    high = (f"{both_mass(weights.high_over_kg)} do it" if weights.high_over_kg > 0.0
            else "nothing at all is needed")
    return (f"{upright} Sit stiff, and {both_mass(weights.turns_over_kg)}, "
            f"{off_words(weights.place)}, turn this boat over as calculated. Sit stiff and higher, "
            f"on a pad or because you are built so, and {high}. To lean out, to reach for "
            "something or to hold on to a dock may be as much.")


def trial_frame(job):
    """Name of the frame that the trial's weights lie over."""
    return first_trial(job.fitted).place.frame


def weight_off_words(job):
    """How far the boat may be off its weight, as the sheet's own figure has it."""
    return both_mass(expected(job.fitted.assessed)["boat_kg"][1])


def _choices(lot):
    """A box before each, and no line parts the two."""
    return words("     ".join(f"[   ] {said}".replace(" ", NO_BREAK) for _, said in lot))


def _ticked(lot, stops):
    """The choices after which it is not paddled, with that, then the others."""
    yield air()
    yield words("One of these: out, ashore; not paddled until that was worked out again or put "
                "right, and tried anew:", face=BOLD)
    yield _choices([one for one in lot if one[0] in stops])
    yield words("One of these: go on:")
    yield _choices([one for one in lot if one[0] not in stops])


def _aboard(job):
    """What must be in the boat before any reading, and what of it is weighed."""
    assessed = job.fitted.assessed
    less = " Without it no figure below holds: the same weight heels a lighter boat more."
    gear = gear_words(assessed, job.mishaps.swamped)
    yield words(f"{ABOARD} {gear}{less if assessed.loading.gear else ''}", LEAD_PT, BOLD)
    if assessed.loading.gear:
        yield words("Float bags, pads and boards count as gear: weigh them, ______ kg or lb, and "
                    f"put in, of the {both_mass(float(assessed.loading.gear_kg))}, so much less: "
                    "______ kg or lb.", LEAD_PT)


def _swamped(assessed, swamped):
    """What rim and side deck of the empty Swamped boat keep over the water, its limit, that of the
    boat with its paddler in, and blanks."""
    found = swamped_expected(assessed, swamped)
    names = ("rim at its lowest", RIM_MARGIN_M), ("side deck at its lowest", SIDE_DECK_MARGIN_M)
    rows = [(name, _banded(*one, _no_less(least)), "")
            for (name, least), one in zip(names, found.values(), strict=False)]
    if rows:
        yield whole(table(("nobody in it, over the water", "calculated", "measured"), rows,
                          (5, 10, 4), INNER_MM, pad_pt=PAD_PT))


def _no_less(least_m):
    """A height's limit, never less in inches."""
    return f"; limit: no less than {at_least_text(round(least_m * MM_PER_M, 1))}"


def _banded(value_m, band_m, limit):
    """A height with its ± and its limit."""
    return f"{both_text(value_m * MM_PER_M)} ± {both_text(band_m * MM_PER_M)}{limit}"


def _weighed(assessed):
    """Rows of what is weighed."""
    calculated, borne = expected(assessed), load_borne_kg(assessed)
    least, most = map(both_mass, borne)
    off = both_mass(calculated["boat_kg"][1])
    return [
        (f"the boat {AS_WEIGHED}: what to take off, the order of work tells",
         f"{both_mass(calculated['boat_kg'][0])} ± {off}", ""),
        (", ".join(f"{what} {both_mass(kg)}" for what, kg in aboard_rows(assessed.loading)[1:])
         + "; paddle and spray deck with them",
         f"{both_mass(calculated['load_kg'][0])}; limit: {least} to {most}", "")]


def _afloat(assessed):
    """Rows of how high the sheer stands, and of the water."""
    heights, least = heights_expected(assessed), assessed.person.use.least_freeboard_m
    rows = [(name, _banded(*one, limit), "") for name, limit, one in (
        ("water to sheer (the edge where side and deck meet) at the bow's tip, a rule plumb under "
         "it", "", heights["bow_m"]),
        ("water to sheer at the stern's tip", "", heights["stern_m"]),
        (f"water to sheer at its lowest, near {_lowest_at(assessed)}",
         _no_less(least), heights["side_m"]))]
    return [*rows, ("water", f"{assessed.person.water.density_kgpm3:.0f} kg/m3",
                    "fresh / salt, ____ °C / °F")]


def _figures(rows):
    return table(("figure", "calculated", "measured"), rows, (9, 7, 4.5), INNER_MM,
                 pad_pt=FIGURES_PAD_PT)


def _lowest_at(assessed):
    """The frame nearest to where the sheer is lowest over the water, port and starboard."""
    boat, afloat = assessed.boat, assessed.particulars
    x, sheer = boat.sections.x_m, boat.sections.z_m[:, boat.sections.sheer]
    water = np.interp(x, x[[0, -1]], (sheer[0] - afloat.bow_freeboard_m,
                                      sheer[-1] - afloat.stern_freeboard_m))
    at = x[int(np.argmin(sheer - water))]
    return min(zip(boat.design.frames, boat.frame_x_m, strict=True),
               key=lambda one: abs(one[1] - at))[0].name
