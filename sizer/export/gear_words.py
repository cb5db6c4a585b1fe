"""Where a job's gear goes, how much room there is for it and how it is tied, in words."""

from sizer.shop.outfit import TIE_CORD
from sizer.shop.said import both, listed


def gear_words(bench):
    """For who builds: places, loops, litres, and the bag without gear."""
    if not bench.gear_ties:
        return "Gear: none is reckoned with; the bags fill both ends."
    return ("Gear lies so, at the bottom, its middle never higher than the figures count it, which "
            f"Order of work tells: {_packs_words(bench)}. There, before the skin, loops as the "
            "panels' round that stick, a side, on the frames' sides that look to each other, where "
            "a panel's loop is there too that one next to the frame; "
            f"a line of {TIE_CORD} crosswise through all four. Gear goes in from "
            "the cockpit, in waterproof bags, under that line, beside the soft float bag, by a "
            "blunt stick where no arm reaches; the line through the bags' own handles, so that "
            "nothing slides along the boat, drawn taut at its ends, no slack for a foot, tied off; "
            "panel laced over both. Try it once before the skin, through the coaming alone. "
            f"{room_words(bench)}")


def _packs_words(bench):
    return "; ".join(
        f"{kg_words(one.mass_kg)} between {listed(one.frames)}, its middle {both(one.x_m)} aft of "
        f"the bow, no longer than {both(one.long_m)}, loops round the {one.stick}, "
        f"{one.cord_m:.1f} m of cord, its ends led to {one.led_to}" for one in bench.gear_ties)


def kg_words(mass_kg):
    """A pack's mass, to a tenth of a kilogram."""
    return f"{round(mass_kg, 1):g} kg"


def room_words(bench):
    """The litres that gear may take in each end, and what bag fills that end without it."""
    inside = [one for one in bench.gear_ties if one.end]
    if not inside:
        return ("None of it lies in the ends: the float bags leave no room for gear there, and "
                "are never left out or bought smaller for it.")
    return (f"{most_words(bench)}, air pressed out: the float bags leave no "
            "more, and are never left out or bought smaller for it. A float bag that fills the end "
            f"without gear too, {listed(full_bags(bench))}, does for both: with gear, blow it up "
            "as far as it goes.")


def most_words(bench):
    """The litres that gear may take in each end; "" where none lies there."""
    most = _ends_l([one for one in bench.gear_ties if one.end])
    told = listed([f"{litres:.0f} litres in the {end}" for end, litres in most.items()])
    return told and f"No more than {told}, all its bags together"


def full_bags(bench):
    """Litres of a bag, and where, for each end that holds gear, that fills it without gear too."""
    bags = {one.end: one.litres for one in bench.bag_ties}
    gear = _ends_l([one for one in bench.gear_ties if one.end])
    return [f"{bags[end] + litres:.0f} litres in the {end}" for end, litres in gear.items()]


def _ends_l(packs):
    """{end: litres} that packs of gear may take in the ends."""
    return {end: sum(one.most_l for one in packs if one.end == end)
            for end in dict.fromkeys(one.end for one in packs)}
