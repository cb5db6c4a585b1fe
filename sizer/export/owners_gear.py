"""Gear for the boat's owner: where it lies, how much of what goes in, and how it is loaded."""

from math import ceil, floor

from sizer.built.borne import load_borne_kg
from sizer.export.gear_words import room_words
from sizer.export.lengths import sized
from sizer.export.owners_leave import drysuit_told
from sizer.fit.dressed import HEAVIER_KG, LEAST_LEFT_KG, bags_kg
from sizer.shop.aboard import all_boards_kg, bare_words, drysuit_words, opening_words, put_in_words
from sizer.shop.said import at_most, laid, listed
from sizer.units import MM_PER_M, STANDARD_GRAVITY_MPS2, both_mass

DRINK = ("Bottle, food and spare things lie with it, tied in and out of reach: land to drink and "
         "eat. Nothing loose in the cockpit, in your lap or on deck.")
FARTHER_M = 0.10  # aft, of gear that is not laid where it is reckoned; what that costs is told
CAMPING_LPKG = (2.0, 3.0)  # litres that a kilogram of camping gear takes; our judgement
CAMPING = "camp-touring"  # the use


def owners_gear_words(job, bench):
    """Paragraphs."""
    if not bench.gear_ties:
        yield ("None is reckoned with. Worked out with none, the boat carries none: what you "
               "want to take, have it fitted for. "
               f"{drysuit_words(0.0, job.mishaps.swamped, 0.0)}")
        return
    yield from map(lambda row: _heap(job, bench, row), range(len(job.fitted.assessed.loading.gear)))
    goes_in = put_in_words(job, bench.thigh, bench.hip_pads), *drysuit_told(job, bench)
    yield f"What goes in: {' '.join(goes_in)}"
    yield from _least_words(job, bench)
    yield (f"{_lies(job)} {_on_deck(job.fitted.assessed)} {DRINK} {room_words(bench)}"
           f"{_bulk(job, bench)}")
    yield "Loading, step by step, and unloading the other way round:"
    for number, step in enumerate(_loading(bench), start=1):
        yield f"{number}. {step}"


def least_kg(job, bench):
    """What must go in on every trip for the least load, where paddler, bags and boards, as they are
    reckoned with, and what goes along always do not come to it; else None."""
    assessed = job.fitted.assessed
    least, _ = load_borne_kg(assessed)
    more = (least - float(assessed.loading.paddler_kg) - bags_kg(job.mishaps.swamped)
            - all_boards_kg(bench.thigh, bench.hip_pads))
    return ceil(10.0 * more) / 10.0 if more > LEAST_LEFT_KG else None


def no_camping_words(job, bench):
    """At the head, that camping gear alone is too light for a boat that is made for it, where even
    the least bulky does not come to what must go in."""
    least = least_kg(job, bench)
    if job.person.use.key == CAMPING and least and litres_in(bench) < CAMPING_LPKG[0] * least:
        yield ("A CAMPING TRIP AS USUALLY PACKED DOES NOT GO IN: of the "
               f"{both_mass(least)} that are always aboard no more than "
               f"{both_mass(camping_kg(litres_in(bench), least, CAMPING_LPKG[0]))} are camping "
               "gear, the rest water or as dense (see Gear).")


def litres_in(bench):
    """The litres that all the gear may take."""
    return sum(one.most_l for one in bench.gear_ties)


def camping_kg(litres, least, bulk_lpkg):
    """The most camping gear, kg downwards, of so many litres a kilogram that goes into so many
    litres with as much water as brings both to the least, kg."""
    most = litres / bulk_lpkg
    if most < least:
        most = max(litres - least, 0.0) / (bulk_lpkg - 1.0)
    return floor(10.0 * most + 1e-9) / 10.0


def _heap(job, bench, row):
    """Where the packs of one heap lie, and what it costs where they lie elsewhere."""
    assessed = job.fitted.assessed
    costs = float(assessed.loading.gear[row].mass_kg) * (
        STANDARD_GRAVITY_MPS2 * FARTHER_M / assessed.particulars.moment_to_trim_Nm_per_deg)
    packs = [one for one in bench.gear_ties if one.heap == row]
    lies = listed([
        f"{both_mass(one.mass_kg)}, its middle about "
        f"{opening_words(assessed.boat.opening, one.x_m, laid)}, no longer than "
        f"{at_most(one.long_m)}, under the tie line between {listed(one.frames)}"
        for one in packs])
    return (f"{f'In the {packs[0].end}: ' * bool(packs[0].end)}{lies}. Each {sized(FARTHER_M)} "
            f"farther aft it trims the boat by {costs:.2f}° more to the stern, as far forward to "
            "the bow as much.")


def _least_words(job, bench):
    least = least_kg(job, bench)
    if least is None:
        return
    told = both_mass(load_borne_kg(job.fitted.assessed)[0])
    total = sum(one.mass_kg for one in bench.gear_ties)
    shares = [both_mass(least * one.mass_kg / total) for one in bench.gear_ties]
    split = ("" if len(shares) == 1 else
             f" Of less than the whole each place gets its share: of these {listed(shares)}, in "
             "the order above.")
    yield (f"ALWAYS TAKE AT LEAST {both_mass(least)} OF GEAR, what goes along on every trip "
           "counted in, or water in closed bags as heavy, low and tied in so, and as much more as "
           "you weigh, dressed, less than the launch sheet reckons: with less you, bags "
           f"and boards do not come to the {told} that this boat is worked out for at the "
           f"least.{split}{_every_trip(bench, least)} {_sum_words(bench, least)}")


def _every_trip(bench, least):
    """That the least does not go in without the bow, where pedals stand in its way."""
    aft = sum(one.mass_kg for one in bench.gear_ties if not _past_pedals(one, bench))
    return " So pedals and strap come out, and go in again, on every trip." * (aft < least)


def _past_pedals(pack, bench):
    return pack.x_m < bench.seat.footbrace.start_x_m


def _sum_words(bench, least):
    """How much of the least may be camping gear, and how much is water."""
    litres = litres_in(bench)
    if litres >= CAMPING_LPKG[1] * least:
        return ""
    if litres < least:
        return (f"Not even water comes to that in the {litres:.0f} litres that are free: this boat "
                "does not go out until it was worked out again.")
    low, high = CAMPING_LPKG
    some, few = (both_mass(camping_kg(litres, least, bulk)) for bulk in CAMPING_LPKG)
    return (f"In the {litres:.0f} litres that are free (below) that is no more than {some} of "
            f"camping gear that takes {low:g} litres a kilogram, or {few} that takes {high:g} (our "
            "judgement), all the rest water or as dense.")


def _bulk(job, bench):
    """How much camping gear alone goes in, where no sum with water tells it."""
    least = least_kg(job, bench)
    if least and _sum_words(bench, least):
        return ""
    low, high = (f"{camping_kg(litres_in(bench), 0.0, bulk):g}" for bulk in CAMPING_LPKG[::-1])
    return (f" Camping gear mostly takes {CAMPING_LPKG[0]:g} to {CAMPING_LPKG[1]:g} litres a "
            f"kilogram (our judgement): of it alone {low} to {high} kg go in; what does not stays "
            "ashore.")


def _lies(job):
    assessed = job.fitted.assessed
    trim = next(one for one in job.fitted.checks if one.key == "trim")
    lies, (low, high) = assessed.particulars.trim_deg, trim.window[1:3]
    deeper = "stern" if lies > 0.0 else "bow"
    so = f"{abs(lies):.1f}° deeper at the {deeper}" if abs(lies) >= 0.05 else "level"
    return (f"So laden the boat lies {so}; anything from {-low:g}° deeper at the bow to {high:g}° "
            f"deeper at the stern will do. {bare_words(assessed)}")


def _on_deck(assessed):
    """What steadiness gear costs that lies as high as the side deck instead, and what a drysuit
    costs that is worn instead of as much gear."""
    load, gear = assessed.loading.load, assessed.loading.gear
    lifted = sum(one.mass_kg * (assessed.boat.depth_m - one.vcg_m) for one in gear)
    mean_m = sum(one.mass_kg * one.vcg_m for one in gear) / sum(one.mass_kg for one in gear)
    worn = HEAVIER_KG * (assessed.loading.paddler.vcg_m - mean_m)
    return (f"On deck it would take {lifted / load.mass_kg * MM_PER_M:.0f} of the "
            f"{assessed.particulars.gm_m * MM_PER_M:.0f} mm of steadiness (GM): nothing heavy "
            f"there; a drysuit worn for as much gear takes {worn / load.mass_kg * MM_PER_M:.0f} "
            "mm.")


def _loading(bench):
    """How gear goes in, step by step."""
    past = any(_past_pedals(one, bench) for one in bench.gear_ties)
    ends = any(one.end for one in bench.gear_ties)
    led_to = listed(list(dict.fromkeys(one.led_to for one in bench.gear_ties)))
    yield ("At the water's edge, boat empty, all of it in waterproof bags, air pressed out" +
           past * "; for the bow, pedals and strap out" + ".")
    yield (ends * "The float bag's air out, its panel's lacing undone from the keel up. " +
           f"The tie line untied at its ends ({led_to}) and drawn slack, never out of its loops.")
    yield ("The farthest bag first: a bight of the slack line drawn out to you and through its "
           "handles, then the bag pushed in under the line, flat on the bottom"
           f"{ends * ', beside the soft float bag'}, where no arm reaches by a blunt stick marked "
           "with the distance told. At the bottom, never propped: that is for the launch's trial "
           "alone.")
    yield (f"The line drawn taut and tied off at {led_to}, no slack for a foot: pull, nothing "
           "slides.")
    if ends:
        yield "The panel laced over both, the float bag blown up."
    yield past * "Pedals and strap in, tried as told. " + "Look from beside how the boat lies."
