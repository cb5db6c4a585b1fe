"""What the list of jobs says of a fitted boat."""

import re

from sizer.book.records import Summary
from sizer.design.library import shipped_names
from sizer.fit.sizes import main_sizes_mm
from sizer.units import length_text


def summary_of(job):
    """The Summary of a `sizer.job.Job`: base, sizes in mm, status."""
    base = job.request.trip.base
    return Summary(base if base in shipped_names() else job.lines.design.name,
                   size_words(job.fitted.assessed.boat), job.fitted.status)


def size_words(boat):
    """A boat's length, beam and depth as the book has them: 4650 x 560 x 290 mm, then in inches, so
    that neither is read off the other's rounding and a job is found by both."""
    mm, inches = (" x ".join(length_text(size, unit) for size in main_sizes_mm(boat))
                  for unit in ("mm", "in"))
    return f"{mm.replace(' mm', '')} mm ({inches})"


def size_in(words, unit):
    """What `size_words` says in one unit, or what older books have, which is whole mm with their
    unit or without; any other text as it is."""
    found = re.fullmatch(r"(\d+) x (\d+) x (\d+)(?: mm)?(?: \((.*)\))?", words)
    if not found:
        return words
    *whole_mm, inches = found.groups()
    if unit == "in" and inches:
        return inches.replace(" x ", " × ")
    return " × ".join(length_text(float(size), unit) for size in whole_mm)
