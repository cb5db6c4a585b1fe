"""Units at the edges: SI inside, millimetres, inches and pounds where people read. What people type
is read by `sizer.as_typed`.

How a length is rounded for reading is settled here alone, so that screen, sheet and table agree.
Sizes of the boat and of its paddler are read to the millimetre or the sixteenth of an inch
(`length_text`). Marks, that is whatever is measured off and worked to at the bench, are read to the
tenth of a millimetre or 1/32 in (`mark_text`): sixteenths are up to 0.8 mm off, so that a frame off
one way between two off the other is a bump of 1.6 mm, which a hand along the stick feels. Inches of
both are those of the tenth of a millimetre. Bounds, that is tolerances and what is to be left, are
rounded to the strict side (`at_most_text`, `at_least_text`).

No line ends within a quantity on screen or paper: `unbroken` joins its parts there, where texts are
set. Files that other programs read keep plain spaces.
"""

import math
import re
from functools import cache
from itertools import pairwise
from numbers import Real

from sizer.errors import BadInput, Fault

# International yard and pound agreement, 1959: exact.
MM_PER_IN = 25.4
MM_PER_FT = 304.8
KG_PER_LB = 0.45359237
LB_PER_STONE = 14
KG_PER_STONE = 6.35029318
# The international nautical mile is 1852 m exactly (Monaco, 1929).
KN_PER_MPS = 3600 / 1852
KMH_PER_MPS = 3.6
MPH_PER_MPS = 3600 / 1609.344  # the mile of 1959: 5280 ft exactly
MM_PER_M = 1000.0
CM2_PER_M2 = 1e4
PA_PER_MPA = 1e6
F_PER_C, F_AT_0_C = 1.8, 32.0  # of the Fahrenheit scale: exact
STANDARD_GRAVITY_MPS2 = 9.80665  # CGPM 1901: exact
N_PER_LBF = KG_PER_LB * STANDARD_GRAVITY_MPS2
J_PER_FT_LBF = N_PER_LBF * MM_PER_FT / MM_PER_M

MM_PER_LENGTH_UNIT = {"mm": 1.0, "cm": 10.0, "m": MM_PER_M, "in": MM_PER_IN, "ft": MM_PER_FT}
KG_PER_MASS_UNIT = {"kg": 1.0, "g": 0.001, "lb": KG_PER_LB, "st": KG_PER_STONE}

LENGTH_UNITS = ("mm", "cm", "in")  # that lengths are read in; the first where none is chosen
INCH_PARTS = 16  # that sizes are read to
MARK_PARTS = 32  # that marks at the bench are read to
NOTHING_MM = 0.05  # less is 0.0 mm as it is read
# What one step of a size as it is read is: of `length_text`.
READ_TO_MM = {"mm": 1.0, "cm": 1.0, "in": MM_PER_IN / INCH_PARTS}
FEET_FROM_IN = 48  # longer sizes are read in feet and inches, as boats' lengths are; our choice

BOUND_PARTS = (INCH_PARTS, MARK_PARTS, 64)  # that bounds are read to, the coarsest that serves
ABOUT_MM = 10  # that is rounded to which is told as "about"; our judgement
LAID_PARTS = 8  # that is rounded to where something is laid by eye; our judgement
BOUND_SHARE = 0.25  # that a bound may be stricter in inches; our judgement
COUNT_DIGITS = 6  # of a count of parts: 25.4 mm is a whole inch, whatever division leaves
G_PER_KG = 1000.0
KG_PER_OZ = KG_PER_LB / 16
M2_PER_SQ_FT = (MM_PER_FT / MM_PER_M) ** 2
M2_PER_SQ_YD = 9 * M2_PER_SQ_FT
M2_PER_SQ_IN = (MM_PER_IN / MM_PER_M) ** 2
L_PER_US_GAL = 231 * MM_PER_IN**3 / 1e6  # 231 cubic inches: exact
# What volumes are sold by there: its name, litres of one, litres up to which it is used.
L_PER_US_UNIT = (("US fl oz", L_PER_US_GAL / 128, L_PER_US_GAL / 4),
                 ("US qt", L_PER_US_GAL / 4, L_PER_US_GAL),
                 ("US gal", L_PER_US_GAL, math.inf))

NO_BREAK = "\N{NO-BREAK SPACE}"
# A space between whole and fraction, before a unit or within one, after ±, or between the two parts
# of feet and inches or of stone and pounds; or a tag, within which nothing is set.
_WITHIN = re.compile(
    r"<[^<>]*>|(?<=\d) (?=\d{1,2}/\d)|(?<=\d['°]) (?=\d)|(?<=\d[ \N{NO-BREAK SPACE}]ft) (?=\d)"
    r"|(?<=\d[ \N{NO-BREAK SPACE}]st) (?=\d)|(?<=\d[ \N{NO-BREAK SPACE}]sq) (?=(?:in|ft|yd)\b)"
    r"|(?<=±) (?=\d)"
    r"|(?<=\d) (?=(?:mm|cm|m|in|ft|sq|kg|g|lb|st|l|N|lbf|J|°[CF]|knots|m/s|mph|%|US)(?![\w/]))"
    r"|(?<=US) (?=(?:fl|qt|gal)\b)|(?<=US fl) (?=oz\b)")


def temperature_figure(temperature_c, unit):
    """A temperature as a figure in "°C", to the tenth, or "°F", whole."""
    if unit == "°F":
        return f"{temperature_c * F_PER_C + F_AT_0_C:.0f}"
    return f"{round(temperature_c, 1) + 0.0:g}"


def temperature_text(temperature_c):
    """A temperature in both units, such as 8.9 °C (48 °F)."""
    celsius, fahrenheit = (f"{temperature_figure(temperature_c, unit)} {unit}"
                           for unit in ("°C", "°F"))
    return f"{celsius} ({fahrenheit})"


def offset_text(mm, place="offset"):
    """Feet-inches-eighths to the nearest sixteenth, for a length of `mm` >= 0; else BadInput."""
    if not 0 <= mm < math.inf:
        raise BadInput([Fault(place, f"{mm} mm", "an offset of zero or more")])
    eighths, sixteenth = divmod(round(mm / MM_PER_IN * 16), 2)
    inches, eighths = divmod(eighths, 8)
    feet, inches = divmod(inches, 12)
    return f"{feet}-{inches}-{eighths}" + "+" * sixteenth


def inches_text(mm, denominator=MARK_PARTS):
    """Inches with a reduced fraction, to the nearest 1/`denominator`: 387.35 mm is 15 1/4."""
    count = _count(mm, denominator)
    return "-" * (count < 0) + _mixed(abs(count), denominator)


def inches_error_mm(mm, denominator=MARK_PARTS):
    """What `inches_text` says minus what was meant, in mm."""
    return _count(mm, denominator) * MM_PER_IN / denominator - mm


def length_text(mm, unit):
    """A size for reading, with its unit: 387 mm, 38.7 cm, 15 1/4 in or 15 ft 2 7/8 in.

    `unit` is "mm", "cm" or "in"; inches are to the nearest sixteenth, with feet from
    FEET_FROM_IN inches on.
    """
    if unit != "in":
        return f"{_decimals(mm, unit, 0)} {unit}"
    count = _count(mm, INCH_PARTS)
    feet, rest = divmod(abs(count), 12 * INCH_PARTS)
    if abs(count) < FEET_FROM_IN * INCH_PARTS:
        return f"{inches_text(mm, INCH_PARTS)} in"
    inches = f" {_after_feet(rest)} in" if rest else ""
    return "-" * (count < 0) + f"{feet} ft{inches}"


def feet_inches_text(mm):
    """Feet and inches to the nearest sixteenth, for a tape: 1790.7 mm is 5' 10 1/2"."""
    feet, rest = divmod(abs(_count(mm, INCH_PARTS)), 12 * INCH_PARTS)
    return "-" * (mm < 0) + (f"{feet}' {_after_feet(rest)}\"" if feet
                             else f'{_mixed(rest, INCH_PARTS)}"')


def tape_text(mm, parts=MARK_PARTS):
    """A figure at the bench in inches and 1/`parts` with their mark, for a tape: 387.35 mm is
    15 1/4"; in feet and sixteenths from FEET_FROM_IN inches on; less than half a part is said."""
    if NOTHING_MM < abs(mm) < 0.5 * MM_PER_IN / parts:
        return f'under 1/{2 * parts}"'
    if abs(mm) >= FEET_FROM_IN * MM_PER_IN:
        return feet_inches_text(mm)
    return f'{inches_text(mm, parts)}"'


def mark_figure(mm, unit):
    """A mark at the bench as a figure for a column of its unit: 387.4, 38.74 or 15 1/4."""
    return inches_text(mm) if unit == "in" else _decimals(mm, unit, 1)


def mark_text(mm, unit):
    """A mark at the bench with its unit; `unit` is "mm", "cm" or "in"."""
    return f"{mark_figure(mm, unit)} {unit}"


def marks_apart(marks_mm, unit):
    """Figures of `mark_figure` from each mark to the next, the first from where the tape begins:
    between the marks as they are read, so that who adds them up stands where they stand."""
    inches = unit == "in"
    step = MM_PER_IN / MARK_PARTS if inches else 0.1
    counts = [0, *(_count(mm, MARK_PARTS) if inches else round(mm / step) for mm in marks_mm)]
    return [mark_figure((to - at) * step, unit) for at, to in pairwise(counts)]


def rough_text(mm, unit):
    """A length known to a millimetre or so: 8 mm, 0.8 cm or 5/16 in."""
    return (mark_text if unit == "in" else length_text)(mm, unit)


def known_text(mm, spread_mm, unit):
    """A length and one standard deviation of it: 8 mm (± 2) or 5/16 in (± 1/16); to the tenth of a
    millimetre where it is known to less than one."""
    text = mark_text if spread_mm < 1.0 else rough_text
    wide = text(spread_mm, unit).removesuffix(f" {unit}")
    return f"{text(mm, unit)} (± {wide if wide != '0' else f'under 1/{MARK_PARTS}'})"


def both_text(mm, text=length_text):
    """A length in both units, such as 387 mm (15 1/4 in); `text` is length_text or mark_text."""
    return f"{text(mm, 'mm')} ({text(mm, 'in')})"


def about_text(mm, parts=INCH_PARTS):
    """About how long, in whole centimetres, and these in parts of an inch: 203 mm is 200 mm
    (7 7/8 in)."""
    about = round(mm / ABOUT_MM) * ABOUT_MM
    return f"{about:g} mm ({inches_text(about, parts)} in)"


def laid_text(mm):
    """Where what is laid by eye lies, in whole centimetres, and these in eighths of an inch: 1087
    mm is 1090 mm (42 7/8 in)."""
    return about_text(mm, LAID_PARTS)


def at_most_text(mm):
    """A tolerance or other upper bound in both units, never looser in inches: 3 mm (3/32 in)."""
    return f"{mm:g} mm ({_bound_text(mm, math.floor)} in)"


def at_least_text(mm):
    """What is to be left at the least in both units, never less in inches: 15 mm (5/8 in)."""
    return f"{mm:g} mm ({_bound_text(mm, math.ceil)} in)"


def range_text(low_mm, high_mm):
    """Between which lengths in both units, whole mm, never wider than they are: 111 to 129 mm
    (4 3/8 to 5 1/16 in); "none" where there is no length between them."""
    low, high = math.ceil(round(low_mm, COUNT_DIGITS)), math.floor(round(high_mm, COUNT_DIGITS))
    if low > high:
        return "none"
    return (f"{low} to {high} mm ({_bound_text(low, math.ceil)} to "
            f"{_bound_text(high, math.floor)} in)")


def bound_inches(mm, to_strict):
    """A limit in inches as `at_most_text` (`math.floor`) and `at_least_text` (`math.ceil`) have it:
    4 3/8 in; in feet and inches where sizes are, to the nearest where it is no length of a part."""
    if mm <= 0.0:
        return length_text(mm, "in")
    if mm >= FEET_FROM_IN * MM_PER_IN:
        return length_text(to_strict(mm / MM_PER_IN * INCH_PARTS) * MM_PER_IN / INCH_PARTS, "in")
    return f"{_bound_text(mm, to_strict)} in"


def _bound_text(mm, to_strict):
    """`mm` in the coarsest of BOUND_PARTS that `to_strict` moves by no more than BOUND_SHARE."""
    for parts in BOUND_PARTS:
        count = to_strict(round(mm / MM_PER_IN * parts, COUNT_DIGITS))
        if abs(count * MM_PER_IN / parts - mm) <= BOUND_SHARE * mm:
            break
    return _mixed(count, parts)


def caliper_text(mm):
    """Inches as a caliper reads them, in thousandths, never more: 0.984 for 25 mm."""
    return f"{math.floor(round(mm / MM_PER_IN * 1000, COUNT_DIGITS)) / 1000:.3f}"


def least_tape_text(mm, parts):
    """As `tape_text`, never less: an opening that must let something in."""
    return f'{_mixed(math.ceil(round(mm / MM_PER_IN * parts, COUNT_DIGITS)), parts)}"'


def least_caliper_text(mm):
    """As `caliper_text`, never less: an opening that must let something in."""
    return f"{math.ceil(round(mm / MM_PER_IN * 1000, COUNT_DIGITS)) / 1000:.3f}"


def both_cloth(kgpm2):
    """The weight of cloth in both units, such as 310 g a square metre (9.1 oz a square yard)."""
    return (f"{kgpm2 * G_PER_KG:.0f} g a square metre "
            f"({kgpm2 * M2_PER_SQ_YD / KG_PER_OZ:.1f} oz a square yard)")


def us_volume(litres):
    """(figure, unit) of a volume in what it is sold by in the United States: fluid ounces up to a
    quart, quarts up to a gallon, gallons."""
    unit, size_l = next((one for one in L_PER_US_UNIT if litres < one[2]), L_PER_US_UNIT[-1])[:2]
    return litres / size_l, unit


def both_volume(litres, digits=1):
    """A volume in litres and as `us_volume`, such as 1.1 litres (1.2 US qt)."""
    figure, unit = us_volume(litres)
    return f"{litres:.{digits}f} litres ({figure:.{digits}f} {unit})"


def both_mass(kg, digits=1):
    """A mass in kilograms and in pounds, such as 8.3 kg (18.3 lb)."""
    return f"{kg:.{digits}f} kg ({kg / KG_PER_LB:.{digits}f} lb)"


def range_mass(low_kg, high_kg):
    """Between which masses in both units, such as 73.7 to 77.0 kg (162.5 to 169.8 lb)."""
    low_lb, high_lb = low_kg / KG_PER_LB, high_kg / KG_PER_LB
    return f"{low_kg:.1f} to {high_kg:.1f} kg ({low_lb:.1f} to {high_lb:.1f} lb)"


def force_unit(mass_unit):
    """A force's unit where masses are in this one, and how many newtons it is."""
    return ("N", 1.0) if mass_unit == "kg" else ("lbf", N_PER_LBF)


def energy_text(energy_j, mass_unit):
    """An energy for reading where masses are in this unit."""
    return f"{energy_j:.0f} J" if mass_unit == "kg" else f"{energy_j / J_PER_FT_LBF:.1f} ft·lbf"


def area_text(area_m2, length_unit):
    """A boat's area for reading where lengths are in this unit."""
    return f"{area_m2 / M2_PER_SQ_FT:.1f} sq ft" if length_unit == "in" else f"{area_m2:.2f} m²"


def small_area_unit(length_unit):
    """The unit of a skeg's area where lengths are in this one, and how many m² it is."""
    return ("sq in", M2_PER_SQ_IN) if length_unit == "in" else ("cm²", 1.0 / CM2_PER_M2)


def both_force(force_N):
    """A force in newtons and in pounds-force, such as 12.8 N (2.9 lbf)."""
    return f"{force_N:.1f} N ({force_N / N_PER_LBF:.1f} lbf)"


def unbroken(text):
    """A text, or HTML, in which no line ends within a quantity such as 5 ft 9 5/16 in."""
    return _WITHIN.sub(lambda found: NO_BREAK if found[0] == " " else found[0], text)


def plain(text):
    """A text with spaces that break, as other programs expect it."""
    return text.replace(NO_BREAK, " ")


@cache  # so that pictures drawn with it are known again
def of_metres(text, unit):
    """`length_text`, `mark_text` or `mark_figure` in one unit, as a function of metres."""
    return lambda value_m: text(value_m * MM_PER_M, unit)


def _count(mm, parts):
    """How many of so many `parts` of an inch a length is, of its mm as marks are read: what is
    alike in tenths of a millimetre is alike in inches too."""
    return round(round(float(mm), 1) / MM_PER_IN * parts)


def _decimals(mm, unit, digits):
    """`digits` of a millimetre after the point, in mm or in cm."""
    of_unit, digits = (10.0, digits + 1) if unit == "cm" else (1.0, digits)
    return f"{round(mm / of_unit, digits) + 0.0:.{digits}f}"  # + 0.0: no -0


def plain_number(value):
    """`value` as a float if it is a finite number and no bool, else None."""
    if isinstance(value, bool) or not isinstance(value, Real):
        return None
    try:
        number = float(value)
    except OverflowError:
        return None
    return number if math.isfinite(number) else None


def _after_feet(count):
    """Sixteenths of an inch after whole feet: 13' 0 11/16", as 13' 11/16" is read as 13' 11"."""
    return "0 " * (0 < count < INCH_PARTS) + _mixed(count, INCH_PARTS)


def _mixed(count, parts):
    """A count >= 0 of parts of a whole as a mixed number: 0, 3/8, 15, 15 1/4."""
    whole, rest = divmod(count, parts)
    shared = math.gcd(rest, parts)  # by hand: a Fraction would take five times as long
    fraction = f"{rest // shared}/{parts // shared}" if rest else ""
    return f"{whole} {fraction}" if whole and rest else fraction or f"{whole}"
