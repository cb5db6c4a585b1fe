"""What is planed off the sticks when the dry fit is measured: off which face, where and how deep.

Of keel, chines, deck stringers and ridge the middle of the outer face lies on the moulded line and
both its edges may stand outside the skin: they are planed to two slopes. A gunwale's outer face
lies in the skin of the side and is left as it is; the deck's skin leaves from its upper corner, and
what may stand outside is the inner corner of the upper face, which is planed to one slope.

How deep is told as a builder marks and gauges it: square down the side of the stick, not square to
the skin, off which the same wood stands less.
"""

from sizer.drawing.told import READERS, Told, in_tenths, read, row_of, told

PLANE_FROM_M = 0.0005  # less than this outside the skin is sanded, not planed; our judgement
DOWN = Told("mm ", "")  # before how deep, whose figures in mm are without their unit
TWO_SLOPES = told("the outer face to two slopes, nothing along its middle, {}down both sides", DOWN)
ONE_SLOPE = told("a gunwale's upper face, never its outer one, to one slope, nothing at its outer "
                 "corner, {}down its inner side", DOWN)
GAUGED = told("Mark the {} on the stick's sides first, square down from the face that is planed.",
              Told("mm", "depths"))
WHEN_OFF = "“When it is off”"  # the heading on the dry-fit sheet that has the order
# One rule for the steps and that sheet: a notch's floor and the wall that a stick rests on tell
# where the stick lies; a wall that only binds does not. Our judgement.
EASED = ("where it binds, sand or file the notch's wall where it rubs, never its floor and never "
         "the stick")
FLOORS_WAIT = ("No notch's floor is filed and nothing is glued on one before every figure is "
               f"written down, and then only as {WHEN_OFF} of the dry-fit sheet tells")


def planed_notches(pattern):
    """Notches of a pattern whose stick stands outside the skin by more than is sanded."""
    return [one for one in pattern.section.notches if max(one.planed_m) > PLANE_FROM_M]


def planed_words(pattern):
    """Each stick that stands outside the skin, and how many mm, as `where_words` tells."""
    return [told("{} {}", notch.stringer, planed_text(notch)) for notch in planed_notches(pattern)]


def planed_text(notch):
    """How many mm are planed off a stick there: of a gunwale at the inner corner of its upper face,
    else at both edges of its outer face, each by its name where they are unlike."""
    low, high = notch.planed_m
    return planed_edges((high, high) if notch.role == "gunwale" else (low, high))


def planed_edges(planed_m):
    """The same of the lower and the upper edge of a face."""
    low, high = map(in_tenths, planed_m)
    two = told("lower {}, upper {}", low, high)
    return Told(*(read(high if read(low, unit) == read(high, unit) else two, unit)
                  for unit in READERS))


def slope_words(role):
    """Which face of a stick of that role is planed, and where on it."""
    return ONE_SLOPE if role == "gunwale" else TWO_SLOPES


def where_words(patterns):
    """The same of all sticks that are planed at some patterns; "" where none is."""
    found = {slope_words(one.role) for pattern in patterns for one in planed_notches(pattern)}
    return row_of([words for words in (TWO_SLOPES, ONE_SLOPE) if words in found], "; ")
