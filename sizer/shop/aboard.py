"""What is aboard when the boat floats as its figures tell: how much of what, and where it lies.

What the boat is weighed without counts as gear: float bags, pads and their boards. It is weighed
before bags and foam go in. Boards of thigh braces and hip pads are in by then, under skin and
coating: what they weigh, by their sizes, is taken off. A brace's post of a few grams is left out.
"""

from math import prod

import numpy as np

from sizer.fit.dressed import (
    HEAVIER_KG,
    LEAST_LEFT_KG,
    always_words,
    bags_kg,
    gear_needed_kg,
    left_kg,
)
from sizer.hull.weight import PLYWOOD
from sizer.hydro.water import COLD_C, asks_for_drysuit
from sizer.paddler.seated import CLOTHING, DRYSUIT_KG, WORN, worn_kg
from sizer.shop.gear_ties import gear_packs
from sizer.shop.said import both, laid, listed
from sizer.shop.thigh import LONG_M, THICK_M
from sizer.units import MM_PER_M, both_mass, both_text, temperature_text

_CLOTHED = f"{both_mass(dict(WORN)[CLOTHING])} of {CLOTHING}"
# Left under the gear, it lifts rim and side deck of a swamped boat by 3 mm or less (worked out for
# seven boats): a quarter of what a reading may be off.
FOAM_L = 2
PAD_M = 0.010  # of a pad that is not there; what it would cost is told
ABOARD = ("Both float bags in, firm, laced in; where pedals and strap are in a bag's way they come "
          "out first and go in again, every pin pulled at, before anybody gets in. Aboard with the "
          "paddler before any reading and through the whole trial:")


def aboard_step_words(job, bench):
    """{name: words} of a Job and its Bench for the step that loads the boat."""
    assessed = job.fitted.assessed
    cold = asks_for_drysuit(assessed.person.water.temperature_c)
    return {"whole_aboard": whole_words(assessed.loading, cold),
            "gear_aboard": gear_words(assessed, job.mishaps.swamped),
            "no_pad": pad_words(assessed),
            "counts_as_gear": counted_words(job, bench.thigh, bench.hip_pads)}


def aboard_rows(loading):
    """(what, kg) of all that is afloat by a Loading: their sum is the whole weight."""
    gear = "gear, with float bags, pads and their boards" if loading.gear else "no gear"
    return (("boat", float(loading.boat_kg)), ("dressed paddler", float(loading.paddler_kg)),
            (gear, float(loading.gear_kg)))


def whole_words(loading, cold=False):
    """What the whole weight afloat is made of, in sentences; of a fit to water so `cold` that it
    asks for a drysuit, that one is worn."""
    parts = "; ".join(f"{what} {both_mass(kg)}" for what, kg in aboard_rows(loading))
    worn = listed([f"{what} {kg:g}" for what, kg in WORN])
    heavy = "so much less gear goes in" if loading.gear else "it comes on top of these figures"
    worn_so = ("In the water told a drysuit over warm layers with boots is worn: it weighs" if cold
               else "Clothes for cold water, a drysuit over warm layers with boots, may weigh")
    return (f"{both_mass(float(loading.load.mass_kg))} in all: {parts}. {worn_kg():g} kg "
            f"of the paddler are {worn}; at the launch the deck is not worn but lies rolled up "
            f"behind the seat. {worn_so} {DRYSUIT_KG:g} kg by our judgement, "
            f"{both_mass(HEAVIER_KG)} more than clothing and shoes: {heavy}.")


def pad_words(assessed):
    """What a pad on the seat would cost."""
    loading, gm = assessed.loading, float(assessed.particulars.gm_m)
    costs = PAD_M * float(loading.paddler_kg) / float(loading.load.mass_kg)
    pad, taken, of = (both_text(one * MM_PER_M) for one in (PAD_M, costs, gm))
    return (f"Nothing is laid on the seat: {pad} under the paddler take {taken} of the {of} of "
            "steadiness (GM).")


def gear_words(assessed, swamped):
    """What must be aboard besides the paddler, and where, before it is measured afloat."""
    heaps = assessed.loading.gear
    if not heaps:
        return ("no gear is reckoned with: it stays ashore. Float bags (about "
                f"{both_mass(bags_kg(swamped))} together, our judgement), pads and boards come on "
                "top of these figures.")
    boat, cut = assessed.boat, assessed.boat.sections
    told = [f"{both_mass(round(one.mass_kg, 1))} between {listed(list(one.frames))}, its middle "
            f"{opening_words(boat.opening, one.x_m, laid)} and "
            f"{both(one.z_m - np.interp(one.x_m, cut.x_m, cut.z_m[:, 0]))} over the skin's bottom "
            "there" for one in gear_packs(boat, heaps)]
    return (f"gear, or as much water in closed bags, {'; '.join(told)}: what lies lower, as water "
            f"does, is propped up on foam, {FOAM_L} litres at most, under the line that ties it "
            "in, for the trial alone, or the boat seems steadier than it is.")


def opening_words(opening, x_m, text):
    """Where something lies, from the opening's nearer end; `text` writes metres."""
    if x_m <= opening.front_x_m:
        return f"{text(opening.front_x_m - x_m)} ahead of the opening's front"
    off, way = x_m - opening.back_x_m, "behind" if x_m >= opening.back_x_m else "ahead of"
    return f"{text(abs(off))} {way} the opening's back"


def bare_words(assessed):
    """How steady the boat is without the gear it is reckoned with; "" where there is none."""
    if not assessed.loading.gear:
        return ""
    bare, laden = (both_text(float(one.gm_m) * MM_PER_M) for one in (
        assessed.bare, assessed.upright))
    least = assessed.person.use.least_gm_m
    tender = ("" if assessed.bare.gm_m >= least else
              ": too little. Paddle it with its gear, or bags of water as heavy in its place")
    return f"Without the gear its steadiness (GM) is {bare}, with it {laden}{tender}."


def counted_words(job, thigh, hips):
    """As `put_in_words`, and what a drysuit leaves; "" where a Job's boat carries no gear."""
    told = put_in_words(job, thigh, hips)
    return told and f"{told} " + drysuit_words(
        float(job.fitted.assessed.loading.gear_kg), job.mishaps.swamped,
        all_boards_kg(thigh, hips)) + " "


def put_in_words(job, thigh, hips):
    """What is in a Job's boat already and counts as gear, so that less goes in, and how much that
    leaves; of ThighBraces and HipPads, each of which may be None. "" where it carries no gear."""
    if not job.fitted.assessed.loading.gear:
        return ""
    swamped, boards = job.mishaps.swamped, all_boards_kg(thigh, hips)
    left = left_kg(float(job.fitted.assessed.loading.gear_kg), swamped, boards)
    rest = both_mass(left) if left > 0.0 else "nothing"
    known = f" (boards {both_mass(boards)})" if boards else ""
    return (f"Put in less by what float bags (about {both_mass(bags_kg(swamped))}, our "
            f"judgement), pads and boards weigh{known}: they count as gear and leave {rest} "
            f"for {_all_else(boards)}.")


def _all_else(board_kg):
    """What is not counted yet beside boards so heavy, 0 where they are not known."""
    return "pads and all else" if board_kg else "pads, boards and all else"


def drysuit_words(gear_kg, swamped, board_kg):
    """What gear is left to who wears a drysuit, beside the Swamped boat's bags and boards so heavy;
    what to do where that is nothing."""
    left = left_kg(gear_kg, swamped, board_kg, HEAVIER_KG)
    if left >= LEAST_LEFT_KG:
        return (f"A drysuit, {both_mass(HEAVIER_KG)} heavier than the {_CLOTHED} reckoned with, "
                f"leaves {both_mass(left)} for {_all_else(board_kg)}.")
    rest = f"{both_mass(left)} for {_all_else(board_kg)}" if left > 0.0 else "NOTHING"
    return (f"A DRYSUIT, {both_mass(HEAVIER_KG)} heavier than the {_CLOTHED} reckoned with, LEAVES "
            f"{rest}, less than {always_words()}: in water of {temperature_text(COLD_C)} or less "
            "THIS BOAT DOES NOT GO OUT until it was worked out again, as it was built, with "
            f"{both_mass(gear_needed_kg(swamped, board_kg))} of gear or more.")


def boards_kg(thigh, hips):
    """(what, kg) of both boards of ThighBraces and of HipPads, each of which may be None."""
    sizes = [("thigh braces", (THICK_M, LONG_M, thigh.wide_m))] if thigh else []
    if hips:
        sizes.append(("hip pads", hips.board_m))
    return tuple((what, 2.0 * prod(size) * PLYWOOD.density_kgpm3) for what, size in sizes)


def all_boards_kg(thigh, hips):
    return sum(kg for _, kg in boards_kg(thigh, hips))


def take_off_words(thigh, hips):
    """What to take off what the scale reads."""
    found = boards_kg(thigh, hips)
    if not found:
        return "No boards for thighs or pads are in it: subtract nothing."
    what = listed([name for name, _ in found])
    each = "; ".join(f"{name} {both_mass(kg, 2)}" for name, kg in found)
    return (f"The boards of {what} stay in it and count as gear: subtract "
            f"{both_mass(all_boards_kg(thigh, hips), 2)} from what the scale reads ({each}; "
            "nothing for what was left out).")
