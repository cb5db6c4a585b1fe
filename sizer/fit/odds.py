"""How sure a boat's checks are: the spread of every input carried through to each of them.

Slopes of what each check keeps inside its limit, to each input, by central differences: boats with
one input moved, all side by side through the engine. With the inputs' covariance they give each
check's spread, its odds by the normal, and the odds that all hard checks are met together by seeded
draws of the inputs on the same slopes: the same boat and paddler always give the same.

The boat stays as it was fitted to the likely paddler, the seat where it stands; the paddler, the
load, the water and what the builder's hand adds to beam and depth stray.
"""

from dataclasses import dataclass, replace
from functools import cache, cached_property, lru_cache

import numpy as np
from scipy.special import ndtri

from sizer.fit.assess import assess, assess_many
from sizer.fit.check import CLEAN_ODDS, FAIL, OPEN, STATUSES, Check, met, values_of, windows_of
from sizer.fit.checks import PLAIN, ROWS, TOGETHER
from sizer.fit.facts import facts_of, shape_of
from sizer.fit.mishaps import mishaps_of_many, quick_rightings
from sizer.fit.person import drawn_person
from sizer.fit.sought import SEARCH_COUNT
from sizer.hull.boat import scaled_boat
from sizer.hull.scale import Scaling
from sizer.hull.weight import own_weight
from sizer.paddler.room import ENTRIES, room_needed
from sizer.paddler.seated import HEIGHT_PER, NOMINAL_OF_MODEL, seated_centre
from sizer.paddler.spread import INPUTS, MEASURES, OWN, SPREADS, input_covariance
from sizer.rows import one_of

# Moved for the slopes: about one standard deviation, so that a kink nearby counts in part.
STEPS = np.array([SPREADS[key].sd if key in SPREADS else 0.010 for key in INPUTS])
DRAWS = 4000  # of the inputs; good to about one in a hundred
SEED = 16
FAR_INSIDE = 4.0  # standard deviations: met in all but three of 100,000
SLOPES_COUNT = 41  # even sections of the boats tried: differences need fewer
# What moves the heeled and swamped boat enough to be tried, which costs more; our judgement. What
# is predicted of the body does by the centre of mass.
MISHAP_INPUTS = ("weight-day", "centre-height", "boat-weight", "gear-mass", "build-beam",
                 "build-depth")
SITTING, HEIGHT = INPUTS.index("sitting_height"), INPUTS.index("centre-height")
HEIGHT_PER_SITTING = NOMINAL_OF_MODEL * HEIGHT_PER["sitting_height"]
# Inputs that act as another does.
ACT_AS = {"clothing": "weight-day"}
STRETCH = np.array([row.key.startswith("factor-") for row in ROWS])  # drawn, whatever is built


@dataclass(frozen=True, eq=False)
class Sure:
    """How what each check keeps inside its limit goes with the inputs, of one boat or of many."""

    slopes: np.ndarray  # (..., n_rows, n_inputs), SI per SI; rows as ROWS, or the plain ones alone
    covariance: np.ndarray  # (..., n_inputs, n_inputs)

    @cached_property
    def sd(self):
        """(..., n_rows) standard deviations."""
        moved = self.slopes @ self.covariance
        return np.sqrt(np.maximum((moved * self.slopes).sum(axis=-1), 0.0))

    @property
    def spread(self):
        """{key: sd (...)} of every check that was tried, as `Assessed.spread`."""
        return {row.key: self.sd[..., index][()]
                for index, row in enumerate(ROWS[:self.sd.shape[-1]])}


def sure_of(assessed):
    """The Sure of the plain checks of an assessed boat, or of many."""
    probed = [index for index, key in enumerate(INPUTS) if key not in ACT_AS]
    slopes = _slopes(assessed, probed, PLAIN, facts_of)
    slopes[..., STRETCH[:len(PLAIN)], :] = 0.0
    covariance = input_covariance(assessed.person.body, assessed.person.own_spread)
    return Sure(slopes, np.broadcast_to(covariance, (*slopes.shape[:-2], *covariance.shape[-2:])))


def with_mishaps(sure, assessed):
    """The Sure of every check, from that of the plain ones."""
    def heeled(many, shapes):
        return replace(facts_of(many, shapes), mishap=mishaps_of_many(
            many, quick_rightings(many), smaller_too=False, told=True))

    probed = [INPUTS.index(key) for key in MISHAP_INPUTS]
    slopes = _slopes(assessed, probed, ROWS[len(PLAIN):], heeled)
    slopes[..., SITTING] = HEIGHT_PER_SITTING * slopes[..., HEIGHT]
    return Sure(np.concatenate([sure.slopes, slopes], axis=-2), sure.covariance)


@lru_cache(maxsize=32)
def base_slopes(lines):
    """The slopes (n_rows, n_inputs) of a base, unscaled, under whom it was drawn for: where a
    search may start from.

    Raises WillNotFloat, NotSolved: see `sizer.hydro.flotation.float_at`.
    """
    return sure_of(assess(lines, Scaling(), drawn_person(lines.design), SEARCH_COUNT)).slopes


def _slopes(assessed, inputs, rows, facts_in):
    """Central differences (..., n_rows, n_inputs); 0 of what was not moved, and where either side
    cannot be worked out."""
    shape = np.shape(assessed.floats)
    count = np.size(assessed.floats)
    steps = np.zeros((2, len(inputs), len(INPUTS)))
    for place, index in enumerate(inputs):
        steps[:, place, index] = STEPS[index], -STEPS[index]
    moves = np.tile(steps.reshape(-1, len(INPUTS)), (count, 1))
    many, shapes = strayed(assessed, moves, np.repeat(np.arange(count), 2 * len(inputs)))
    margins = margins_of(rows, facts_in(many, shapes))
    margins = np.where(many.floats, margins, np.nan).reshape(len(rows), count, 2, len(inputs))
    with np.errstate(invalid="ignore"):
        moved = (margins[:, :, 0] - margins[:, :, 1]) / (2.0 * STEPS[inputs])
    slopes = np.zeros((count, len(rows), len(INPUTS)))
    slopes[..., inputs] = np.where(np.isfinite(moved), moved, 0.0).transpose(1, 0, 2)
    for key, other in ACT_AS.items():
        slopes[..., INPUTS.index(key)] = slopes[..., INPUTS.index(other)]
    return slopes.reshape(*shape, len(rows), len(INPUTS))


def margins_of(rows, facts):
    """What each row keeps over the least it allows, or its value where it has none: (n_rows, n).

    Where a row has a least and a most, the sum of what it keeps inside both never changes.
    """
    values, low = values_of(rows, facts), windows_of(rows, facts)[0]
    low = low.reshape(*low.shape, *(1,) * (values.ndim - low.ndim))
    return values - np.where(np.isfinite(low), low, 0.0)


def strayed(assessed, moves, which=None):
    """The Assessed of many boats with their paddlers, each input off by so much; and their Shape.

    Parameters
    ----------
    assessed : Assessed of one or of many
    moves : (m, n_inputs), in the order of INPUTS
    which : (m,) whose each is, where assessed is of many
    """
    by = dict(zip(INPUTS, moves.T, strict=True))
    boat, person = assessed.boat, assessed.person
    scaling, beam, depth, start = boat.scaling, boat.beam_m, boat.depth_m, assessed.start
    if np.ndim(assessed.floats):
        scaling, person, start = (one_of(each, which) for each in (scaling, person, start))
        beam, depth = (np.broadcast_to(size, np.shape(assessed.floats))[which]
                       for size in (beam, depth))
    every = {name: np.broadcast_to(value, len(moves)) for name, value in vars(scaling).items()
             if value is not None}
    every |= {"beam": every["beam"] * (1.0 + by["build-beam"] / beam),
              "depth": every["depth"] * (1.0 + by["build-depth"] / depth)}
    built, of = np.unique(np.array(list(every.values())), axis=1, return_inverse=True)  # few differ
    boats = scaled_boat(boat.lines, replace(scaling, **dict(zip(every, built, strict=True))),
                        SLOPES_COUNT)
    boats, weight, shape = one_of((boats, own_weight(boats), shape_of(boats, person.use)), of)
    weight = replace(weight, mass_kg=weight.mass_kg * (1.0 + person.boat_share)
                     * (1.0 + by["boat-weight"]))
    start = tuple(np.broadcast_to(each, len(moves)).copy() for each in start)
    return assess_many(boats, _strayed_person(person, by), start, seat_held=True,
                       weight=weight), shape


def _strayed_person(person, by):
    """The Person, each of whose inputs is off by {input: (m,)}."""
    own = person.body
    measures = {name: replace(getattr(own, name), value_m=getattr(own, name).value_m + by[name])
                for name in MEASURES}
    shoe = own.shoe_length
    guessed = np.asarray(shoe.plus_minus_m) > 0.0
    measures["shoe_length"] = replace(
        shoe, value_m=shoe.value_m + np.where(guessed, by["foot_length"], 0.0))
    body = replace(own, weight_kg=own.weight_kg + by["weight-day"] + by["clothing"], **measures)
    centre, before, after = person.centre, seated_centre(own), seated_centre(body)
    centre = replace(
        centre,
        ahead_m=centre.ahead_m + after.ahead_m - before.ahead_m + by["centre-ahead"],
        **{name: getattr(centre, name) + getattr(after, name) - getattr(before, name)
           + by["centre-height"] for name in ("nominal_height_m", "cautious_height_m")})
    water = replace(person.water,
                    density_kgpm3=person.water.density_kgpm3 * (1.0 + by["water-density"]))
    return replace(person, body=body, centre=centre, water=water,
                   rooms={entry: room_needed(body, entry) for entry in ENTRIES},
                   gear_kg=np.maximum(person.gear_kg * (1.0 + by["gear-mass"]), 0.0),
                   gear_off_m=(by["gear-ahead"], by["gear-height"]))


@cache
def _draws():
    """(n_inputs, DRAWS) of the standard normal: of each input the middles of as many equal shares,
    shuffled (a Latin hypercube), so that each by itself is met by the share that it should be."""
    shares = (np.arange(DRAWS) + 0.5) / DRAWS
    return ndtri(np.random.default_rng(SEED).permuted(
        np.tile(shares, (len(INPUTS), 1)), axis=1))


def _root(covariance):
    """(k, k) whose product with its own transpose is the covariance, which may be singular."""
    own = len(OWN)  # these stray by themselves: each keeps its draws, whatever else is known
    if np.count_nonzero(covariance[:own, :own]) > np.count_nonzero(np.diag(covariance)[:own]):
        values, vectors = np.linalg.eigh(covariance)  # or hang together, as a launch leaves them
        return vectors * np.sqrt(np.maximum(values, 0.0))
    values, vectors = np.linalg.eigh(covariance[own:, own:])
    root = np.diag(np.sqrt(np.diag(covariance)))
    root[own:, own:] = vectors * np.sqrt(np.maximum(values, 0.0))
    return root


def odds_all_hard(checks, sure):
    """The odds that every check of one boat that can fail is met, all together.

    Parameters
    ----------
    checks : of the boat, with their spread
    sure : Sure of the boat
    """
    if surely_failed(checks):
        return 0.0
    rows = {row.key: index for index, row in enumerate(ROWS)}
    moved = [check for check in checks if check.is_hard and check.sd_si]
    value, low, high, sd = np.array([
        (check.value_si, check.window_si[0], check.window_si[3], check.sd_si)
        for check in moved]).reshape(-1, 4).T
    drawn = _share_met(sure.slopes[[rows[check.key] for check in moved]], sure.covariance,
                       value - low, high - value, sd)
    return min(drawn, float(met(value, low, high, sd).min(initial=1.0)))


def surely_failed(checks):
    """Whether one fails that nothing makes stray."""
    return any(check.is_hard and not check.sd_si and check.status == STATUSES[FAIL]
               for check in checks)


def odds_together_of_many(value, window, sd, sure):
    """The odds (n,) that many boats each meet every limit. Where what the limits are missed by one
    by one, all added up, leaves CLEAN_ODDS or more, it is that: the odds are no less (Boole).

    Parameters
    ----------
    value, window, sd : (n_rows, n), (4, n_rows, n), (n_rows, n) as `checks.read_rows`, with spread
    sure : Sure of the n boats, of the first of those rows
    """
    alone = odds_alone(value, window, sd)
    found = 1.0 - (1.0 - alone).sum(axis=0)
    known = sure.slopes.shape[-2]
    for index in np.flatnonzero(found < CLEAN_ODDS):
        under, over = (value - window[0])[:known, index], (window[3] - value)[:known, index]
        found[index] = min(alone[:, index].min(), _share_met(
            sure.slopes[index], sure.covariance[index], under, over, sd[:known, index]))
    return found


def odds_alone(value, window, sd, short=0.0):
    """The odds (n_rows, n) that each limit is met by itself, were every value so far `short` of
    what it is; 1 where there is no limit, or nothing to measure."""
    odds = met(value, window[0] + short, window[3] - short, sd)
    return np.where(np.isnan(value), 1.0, odds)


def _share_met(slopes, covariance, under, over, sd):
    """The share of the draws in which one boat keeps inside both limits of all of some rows (k,).

    What is FAR_INSIDE or does not stray is not drawn.
    """
    drawn = np.flatnonzero((sd > 0.0) & (np.minimum(under, over) < FAR_INSIDE * sd))
    off = slopes[drawn] @ _root(covariance) @ _draws()
    inside = (off >= -under[drawn, None]) & (off <= over[drawn, None])
    return float(inside.all(axis=0).mean())


def together(checks, odds):
    """A tuple of the Check of all of one boat's checks that can fail, all together; empty where one
    fails by itself, and where as many meet them as a single check asks for.

    `odds` are `odds_all_hard` of the same checks.
    """
    failed = any(check.status == STATUSES[FAIL] for check in checks)
    return () if failed or odds >= CLEAN_ODDS else (
        Check(TOGETHER, 100.0 * odds, (-OPEN, 100.0 * CLEAN_ODDS, OPEN, OPEN)),)
