"""Where a job's gear goes, how much room there is for it and how it is tied, in words."""

from sizer.shop.said import both, listed

BULKY = ("Camping gear is mostly two or three times as large as its weight in water: what does not "
         "go into them stays ashore, or it takes the float bag's room. Our judgement.")
NO_BAG = "Gear is no float bag: never leave a bag out, nor buy it smaller, for gear."


def gear_words(job, bench):
    """For who builds: places, loops, litres, and the bag without gear."""
    if not bench.gear_ties:
        return "Gear: none is reckoned with; the bags fill both ends."
    told = listed([f"{one.mass_kg:.0f} kg {both(one.x_m)} aft of the bow"
                   + (f", in the {one.end}" if one.end else "") for one in bench.gear_ties])
    tied = " ".join(
        f"There a loop round the {one.stick} a side, on the sides of {listed(one.frames)} that "
        f"look to each other, and a line crosswise through all four: {one.cord_m:.1f} m of 4 mm "
        "cord, before the skin." for one in bench.gear_ties)
    return (f"Gear is reckoned to lie so, at the bottom: {told}. {tied} It goes in from the "
            "cockpit, in waterproof bags, under that line and beside the float bag before that is "
            "blown up; haul the line taut, no slack for a foot, and tie it off; lace the panel "
            f"over both: no hatch is reckoned with. {room_words(bench)} {NO_BAG}")


def room_words(bench):
    """The litres that gear may take in each end, and what bag fills that end without it."""
    inside = [one for one in bench.gear_ties if one.end]
    if not inside:
        return "None of it lies in the ends: the bags' litres leave no room for gear there."
    bags = {one.end: one.litres for one in bench.bag_ties}
    most = listed([f"{one.most_l:.0f} litres in the {one.end}" for one in inside])
    without = listed([f"{bags[one.end] + one.most_l:.0f} litres in the {one.end}"
                      for one in inside])
    return (f"No more than {most}, all its bags together, air pressed out: the float bags leave no "
            f"more. {BULKY} A float bag that fills the end without gear too, {without}, does for "
            "both: with gear, blow it up only as far as it goes.")
