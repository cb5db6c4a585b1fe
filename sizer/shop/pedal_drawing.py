"""The footbrace's pedal to cut at full size, starboard as seen from astern; port is it turned over.
"""

import numpy as np

from sizer.drawing.record import Circle, Drawing, Path, Text
from sizer.shop.pedals import BOLT_MM, MOST_OPEN_M, THICK_M
from sizer.units import MM_PER_M

PEDAL = "footbrace pedal"
LETTERS_M = 0.006  # of words on it; our drawing


def pedal_piece(made):
    """The Drawing of a plate of Pedals, its inner edge on the left."""
    at = made.plate_m.min(axis=0)
    bolts = np.array(made.bolts_m) - at
    middle = 0.5 * float(np.ptp(made.plate_m[:, 0])), float(bolts[:, 1].mean())
    return Drawing(PEDAL, (
        Path("cut", made.plate_m - at, closed=True),
        *(Circle("drill", tuple(one), 0.5 * BOLT_MM[0] / MM_PER_M) for one in bolts.tolist()),
        Text("text", middle, LETTERS_M, f"{PEDAL}, 2 off")), tuple(pedal_notes(made)))


def pedal_notes(made):
    """What has to be told of it."""
    yield (f"Footbrace pedal, 2 off, {THICK_M * MM_PER_M:g} mm plywood: starboard as seen from "
           "astern, as it stands in the boat, its upper edge level, the notch on the right, wide "
           "for the cheek and narrow for the rail behind it: saw it no wider there, or toes go "
           "in. Port is the same turned over. Round what a foot or the skin could "
           "touch. It is shaped to the boat for this paddler's place: hold it there in the frame "
           f"before the skin. No bar {MOST_OPEN_M * MM_PER_M:g} mm thick may go by it, under it, "
           "beside it or behind the rail, and it may touch no stick: a foot that goes in there is "
           "held.")
