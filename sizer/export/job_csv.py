"""What every table of a job says before its rows, and its lengths, in mm or in inches."""

from sizer import units
from sizer.export.fit_words import CHECKS_WORDS
from sizer.fit.sizes import main_sizes_mm
from sizer.spreadsheet import csv_text


class Lengths:
    """Writes lengths in one unit, "mm" or "in", and keeps the worst rounding of the fractions."""

    def __init__(self, unit, parts=units.MARK_PARTS):
        self.unit = unit
        self.parts = parts  # of an inch that are the finest
        self.worst_mm = 0.0

    def __call__(self, value_m):
        if value_m is None:
            return ""
        mm = value_m * units.MM_PER_M
        if self.unit == "in":
            self.worst_mm = max(self.worst_mm, abs(units.inches_error_mm(mm, self.parts)))
            return units.inches_text(mm, self.parts)
        return units.mark_figure(mm, self.unit)

    def told(self, value_m):
        """In a sentence, with its unit."""
        return units.mark_text(value_m * units.MM_PER_M, self.unit)


def imprint_lines(imprint):
    """What a text says of itself at its head: the refusal, where there is one, and the line."""
    return [*filter(None, [imprint.refusal]), imprint.line]


def lead_of(imprint, notes=()):
    """The first lines of a file of words: `imprint_lines`, its notes, every caution."""
    return [*imprint_lines(imprint), *notes,
            *(f"CAUTION: {caution}" for caution in imprint.cautions)]


def commented(lines):
    return "".join(f"# {line}\n" for line in lines)


def job_csv(job, title, shown, header, rows, notes):
    """A table of a job, its rows written by the Lengths `shown`; lines beginning with # say what it
    is, its notes, its rounding and the cautions."""
    boat = job.fitted.assessed.boat
    sizes = " x ".join(units.length_text(size, shown.unit) for size in main_sizes_mm(boat))
    what = f"{title}: {boat.design.name}, {sizes}; checks: {CHECKS_WORDS[job.status]}"
    if shown.unit == "in":
        notes = (*notes, f"Fractions are to the nearest 1/{shown.parts} in; rounding moves no "
                 f"length here by more than {shown.worst_mm:.2f} mm")
    return csv_text([what, *lead_of(job.imprint, notes)], header, rows)
