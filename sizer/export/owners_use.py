"""How the boat is used, for its owner: gear, getting in and out, float bags, pedals and foam.

What a step of the order of work or a builder's sheet tells, in few words, from the same figures.
"""

from math import ceil

from sizer.built.borne import load_borne_kg
from sizer.export.lengths import sized
from sizer.export.owners_gear import owners_gear_words
from sizer.export.owners_leave import LEAVE
from sizer.hydro.flooded import KEEP_HOLD
from sizer.hydro.mover import UPRIGHT
from sizer.paddler.seated import WORN
from sizer.shop.bag_ties import PULL_KG
from sizer.shop.coaming import LIP_HEIGHT_M
from sizer.shop.deep import clear_words
from sizer.shop.foot_rails import places_words
from sizer.shop.reach import in_reach_words
from sizer.shop.said import at_least, listed
from sizer.shop.trade_sizes import bolt_name
from sizer.shop.work_parts import BOLT_MM, pedals_out_words
from sizer.shop.work_room import getting_in_words, no_hole_forward
from sizer.units import both_mass

# Common practice, no source, and our judgement.
TWO = ("Of two alone, the one who can get in without a helper, shown so by an instructor, holds "
       "the other's boat, gets in last and out first; where neither can, a third stands ashore. "
       "No such edge there, but stones, a dock, steps or a steep bank: do not launch there.")
CORD = ("No loop and no slack line where a foot, a leg or an arm goes through, neither inside nor "
        "on deck: the deck line lets a hand under it and no arm. Look the skin over before each "
        "trip, under the heels too. A cut, dry and clean, takes a round patch of the skin's cloth "
        "and its coating, inside and out; no trip before it is dry. Cut afloat: as with water in "
        "it; the float bags keep the boat up, not upright.")

PUMP_OUT_M = 0.2  # of an air pump's hose, out of the opening; our judgement
# Common practice, no source, and our judgement, all of them.
WIND = (f"Read the forecast, for no more wind than “{LEAVE}” tells. Never set out where the wind "
        "blows off the shore: it takes you out with it. When it freshens, go in at once. No trip "
        "with thunder about, in fog or at dusk, nor where a current or the tide carries a stick "
        "along.")
TAKE = ("Take along, always: a whistle tied to the PFD, a phone in a waterproof bag on you, water "
        "to drink, a hand pump that floats and a sponge; a thermometer for the water, read where "
        "you set out, an arm deep. Tell somebody ashore where you go and when to call for help.")
HEAVIER = ("Over it: camping gear, spare clothes and food go first, never float bags, whistle, "
           "phone, pump, sponge, a litre of water or what you wear for the cold; still over, it "
           "stays ashore")
YEARLY = ("And after any mending of frame, seat or coating: weigh boat and yourself "
          "anew, fill both bags and find them firm the next day, pull at every lashing and loop, "
          "and make the launch's trials again by a new sheet.")
CARRYING = ("Two carry it, each by an end loop, a hand under the hull, never by the rim; gear goes "
            "in and comes out at the water's edge, or as many more carry as it asks for. On a roof "
            "it lies on two padded bars, each under a frame, tied down by straps drawn by hand "
            "alone, and by both end loops; bags soft. Store the boat dry, on two such bars or hung "
            "in two wide straps, each under a frame, bags soft, out of the sun.")
AFTER = ("Sponge it dry, behind the panels too: bags soft, lacing undone, left open until dry; "
         "bags, seat, backband, pads and boards stay in. Laced before the next.{deep} Look at both "
         "panels, their lacing, loops and eyelets, at bags, hoses and valves, at seat and pedals, "
         "and at skin and sticks under heels and seat: what is chafed, cracked, loose or soft is "
         "mended before the next.")
# Of a panel that only an arm past the place of the pedals reaches; our judgement.
DEEP = (" The {end}'s is opened so after a trip in salt water, once it took water in, and before "
        "the boat lies longer than a week: pedals and strap out until it is laced again. After "
        "other trips lift the {end}, so that what is in there runs out to be sponged up.")


def use_words(job, bench):
    """A paragraph for each thing to know, what this boat's own checks ask first."""
    for about, (first, *others) in use_parts(job, bench):
        yield f"{about}: {first}"
        yield from others


def use_parts(job, bench):
    """(what it is about, [paragraph]) for each thing to know, in the order of `use_words`."""
    rules = list(_own_rules(job.fitted.checks))
    if rules:
        yield "This boat's own rules", rules
    yield "Gear", list(owners_gear_words(job, bench))
    yield "Getting in and out", [*getting_in_words(job), TWO]
    yield "Spray deck", [_spray_deck(job.fitted.assessed, bench.materials.coaming)]
    yield "Float bags", [_hoses(job, bench), _panels(bench)]
    yield "Pedals and pads", list(_pedals(bench))
    yield "Cord and skin", [CORD]
    deep = "".join(DEEP.format(end=end) for end in _past_pedals(bench))
    yield "After each trip", [AFTER.format(deep=deep)]
    yield "Each year", [YEARLY]
    yield "Carrying and storing", [CARRYING]


def _hoses(job, bench):
    """When the bags are blown up, and from where their hoses are reached."""
    bow, opening = bench.bag_ties[0], job.fitted.assessed.boat.opening
    reach_m = opening.front_x_m - bow.panel_x_m
    ahead, pump_m = sized(round(reach_m, 2)), ceil(10.0 * (reach_m + PUMP_OUT_M)) / 10.0
    return ("Both are blown up firm before you get in, by their hoses, the boat in the water, from "
            f"beside it, by a hand air pump whose hose, {at_least(pump_m)} or longer, fits "
            "their valves: no mouth gets to the bow's. The hoses come out of the panels under the "
            f"ridge: the stern's behind the seat, the bow's about {ahead} ahead of the opening's "
            "front, reached by an arm put in under the foredeck from beside; from the seat no hand "
            "reaches it. Blow them up once more when the water has cooled them; let air out when "
            "boat or bags lie in the sun, or they burst. Never pull at a hose.")


def _panels(bench):
    """How the panels stay, and how they are opened."""
    return ("Their panels stay laced, all round and without a gap that a fist or a foot goes "
            "through; laced again after gear went in. Now and then, ashore, pull at each panel by "
            f"both hands with {both_mass(PULL_KG, 0)}, as two full buckets "
            f" of {0.5 * PULL_KG:.0f} litres weigh: cloth, lacing and loops hold. "
            f"{_first_out(bench)}To open a "
            "panel: let the bag's air out by the hose, undo the lacing at its knot by the keel; to "
            "close it: the bag soft, eyelet, loop, eyelet, from the keel up both sides, knot it, "
            "blow the bag up.")


def each_trip_words(job):
    """A paragraph for each thing to look to before a Job's boat goes out, and in the water."""
    yield WIND
    least, most = load_borne_kg(job.fitted.assessed)
    worn = listed([what for what, _ in WORN])
    yield (f"{TAKE} {in_reach_words(job.fitted.assessed.boat)}Counted with you: {worn}; all else "
           "is gear. Weigh yourself dressed, with all of it, and count in the float bags, pads and "
           f"boards that are in the boat: never over {both_mass(most)}. {HEAVIER}. With "
           f"less than {both_mass(least)} in all put in water in closed bags, as much as is "
           "missing, where the gear is told to lie, tied in as it is. Try seat, pads, pedals and "
           "the way out ashore in the thickest clothes that you will wear.")
    yield (f"Under way keep {UPRIGHT}, in waves too; reach and lean out for nothing. Water in it "
           "(how much turns it over is told with the cautions): stay so, call your company "
           "alongside to hold it, to the nearest shore at once, out where your feet stand; no "
           "pumping on the way, which takes both hands.")
    yield (f"In the water: {KEEP_HOLD}. Hold it by the deck line or an end loop, never by the rim; "
           "the paddle in the other hand, but never swim after it, and let it go for whistle and "
           "phone. Whistle at once, call for help "
           "as soon as nobody reaches you; near shore kick towards it with the boat. To re-enter "
           "with help is learned from an instructor, with those who paddle with you, before you "
           "need it.")


def _own_rules(checks):
    """What the boat's checks that do not pass ask of who uses it; a rule of several told once."""
    rules = {}
    for one in checks:
        if one.rule:
            rules.setdefault(one.rule, []).append(one.name)
    for rule, names in rules.items():
        yield f"Its own checks ask ({listed(names)}: see Checks): {rule}."


def _past_pedals(bench):
    """The ends whose panel is ahead of the footbrace."""
    start = bench.seat.footbrace.start_x_m + bench.foot_rails.soles_m[0]
    return [one.end for one in bench.bag_ties if one.panel_x_m < start]


def _first_out(bench):
    """What must come out before a hand gets to such a panel."""
    ends = _past_pedals(bench)
    if not ends:
        return ""
    return (f"The {listed(ends)}'s is reached only with pedals and strap out, as told below, and "
            "they go in again before anybody sits in the boat. ")


def _spray_deck(assessed, rim):
    """How a spray deck is worn, and what a new one is ordered by."""
    size = " x ".join(map(sized, rim.lip_size_m))
    return ("None afloat before the boat's first launch found it tight and steady and "
            "you have practised wet exits, on grass first, then with it on, an instructor beside, "
            f"in warm, calm {clear_words(assessed)}. Seated, it goes on at the back of the rim "
            "first, then in front, then at the sides; its loop lies outside, in front: feel for it "
            "with eyes shut, each time, and have your company look. It comes off with one "
            "hand, either one, in the gloves you wear, pulled forward and up by the loop: "
            "try it ashore before each trip; what one hand does not take off is not "
            "worn. A new one is ordered by the rim "
            f"as it stands, measured: about {size} over the lip, {sized(rim.lip_girth_m)} round "
            f"it, {sized(rim.wall_girth_m)} round the wall under it, the lip "
            f"{sized(LIP_HEIGHT_M)} high; tried so before it is worn afloat.")


def _pedals(bench):
    forward = (" They have no hole left forward: no thicker soles than it was fitted with."
               if no_hole_forward(bench.foot_rails) else "")
    yield ("Before each trip all four pins are in, each with its ring, and the "
           "strap is bolted across both pedals: never push without it. "
           f"{places_words(bench.foot_rails)}.{forward} To take them out "
           f"(by a spanner for {bolt_name(BOLT_MM)}, metric or inch as your builder used): "
           f"{pedals_out_words(bench)}. To move them: the same, both at the same numbers, all "
           "bolts tight, every pin pulled at; then, nobody in the boat, a hand in each shoe pushes "
           "it round and over both pedals from every side: none is held. Pads at hips and "
           "thighs are never made thicker than they were fitted; a mat lies under the heels, flat, "
           "no corner loose.")
