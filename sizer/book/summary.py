"""What the list of jobs says of a fitted boat."""

from sizer.book.records import Summary
from sizer.design.library import shipped_names
from sizer.fit.sizes import main_sizes_text


def summary_of(job):
    """The Summary of a `sizer.job.Job`: base, sizes in mm, status."""
    base = job.request.trip.base
    return Summary(base if base in shipped_names() else job.lines.design.name,
                   f"{main_sizes_text(job.fitted.assessed.boat)} mm", job.fitted.status)
