"""The station list as CSV, in millimetres or in inches with fractions; cautions lead the file."""

import csv
import io

from sizer.fit.sizes import main_sizes_text
from sizer.units import MM_PER_M, inches_error_mm, inches_text

DENOMINATOR = 32
BYTE_ORDER_MARK = "﻿"  # so that spreadsheets read the signs as UTF-8


def station_csv(job, unit):
    """The station list of a job.

    Parameters
    ----------
    job : Job
    unit : "mm" or "in"; inches are fractions to the nearest 1/32, the rounding stated in the file

    Returns
    -------
    str, lines beginning with # before the table: what it is, datum, cautions.
    """
    lengths = []

    def shown(value_m):
        mm = value_m * MM_PER_M
        lengths.append(mm)
        return f"{mm:.1f}" if unit == "mm" else inches_text(mm, DENOMINATOR)

    names = [one.name for one in job.lines.design.stringers]
    header = ["frame", "kind", "reference face", "plywood lies", f"strongback mark {unit}",
              f"spacing {unit}", f"from the bow {unit}", f"gunwale height {unit}",
              f"keel height {unit}", f"plywood {unit}"]
    for name in names:
        header += [f"{name} half-breadth {unit}", f"{name} height {unit}"]
    rows = []
    for station in job.setting_up.stations:
        row = [station.name, station.kind, station.reference_face,
               f"{station.plywood_lies} of the mark"]
        row += [shown(value) for value in (
            station.strongback_m, station.spacing_m, station.x_m, station.gunwale_height_m,
            station.keel_height_m, station.thickness_m)]
        for name in names:
            row += [shown(value) for value in station.points_m.get(name, ())] or ["", ""]
        rows.append(row)
    return csv_text(_lead(job, unit, lengths), header, rows)


def csv_text(lead, header, rows):
    """A table for spreadsheets, led by sentences behind #."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerows([f"# {line}"] for line in lead)
    writer.writerow(header)
    writer.writerows(rows)
    return BYTE_ORDER_MARK + text.getvalue()


def _lead(job, unit, lengths_mm):
    fitted, up = job.fitted, job.setting_up
    boat = fitted.assessed.boat
    yield (f"Station list: {boat.design.name}, {main_sizes_text(boat)} mm; "
           f"checks: {_words(fitted.status)}")
    yield ("Marks are one tape pull from the strongback's forward end, which stands "
           f"{up.strongback_start_x_m * MM_PER_M:.0f} mm aft of the bow; strongback "
           f"{up.strongback_length_m * MM_PER_M:.0f} mm long")
    yield ("Heights are over the strongback's top; the boat's baseline lies "
           f"{up.baseline_height_m * MM_PER_M:.0f} mm over it; points are the inside of the skin "
           "at the reference face")
    if unit == "in":
        worst = max(abs(inches_error_mm(mm, DENOMINATOR)) for mm in lengths_mm)
        yield (f"Fractions are to the nearest 1/{DENOMINATOR} in; rounding moves no figure here by "
               f"more than {worst:.2f} mm")
    for caution in job.cautions:
        yield f"CAUTION: {caution}"


def _words(status):
    return {"pass": "all pass", "caution": "pass with caution", "fail": "DOES NOT PASS"}[status]
