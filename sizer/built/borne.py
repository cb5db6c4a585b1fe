"""Between which loads, as the scale reads them, a boat that is fitted keeps its checks.

What the scale may be off lies inside: the checks hold for so much less and so much more too.
"""

from dataclasses import replace
from functools import lru_cache

from sizer.built.departures import NINE_IN_TEN, WEIGHED_KG, expected
from sizer.fit.assess import assess_boat
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts
from sizer.fit.told import known

STEP_KG = 0.5  # by which a load is tried nearer to the one fitted to
SCALE_KG = NINE_IN_TEN * WEIGHED_KG  # that a load may be off as it is weighed


@lru_cache(maxsize=16)
def load_borne_kg(assessed):
    """(least, most) load, paddler and gear, of one fitted Assessed boat as the scale reads it: no
    more than it is fitted to, no lighter than ± of that load before it is weighed, and either, off
    by SCALE_KG, fails no check that the boat as fitted does not fail."""
    fitted, off = expected(assessed)["load_kg"]
    fails, less, under = _failing(assessed), off, 0.0
    while less > 0.0 and _failing(_lighter(assessed, less + SCALE_KG)) - fails:
        less -= STEP_KG
    while under < less and _failing(_lighter(assessed, under - SCALE_KG)) - fails:
        under = min(under + STEP_KG, less)
    return fitted - max(less, 0.0), fitted - max(under, 0.0)


def paddler_borne_kg(assessed):
    """(least, most) of the dressed paddler alone: `load_borne_kg` with all the gear it is tried
    with, as a heavier paddler with less gear sits higher than is reckoned."""
    return tuple(one - float(assessed.loading.gear_kg) for one in load_borne_kg(assessed))


def _lighter(assessed, less_kg):
    """The Assessed boat under its paddler so much lighter, heavier where negative, and else the
    same; None where that could not be worked out."""
    person = assessed.person
    body = replace(person.body, weight_kg=person.body.weight_kg - less_kg)
    found = known(assess_boat, assessed.boat, replace(person, body=body), assessed.start,
                  seat_held=True, weight=assessed.weight)
    return found and replace(found, spread=assessed.spread)


def _failing(assessed):
    """Keys of the checks that an Assessed boat fails; of one that is None or cannot be worked out,
    a key of its own."""
    mishap = assessed and known(mishap_facts, assessed)
    if not mishap:
        return {"unknown"}
    return {one.key for one in checks_of(replace(facts_of(assessed), mishap=mishap))
            if one.status == "fail"}
