"""The launch sheet's tables of figures: what was calculated, between what it passes, a blank.

One range a figure: what nine in ten such boats read, as far as its limit lets it.
"""

import numpy as np

from sizer.built.borne import paddler_borne_kg
from sizer.built.departures import expected
from sizer.built.heights import heights_expected, swamped_expected
from sizer.export.pages import INNER_MM, table
from sizer.hydro.flooded import RIM_MARGIN_M, SIDE_DECK_MARGIN_M
from sizer.hydro.water import WARM_C
from sizer.shop.aboard import aboard_rows
from sizer.units import (
    MM_PER_M,
    NO_BREAK,
    both_mass,
    both_text,
    range_mass,
    range_text,
    temperature_text,
)

OFF_KG = 0.1  # that the gear may be off: less than any reading shows; our judgement
PAD_PT, TEXT_PT = 2.8, 9.0  # a hand writes there
SHARES = (4.0, 3.9, 6.7, 4.0, 1.6)
MET = "yes / no".replace(" ", NO_BREAK)
LENGTH, WEIGHED = (f"_____ {one}".replace(" ", NO_BREAK) for one in ("mm / in", "kg / lb"))
RIGHT_LEFT = f"right ____ left ____ half of both {LENGTH}"


def weighed(assessed):
    """What is weighed, and the water, before anybody sits in the boat."""
    calculated, loading = expected(assessed), assessed.loading
    gear_kg = float(loading.gear_kg)
    boat, off = calculated["boat_kg"]
    _, (paddler, paddler_kg), _ = aboard_rows(loading)
    rows = [("the boat, as in 1", boat, range_mass(boat - off, boat + off)),
            (paddler, paddler_kg, range_mass(*paddler_borne_kg(assessed)))]
    if loading.gear:
        rows.append(("gear with all of 2", gear_kg, range_mass(gear_kg - OFF_KG, gear_kg + OFF_KG)))
    water = assessed.person.water.kind
    return _filled("ashore", [
        *((name, both_mass(kg), passes, WEIGHED) for name, kg, passes in rows),
        ("water, fresh / salt", water, f"either; {temperature_text(WARM_C)} or more",
         "_____ °C / °F".replace(" ", NO_BREAK))])


def afloat(assessed):
    """How high the sheer stands over the water."""
    heights, least = heights_expected(assessed), assessed.person.use.least_freeboard_m
    names = (("at the bow's tip", "bow_m", 0.0, LENGTH), ("at the stern's tip", "stern_m", 0.0,
                                                           LENGTH),
             (f"at its lowest, near {lowest_at(assessed)}", "side_m", least, RIGHT_LEFT))
    return _filled("water to sheer", [
        (name, *_heights(*heights[key], limit), blank) for name, key, limit, blank in names])


def swamped(assessed, found):
    """What rim and side deck of the empty Swamped boat keep over the water; None where it sinks."""
    names = ("rim at its lowest", RIM_MARGIN_M), ("side deck at its lowest", SIDE_DECK_MARGIN_M)
    rows = [(name, *_heights(*one, least), RIGHT_LEFT) for (name, least), one in zip(
        names, swamped_expected(assessed, found).values(), strict=False)]
    return _filled("over the water", rows) if rows else None


def lowest_at(assessed):
    """The frame nearest to where the sheer is lowest over the water, port and starboard."""
    boat, particulars = assessed.boat, assessed.particulars
    x, sheer = boat.sections.x_m, boat.sections.z_m[:, boat.sections.sheer]
    water = np.interp(x, x[[0, -1]], (sheer[0] - particulars.bow_freeboard_m,
                                      sheer[-1] - particulars.stern_freeboard_m))
    at = x[int(np.argmin(sheer - water))]
    return min(zip(boat.design.frames, boat.frame_x_m, strict=True),
               key=lambda one: abs(one[1] - at))[0].name


def _heights(value_m, band_m, limit_m):
    """A height as calculated, and between what it passes."""
    return both_text(value_m * MM_PER_M), range_text(
        max(value_m - band_m, limit_m) * MM_PER_M, (value_m + band_m) * MM_PER_M)


def _filled(what, rows):
    """A table of rows, each to be judged."""
    return table((what, "calculated", "pass", "measured", "met"), [(*row, MET) for row in rows],
                 SHARES, INNER_MM, TEXT_PT, PAD_PT)
