"""The launch sheet as PDF, to fill in at the water, in the order in which it is done."""

import numpy as np

from sizer.built.borne import load_borne_kg
from sizer.built.departures import expected
from sizer.built.heights import heights_expected, swamped_expected
from sizer.built.steadiness import TRIAL_SCALE_KG, first_trial
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
from sizer.paddler.seated import WORN
from sizer.shop.aboard import ABOARD, aboard_rows, gear_words, take_off_words
from sizer.shop.hip_pads import hip_pads
from sizer.shop.said import about, listed
from sizer.shop.spacers import spacers
from sizer.shop.thigh import thigh_braces
from sizer.shop.work_room import getting_in_words
from sizer.units import MM_PER_M, NO_BREAK, at_least_text, both_mass, both_text

FIGURES_PAD_PT = 3.0  # a hand writes there
HEADER, SHARES = ("figure", "calculated", "measured", "met"), (8, 7, 4.4, 2.1)
MET = "yes / no".replace(" ", NO_BREAK)
SWAMPED_SEATED = ("in", "over")  # of SWAMPED: with the paddler in it
TRADE = ("gunwale", "heel", "port", "rim", "starboard", "swamped", "wet exit")  # of GLOSSARY
IN_PT, LEAD_PT = 9.0, 9.0  # of what is read before, ashore; our drawing
WHEN = "before anybody gets in"  # the cautions are read
ON_PAPER = (
    "With this paper alone: from the top down, row by row, and no farther than it says, however "
    "steady the boat seems. Send the filled sheet, with the line at its head, to whoever made "
    "these papers: from it the boat can be worked out again. It tells what the paddler weighs: "
    "show it to your helpers and to nobody else.")
NOT_UNTIL = (
    "NOT PADDLED UNTIL every blank is filled in, who made these papers too, and the last line says "
    "that it may be. STOP at the first figure that is off by more than its ± or past its limit: no "
    "trial after it, not paddled until worked out again from this sheet.")
ON_SCREEN = ("With the wizard at hand: each reading is typed in its page “Launch” before the "
             "next weight goes aboard.")
# Our judgement.
POOL = (
    "A heated pool does as well where one part of it is no deeper than told for getting in and "
    "another as deep as told above, a boat's length from its walls; else none of this is done "
    "there: nobody gets in from a pool's edge.")
BRING = (
    "Bring: who has shown you how to get in; two helpers who can stand and lift there, and who "
    "writes ashore; PFDs, warm clothes; a scale for people and one that tells "
    f"{both_mass(TRIAL_SCALE_KG, 2)}; the gear, or as much water in closed bags, foam to prop it; "
    "the weights below, closed bags of wet sand, which lie flat, no bottle or stone that rolls, "
    "each weighed with its wet cloth and its cord, about 1 m (3 ft); a straight lath as long as "
    "the boat is wide; a phone or an angle gauge that shows tenths of a degree, waterproof, and "
    "tape; a rule, a stick with the depth above marked, a thermometer, pump and bailer, whistle, a "
    "pencil, this sheet in a clear bag.")
EMPTY_FIRST = (
    "For an hour, tied to the shore by both end loops: [   ] dry, or no more than a cup of water   "
    "[   ] leaks, marked: mended before anybody sits in it. Then blow up the float bags again: "
    "cold water softens them.")
READ_SO = (
    "Wet exits practised? Then in as told above, at the edge, sitting still, hands in the lap. One "
    "helper's hands are open just under both gunwales, touching nothing; the other holds the rule "
    "plumb and reads from the water up: at each tip once, at the lowest on the right and on the "
    "left, half of their sum the figure.")
RIGHT_LEFT = "right _____ left _____ half of both _____"
FILL_M = 0.6  # depth where it is let fill, nobody in it; our judgement
FILLED = (
    "At the edge the paddler gets out; lath, phone and weights ashore, gear and both bags in. The "
    f"helpers walk the boat out to where it is about {about(FILL_M)} deep, press one gunwale under "
    "until it has filled as far as it will, let go and read. To empty it: to the edge, one at each "
    "end, roll it on its side and lift by the end loops little by little.")
FINE = ("", "nothing felt wrong")
MAY = (
    "[   ] Every figure met, steady by its trial, swamped it stayed up, nothing felt wrong: it may "
    "be paddled, as its owner's paper allows on page 1 and no farther.",
    "[   ] Anything else: not paddled but as told there; this sheet goes to whoever made these "
    "papers.",
    "Signed by who wrote it ____________________ on ____________")
WHO = "Launched by ____________________ on ____________ at ________________________"


def launch_pdf(job, paper=USUAL_PAPER):
    """The sheet of a Job on "A4" or "Letter"; bytes, the same for the same job."""
    assessed = job.fitted.assessed
    return alone(job, ground(job, paper, when=WHEN).titled("Launch").sheet(
        *(words(one, face=BOLD) for one in trial_cautions(assessed)),
        *(words(one, LEAD_PT, BOLD) for one in (NOT_UNTIL, ON_PAPER)),
        *(words(one, LEAD_PT) for one in (POOL, ON_SCREEN, BRING, words_told(TRADE), WHO, MADE_BY)),
        *heading("Ashore"), *_ashore(job), _figures(_weighed(assessed)),
        *heading("Afloat with nobody in it"), words(EMPTY_FIRST),
        *heading("Getting in and out"), *(undivided(one, IN_PT) for one in getting_in_words(job)),
        *heading("Afloat with the paddler sitting still"), words(READ_SO),
        whole(_figures(_afloat(assessed))), *trial_blocks(job),
        *heading("Swamped, bags tied in, helpers beside"),
        words(swamped_first(job.mishaps.swamped), face=BOLD), words(FILLED),
        *_swamped(assessed, job.mishaps.swamped),
        *_ticked(_swamped_so(job.mishaps.swamped), SWAMPED_STOPS),
        *heading("What the paddler felt"),
        *_ticked([*(one for one in FELT if one[0] in SITTING), FINE], FELT_STOPS),
        *heading("May it be paddled?"), whole(*(words(one, face=BOLD) for one in MAY)),
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


def _swamped_so(swamped):
    """Of SWAMPED what a Swamped boat is tried for: with the paddler in it only where it may be."""
    return [one for one in SWAMPED if swamped.can_be_paddled or one[0] not in SWAMPED_SEATED]


def _ashore(job):
    """What is weighed and put aboard before any reading, in order."""
    assessed = job.fitted.assessed
    gear, made = assessed.loading.gear, job.patterns
    boards = take_off_words(thigh_braces(assessed), hip_pads(
        assessed, made.frames, spacers(made.frames), made.seat))
    steps = [f"The boat {AS_WEIGHED}: stand on the scale with it on a shoulder, at its balance, "
             f"touching nothing else, then without it. {boards}"]
    if gear:
        steps.append(
            "Float bags, pads and their boards count as gear: weigh them, ______ kg or lb. "
            f"{both_mass(float(assessed.loading.gear_kg))} less that: ______ kg or lb of gear or "
            "water go in besides.")
    less = (" Of these so much less as in 2. With less aboard no figure below holds: the same "
            "weight heels a lighter boat more." if gear else "")
    steps.append(f"{ABOARD} {gear_words(assessed, job.mishaps.swamped)}{less}")
    over = ("With all of 2 over the most below: gear or water comes out until it is met, never "
            "bags, pads or boards. It cannot be met, or they are under the least: STOP." if gear
            else "Over the most below or under the least: STOP.")
    steps.append(f"The paddler, dressed, with {listed([what for what, _ in WORN])}: these count "
                 f"with the paddler, worn or not. {over}")
    yield from (words(f"{number}. {one}", LEAD_PT) for number, one in enumerate(steps, start=1))


def _swamped(assessed, swamped):
    """What rim and side deck of the empty Swamped boat keep over the water, its limit, that of the
    boat with its paddler in, and blanks."""
    found = swamped_expected(assessed, swamped)
    names = ("rim at its lowest", RIM_MARGIN_M), ("side deck at its lowest", SIDE_DECK_MARGIN_M)
    rows = [(name, _banded(*one, _no_less(least)), "", MET)
            for (name, least), one in zip(names, found.values(), strict=False)]
    if rows:
        yield whole(table(("nobody in it, over the water", *HEADER[1:]), rows, SHARES, INNER_MM,
                          pad_pt=PAD_PT))


def _no_less(least_m):
    """A height's limit, never less in inches."""
    return f"; limit: no less than {at_least_text(round(least_m * MM_PER_M, 1))}"


def _banded(value_m, band_m, limit):
    """A height with its ± and its limit, each in inches as its whole millimetres are."""
    high, off = (both_text(round(one * MM_PER_M)) for one in (value_m, band_m))
    return f"{high} ± {off}{limit}"


def _weighed(assessed):
    """Rows of what is weighed."""
    calculated, borne = expected(assessed), load_borne_kg(assessed)
    least, most = map(both_mass, borne)
    boat, off = map(both_mass, calculated["boat_kg"])
    return [
        ("the boat, as in 1", f"{boat} ± {off}", "", MET),
        (", ".join(f"{what} {both_mass(kg)}" for what, kg in aboard_rows(assessed.loading)[1:]),
         f"{both_mass(calculated['load_kg'][0])}; limit: {least} to {most}", "", MET)]


def _afloat(assessed):
    """Rows of how high the sheer stands, and of the water."""
    heights, least = heights_expected(assessed), assessed.person.use.least_freeboard_m
    rows = [(name, _banded(*one, limit), blank, MET) for name, limit, one, blank in (
        ("water to sheer (the edge where side and deck meet) at the bow's tip, a rule plumb under "
         "it", "", heights["bow_m"], ""),
        ("water to sheer at the stern's tip", "", heights["stern_m"], ""),
        (f"water to sheer at its lowest, near {_lowest_at(assessed)}",
         _no_less(least), heights["side_m"], RIGHT_LEFT))]
    return [*rows, ("water, only told", assessed.person.water.kind,
                    "fresh / salt, ____ °C / °F", "–")]


def _figures(rows):
    return table(HEADER, rows, SHARES, INNER_MM, pad_pt=FIGURES_PAD_PT)


def _lowest_at(assessed):
    """The frame nearest to where the sheer is lowest over the water, port and starboard."""
    boat, afloat = assessed.boat, assessed.particulars
    x, sheer = boat.sections.x_m, boat.sections.z_m[:, boat.sections.sheer]
    water = np.interp(x, x[[0, -1]], (sheer[0] - afloat.bow_freeboard_m,
                                      sheer[-1] - afloat.stern_freeboard_m))
    at = x[int(np.argmin(sheer - water))]
    return min(zip(boat.design.frames, boat.frame_x_m, strict=True),
               key=lambda one: abs(one[1] - at))[0].name
