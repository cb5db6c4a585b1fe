"""A table of cells to type into: our own small component, and what it says back."""

from sizer.design.cells import cell_text, kind_of, value_at
from sizer.design.grids import GRIDS, grid_of
from sizer.web.component import component
from sizer.web.figures import typed_text
from sizer.web.state import act, said

_table = component("cells")


def put_cells(bench, units):
    """Puts the workbench's table in view on the page, with every fault under it.

    Parameters
    ----------
    bench : Workbench, which takes what is typed
    units : Units
    """
    grid = grid_of(bench.sheet.file, bench.grid)
    key = f"cells_{bench.grid}"
    _table(key=key, data=_data(bench, grid, units),
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


def _data(bench, grid, units):
    """What the component draws."""
    places = {one.path: (r, c) for r, row in enumerate(grid.rows) for c, one in enumerate(row)
              if one.path}
    asked, cell = bench.focus
    marks = {}
    for one in bench.sheet.faults:
        for path in one.at:
            marks.setdefault(path, f"{one.value}: {one.allowed}")
    return {"label": GRIDS[bench.grid], "seen": bench.seen, "headings": grid.headings,
            "focus": [asked, *places.get(cell, (-1, -1))],
            "rows": [[_cell(bench.sheet.file, one, units, marks) for one in row]
                     for row in grid.rows],
            "faults": [_fault(one, number, places)
                       for number, one in enumerate(bench.sheet.faults)],
            "note": "" if units.length == "mm" else "Sizes in them are in mm."}


def _fault(one, number, places):
    here = next((places[cell] for cell in one.at if cell in places), None)
    return {"place": one.place, "words": f"{one.value}: {one.allowed}",
            "here": here, "number": number if one.at else None}


def _cell(file, entry, units, marks):
    if entry.path is None:
        return {"text": entry.words}
    kind = kind_of(entry.path)
    unit = {"length": f", {units.length}", "mass": f", {units.mass}"}.get(kind, "")
    return {"text": cell_text(entry.path, value_at(file, entry.path), units, typed_text),
            "label": entry.words + unit, "kind": kind, "choices": entry.choices or None,
            "fault": marks.get(entry.path)}
