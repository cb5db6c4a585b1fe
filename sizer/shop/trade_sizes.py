"""Hardware and plywood in the sizes of both trades: drawn in mm, told as sold by the inch as well.

Each is declared once in mm; what is bought in its place where things are sold by the inch is worked
out here, by one rule a kind, so that both can be used with these drawings. What sizes are sold and
how they are named is common practice, no source; which of them is the safe one is our judgement.
"""

from sizer.drawing.told import Told
from sizer.units import MM_PER_FT, MM_PER_IN, MM_PER_M, caliper_text, inches_text

GAUGE_IN, GAUGE_STEP_IN = 0.060, 0.013  # thickness of a wood screw of gauge 0, and more a gauge
GAUGES = range(2, 16, 2)  # that are sold everywhere
SCREW_LONG_IN = (0.5, 0.625, 0.75, 1.0, 1.25, 1.5, 1.75, 2.0, 2.25, 2.5, 2.75, 3.0, 3.5, 4.0)
LONGER_MM = 1.0  # of a screw than drawn: none then comes out of what is behind; our judgement
THREADS = {0.25: 20, 0.3125: 18, 0.375: 16}  # of a bolt so thick, turns an inch
BOLT_LONG_IN = (1.0, 1.25, 1.5, 1.75, 2.0, 2.5, 3.0)
CORD_IN = (0.0625, 0.09375, 0.125, 0.15625, 0.1875, 0.25, 0.3125, 0.375)  # thickness of cord
INSIDE_IN = (0.25, 0.3125, 0.375, 0.5, 0.625, 0.75, 1.0)  # of eyelets and rings
SMALL_BIT_MM, SMALL_PARTS, LARGE_PARTS = 0.5 * MM_PER_IN, 64, 8  # bits up to it, and larger ones
PLYWOOD_PARTS = (8, 16, 32)  # of an inch that plywood is named in: the coarsest that is near
# Of a sheet's thickness that its name in inches may be off: sheets of 6, 12 and 18 mm are sold as
# 1/4, 1/2 and 3/4 in, which are up to 5.9 % more (common practice, no source).
NAMED_SHARE = 0.06
SHEET_FT = (8, 4)  # a sheet's length and width
BOARDS_FT = (6, 8, 10, 12, 14, 16, 18, 20)  # lengths of timber


def screw_text(size_mm):
    """A screw's thickness and length, and the gauge and length in its place, never longer by more
    than LONGER_MM: 4 x 50 (#8 x 2 in)."""
    thick, long = size_mm
    gauge = min(GAUGES, key=lambda one: abs((GAUGE_IN + GAUGE_STEP_IN * one) * MM_PER_IN - thick))
    inches = max((one for one in SCREW_LONG_IN if one * MM_PER_IN <= long + LONGER_MM),
                 default=SCREW_LONG_IN[0])
    return f"{thick:g} x {long:g} (#{gauge} x {_inches(inches)} in)"


def bolt_text(size_mm):
    """A bolt's thickness and length, and in its place one that is no shorter:
    M6 x 35 (1/4-20 x 1 1/2 in)."""
    thick, long = size_mm
    inches = min(one for one in BOLT_LONG_IN if one * MM_PER_IN >= long)
    return f"M{thick:g} x {long:g} ({_threaded(thick)} x {_inches(inches)} in)"


def bolt_name(size_mm):
    """A bolt's thickness alone: M6 (1/4-20)."""
    return f"M{size_mm[0]:g} ({_threaded(size_mm[0])})"


def _threaded(thick_mm):
    inches = _nearest(THREADS, thick_mm)
    return f"{_inches(inches)}-{THREADS[inches]}"


def bit_inches(hole_mm):
    """The drill in inches for a hole, the nearest that is sold."""
    return inches_text(hole_mm, SMALL_PARTS if hole_mm <= SMALL_BIT_MM else LARGE_PARTS)


def bit_text(hole_m):
    """A hole with the drill for it in both: 3.2 mm (1/8 in)."""
    hole_mm = round(hole_m * MM_PER_M, 2)
    return f"{hole_mm:g} mm ({bit_inches(hole_mm)} in)"


def cord_text(thick_mm):
    """A cord's thickness, and the nearest that is sold by the inch: 4 mm (5/32 in)."""
    return f"{thick_mm:g} mm ({_inches(_nearest(CORD_IN, thick_mm))} in)"


def inside_text(inside_mm):
    """The inside of an eyelet or a ring, and the nearest that is sold so."""
    return f"{inside_mm:g} mm ({_inches(_nearest(INSIDE_IN, inside_mm))} in)"


def fine_text(*sizes_mm):
    """What a caliper or a feeler measures, in thousandths of an inch, never more:
    1 to 1.2 mm (0.039 to 0.047 in)."""
    return (f"{' to '.join(f'{one:g}' for one in sizes_mm)} mm "
            f"({' to '.join(map(caliper_text, sizes_mm))} in)")


def section_text(*sides_m):
    """The finished sides of a stick, never more in inches: 36 x 16 mm (1.417 x 0.629 in)."""
    said = section_told(*sides_m)
    return f"{said} ({said.inches})"


def section_told(*sides_m):
    """The same in one of both: 36 x 16 mm, or 1.417 x 0.629 in."""
    sides_mm = [round(float(one) * MM_PER_M, 2) for one in sides_m]
    return Told(f"{' x '.join(f'{one:g}' for one in sides_mm)} mm",
                f"{' x '.join(map(caliper_text, sides_mm))} in")


def plywood_inches(thickness_m):
    """The inches that plywood of a thickness in metres is sold as: 1/2 for 12 mm."""
    mm = thickness_m * MM_PER_M
    for parts in PLYWOOD_PARTS:
        named = round(mm / MM_PER_IN * parts) * MM_PER_IN / parts
        if abs(named - mm) <= NAMED_SHARE * mm:
            break
    return inches_text(mm, parts)


def sold_as(thickness_m):
    """What plywood of a thickness is sold as, in both: 12 mm (1/2 in)."""
    return f"{thickness_m * MM_PER_M:g} mm ({plywood_inches(thickness_m)} in)"


def sold_told(thickness_m):
    """The same in one of both, as its reader buys it: 12 mm, or 1/2 in; of a sheet as it truly
    measures, to the whole millimetre."""
    whole_mm = round(thickness_m * MM_PER_M)
    return Told(f"{whole_mm} mm", f"{plywood_inches(whole_mm / MM_PER_M)} in")


def foot_sheet_m():
    """Length and width of a sheet as it is sold by the foot."""
    return tuple(one * MM_PER_FT / MM_PER_M for one in SHEET_FT)


def foot_board_ft(long_m):
    """The shortest board sold by the foot that is no shorter; None where none is."""
    return next((one for one in BOARDS_FT if one * MM_PER_FT >= long_m * MM_PER_M), None)


def truly_told(thickness_m):
    """The same with what it truly measures where its name tells another: 3/4 in, truly 0.708 in."""
    named = sold_told(thickness_m)
    true = section_told(thickness_m)
    return Told(*(name if name == own else f"{name}, truly {own}" for name, own in (
        (str(named), str(true)), (named.inches, true.inches))))


def _nearest(sizes_in, mm):
    return min(sizes_in, key=lambda one: abs(one * MM_PER_IN - mm))


def _inches(inches):
    return inches_text(inches * MM_PER_IN, SMALL_PARTS)
