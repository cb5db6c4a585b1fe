"""Lengths in metres as the sheets write them: sizes, and marks at the bench."""

from sizer.units import MM_PER_M, both_text, mark_figure, mark_text


def mm_of(value_m):
    """A mark in mm, without the unit: 387.4."""
    return mark_figure(value_m * MM_PER_M, "mm")


def in_of(value_m):
    """A mark in inches, without the unit: 15 1/4."""
    return mark_figure(value_m * MM_PER_M, "in")


def columns_of(value_m):
    """A mark for a column in mm and one in inches, both blank where there is none."""
    return ("", "") if value_m is None else (mm_of(value_m), in_of(value_m))


def marked(value_m):
    """A mark in both units: 387.4 mm (15 1/4 in)."""
    return both_text(value_m * MM_PER_M, mark_text)


def sized(value_m):
    """A size in both units: 387 mm (15 1/4 in)."""
    return both_text(value_m * MM_PER_M)
