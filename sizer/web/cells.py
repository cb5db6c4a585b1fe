"""A table of cells to type into: our own small component, and what it says back."""

import re

from sizer.design.cells import cell_text, kind_of, value_at
from sizer.design.grids import GRIDS, grid_of
from sizer.web.component import component
from sizer.web.figures import signed_text, typed_text
from sizer.web.state import act, said

_table = component("cells")
_NUMBER = r"(?<![\w.])-?\d+(?:\.\d+)?(?![\w.])"
_BETWEEN = r"(?: to |, ends at |, )"  # of figures that one unit follows
_SHOWN = {"length": "mm", "mass": "kg"}  # by kind of figure, the unit that a file is in


def put_cells(bench, units):
    """Puts the table in view of a Workbench on the page, in Units, with every fault under it."""
    grid = grid_of(bench.sheet.file, bench.grid)
    key = f"cells_{bench.grid}"
    _table(key=key, data=cells_data(bench, grid, units),
           on_edited_change=lambda: act(_edited, bench, grid, said()[key].edited, units),
           on_asked_change=lambda: act(_asked, bench, said()[key].asked))


def _asked(bench, number):
    """Goes to the first cell of a fault in another table."""
    faults = bench.sheet.faults
    if number is not None and number < len(faults):
        bench.go_to(faults[number].at[0])


def _edited(bench, grid, edits, units):
    """Hands new edits on; those that came before are the table making sure.

    Where rows came or went meanwhile, by undo or on another screen, none is taken.
    """
    fresh = [edit for edit in edits or () if edit["number"] > bench.seen]
    now = grid_of(bench.sheet.file, bench.grid)
    same = (len(now.rows), now.headings) == (len(grid.rows), grid.headings)
    paths = {(r, c): one.path for r, row in enumerate(grid.rows) for c, one in enumerate(row)
             if same}
    texts = {paths[edit["row"], edit["column"]]: edit["text"] for edit in fresh
             if (edit["row"], edit["column"]) in paths}
    bench.seen = max((edit["number"] for edit in fresh), default=bench.seen)
    if texts:
        bench.enter(texts, units)


def cells_data(bench, grid, units):
    places = {one.path: (r, c) for r, row in enumerate(grid.rows) for c, one in enumerate(row)
              if one.path}
    (asked, cell), sheet = bench.focus, bench.sheet
    marks = {}
    for one in sheet.faults:
        for path in one.at:
            marks.setdefault(path, _fault_words(one, units))
    headings = [(over, under + _unit([row[column] for row in grid.rows] if column else [], units))
                for column, (over, under) in enumerate(grid.headings)]
    return {"label": GRIDS[bench.grid], "seen": bench.seen, "headings": headings,
            "focus": [asked, *places.get(cell, (-1, -1))],
            "rows": [[_cell(sheet.file, one, units, marks,
                            _unit(row[1:], units) if one is row[0] else "") for one in row]
                     for row in grid.rows],
            "faults": [{"place": one.place, "words": _fault_words(one, units),
                        "here": next((places[at] for at in one.at if at in places), None),
                        "number": number if one.at else None}
                       for number, one in enumerate(sheet.faults)]}


def _unit(entries, units):
    """", in", ", lb" or such of entries that have one unit; "" where they have not."""
    kinds = {kind_of(one.path) for one in entries if one.path}
    kind = kinds.pop() if len(kinds) == 1 else ""
    kind = "length" if kind == "end" else kind
    return f", {getattr(units, kind)}" if kind in _SHOWN else ""


def _fault_words(one, units):
    """What is wrong and what is allowed, in the units that are typed."""
    return ": ".join(in_units(words, units) for words in (one.value, one.allowed))


def in_units(words, units):
    """A fault's words, which are in mm and kg, in Units; examples of how to write stay."""
    if "such as" in words:
        return words
    for kind, own in _SHOWN.items():
        unit = getattr(units, kind)
        if unit == own:
            continue

        if words.endswith(f", in {own}"):
            words = re.sub(_NUMBER, rf"\g<0> {own}", words.removesuffix(f", in {own}"))
        words = re.sub(rf"(\[?{_NUMBER}(?:{_BETWEEN}{_NUMBER})*\]?) {own}\b",
                       lambda found, unit=unit: f"{_figures(found[1], unit)} {unit}", words)
    return words


def _figures(words, unit):
    """Words with their figures in mm or kg written in a unit."""
    return re.sub(_NUMBER, lambda found: signed_text(float(found[0]), unit), words)


def _cell(file, entry, units, marks, of_row=""):
    """An entry as it is drawn; `of_row` is the unit that words at a row's head bear."""
    if entry.path is None:
        return {"text": entry.words + of_row}
    kind = kind_of(entry.path)
    unit = {"length": f", {units.length}", "mass": f", {units.mass}"}.get(kind, "")
    return {"text": cell_text(entry.path, value_at(file, entry.path), units, typed_text),
            "label": entry.words + unit, "kind": kind, "choices": entry.choices or None,
            "fault": marks.get(entry.path)}
