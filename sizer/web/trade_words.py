"""How the trade-offs are said: axes in the units of the screen, sentences and tables."""

from collections import Counter
from itertools import groupby

from sizer import units
from sizer.export.fit_words import STATUS_WORDS
from sizer.fit.checks import CENTRE_GOOD_TO_M
from sizer.web.trade_charts import STATUSES, Axis, limits_of

LENGTH_SCALES = {"mm": units.MM_PER_M, "cm": units.MM_PER_M / 10.0,
                 "in": units.MM_PER_M / units.MM_PER_IN}
FORCE_DIGITS = {"N": 1, "lbf": 2}  # after the point, as forces are read
NOT_KNOWN = "not known: it sinks so, or finds no rest"  # where `known` of sizer.fit gives None


def dimension_axis(one, dimension):
    if dimension.key == "seat":
        unit = "" if one.length_unit == "in" else f" {one.length_unit}"
        return Axis("seat", f"seat,{unit} aft of the base's place", LENGTH_SCALES[one.length_unit],
                    lambda value: seat_text(one, value), _told_in(one, "m")[2],
                    one.length_unit == "in")
    return _axis(one, dimension)


def result_axis(one, result):
    """The Axis of a Result; drag names its speed."""
    axis = _axis(one, result)
    if result.key != "drag":
        return axis
    words = f"drag at {speed_text(one.speed_mps)}"
    return Axis(words, f"{axis.title} (estimate)", axis.per_unit, axis.text)


def _axis(one, what):
    name, scale, step, text = _told_in(one, what.unit)
    inches = name == "in"
    return Axis(what.words, what.words if inches else f"{what.words}, {name}", scale, text, step,
                inches)


def _told_in(one, unit):
    """(Name of the screen's unit, how many are one SI unit, the step to which a figure is written,
    in SI, and the function of SI that writes it) of what is in m, kg, N, deg or of the base."""
    if unit == "m":
        name = one.length_unit
        return name, LENGTH_SCALES[name], units.READ_TO_MM[name] / units.MM_PER_M, one.said
    if unit == "kg":
        return (("kg", 1.0, 0.1, one.weighed) if one.mass_unit == "kg" else
                ("lb", 1.0 / units.KG_PER_LB, units.KG_PER_LB, one.weighed))
    if unit == "N":
        name, newtons = units.force_unit(one.mass_unit)
        digits = FORCE_DIGITS[name]
        return (name, 1.0 / newtons, newtons / 10**digits,
                lambda value: f"{value / newtons:.{digits}f} {name}")
    if unit == "deg":
        return "degrees", 1.0, 1.0, "{:.0f}°".format
    return "% of the base's", 100.0, 0.01, "{:.0%}".format


def quantity_text(one, value, unit):
    """A figure in SI for reading, with its unit."""
    return _told_in(one, unit)[3](value)


def change_text(one, before, after, unit):
    """The difference of two figures as they are written, with its sign and unit."""
    step = _told_in(one, unit)[2]
    steps = round(after / step) - round(before / step)
    size = quantity_text(one, abs(steps) * step, unit)
    return f"±{size}" if not steps else ("+" if steps > 0 else "−") + size


def seat_text(one, shift_m):
    """A seat's place against the base's own."""
    size = one.said(abs(shift_m))
    if size == one.said(0.0):
        return "at its own place"
    return f"{size} {'aft' if shift_m > 0.0 else 'forward'}"


def speed_text(speed_mps):
    """A speed in knots and in m/s, for headings."""
    return f"{speed_mps * units.KN_PER_MPS:.1f} knots ({speed_mps:.2f} m/s)"


def every_speed_text(speed_mps):
    """A speed in all units that paddlers use, for sentences."""
    return (f"{speed_mps * units.KN_PER_MPS:.1f} knots ({speed_mps:.2f} m/s, "
            f"{speed_mps * units.KMH_PER_MPS:.1f} km/h, {speed_mps * units.MPH_PER_MPS:.1f} mph)")


def stays_sentence(seat_held, moved):
    if "seat" in moved:
        return "Everything else stays as fitted."
    seat = "stays where it is held" if seat_held else "slides to level trim"
    return f"Everything else stays as fitted; the seat {seat}."


def curve_sentence(curve, across, up, unit):
    """What a curve says: today's figure, what is asked, where that passes; lengths in `unit`."""
    limits = [f"{words} {up.text(limit)}" for words, limit in limits_of(curve)]
    asked = f"asked: {', '.join(limits)}" if limits else "no check limits it"
    now = curve.today
    said = (f"Today, {across.words} {across.text(curve.at[now])}: {up.words} "
            f"{up.text(curve.value[now])}; {asked}. ")
    if limits:
        said += f"Its checks {_where(curve.bands, across)}. "
    said += f"Every check of the boat {_where(curve.passing, across, 'passes')}."
    if curve.result.key == "gm":
        good_to = units.length_text(CENTRE_GOOD_TO_M * units.MM_PER_M, unit)
        said += f" GM is good to about {good_to}, from where the paddler's mass is taken to be."
    return said


def _where(stretches, across, verb="pass"):
    if not stretches:
        return f"{verb} nowhere along here"
    # in figures that lie inside as they are read, so that nothing outside is said to pass
    inside = [ends for ends in (across.inside(*each) for each in stretches) if ends]
    if not inside:
        low, high = stretches[0]
        return f"{verb} only close to {across.text(0.5 * (low + high))}"
    return f"{verb} from " + " and from ".join(
        f"{across.text(low)} to {across.text(high)}" for low, high in inside)


def curve_rows(curve, across, up):
    """Rows of a curve's table: place, figure, its checks, every check."""
    return [[across.text(at) + (" (today)" if index == curve.today else ""), up.text(value),
             STATUS_WORDS[status] if curve.result.check else "–", STATUS_WORDS[worst]]
            for index, (at, value, status, worst) in enumerate(
                zip(curve.at, curve.value, curve.status, curve.overall, strict=True))]


def map_sentence(found, status_now):
    """How many boats of a map pass, and what stands in the way most often."""
    counts = Counter(status for row in found.status for status in row)
    names = Counter(name for row, names_row in zip(found.status, found.names, strict=True)
                    for status, cell in zip(row, names_row, strict=True) if status == "fail"
                    for name in cell)
    said = (f"Of {counts.total()} boats tried, {counts['pass']} pass every check, "
            f"{counts['caution']} have a caution and {counts['fail']} do not pass. Today's boat: "
            f"{STATUS_WORDS[status_now]}.")
    if counts["unknown"]:
        said += f" {counts['unknown']} could not be worked out."
    if names:
        said += " Most often in the way: " + " and ".join(
            f"{name} ({count})" for name, count in names.most_common(2)) + "."
    return said


def cell_words(found, across, up, at):
    """(where a boat of a PassingMap is, what is said of it, by which checks) at (column, row)."""
    column, row = at
    said = {"pass": "passes every check", "caution": "caution", "fail": "does not pass",
            "unknown": "could not be worked out"}[found.status[row][column]]
    return (f"{across.words} {across.text(found.across_at[column])}, "
            f"{up.words} {up.text(found.up_at[row])}", said, found.names[row][column])


def cell_sentence(found, across, up, at):
    """The same in a sentence, such as "Length 4600 mm, beam 610 mm: caution by hip room."."""
    place, said, names = cell_words(found, across, up, at)
    by = f" by {', '.join(names)}" if names else ""
    return f"{place[0].upper()}{place[1:]}: {said}{by}."


def map_heads(found, across, up):
    at = {"pass": f"passes at {across.words}", "caution": "caution at", "fail": "does not pass at",
          "unknown": "not worked out at"}
    return (up.words.capitalize(), *(at[status] for status in _told(found)), "what does not pass")


def _told(found):
    """Statuses that have a column: not worked out only where some were not."""
    there = {status for row in found.status for status in row}
    return [status for status in STATUSES if status != "unknown" or status in there]


def map_rows(found, across, up):
    """Rows of a map's table, from the top down: where each status is, and what fails."""
    rows = []
    for at, row, names_row in zip(found.up_at[::-1], found.status[::-1], found.names[::-1],
                                  strict=True):
        failing = dict.fromkeys(name for status, names in zip(row, names_row, strict=True)
                                if status == "fail" for name in names)
        rows.append([up.text(at), *(_runs(found.across_at, row, status, across)
                                    for status in _told(found)), ", ".join(failing) or "–"])
    return rows


def _runs(places, row, wanted, across):
    runs = [[*run] for status, run in groupby(range(len(row)), row.__getitem__) if status == wanted]
    return ", ".join(
        " to ".join(across.text(places[end]) for end in dict.fromkeys((run[0], run[-1])))
        for run in runs) or "–"
