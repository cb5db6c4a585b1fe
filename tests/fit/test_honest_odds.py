"""Are the odds honest? People whose true bodies are known, a boat fitted to what they told of it.

Every person is drawn with all measures from the survey's covariance, and tells weight, stature and
hips; the boat is fitted to those. Then the true body sits in it, its centre, its clothes, the gear,
the water and the builder's hand off by the stated spreads, and the checks are read. Of those told
the same odds, that share should meet the check. `SIZER_PEOPLE=2000` takes so many for each base
instead of a few, and prints the table.
"""

import os
from dataclasses import replace

import numpy as np
import pytest

from sizer.errors import SizerError
from sizer.fit.assess import assess_many
from sizer.fit.check import CLEAN_ODDS, values_of, windows_of
from sizer.fit.checks import PLAIN
from sizer.fit.facts import facts_of
from sizer.fit.person import drawn_person, person
from sizer.fit.solve import fit_many
from sizer.fit.uses import USES
from sizer.hull.boat import scaled_boat
from sizer.hull.weight import own_weight
from sizer.paddler.body import COVARIANCE, FIELDS, MEAN, SHOE_LONGER_M, Measure, predict
from sizer.paddler.measures import Measured
from sizer.paddler.room import ENTRIES, room_needed
from sizer.paddler.seated import seated_centre
from sizer.paddler.spread import SPREADS
from sizer.rows import stacked

PEOPLE = int(os.environ.get("SIZER_PEOPLE", "0"))
BASES = ("day-boat", "small-cruiser") if not PEOPLE else (
    "day-boat", "load-carrier", "long-tourer", "small-cruiser", "steady-boat", "surf-runner",
    "teaching-boat")
LOT = 40
BINS = np.array([0.0, 0.2, 0.35, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 0.99, 1.0 + 1e-9])
HARD = [place for place, row in enumerate(PLAIN)
        if (row.fails_below or row.fails_above) and not row.key.startswith("factor-")]


def true_people(rng, count):
    """(count, 11) as FIELDS, of those that a request would take."""
    rows = rng.multivariate_normal(MEAN, COVARIANCE, 2 * count)
    index = rows[:, 0] / rows[:, 1] ** 2
    return rows[(rows[:, 0] > 40.0) & (index > 14.0) & (index < 45.0)][:count]


def true_body(row):
    told = predict(Measured(*row[:3]))
    known = {name: Measure(float(size), 0.0, True)
             for name, size in zip(FIELDS[1:], row[1:], strict=True)}
    shoe = Measure(known["foot_length"].value_m + SHOE_LONGER_M, 0.0, True)
    return replace(told, shoe_length=shoe, **known)


def met_in_truth(lines, fitted, told, rows, rng):
    """Whether each hard plain check is met by each true body in its own boat: (n, n_hard)."""
    def off(key):
        return rng.normal(0.0, SPREADS[key].sd, len(rows))

    persons = []
    for one, row in zip(told, rows, strict=True):
        body = true_body(row)
        persons.append(replace(one, body=body, centre=seated_centre(body), rooms={
            entry: room_needed(body, entry) for entry in ENTRIES}))
    crowd, scaling = stacked(persons), stacked([one.assessed.boat.scaling for one in fitted])
    beam = np.array([one.assessed.boat.beam_m for one in fitted])
    depth = np.array([one.assessed.boat.depth_m for one in fitted])
    boats = scaled_boat(lines, replace(
        scaling, beam=scaling.beam * (beam + off("build-beam")) / beam,
        depth=scaling.depth * (depth + off("build-depth")) / depth), 61)
    weight = own_weight(boats)
    weight = replace(weight, mass_kg=weight.mass_kg * (1.0 + off("boat-weight")))
    centre = crowd.centre
    crowd = replace(
        crowd, gear_kg=crowd.gear_kg * (1.0 + off("gear-mass")),
        gear_off_m=(off("gear-ahead"), off("gear-height")),
        water=replace(crowd.water,
                      density_kgpm3=crowd.water.density_kgpm3 * (1.0 + off("water-density"))),
        body=replace(crowd.body,
                     weight_kg=crowd.body.weight_kg + off("clothing") + off("weight-day")),
        centre=replace(centre, ahead_m=centre.ahead_m + off("centre-ahead"),
                       nominal_height_m=centre.nominal_height_m + off("centre-height")))
    facts = facts_of(assess_many(boats, crowd, seat_held=True, weight=weight))
    values, window = values_of(PLAIN, facts), windows_of(PLAIN, facts)
    low, high = (side.reshape(len(PLAIN), -1) for side in (window[0], window[3]))
    return (((values >= low) & (values <= high)) | np.isnan(values))[HARD].T


def told_and_true(lines, use, rows, rng):
    """Of some people in a base for a use: odds told (n, n_hard), for all hard, whether each is met,
    and whether the boat was said to pass."""
    told = [person(Measured(*row[:3]), use.key, use.gear_kg, drawn_person(lines.design).water)
            for row in rows]
    fitted = fit_many(lines, told)
    there = [place for place, one in enumerate(fitted) if not isinstance(one, SizerError)]
    fitted, told = ([all_[place] for place in there] for all_ in (fitted, told))
    odds = np.ones((len(there), len(HARD)))
    for place, one in enumerate(fitted):
        by_key = {check.key: check.odds for check in one.checks}
        odds[place] = [by_key.get(PLAIN[row].key, 1.0) for row in HARD]
    return (odds, np.array([one.odds_all_hard for one in fitted]),
            met_in_truth(lines, fitted, told, rows[there], rng),
            np.array([one.status == "pass" for one in fitted]),
            np.array([all(check.status != "fail" for check in one.checks
                          if check.key in ("flooded", "sawn", "fair")
                          or check.key.startswith("factor-")) for one in fitted]))


def drawn_out(lines, count, seed):
    """`told_and_true` of people for every use in turn, joined, and the use of each."""
    rng, parts, uses = np.random.default_rng(seed), [], []
    for place, use in enumerate(USES.values()):
        some = count // len(USES) + (place < count % len(USES))
        for first in range(0, some, LOT):
            rows = true_people(rng, min(LOT, some - first))
            parts.append(told_and_true(lines, use, rows, rng))
            uses += [use.key] * len(parts[-1][1])
    return (*(np.concatenate(each) for each in zip(*parts, strict=True)), np.array(uses))


def table(odds, kept):
    """Rows of (from, to, n, mean odds, share that met) over BINS with anybody in them."""
    which = np.digitize(odds, BINS) - 1
    return [(BINS[one], min(BINS[one + 1], 1.0), int((which == one).sum()),
             float(odds[which == one].mean()), float(kept[which == one].mean()))
            for one in np.unique(which)]


@pytest.mark.parametrize("base", BASES)
def test_of_those_told_the_same_odds_that_share_meets_the_check(base, base_lines):
    odds, all_hard, kept, passes, sound, uses = drawn_out(base_lines[base], PEOPLE or 60, 11)
    together = kept.all(axis=1) & sound
    groups = {"all hard": (all_hard, together)} | {
        PLAIN[row].key: (odds[:, place], kept[:, place]) for place, row in enumerate(HARD)}
    for use in np.unique(uses):
        groups[f"all hard, {use}"] = all_hard[uses == use], together[uses == use]
    for name, (told, true) in groups.items():
        if PEOPLE and told.std() > 0.0:
            for low, high, count, mean, share in table(told, true):
                print(f"{base} | {name} | {low:.2f}-{high:.2f} | {count} | {mean:.3f} | {share:.3f}"
                      f"{' | OFF' if abs(mean - share) > allowed(told, count, mean) else ''}")
        chance = np.sqrt((told * (1.0 - told)).sum())
        assert abs(told.sum() - true.sum()) <= 4.0 * chance + 0.04 * len(told), name
        for _, _, count, mean, share in table(told, true):
            assert abs(mean - share) <= allowed(told, count, mean), (name, mean, share, count)
    assert all_hard[passes].min() >= CLEAN_ODDS
    for low, high, count, mean, share in table(all_hard[passes], together[passes]):
        if PEOPLE:
            print(f"{base} | called pass | {low:.2f}-{high:.2f} | {count} | {mean:.3f} | "
                  f"{share:.3f}")
        assert share >= CLEAN_ODDS - 3.5 * np.sqrt(0.2 * 0.8 / count), (low, share, count)
    if PEOPLE:
        print(f"{base} | pass: {passes.sum()} of {len(passes)}, of them all hard met "
              f"{together[passes].mean():.3f}, told {all_hard[passes].mean():.3f}")
        for row, place in zip(HARD, range(len(HARD)), strict=True):
            print(f"{base} | pass, {PLAIN[row].key} met {kept[passes, place].mean():.3f}")


def allowed(told, count, mean):
    """Four points, and what chance adds in a bin: three and a half standard errors."""
    return 0.04 + 3.5 * np.sqrt(max(mean * (1.0 - mean), 0.25 / max(count, 1)) / max(count, 1))
