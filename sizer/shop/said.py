"""Lengths, masses and names in the sentences of the papers."""

from sizer.units import MM_PER_FT, MM_PER_M, feet_inches_text


def both(value_m):
    """A length in whole mm and in feet, inches and sixteenths."""
    value_mm = float(value_m) * MM_PER_M
    return f"{value_mm:.0f} mm ({feet_inches_text(value_mm)})"


def both_sides(*sides_m):
    """Sides of one piece, as `both`."""
    mm, inches = zip(*((f"{side:.0f}", feet_inches_text(side)) for side in (
        float(one) * MM_PER_M for one in sides_m)), strict=True)
    return f"{' x '.join(mm)} mm ({' x '.join(inches)})"


def both_far(value_m, decimals=0):
    """A length that is bought by the metre, in metres and in feet."""
    return (f"{value_m:.{decimals}f} m "
            f"({value_m * MM_PER_M / MM_PER_FT:.{decimals}f} ft)")


def listed(names):
    """Names in a row, the last after "and"."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
