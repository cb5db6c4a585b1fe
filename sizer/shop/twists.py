"""How hard a stick is twisted from one frame to the next, against what its wood takes cold.

A bar of rectangular section, t its thinner side, twisted by w radians a metre, is sheared most at
the middle of its wider side: strain = k t w, k from 0.68 for a square to 1 for a thin strip.
Source: Saint-Venant's torsion, the table of any handbook of strength of materials. What a taper or
a scarf takes off or adds is left out, and so is what slow twisting gains.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from sizer.shop.said import listed

SIDES = (1.0, 1.2, 1.5, 2.0, 3.0)  # wider side over thinner, for SHEARED
SHEARED = (0.678, 0.758, 0.848, 0.931, 0.985)  # k for those
# Shear strength along the grain over shear modulus: 0.008 to 0.012 of our woods (USDA Wood
# Handbook, from memory); our judgement
BREAKS_STRAIN = 0.010
CARE_SHARE, HOT_SHARE = 0.5, 0.9  # of that, from which each is told; our judgement
TWISTS = ("twists easily", "twist it slowly", "twist it hot and wet")
HOT = ("old cloths round it there, off every scarf, whose glue heat softens, boiling water over "
       "them again and again for a quarter of an hour, then twisted slowly into its notches and "
       "left to dry [j]")
HOT_DANGER = " Boiling water scalds: long gloves, a helper pours."


@dataclass(frozen=True)
class Twist:
    """The twist of a stick between two neighbouring frames."""

    fore: str
    aft: str
    deg: float
    long_m: float
    share: float  # of the strain that breaks it cold
    verdict: str  # one of TWISTS


def shear_strain(sides_m, turn_rad, long_m):
    """Greatest shear strain of a bar with two sides, twisted so far over such a length."""
    thin, wide = sorted(sides_m)
    return abs(turn_rad) / long_m * thin * float(np.interp(wide / thin, SIDES, SHEARED))


def bay_twists(stick):
    """The Twists of a Stick, from forward."""
    for (fore, aft), turn in zip(pairwise(stick.crossings), stick.twists_deg, strict=True):
        left = max(stick.left_m(one.along_m) for one in (fore, aft))
        sides = left, stick.stringer.depth_m
        long = aft.along_m - fore.along_m
        share = shear_strain(sides, np.radians(turn), long) / BREAKS_STRAIN
        verdict = TWISTS[int(share >= CARE_SHARE) + int(share >= HOT_SHARE)]
        yield Twist(fore.frame, aft.frame, abs(turn), long, share, verdict)


def any_hot(sticks):
    return any(one.verdict == TWISTS[-1] for stick in sticks for one in bay_twists(stick))


def twisted_words(sticks):
    """What the step that puts them in tells of Sticks that do not twist easily; "" of none."""
    found = {verdict: [] for verdict in TWISTS}
    for stick in sticks:
        for verdict, bays in found.items():
            hard = [f"from {one.fore} to {one.aft}" for one in bay_twists(stick)
                    if one.verdict == verdict]
            bays += [f"{stick.name} {listed(hard)}"] if hard else []
    _, slowly, hot = found.values()
    aslant = [f"{stick.name} at the {listed(ends)}" for stick in sticks
              if (ends := [end.on for end in (stick.forward, stick.after) if end.aslant])]
    return "".join([
        f" Not twisted up to a stem, nor by a tie, where it would split: {'; '.join(aslant)}. It "
        "lies there as it comes out of the last frame, and its bevel, planed aslant, takes out "
        "its lean." if aslant else "",
        f" Hot and wet, {listed(hot)}: {HOT}." if hot else "",
        f" Twisted slowly, by two hands at the end: {listed(slowly)}." if slowly else ""])
