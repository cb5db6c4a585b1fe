"""The fitted boat as a base design file and as a table of offsets, imprint and cautions in both."""

from dataclasses import replace

from sizer.design.offsets import offsets_csv
from sizer.design.write import design_toml
from sizer.export.job_csv import commented, lead_of
from sizer.hull.redraw import redrawn

ROUNDING_M = 0.0004  # half of the table's finest step


def fitted_design(job):
    """The fitted boat of a job as a BaseDesign, drawn for its paddler."""
    return redrawn(job.fitted.assessed.boat, f"{job.lines.design.name}, fitted", job.drawn_for)


def fitted_design_toml(job):
    """The fitted boat as a design file that reads back; imprint and cautions lead it."""
    return commented(lead_of(job.imprint)) + design_toml(fitted_design(job))


def fitted_offsets_csv(job, notation):
    """The fitted boat's table of offsets; notation "mm" or "feet"."""
    return commented(lead_of(job.imprint)) + offsets_csv(
        _over_baseline(fitted_design(job)), notation)


def _over_baseline(design):
    """The design with its keel's rounding below the baseline taken off: a table has no minus."""
    frames = tuple(replace(frame, points_m={
        name: (y, 0.0 if -ROUNDING_M < z < 0.0 else z) for name, (y, z) in frame.points_m.items()})
        for frame in design.frames)
    return replace(design, frames=frames)
