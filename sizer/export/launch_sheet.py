"""The launch sheet as PDF, to fill in at the water, in the order in which it is done."""

from sizer.built.departures import expected
from sizer.built.heights import LEVEL_M
from sizer.built.steadiness import TRIAL_SCALE_KG, first_trial
from sizer.built.trial import FELT, FELT_STOPS, SITTING, SWAMPED, SWAMPED_STOPS
from sizer.export import launch_figures
from sizer.export.feet import MADE_BY, alone, ground
from sizer.export.glossary import words_told
from sizer.export.launch_answer import (
    LIGHT_FIRST,
    SWAMP_SO,
    TOO_HEAVY,
    UNPROVED,
    swamped_first,
    trial_cautions,
)
from sizer.export.launch_figures import WEIGHED
from sizer.export.launch_trial import off_words, sitting_steps, trial_blocks, trial_kg
from sizer.export.lengths import sized
from sizer.export.owners_leave import LEAVE, owners_cautions
from sizer.export.pages import air, heading, led, undivided, whole, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.tiles import USUAL_PAPER
from sizer.hull.weight import AS_WEIGHED
from sizer.hydro.water import WARM_C, temperature_caution
from sizer.paddler.seated import WORN
from sizer.shop.aboard import ABOARD, FOAM_L, all_boards_kg, gear_words, take_off_words
from sizer.shop.hip_pads import hip_pads
from sizer.shop.said import about, both_far, listed
from sizer.shop.spacers import spacers
from sizer.shop.thigh import thigh_braces
from sizer.shop.work_room import getting_in_words
from sizer.units import NO_BREAK, both_mass, temperature_text

SWAMPED_SEATED = ("in", "over")  # of SWAMPED: with the paddler in it
UNTRIED = "not"  # of SWAMPED: on paper a blank says it
TRADE = ("boards", "coaming", "end loop", "float bags", "frame", "gunwale", "heel", "lip", "panel",
         "port", "rim", "spray deck", "starboard", "swamped", "wet exit")  # of GLOSSARY
FIRST_PT, IN_PT, LEAD_PT = 9.2, 8.3, 8.6  # of what is read before, ashore; our drawing
WHEN = "before anybody gets in"  # the cautions are read
NOT_UNTIL = (
    "NOT PADDLED UNTIL every blank is filled in (who made these papers: ask the builder) and “May "
    "it be paddled?” says that it may be. STOP at the first figure outside “pass” and wherever a "
    "box says so: out at the edge, no trial after it, not paddled until it was put right or worked "
    "out again from this sheet, and tried anew from the top.")
ON_PAPER = (
    "With this paper alone: words and cautions at its end first, then from the top down, row by "
    "row, and no farther than it says. Ring the unit that was read in. The filled sheet, with the "
    "line at its head, goes to whoever made these papers: from it the boat can be worked out "
    "again. It tells what the paddler weighs: else only your helpers see it. With the wizard, the "
    "program behind these papers: each reading into its page “Launch” before the next weight.")
WALL_M = 2.0  # of a pool, from where the boat may turn over; our judgement
POOL = (
    "A heated pool does as well where one part is no deeper than told for getting in and another "
    f"as deep as told above, {both_far(WALL_M)} from every wall; few have both. Else wait for "
    "water as warm as told; never in from a pool's edge.")
# Our judgement.
BRING = (
    "Bring three besides the paddler: two helpers who can stand and lift there, and who writes "
    "ashore; one of them has shown you how to get in. PFDs, wetsuits for the helpers, warm, dry "
    "clothes: who is cold comes ashore, and the trial waits; a scale for people and "
    f"one that tells {both_mass(TRIAL_SCALE_KG, 2)}; the gear, or as much water in closed bags, "
    f"foam to prop it, no more than {FOAM_L} litres, since it floats, and than the room told for "
    "gear leaves (owner's paper, “Gear”); the weights below, closed bags of wet sand, which lie "
    "flat, no bottle or stone that rolls, each weighed with its wet cloth and its cord, about 1 m "
    "(3 ft); a lath a hand longer than the boat is wide; a phone or an "
    "angle gauge that shows tenths of a degree, waterproof, and tape; a rule, a stick with the "
    "depth above marked, a thermometer, pump and bailer, air pump, the pedals' spanner, whistle, "
    "tape to mark leaks, a pencil, this sheet in a clear bag.")
CHECKED = (
    "The gauge. Lath and phone taped together as for reading 0, the lath on a table: turned end "
    "for end in the same place they show the same end of the table lower, by as much within 0.2 "
    "degrees; the higher end lifted besides by a twentieth of the lath's length: 2.9 more, within "
    "0.2; tipped over its long edge, as on a rim that slopes: the same within 0.2. Else another "
    "gauge.")
EMPTY_FIRST = (
    "For an hour, gear in, panels laced, tied to the shore by both end loops, everybody ashore. "
    "Then lift bow, then stern, until water from behind the panels runs out, and look behind "
    "both: [   ] dry, or no more than a cup in all   [   ] leaks, marked: STOP. Then blow up the "
    "float bags again: cold water softens them.")
READ_SO = (
    "The paddler sits still, hands in the lap. Helper 2 holds the rule plumb and reads from the "
    "water up to the sheer, the edge where side and deck meet: at each tip once, at its lowest on "
    "the right and on the left, half of their sum the figure.")
FILL_M = 0.6  # depth where it is let fill, nobody in it; our judgement
FILLED = (
    "At the edge the paddler gets out; phone and weights ashore, gear, its foam and both bags stay "
    f"in. The helpers walk the boat out to where it is about {about(FILL_M)} deep, {SWAMP_SO}: a "
    "lath across the rim, from it a rule plumb down to the water, in the middle the same within "
    f"{sized(LEVEL_M)} as beside the hull, half of right and left. Then lath off, hands off, and "
    "read, where each is lowest over the water, found by trying along it: to the rim from the "
    "water inside, to the side deck from that outside. To empty it: pump and bail, then to the "
    "edge, gear out, one at each end, roll it on its side and lift by the end loops little by "
    "little.")
ON_TRIPS = f"On trips, not at this launch, which is made at {temperature_text(WARM_C)} or more: "
FINE = ("", "nothing felt wrong")
SO_FAR = "Every figure passes, no box that says STOP is ticked, swamped it stayed up"
MAY, ONLY = (
    f"[   ] {SO_FAR}, and by its trial it is steady: it may be paddled, as its owner's paper "
    f"allows under “{LEAVE}” and no farther.",
    f"[   ] {SO_FAR}, but {{why}}. {UNPROVED}.")
CANNOT_TELL, NO_TRIAL = "its trial cannot tell", "no trial with weights is safe"
NOT_PADDLED = (
    "[   ] Anything else, a blank or a trial that was not made or not ended too: not paddled.")
SIGNED = "Signed by who wrote it ____________________ on ____________"
WHO = "Launched by ____________________ on ____________ at ________________________"


def launch_pdf(job, paper=USUAL_PAPER):
    """The sheet of a Job on "A4" or "Letter"; bytes, the same for the same job."""
    assessed, found = job.fitted.assessed, job.mishaps.swamped
    rows = launch_figures.swamped(assessed, found)
    return alone(job, ground(job, paper, when=WHEN).titled("Launch").sheet(
        *(words(one, FIRST_PT, BOLD) for one in trial_cautions(assessed)
          if one != LIGHT_FIRST),  # the rows have the weights
        *(words(one, LEAD_PT, BOLD) for one in (NOT_UNTIL, ON_PAPER)),
        *(words(one, LEAD_PT) for one in (POOL, BRING, WHO, MADE_BY)),
        *heading("Ashore"), *_ashore(job), whole(launch_figures.weighed(assessed)),
        *heading("Afloat with nobody in it"), words(EMPTY_FIRST, LEAD_PT),
        *heading("Getting in and out"), *(undivided(one, IN_PT) for one in getting_in_words(job)),
        *heading("Afloat with the paddler sitting still"),
        *(undivided(one, LEAD_PT) for one in (*sitting_steps(job), READ_SO)),
        whole(launch_figures.afloat(assessed)),
        _ticked("What the paddler felt", [*(one for one in FELT if one[0] in SITTING), FINE],
                FELT_STOPS),
        *trial_blocks(job),
        *heading("Swamped, bags tied in, helpers beside"),
        words(swamped_first(found), face=BOLD), undivided(FILLED, LEAD_PT),
        *([whole(rows)] if rows else ()),
        _ticked("Swamped", _swamped_so(found), SWAMPED_STOPS),
        *heading("May it be paddled?"),
        whole(*(words(one, face=BOLD) for one in (*_may(job), NOT_PADDLED, SIGNED))),
        _choices("After the first trip, for whoever made these papers",
                 [one for one in FELT if one[0] not in SITTING]),
        words(words_told(TRADE), LEAD_PT)), when=WHEN, cautions=_cautions(job))


def _cautions(job):
    """A Job's cautions, that of its water as one for trips; those on bags that no owner buys, at
    their limit, are left out as on the owner's sheet."""
    cold = temperature_caution(job.person.water.temperature_c)
    return [f"{ON_TRIPS}{one}" if one == cold else one
            for one in owners_cautions(job)]


def trial_weights_words(job):
    """Of the trial, in one sentence for the order of work, what the sheet alone does not make sure:
    that its weights are not passed."""
    weights = first_trial(job.fitted)
    if weights.safest_kg <= 0.0:
        return "none with weights: none that is safe tells how steady it is, as calculated."
    return ("by that sheet alone, which tells the readings, where to stop and how they are judged; "
            f"at most {both_mass(weights.safest_kg)}, {off_words(weights.place)}.")


def trial_bags_words(job):
    """The weights to fill for the trial."""
    weights = first_trial(job.fitted)
    if weights.safest_kg <= 0.0:
        return "none, no trial with weights is safe"
    return (f"{listed([both_mass(kg) for kg in trial_kg(weights)])}, closed bags of wet sand, each "
            "weighed with its wet cloth and its cord")


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


def trial_tick_words(job):
    """Where the deck is marked for the trial's weight, where there is one."""
    weights = first_trial(job.fitted)
    if weights.safest_kg > 0.0:
        yield f"each side {off_words(weights.place)}, for the trial's weight"


def weight_off_words(job):
    """How far the boat may be off its weight, as the sheet's own figure has it."""
    return both_mass(expected(job.fitted.assessed)["boat_kg"][1])


def _choices(lead, lot):
    """A box before each, and no line parts the two."""
    return led(lead, "     ".join(f"[   ] {said}".replace(" ", NO_BREAK) for _, said in lot),
               LEAD_PT)


def _ticked(what, lot, stops):
    """The choices after which it is not paddled, with that, then the others."""
    return whole(
        air(),
        _choices(f"{what}, STOP at one of these", [one for one in lot if one[0] in stops]),
        _choices("Go on, told to whoever made these papers",
                 [one for one in lot if one[0] not in stops]))


def _may(job):
    """The boxes of a Job's boat that let it be paddled."""
    if first_trial(job.fitted).safest_kg <= 0.0:
        return [ONLY.format(why=NO_TRIAL)]
    return [MAY, ONLY.format(why=CANNOT_TELL)]


def _swamped_so(swamped):
    """Of SWAMPED what a Swamped boat is tried for: with the paddler in it only where it may be."""
    return [one for one in SWAMPED if one[0] != UNTRIED
            and (swamped.can_be_paddled or one[0] not in SWAMPED_SEATED)]


def _ashore(job):
    """What is weighed, tried and put aboard before any reading, in order."""
    assessed, made = job.fitted.assessed, job.patterns
    gear, gear_kg = assessed.loading.gear, float(assessed.loading.gear_kg)
    thigh = thigh_braces(assessed)
    hips = hip_pads(assessed, made.frames, spacers(made.frames), made.seat)
    steps = [f"The boat {AS_WEIGHED}: stand on the scale with it on a shoulder, at its balance, "
             "touching nothing else, a helper reading, then without it; where both are more than "
             f"the scale bears, somebody lighter. {take_off_words(thigh, hips)}"]
    if gear:
        boards = all_boards_kg(thigh, hips)
        more = f" and the boards' {both_mass(boards, 2)}" if boards else ""
        steps.append(
            f"Float bags, and pads not glued on, on the scale: {WEIGHED}. {both_mass(gear_kg)} "
            f"less that{more}: {WEIGHED} of gear or water go in besides.")
    less = (" What goes in besides by 2 is shared out among these places in the same shares. It is "
            "propped up for this sheet's figures; on trips it lies as low as it can. With less "
            "aboard no figure below holds: the same weight heels a lighter boat more." if gear
            else "")
    steps.append(f"{ABOARD} {gear_words(assessed, job.mishaps.swamped)}{less}")
    steps.append(f"The paddler, dressed and dry, with {listed([what for what, _ in WORN])}: these "
                 "count with the paddler, worn or not; what is in the pockets, food and drink too, "
                 f"is gear. {TOO_HEAVY}")
    if first_trial(job.fitted).safest_kg > 0.0:
        steps.append(CHECKED)
    yield from (words(f"{number}. {one}", LEAD_PT) for number, one in enumerate(steps, start=1))
