"""Lengths, masses and names in the sentences of the papers."""

from sizer.units import MM_PER_M, feet_inches_text


def both(value_m):
    """A length in whole mm and in feet, inches and sixteenths."""
    value_mm = float(value_m) * MM_PER_M
    return f"{value_mm:.0f} mm ({feet_inches_text(value_mm)})"


def listed(names):
    """Names in a row, the last after "and"."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
