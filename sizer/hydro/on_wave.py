"""What a paddler who keeps upright has left on a wave of the boat's own length, in few numbers."""

from dataclasses import dataclass

import numpy as np

from sizer.hydro.mover import UPRIGHT, upright_mover
from sizer.hydro.stability import RightingCurve, StabilityParticulars, particulars_of_curves
from sizer.hydro.wave_arms import STEEPEST, WaveArms, wave_arms, wave_arms_of_many
from sizer.units import MM_PER_M, STANDARD_GRAVITY_MPS2, both_text


@dataclass(frozen=True, eq=False)
class OnWave:
    """The boat on a crest and in a trough, paddler upright, spray deck on."""

    arms: WaveArms  # of the paddler held rigid
    upright: tuple[RightingCurve, RightingCurve]  # upper body kept upright: crest, trough
    crest: StabilityParticulars  # of those
    trough: StabilityParticulars

    @property
    def arm_area_mrad(self):
        """Under the righting arm from upright to vanishing, where it is less."""
        return min(one.energy_to_vanishing_j for one in (self.crest, self.trough)) / (
            self.arms.crest.mass_kg * STANDARD_GRAVITY_MPS2)

    @property
    def says(self):
        """Both in a sentence, and what it means where the boat does not stay up by itself."""
        places = (("on the crest", self.arms.crest, self.crest),
                  ("in the trough", self.arms.trough, self.trough))
        crest, trough = (
            f"{where} {_righted(sums)}, GM sitting still {both_text(_gm_mm(curve))}"
            for where, curve, sums in places)
        falls = " and ".join(where for where, curve, _ in places if _gm_mm(curve) < 0)
        means = "" if not falls else (
            f" A GM under 0 means: {falls} it does not stay up by itself. Under one who sits stiff "
            f"it falls over to one side; {_kept_up(places)}.")
        return (f"On a wave {both_text(self.arms.height_m * MM_PER_M)} high and as long from crest "
                "to crest as the boat, keeping the upper body upright, you are righted "
                f"{crest}, and {trough}.{means}")


def _kept_up(places):
    """What keeps a boat up whose GM is under 0 in some of these places, if anything does."""
    if any(_gm_mm(curve) < 0 and sums.greatest_arm_m <= 0.0 for _, curve, sums in places):
        return f"not even {UPRIGHT}, keeps it up: stay out of such waves"
    return f"only {UPRIGHT}, keeps it up"


def _gm_mm(curve):
    return round(curve.gm_m * MM_PER_M)


def _righted(sums):
    if sums.vanishing_deg is None:
        return "at every heel to the end of the curve"
    return "at no heel" if sums.greatest_arm_m <= 0.0 else f"to {sums.vanishing_deg:.0f} degrees"


def on_wave(sections, load, water, height_m, moment_kgm, near=None):
    """The OnWave of a boat.

    Parameters
    ----------
    sections, load, water, near : as `sizer.hydro.wave_arms.wave_arms`
    height_m : from trough to crest; no more than a wave of this length can be
    moment_kgm : of the upper body, `sizer.hydro.mover.upper_body_moment_kgm`

    Raises
    ------
    WillNotFloat, NotSolved as `wave_arms`.
    """
    arms = wave_arms(sections, load, water, min(height_m, STEEPEST * sections.length_m), near=near)
    return _kept((arms,), (moment_kgm,))[0]


def on_wave_of_many(boats, loads, water, height_m, moment_kgm, near):
    """As `on_wave`, of many boats, or of one under n loads; None where it is not known.

    Parameters as `sizer.hydro.wave_arms.wave_arms_of_many`; `moment_kgm` (n,).
    """
    arms = wave_arms_of_many(boats, loads, water, np.minimum(height_m, STEEPEST * boats.length_m),
                             near)
    there = [one is not None for one in arms]
    found = iter(_kept([one for one in arms if one is not None], moment_kgm[there]))
    return tuple(next(found) if one else None for one in there)


def _kept(arms, moments_kgm):
    """The OnWave of some WaveArms."""
    upright = [upright_mover(curve, float(moment)) for one, moment in zip(
        arms, moments_kgm, strict=True) for _, curve in one.curves]
    sums = particulars_of_curves(upright)
    return tuple(OnWave(one, *pair) for one, *pair in zip(
        arms, zip(upright[::2], upright[1::2], strict=True), sums[::2], sums[1::2], strict=True))
