"""Words with lengths in them, declared once and written in the unit that their reader measures in.

A Told is a text in millimetres that knows how it reads in inches too. Scenes, files and pages take
it as any text and show millimetres; a page for a reader of inches asks for the other with `read`.
"""

from sizer import units

FIT_PARTS = 64  # of an inch, of what goes into another
QUARTERS = 4  # of an inch
READERS = ("mm", "in")  # units of the papers' readers; the first everywhere but on their pages


class Told(str):
    """A text in millimetres with the same in inches."""

    def __new__(cls, text, inches):
        """Both texts of the same lengths."""
        made = super().__new__(cls, text)
        made.inches = inches
        return made

    def __getnewargs__(self):
        """What it is made from, for copies."""
        return str(self), self.inches


# In a caption, of figures of `both_text_short`, which are without their unit
BOTH_UNITS = (f"mm, and inches to 1/{units.MARK_PARTS}, from {units.FEET_FROM_IN} on feet and "
              f"inches to 1/{units.INCH_PARTS}")
UNIT, WHOLE = Told("mm", "inches"), Told("whole mm", "inches")


def read(text, unit):
    """A text, or what else goes into one, as it is written for a reader of one of READERS."""
    return text.inches if unit == "in" and isinstance(text, Told) else text


def told(template, *parts, **named):
    """A template with {} or {name} for each part, Told or any text, in both."""
    return Told(*(template.format(*(read(one, unit) for one in parts), **{
        name: read(one, unit) for name, one in named.items()}) for unit in READERS))


def row_of(parts, between=", "):
    parts = tuple(parts)
    return told(between.join("{}" for _ in parts), *parts)


def figure(value_m, form, parts=units.MARK_PARTS):
    """A length by the format of its millimetres, no unit; inches to 1/`parts`, with theirs."""
    value_mm = float(value_m) * units.MM_PER_M
    return Told(format(value_mm, form), units.tape_text(value_mm, parts))


def in_mm(value_m):
    """As `figure`, in whole millimetres."""
    return figure(value_m, ".0f")


def in_quarters(value_m):
    """As `in_mm`; inches to a quarter, of room that nothing is cut to."""
    return figure(value_m, ".0f", QUARTERS)


def in_tenths(value_m):
    """As `figure`, to a tenth of a millimetre."""
    return figure(value_m, ".1f")


def in_marks(value_m):
    """As `in_tenths`; inches as in a table of marks beside it, without their mark."""
    return Told(*(units.mark_figure(float(value_m) * units.MM_PER_M, unit) for unit in READERS))


def in_full(value_m):
    """As `figure`, in no more digits of a millimetre than a size has."""
    return figure(value_m, "g")


def in_fits(value_m):
    """As `in_full`; inches to 1/64, of what has to meet another."""
    return figure(value_m, "g", FIT_PARTS)


def in_openings(value_m):
    """As `in_tenths`; inches in thousandths and never less, of what another goes into."""
    value_mm = float(value_m) * units.MM_PER_M
    return Told(format(value_mm, ".1f"), f'{units.least_caliper_text(value_mm)}"')


def size(*sides_m, form=in_full):
    """A size with its unit: 20 x 40 mm, or 25/32" x 1 9/16"."""
    return told("{}{}", row_of([form(one) for one in sides_m], " x "), Told(" mm", ""))
