"""Lengths, masses and names in the sentences of the papers."""

from sizer import units

DIGITS = 6  # of a bound in mm: what metres leave beyond is no bound's


def both(value_m):
    """A length in whole mm and in inches as every drawing of it has them."""
    value_mm = float(value_m) * units.MM_PER_M
    return f"{value_mm:.0f} mm ({units.tape_text(value_mm)})"


def marked(value_m):
    """A mark, or what is measured over one, as the sheets tell it: 387.4 mm (15 1/4 in)."""
    return units.both_text(float(value_m) * units.MM_PER_M, units.mark_text)


def about(value_m):
    """About how long, in both units, as nobody measures it more finely."""
    return units.about_text(float(value_m) * units.MM_PER_M)


def laid(value_m):
    """Where what is laid by eye lies, in both units."""
    return units.laid_text(float(value_m) * units.MM_PER_M)


def at_most(value_m):
    """An upper bound, never looser in inches."""
    return units.at_most_text(round(float(value_m) * units.MM_PER_M, DIGITS))


def at_least(value_m):
    """A lower bound, never less in inches."""
    return units.at_least_text(round(float(value_m) * units.MM_PER_M, DIGITS))


def both_range(low_mm, high_mm):
    """A size from and to: 8 to 10 mm (5/16" to 13/32")."""
    low, high = map(units.tape_text, (low_mm, high_mm))
    inches = low if low == high else f"{low} to {high}"
    return f"{low_mm:g} to {high_mm:g} mm ({inches})"


def both_sides(*sides_m):
    """Sides of one piece, as `both`."""
    mm, inches = zip(*((f"{side:.0f}", units.tape_text(side)) for side in (
        float(one) * units.MM_PER_M for one in sides_m)), strict=True)
    return f"{' x '.join(mm)} mm ({' x '.join(inches)})"


def both_far(value_m, decimals=0):
    """A length that is bought by the metre, in metres and in feet."""
    return (f"{value_m:.{decimals}f} m "
            f"({value_m * units.MM_PER_M / units.MM_PER_FT:.{decimals}f} ft)")


def listed(names, word="and"):
    """Names in a row, the last after a word."""
    *most, last = names
    return f"{', '.join(most)} {word} {last}" if most else last
