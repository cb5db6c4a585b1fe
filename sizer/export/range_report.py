"""A range of sizes on paper: the table of sizes, the table of people, and a map of the people."""

from dataclasses import replace

import numpy as np

from sizer.crowd.finished import title_of, titles_of
from sizer.drawing.file_svg import svg_text
from sizer.export.job_csv import lead_of
from sizer.export.range_answer import ended_by, size_answer
from sizer.export.size_map import size_map, who_takes_which
from sizer.fit.sizes import SIZES
from sizer.spreadsheet import csv_text, safe_cell


def sizes_csv(found, choice, imprint):
    """The table of sizes; lines beginning with # say what it is, the shares and the cautions."""
    rows = [[
        one["name"], *(f"{one['size'][key]:.0f}" for key in SIZES),
        f"{one['boat_kg']:.1f}", one["people"], f"{100.0 * one['share']:.1f}",
        one["people_without_caution"], *_spans(one["paddlers"]),
        "; ".join(f"{name}: {people}" for name, people in one["cautions_by_check"].items())]
        for one in (size_answer(found, choice, index) for index in range(len(choice.sizes)))]
    return csv_text(lead_of(imprint, _said(found, choice)), [
        "size", *(key.replace("_", " ") for key in SIZES), "boat kg", "people", "share %",
        "people without a caution", "weight from kg", "weight to kg", "stature from mm",
        "stature to mm", "hips from mm", "hips to mm", "people with a caution"], rows)


def people_csv(found, choice, rows, imprint):
    """The table of people: the size to take, and for who stands between sizes the other too.

    "to spare" counts just-noticeable changes at the tightest check.
    """
    table = []
    for person, row in enumerate(rows):
        one, taken = choice.verdicts[person], int(choice.taken[person])
        spare = choice.spare[person].copy()
        spare[max(taken, 0)] = -np.inf
        other = int(np.argmax(spare))
        also = [choice.sizes[other].name, f"{spare[other]:.1f}"] if np.isfinite(
            spare[other]) else ["", ""]
        table.append([
            row.number, safe_cell(row.label), choice.sizes[taken].name if taken >= 0 else "none",
            title_of(one.tightest), f"{one.spare:.1f}" if np.isfinite(one.spare) else "",
            "; ".join(titles_of(one.fails)), "; ".join(titles_of(one.cautions)), *also])
    return csv_text(lead_of(imprint, _said(found, choice)), [
        "row", "label", "size to take", "tightest check", "to spare there", "fails", "cautions",
        "also served by", "to spare in that"], table)


def people_svg(found, choice, imprint):
    """The people, weight against stature, a shape and a colour for each size; cautions below."""
    drawn = size_map(who_takes_which(found, choice))
    notes = (*drawn.notes, *_said(found, choice))
    return svg_text(replace(drawn, notes=notes), imprint, true_size=False)


def _spans(paddlers):
    for span in paddlers.values():
        yield from (f"{value:.0f}" for value in span) if span else ("", "")


def _said(found, choice):
    """What a size range is, how many it serves and what leaves the others out, in lines."""
    trip, count = found.setting.trip, len(found.measured)
    yield (f"Sizes of {found.setting.lines.design.name} for {trip.use}, gear {trip.gear_kg:g} kg: "
           f"{choice.served} of {count} people served, {choice.clean} without a caution; "
           f"{count - choice.served} left out")
    for key, people in ended_by(choice).items():
        yield f"Left out by {title_of(key)}: {people}"
