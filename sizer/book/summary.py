"""What the list of jobs says of a fitted boat."""

import re

from sizer.book.records import Summary
from sizer.design.library import shipped_names
from sizer.fit.sizes import main_sizes_text


def summary_of(job):
    """The Summary of a `sizer.job.Job`: base, sizes in mm, status."""
    base = job.request.trip.base
    return Summary(base if base in shipped_names() else job.lines.design.name,
                   size_words(job.fitted.assessed.boat), job.fitted.status)


def size_words(boat):
    """A boat's length, beam and depth as the book has them, such as 4650 x 560 x 290 mm."""
    return f"{main_sizes_text(boat)} mm"


def sizes_in(words):
    """Length, beam and depth in mm of `size_words`, with their unit or, in older books, without;
    () of any other text."""
    found = re.fullmatch(r"(\d+) x (\d+) x (\d+)(?: mm)?", words)
    return tuple(map(float, found.groups())) if found else ()
