"""The station list as CSV, in millimetres or in inches with fractions; cautions lead the file."""

from itertools import pairwise

from sizer.design.records import MOULDED_POINT
from sizer.export.job_csv import Lengths, job_csv
from sizer.units import MM_PER_M, inches_error_mm, marks_apart


def station_csv(job, unit):
    """The station list of a job; unit as in `sizer.export.parts_csv.stringer_csv`. Lines beginning
    with # before the table say what it is, its datum and the cautions."""
    shown = Lengths(unit)
    names = [one.name for one in job.lines.design.stringers]
    header = ["frame", "kind", "reference face", "plywood lies", f"strongback mark {unit}",
              f"spacing {unit}", f"from the bow {unit}",
              f"height of the gunwale {unit}", f"height of the keel {unit}", f"plywood {unit}"]
    for name in names:
        header += [f"{name} half-breadth {unit}", f"{name} height {unit}"]
    rows, stations = [], job.setting_up.stations
    marks_mm = [one.strongback_m * MM_PER_M for one in stations]
    apart = marks_apart(marks_mm, unit)
    if unit == "in":  # between two rounded marks both roundings count
        off_mm = [0.0, *map(inches_error_mm, marks_mm)]
        shown.worst_mm = max(abs(to - at) for at, to in pairwise(off_mm))
    for station, spacing in zip(stations, apart, strict=True):
        row = [station.name, station.kind, station.reference_face,
               f"{station.plywood_lies} of the mark"]
        mark, *others = (shown(value) for value in (
            station.strongback_m, station.x_m, station.gunwale_height_m, station.keel_height_m,
            station.thickness_m))
        row += [mark, spacing, *others]
        for name in names:
            row += [shown(value) for value in station.points_m.get(name, ())] or ["", ""]
        rows.append(row)
    up = job.setting_up
    return job_csv(job, "Station list", shown, header, rows, (
        "Marks are one tape pull from the strongback's forward end, which stands "
        f"{shown.told(up.strongback_start_x_m)} aft of the bow; strongback "
        f"{shown.told(up.strongback_length_m)} long",
        "Heights are over the strongback's top; the boat's baseline lies "
        f"{shown.told(up.baseline_height_m)} over it; points are the inside of the skin "
        f"at the reference face, of a stick {MOULDED_POINT}"))
