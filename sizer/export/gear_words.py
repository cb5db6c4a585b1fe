"""Where a job's gear goes, how much room there is for it and how it is tied, in words."""

from sizer.shop.said import both, listed


def gear_words(bench):
    """For who builds: places, loops, litres, and the bag without gear."""
    if not bench.gear_ties:
        return "Gear: none is reckoned with; the bags fill both ends."
    told = listed([f"{one.mass_kg:.0f} kg {both(one.x_m)} aft of the bow"
                   + (f", in the {one.end}" if one.end else "") for one in bench.gear_ties])
    tied = " ".join(
        f"There, before the skin, a loop round the {one.stick} a side on the sides of "
        f"{listed(one.frames)} that look to each other, and a line crosswise through all four: "
        f"{one.cord_m:.1f} m of 4 mm cord." for one in bench.gear_ties)
    return (f"Gear is reckoned to lie so, at the bottom: {told}. {tied} It goes in from the "
            "cockpit, in waterproof bags, under that line, beside the float bag before that is "
            "blown up; line drawn taut, no slack for a foot, tied off; panel laced over both. "
            f"{room_words(bench)}")


def room_words(bench):
    """The litres that gear may take in each end, and what bag fills that end without it."""
    inside = [one for one in bench.gear_ties if one.end]
    if not inside:
        return ("None of it lies in the ends: the float bags leave no room for gear there, and "
                "are never left out or bought smaller for it.")
    bags = {one.end: one.litres for one in bench.bag_ties}
    most = listed([f"{one.most_l:.0f} litres in the {one.end}" for one in inside])
    without = listed([f"{bags[one.end] + one.most_l:.0f} litres in the {one.end}"
                      for one in inside])
    return (f"No more than {most}, all its bags together, air pressed out: the float bags leave no "
            "more, and are never left out or bought smaller for it. A float bag that fills the end "
            f"without gear too, {without}, does for both: with gear, blow it up as far as it goes.")
