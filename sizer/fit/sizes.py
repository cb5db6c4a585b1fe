"""The sizes by which a boat is told, held and counted: each declared once.

Their keys are those of answers, of a request's `fixed` and of lists; their words follow from them.
"""

from operator import attrgetter

from sizer.units import MM_PER_M

SIZES = {  # where a Boat has it, in m
    "length_mm": attrgetter("length_m"),
    "beam_mm": attrgetter("beam_m"),
    "depth_mm": attrgetter("depth_m"),
    "cockpit_length_mm": attrgetter("opening.length_m"),
    "cockpit_width_mm": attrgetter("opening.width_m"),
}
# Where a Scaling has it.
FACTORS = {"length": "length", "beam": "beam", "depth": "depth", "deck_crown": "crown"}


def sizes_mm(boat):
    """A Boat's sizes by key, in mm."""
    return {key: size_m(boat) * MM_PER_M for key, size_m in SIZES.items()}


def factors(scaling):
    """A Scaling's factors by key."""
    return {key: getattr(scaling, field) for key, field in FACTORS.items()}


def size_title(key):
    """A size in words, such as "Cockpit length"."""
    return key.removesuffix("_mm").replace("_", " ").capitalize()


def main_sizes_mm(boat):
    """Length, beam and depth, in mm."""
    return tuple(sizes_mm(boat).values())[:3]


def main_sizes_text(boat):
    """Length, beam and depth in whole mm, such as 4650 x 560 x 290."""
    return " x ".join(f"{size:.0f}" for size in main_sizes_mm(boat))
