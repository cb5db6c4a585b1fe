"""Between which loads a boat that is fitted keeps its checks: how light its paddler may be."""

from dataclasses import replace
from functools import lru_cache

from sizer.built.departures import expected
from sizer.fit.assess import assess_boat
from sizer.fit.checks import checks_of
from sizer.fit.facts import facts_of
from sizer.fit.mishaps import mishap_facts
from sizer.fit.told import known

STEP_KG = 0.5  # by which a load too light is tried heavier


@lru_cache(maxsize=16)
def load_borne_kg(assessed):
    """(least, most) load, paddler and gear, of one fitted Assessed boat: the most is what it is
    fitted to; the least is no lighter than ± of that load at the launch, and fails no check that
    the boat as fitted does not fail."""
    most, off = expected(assessed)["load_kg"]
    fails, less = _failing(assessed), off
    while less > 0.0 and _failing(_lighter(assessed, less)) - fails:
        less -= STEP_KG
    return most - max(less, 0.0), most


def _lighter(assessed, less_kg):
    """The Assessed boat under its paddler so much lighter and else the same; None where that could
    not be worked out."""
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
