"""What is not known of a boat that is launched: how far its weights and centres depart from what
was calculated, how likely that is, and the figures that follow.
"""

from dataclasses import replace

import numpy as np
from scipy.special import ndtri

from sizer.built.trial import Trial
from sizer.fit.loading import together
from sizer.hydro.flotation import Load
from sizer.hydro.particulars import float_upright
from sizer.paddler.spread import SPREADS, centre_height_sd_m

NAMES = ("boat_kg", "seat_up", "seat_fore", "gear_aft", "gear_up", "off_centre", "load_kg", "form")
# One standard deviation each, our judgement; the rest are those of every fit's odds, SPREADS.
OFF_CENTRE_M = 0.003  # of paddler and gear sideways, sat by eye in the middle
FORM_M = 0.006  # of GM by the hull's form: 5 mm of breadth as built is about as much
LOAD_KG, WEIGHED_KG = 2.0, 0.5  # paddler and gear, not weighed and weighed at the launch
GEAR_UP_M = 0.040  # wider than a fit's: weights go aboard by it before anything is read
STEPS = (0.5, 0.005, 0.005, 0.02, 0.02, 0.002, 0.5, 0.002)  # for slopes, small against the spreads
TOTALS = ("boat_kg", "load_kg", "seated_height_m", "seated_ahead_m", "vcg_m", "lcg_m", "gm_m")
OF_GEAR = ("gear_from_bow_m", "gear_up_m")
NINE_IN_TEN = float(-ndtri(0.05))  # what ± means here: nine in ten lie within
NOTHING_READ = Trial(None, None, None, (), ())


def expected(assessed, trial=NOTHING_READ):
    """{key: (figure, ±)} before anything is read; of the Trial only its water and load."""
    water = trial.water or assessed.person.water
    totals = totals_of(assessed, weigher_of(assessed, trial), water)
    values, slopes = linear(totals, np.zeros(len(NAMES)))
    band = NINE_IN_TEN * np.hypot.reduce(slopes * spread_of(assessed, trial), axis=1)
    return {key: (float(value), float(wide))
            for key, value, wide in zip(keys_of(assessed), values, band, strict=True)}


def spread_of(assessed, trial):
    """One standard deviation of each departure, as NAMES.

    The usual ones even where a shop's launches told it less: weights go aboard by them.
    """
    sd = {key: one.sd for key, one in SPREADS.items()}
    return np.array([sd["boat-weight"] * assessed.weight.mass_kg,
                     centre_height_sd_m(assessed.person.body), sd["centre-ahead"],
                     sd["gear-ahead"], GEAR_UP_M, OFF_CENTRE_M,
                     LOAD_KG if trial.load_kg is None else WEIGHED_KG, FORM_M])


def keys_of(assessed):
    return (*TOTALS, *(OF_GEAR if assessed.loading.gear else ()))


def weigher_of(assessed, trial):
    """A function from departures to (boat, paddler, gear heaps) as Loads."""
    load, more_kg = assessed.loading, weighed_more_kg(assessed, trial)

    def weigh(p):
        own = Load(assessed.weight.mass_kg + p[0], assessed.weight.lcg_m, assessed.weight.vcg_m)
        paddler = replace(load.paddler, mass_kg=load.paddler.mass_kg + more_kg + p[6],
                          lcg_m=load.paddler.lcg_m - p[2], vcg_m=load.paddler.vcg_m + p[1],
                          tcg_m=p[5])
        gear = [replace(heap, lcg_m=heap.lcg_m + p[3], vcg_m=heap.vcg_m + p[4])
                for heap in load.gear]
        return own, paddler, *gear

    return weigh


def weighed_more_kg(assessed, trial):
    """By how much a load that was weighed is more than the fit reckoned with."""
    load = assessed.loading
    return 0.0 if trial.load_kg is None else trial.load_kg - load.paddler_kg - load.gear_kg


def linear(function, p):
    """Values of a function of the departures and their slopes, by central differences."""
    def values(at):
        return np.array([one[1] if isinstance(one, tuple) else one for one in function(at)])

    slopes = [(values(p + step) - values(p - step)) / (2.0 * size)
              for size, step in zip(STEPS, np.diag(STEPS), strict=True)]
    return values(p), np.array(slopes).T


def totals_of(assessed, weigh, water):
    """A function from departures to the figures of `keys_of`."""
    boat = assessed.boat

    def totals(p):
        loads = weigh(p)
        whole, paddler = together(*loads), loads[1]
        aboard = sum(one.mass_kg for one in loads[1:])
        gear = together(*loads[2:]) if loads[2:] else None
        return [loads[0].mass_kg, aboard, paddler.vcg_m - boat.seat_z_m,
                boat.seat_x_m - paddler.lcg_m, whole.vcg_m, whole.lcg_m,
                float_upright(boat.sections, whole, water).gm_m + p[7],
                *((gear.lcg_m, gear.vcg_m) if gear else ())]

    return totals
