"""What is in the boat when it is weighed and is no part of its own weight.

It is weighed before bags and foam go in. Boards of thigh braces and hip pads are in by then, under
skin and coating: they count as gear, so what they weigh, by their sizes, is taken off. A brace's
post of a few grams is left out.
"""

from math import prod

from sizer.hull.weight import PLYWOOD
from sizer.shop.said import both_mass
from sizer.shop.thigh import LONG_M, THICK_M

BAG_KGPL = 0.007  # of a float bag with its valve and hose, a litre that it holds: common sorts lie
# between half of that and twice as much; our judgement


def boards_kg(thigh, hips):
    """(what, kg) of both boards of ThighBraces and of HipPads, each of which may be None."""
    sizes = [("thigh braces", (THICK_M, LONG_M, thigh.wide_m))] if thigh else []
    if hips:
        sizes.append(("hip pads", hips.board_m))
    return tuple((what, 2.0 * prod(size) * PLYWOOD.density_kgpm3) for what, size in sizes)


def bags_kg(swamped):
    """About what both float bags weigh that fill a boat's ends, of its Swamped."""
    return BAG_KGPL * (swamped.bow_l + swamped.stern_l)


def take_off_words(thigh, hips):
    """What to take off what the scale reads."""
    found = boards_kg(thigh, hips)
    if not found:
        return "No boards for thighs or pads are in it: take nothing off."
    whole = sum(kg for _, kg in found)
    what = " and ".join(name for name, _ in found)
    return (f"The boards of {what} are in it by now and count as gear: take {both_mass(whole)} off "
            "what the scale reads, less where one was left out.")
