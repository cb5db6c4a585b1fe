"""What a launch teaches of weights and centres: normal errors, Bayes' rule.

Unknown are the departures p of weights and centres from what was calculated, p ~ N(0, P); what was
read is r = h(p) + e, e ~ N(0, R). With H the slopes of h, the answer p = P H' S^-1 (r - h + H p)
with S = H P H' + R, left with P - P H' S^-1 H P, is worked out anew at its own result until it
stays. A heel is read as: at that heel the righting arm with the trial weight aboard is nothing.

A reading that is out of all likelihood, by itself and before any other, is left out of that until
it is read again or confirmed. Counting it or not is a doubt in itself: the Lesson keeps the other
ways of it, so that nothing is told surer than the worst of them.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.special import chdtrc, ndtr

from sizer.built import departures
from sizer.built.trial import HEIGHTS, MOST_HEEL_DEG, gm_of_reading_m, reading_names
from sizer.errors import NotSolved, WillNotFloat
from sizer.fit.loading import together
from sizer.hydro.flotation import Load, float_at
from sizer.hydro.particulars import float_upright

SCALE_KG, FREEBOARD_M, HEEL_DEG, ARM_M = 0.3, 0.005, 0.3, 0.005  # of readings; our judgement
ROUNDS = 12
SETTLED = 0.01  # of each spread: what the last round may still move
UNLIKELY = 0.01  # chance under which something is said to be wrong; our judgement
ODD = 3.0  # standard deviations at which one reading is named
WORSE = ("Odds after the launch are those with what is out of all likelihood or those without it, "
         "whichever are worse.")
FITS_NONE = ("What is left out fits no such boat afloat: odds after the launch are not told before "
             "it is read again.")
READINGS = {"boat_kg": "The boat's own weight", "bow_m": "Freeboard at the bow",
            "stern_m": "Freeboard at the stern", "side_m": "Least freeboard"}


@dataclass(frozen=True)
class Learnt:
    """One figure before and after, with the ± that holds nine in ten."""

    key: str
    before: float
    before_plus_minus: float
    after: float
    after_plus_minus: float


@dataclass(frozen=True, eq=False)
class Lesson:
    """All that a Trial teaches of one boat with its paddler."""

    learnt: tuple[Learnt, ...]
    readings: tuple[tuple[str, float, float, float], ...]  # name, predicted, measured, spread (sd)
    gm_readings_m: tuple[float, ...]  # of each heel reading alone
    likelihood: float  # chance of readings so far off, if all was as supposed
    says: tuple[str, ...]
    departures: np.ndarray  # as NAMES, the likeliest, from what the fit reckoned with
    left: np.ndarray  # (8, 8) their covariance then
    doubts: tuple[tuple[str, str], ...] = ()  # (reading out of all likelihood, sentence)
    left_out: tuple[str, ...] = ()  # of these the readings that nothing above is learnt from
    ways: tuple["Lesson", ...] = ()  # with those counted, and with none of the doubts counted
    fits_no_boat: bool = False  # where what is left out, counted, leads to no answer

    def every_way(self):
        """This Lesson and its other ways: what is told of safety is the worst of them."""
        return self, *self.ways

    def of(self, key):
        return next(one for one in self.learnt if one.key == key)


def lesson(assessed, trial):
    """The Lesson of a Trial with an Assessed boat.

    Raises
    ------
    WillNotFloat, NotSolved: see `sizer.hydro.flotation.float_at`; NotSolved also where what the
    readings mean does not settle.
    """
    water = trial.water or assessed.person.water
    weigh = departures.weigher_of(assessed, trial)
    prior = np.diag(departures.spread_of(assessed, trial) ** 2)

    def read(p):
        return _readings(assessed, trial, weigh(p), water, p[7])

    none = np.zeros(len(departures.NAMES))
    named = read(none)
    off, cover = _first(read, named, prior)
    far = np.abs(off) / np.sqrt(cover.diagonal())
    odd = {one[0]: this for one, this in zip(named, far, strict=True) if this > ODD}
    left_out = tuple(name for name in odd if name not in trial.confirmed)
    doubts = tuple((name, _doubt_words(name, this, trial)) for name, this in odd.items())
    odds = float(chdtrc(off.size, off @ np.linalg.solve(cover, off)))
    totals = departures.totals_of(assessed, weigh, water)
    was, was_slope = departures.linear(totals, none)

    def without(names):
        p, left = _learnt(read, prior, names, doubts)
        now, now_slope = departures.linear(totals, p)
        band = [departures.NINE_IN_TEN * np.sqrt(np.einsum("ij,jk,ik->i", slope, cover, slope))
                for slope, cover in ((was_slope, prior), (now_slope, left))]
        learnt = tuple(Learnt(key, *map(float, figures)) for key, *figures in zip(
            departures.keys_of(assessed), was, band[0], now, band[1], strict=True))
        from_the_fit = p.copy()
        from_the_fit[departures.NAMES.index("load_kg")] += departures.weighed_more_kg(
            assessed, trial)
        return Lesson(learnt, tuple(named), _gms(trial, weigh(none)), odds, (), from_the_fit, left,
                      doubts, left_out)

    found, ways, fits_no_boat = without(left_out), [], False
    for names in sorted({(), tuple(odd)} - {left_out}):
        try:
            ways.append(without(names))
        except (NotSolved, WillNotFloat):
            fits_no_boat = True
    return replace(found, ways=tuple(ways), fits_no_boat=fits_no_boat,
                   says=_says(doubts, odds, trial, fits_no_boat))


def _first(read, named, prior):
    """How far each reading is off what was predicted, and the covariance of that."""
    at, slopes = departures.linear(read, np.zeros(len(departures.NAMES)))
    noise = np.diag([one[3] ** 2 for one in named])
    return np.array([one[2] for one in named]) - at, slopes @ prior @ slopes.T + noise


def _learnt(read, prior, without, doubts):
    """(departures, their covariance) by all readings but those named in `without`."""
    def counted(p):
        return [one for one in read(p) if one[0] not in without]

    before = p = np.zeros(len(departures.NAMES))
    named = counted(p)
    said = np.array([one[2] for one in named])
    noise = np.diag([one[3] ** 2 for one in named])
    for _ in range(ROUNDS if named else 0):
        at, slopes = departures.linear(counted, p)
        gain = np.linalg.solve(slopes @ prior @ slopes.T + noise, slopes @ prior).T
        before, p = p, gain @ (said - at + slopes @ p)
    if not np.all(np.abs(p - before) < SETTLED * np.sqrt(prior.diagonal())):
        raise NotSolved(" ".join((
            "what the readings mean did not settle: they may be far from what this boat can do; "
            "check each, and measure again.", *(words for _, words in doubts))))
    return p, (prior - gain @ slopes @ prior if named else prior)


def odds_above(least, middle, band):
    """Odds that a figure with its ± of nine in ten is above the least."""
    return float(ndtr((middle - least) * departures.NINE_IN_TEN / band))


def _sum(loads, *more):
    """Loads as one, off-centre too."""
    every = (*loads, *more)
    whole = together(*every)
    return replace(whole, tcg_m=sum(one.mass_kg * one.tcg_m for one in every) / whole.mass_kg)


def _readings(assessed, trial, loads, water, form_m):
    """[(name, predicted, measured, spread)] of everything that was read."""
    sections, found = assessed.boat.sections, []
    if trial.boat_kg is not None:
        found.append((loads[0].mass_kg, trial.boat_kg, SCALE_KG))
    whole = _sum(loads)
    if trial.afloat:
        floats = float_upright(sections, replace(whole, tcg_m=0.0), water)
    for one in trial.afloat:
        found += [(getattr(floats, at), getattr(one, key), FREEBOARD_M)
                  for key, at in HEIGHTS.items() if getattr(one, key) is not None]
    for one in trial.heel:
        load = _sum(loads, Load(one.kg, whole.lcg_m, one.height_m, one.off_centre_m))
        arms = float_at(sections, load, water, one.heel_deg + np.array([-0.5, 0.0, 0.5])
                        ).righting_arm_m
        slope = abs(arms[2] - arms[0])  # a degree
        spread = np.hypot(slope * HEEL_DEG, one.kg * ARM_M / load.mass_kg)
        found.append((float(arms[1] + form_m * np.sin(np.radians(one.heel_deg))), 0.0,
                      float(spread)))
    return [(name, *one) for name, one in zip(reading_names(trial), found, strict=True)]


def _gms(trial, loads):
    total = sum(one.mass_kg for one in loads)
    return tuple(float(gm_of_reading_m(one.kg, one.off_centre_m, total + one.kg,
                                       one.heel_deg - still_deg(trial)))
                 for one in moved_by_weights(trial))


def gm_spread_m(gm_m, one, still):
    """One standard deviation of the GM by one Heeled, of its heel and its distance alone.

    GM = w d / (W tan heel), for small heels from `still` degrees: the shares of both add squared.
    """
    return abs(gm_m) * float(np.hypot(HEEL_DEG / (one.heel_deg - still), ARM_M / one.off_centre_m))


def still_deg(trial):
    """How the boat of a Trial lies without a weight; 0 where that was not read."""
    lies = [one.heel_deg for one in trial.heel if not one.kg]
    return float(np.mean(lies)) if lies else 0.0


def moved_by_weights(trial):
    """The readings of a Trial that give a GM each: those that a weight moved, by more than heel
    is read to."""
    return tuple(one for one in trial.heel if one.kg
                 and HEEL_DEG < abs(one.heel_deg - still_deg(trial)) <= MOST_HEEL_DEG)


def reading_words(name, trial):
    """A reading in words: a heel by its degrees, a later freeboard with its number."""
    number, key = int(name.partition("[")[2].partition("]")[0] or 1), name.rpartition(".")[2]
    if key not in READINGS:
        return f"The heel of {trial.heel[number - 1].heel_deg:g}°"
    return READINGS[key] + f" ({number})" * (number > 1)


def _doubt_words(name, far, trial):
    left = ("it counts, since it was read again and confirmed" if name in trial.confirmed else
            "it is left out of what is learnt until it is read again or confirmed")
    return (f"{reading_words(name, trial)} is out of all likelihood ({far:.0f} spreads off): a "
            "mistyped figure, or a weight or place that is not what was supposed; measure again. "
            f"{left[0].upper()}{left[1:]}.")


def _says(doubts, odds, trial, fits_no_boat):
    said = [words for _, words in doubts]
    if odds < UNLIKELY and not said:
        said.append("Together the readings are out of all likelihood: they disagree with each "
                    "other or with the weights; measure again.")
    if doubts:
        said.append(FITS_NONE if fits_no_boat else WORSE)
    if 0 < len(trial.heel) < 3:
        said.append("Fewer than three readings of heel: take some to both sides.")
    return tuple(said)
