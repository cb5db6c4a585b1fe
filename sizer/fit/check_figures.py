"""How figures of checks, and of what is sought, are written for people: declared once, by unit.

JSON answers and CSV columns keep the unit and the numbers of the row itself.
"""

from dataclasses import dataclass

from sizer.units import INCH_PARTS, KG_PER_LB, MM_PER_LENGTH_UNIT, length_text


@dataclass(frozen=True)
class Written:
    """How the figures of one unit are written."""

    unit: str  # behind the last figure of a sentence, with what leads up to it
    digits: int = 1
    per: float = 1.0  # in one of the row's own unit
    length: bool = False  # in mm, or in the unit of the screen


MOST_MORE = 6  # digits more than usual, to tell a miss from its limit

# An area under the righting arm in mm rad is, in mm, how high the same work lifts boat and load:
# righting arm times weight is the moment, and moment times angle the work.
WRITTEN = {
    "mm": Written("", 0, length=True), "mm rad": Written(" of lift", 0, length=True),
    "deg": Written("°"), "kg": Written(" kg"), "times": Written("", 2),
    "times the paddler": Written(" times the paddler", 2),
    "of its volume": Written(" %", 0, 100.0), "of the base": Written(" %", 1, 100.0),
    "radius/thickness": Written(" thicknesses", 0), "of 100": Written(" of 100", 0)}


def written(unit, lengths=None):
    """(function that writes a figure of a row's unit, what stands behind the last one).

    Parameters
    ----------
    unit : key of WRITTEN
    lengths : "mm", "cm" or "in", in which each length says its own unit as screens have it; None
        where it is said behind the last figure alone, in mm, as sheets have it
    """
    how = WRITTEN[unit]
    if how.length and lengths is not None:
        return lambda value_mm: length_text(value_mm, lengths), how.unit
    if unit == "kg" and lengths == "in":  # whoever thinks in inches weighs in pounds
        return lambda kg: f"{kg:.0f} kg ({kg / KG_PER_LB:.0f} lb)", ""
    return (lambda value: _decimals(how.per * value, how.digits)), " mm" * how.length + how.unit


def difference(value, unit, lengths=None):
    """How far two figures of a row's unit are apart, however little; parameters as `written`."""
    how = WRITTEN[unit]
    if not how.length:
        return f"{_finely(how.per * value)}{how.unit}"
    if lengths != "in":
        lengths = lengths or "mm"
        return f"{_finely(value / MM_PER_LENGTH_UNIT[lengths])} {lengths}{how.unit}"
    size = length_text(abs(value), "in")
    if size == length_text(0.0, "in"):
        size = f"less than 1/{INCH_PARTS} in"
    return f"{size}{how.unit}"


def value_words(check, lengths=None):
    """A check's value with its unit; each length as the screen has it in "mm", "cm" or "in", None
    as sheets have it in mm. A miss that reads as its limit is told more finely, beside it."""
    if check.unit == "of 1":  # a question with two answers
        return "yes" if check.value >= 1.0 else "no"
    figure, unit = _figure(check, lengths)
    return f"{figure(check.value)}{unit}{_hair(check, figure, unit, lengths)}"


def miss_words(check, lengths=None):
    """What a check that does not pass reads, and the side of its window that it misses."""
    where = f", {check.says}" if check.says and check.row.value is None else ""
    if check.unit == "of 1":
        return f"{check.name}: no{where}"
    figure, unit = _figure(check, lengths)
    value, limit = figure(check.value), figure(check.limit)
    hair = _hair(check, figure, unit, lengths) if value == limit else ""
    asked = "needed" if check.status == "fail" else "wanted"
    return f"{check.name}{where}: {value}{unit}{hair}, {check.sense} {limit}{unit} {asked}"


def _reads_as_limit(check, figure):
    return check.status != "pass" and figure(check.value) == figure(check.limit)


def _figure(check, lengths):
    """As `written`, with as many digits as tell a miss from its limit; inches have no more."""
    plain, unit = written(check.unit, lengths)
    how = WRITTEN[check.unit]
    if not _reads_as_limit(check, plain) or (
            lengths == "in" and (how.length or check.unit == "kg")):
        return plain, unit
    per, digits, said = how.per, how.digits, ""
    if how.length and lengths is not None:
        per, said = 1.0 / MM_PER_LENGTH_UNIT[lengths], f" {lengths}"
        digits = 1 if lengths == "cm" else 0  # as `length_text`
    for more in range(1, MOST_MORE + 1):
        def finer(value, digits=digits + more):
            return f"{_decimals(per * value, digits)}{said}"

        if not _reads_as_limit(check, finer):
            return finer, unit
    return plain, unit


def _hair(check, figure, unit, lengths):
    """What is missed and of which limit, where rounding would write the value as that; else ""."""
    if not _reads_as_limit(check, written(check.unit, lengths)[0]):
        return ""
    limit = "" if figure(check.value) == figure(check.limit) else f" {figure(check.limit)}{unit}"
    return (f" ({difference(check.margin, check.unit, lengths)} "
            f"{'under' if check.too == 'small' else 'over'}{limit})")


def _finely(value):
    value = abs(value)
    return f"{value:.0f}" if value >= 10.0 else f"{value:.2g}"


def _decimals(value, digits):
    return f"{round(value, digits) + 0.0:.{digits}f}"  # + 0.0: no -0
