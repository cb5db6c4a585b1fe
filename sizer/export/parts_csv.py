"""The station list, the stringer list and the shopping list as CSV, in millimetres or in inches
with fractions.

Cautions lead each file. In inches, masses are pounds, running lengths feet, and volumes what the
United States pour by.
"""

from itertools import pairwise

from sizer.design.records import MOULDED_POINT
from sizer.export.job_csv import Lengths, job_csv
from sizer.shop.items import IN_FEET
from sizer.shop.scarfs import SCARF_RATIO
from sizer.shop.stringers import ALLOWANCE_M
from sizer.units import INCH_PARTS, MM_PER_M, caliper_text, inches_error_mm, marks_apart

# Places of a bevel that takes out a stick's lean, each from the tape's mark back
ASLANT = ("inner face lower edge", "inner face upper edge", "outer face lower edge",
          "outer face upper edge")


def stringer_csv(job, sticks, unit):
    """The stringer list of a job and its Sticks; unit "mm" or "in", in fractions to the nearest
    1/32, the rounding stated in the file."""
    shown = Lengths(unit)
    frames = [frame.name for frame in job.lines.design.frames]
    scarfs = max(len(side.middles_m) for stick in sticks
                 for side in (stick.joints, stick.starboard))
    steps = max((len(end.taper.widths_m) for stick in sticks
                 for end in (stick.forward, stick.after) if end.taper), default=0)
    header = ["stringer", "sticks", "wood", f"width {unit}", f"depth {unit}", f"length {unit}",
              f"cut {unit}"]
    for side in ("forward", "after"):
        header += [f"{side} end on", f"{side} end", f"{side} bevel in plan deg",
                   *(f"{side} bevel aslant {place} {unit}" for place in ASLANT),
                   f"{side} cut off square deg", f"{side} coaming slope deg",
                   f"{side} round {unit}", f"{side} taper {unit}", f"{side} taper meeting deg"]
        for number in range(1, steps + 1):
            header += [f"{side} taper {number} at {unit}", f"{side} taper {number} width {unit}"]
    for axis in ("plan", "profile"):
        header += [f"tightest radius in {axis} {unit}", f"{axis} at {unit}",
                   f"{axis} radius over thickness", f"{axis} bend"]
    header += ["greatest twist deg", f"scarf length {unit}", "mind"]
    for side in ("port", "starboard"):
        header += [f"{side} scarf {number} middle {unit}" for number in range(1, scarfs + 1)]
    header += [f"mark {name} {unit}" for name in frames]
    rows = [_stick_row(stick, shown, frames, scarfs, steps) for stick in sticks]
    return job_csv(job, "Stringer list", shown, header, rows, (
        f"Lengths and marks run along the moulded line, of a stick {MOULDED_POINT}, from the "
        "finished forward end to each frame's reference face; a tapered end is its feather tip, "
        "and tapers are told from it",
        f"Cut: {shown(ALLOWANCE_M)} {unit} left over at each end, trimmed in the dry fit; a scarf "
        f"is {SCARF_RATIO:g} times the thickness long (common practice, no source)"))


def _stick_row(stick, shown, frames, scarfs, steps):
    one = stick.stringer
    row = [one.name, one.count, one.wood, shown(one.width_m), shown(one.depth_m),
           shown(stick.length_m), shown(stick.cut_m)]
    for end in (stick.forward, stick.after):
        taper = end.taper
        lay = end.aslant
        row += [end.on, end.words, _deg(end.bevel_deg), *map(shown, (
                    *lay.inner_m, *lay.outer_m) if lay else (None,) * len(ASLANT)),
                _deg(end.cut_deg), _deg(end.slope_deg), shown(end.round_m),
                shown(taper.length_m if taper else None),
                _deg(taper.meeting_deg if taper else None)]
        pairs = list(taper.widths_m) if taper else []
        for place, width in pairs + [(None, None)] * (steps - len(pairs)):
            row += [shown(place), shown(width)]
    for bend in (stick.plan, stick.profile):
        row += (["", "", "", "straight"] if bend is None else
                [shown(bend.radius_m), shown(bend.along_m), f"{bend.ratio:.0f}", bend.verdict])
    row += [_deg(stick.twist_deg),
            shown(stick.joints.scarf_m) if stick.joints.middles_m else "", "; ".join(stick.says)]
    sides = stick.joints.middles_m, stick.starboard.middles_m if one.count > 1 else ()
    for middles in sides:
        row += [shown(place) for place in (*middles, *[None] * (scarfs - len(middles)))]
    marks = {crossing.frame: crossing.along_m for crossing in stick.crossings}
    return row + [shown(marks.get(name)) for name in frames]


def materials_csv(job, materials, unit):
    """The shopping list, then the weights by kind, then the cutting plan, in one table.

    Parameters as `stringer_csv`; materials : Materials of the job's boat.
    """
    shown = Lengths(unit, INCH_PARTS)
    weight_unit, weight = IN_FEET["kg"] if unit == "in" else ("kg", 1.0)
    header = ["part", "what", "quantity", "unit", f"size 1 {unit}", f"size 2 {unit}",
              f"size 3 {unit}", "allowance or note"]
    rows = []
    for item in materials.items:
        quantity, name = item.bought(unit)
        sizes = [*map(shown, item.size_m)] if unit == "mm" else [
            *item.inches(lambda mm: shown(mm / MM_PER_M))]
        rows.append([item.group, item.what, quantity, name, *sizes, *[""] * (3 - len(sizes)),
                     item.allowance])
    rows += [["weight", group.name, f"{group.mass_kg * weight:.3f}", weight_unit,
              shown(group.x_m), "", shown(group.z_m),
              "sizes: centre aft of the bow, and over the baseline"]
             for group in materials.weights]
    for plan in materials.cutting:
        sides = [caliper_text(side * MM_PER_M) if unit == "in" else shown(side)
                 for side in (plan.width_m, plan.depth_m)]
        for number, length in enumerate(plan.lengths, start=1):
            rows += [["cutting", f"{plan.wood}, length {number}: {piece.stick}, "
                      f"piece {piece.number} of {piece.of}", "1", "piece", *sides,
                      shown(piece.length_m), f"from {shown(length.stock_m)} {unit}"]
                     for piece in length.pieces]
    return job_csv(job, "Materials", shown, header, rows, (
        "To buy, with the allowance beside each line; weights are those that the boat floats with",
        *(["Finished sides of sticks in thousandths, never over, as a caliper reads them; "
           "thicknesses of plywood as it is sold"] if unit == "in" else []),
    ))


def _deg(value):
    return "" if value is None else f"{value:.1f}"


def station_csv(job, unit):
    """The station list of a job; unit as in `stringer_csv`. Lines beginning
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
