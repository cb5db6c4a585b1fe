"""What of the load is left once the paddler is dressed for the water: a drysuit over warm layers is
heavier than the clothing that every load counts, and float bags, pads and boards count as gear.
"""

import math

from sizer.hydro.water import COLD_C, asks_for_drysuit
from sizer.paddler.seated import CLOTHING, DRYSUIT_KG, WORN
from sizer.units import both_mass, temperature_text

# (item, kg) of gear that goes along on every trip: our judgement.
ALWAYS = (("a litre of water", 1.0), ("hand pump", 0.6), ("phone in its bag", 0.3),
          ("whistle and sponge", 0.1))
LEAST_LEFT_KG = sum(kg for _, kg in ALWAYS)
BAG_KGPL = 0.007  # of a float bag with its valve and hose, a litre that it holds: common sorts lie
# between half of that and twice as much; our judgement
BOARDS_KG = 0.5  # of pads and boards of hips and thighs before the bench has them; our judgement
STEP_KG = 0.5  # that gear to be fitted for is told to, upwards
HEAVIER_KG = DRYSUIT_KG - dict(WORN)[CLOTHING]


def bags_kg(swamped):
    """About what both float bags weigh that fill a boat's ends, of its Swamped."""
    return BAG_KGPL * (swamped.bow_l + swamped.stern_l)


def left_kg(gear_kg, swamped, board_kg, heavier_kg=0.0):
    """What a load of so much gear leaves for all else, beside the Swamped boat's bags and boards so
    heavy, to who is dressed so much heavier than it counts; negative where they are over it."""
    told = (round(kg, 1) for kg in (bags_kg(swamped), board_kg))  # as these are told
    return gear_kg - heavier_kg - sum(told)


def always_words():
    """What goes along on every trip and what it weighs, in words."""
    what = ", ".join(item for item, _ in ALWAYS)
    return f"the {both_mass(LEAST_LEFT_KG)} that go along on every trip ({what}: our judgement)"


def gear_needed_kg(swamped, board_kg=0.0):
    """The gear that a boat is fitted with so that a drysuit leaves LEAST_LEFT_KG of it."""
    need = HEAVIER_KG + bags_kg(swamped) + max(board_kg, BOARDS_KG) + LEAST_LEFT_KG
    return math.ceil(need / STEP_KG - 1e-9) * STEP_KG


def dressed_cautions(person, swamped):
    """That what the water asks a Person to wear leaves nothing of the gear, where it does so."""
    if not asks_for_drysuit(person.water.temperature_c):
        return
    left = left_kg(person.gear_kg, swamped, BOARDS_KG, HEAVIER_KG)
    if left >= LEAST_LEFT_KG:
        return
    need = both_mass(gear_needed_kg(swamped))
    yield (f"As it is, this boat stays ashore in water of {temperature_text(COLD_C)} or less. "
           f"Dressed for this water: a drysuit, {both_mass(HEAVIER_KG)} heavier than the clothing "
           f"reckoned with, float bags, pads and boards leave too little of the "
           f"{both_mass(float(person.gear_kg))} of gear for {always_words()}. Before it is built: "
           f"fit it with {need} of gear or more. Built: whoever made its papers works it out again "
           "so, its sizes held; not before.")
