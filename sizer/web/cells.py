"""A table of cells to type into: our own small component, and what it says back."""

from pathlib import Path

import streamlit as st

from sizer.design.cells import cell_text, kind_of, value_at
from sizer.design.grids import GRIDS, grid_of
from sizer.web.draft import typed_text

_HERE = Path(__file__).parent
_table = st.components.v2.component(
    "sizer_cells", css=(_HERE / "cells.css").read_text("utf-8"),
    js=(_HERE / "cells.js").read_text("utf-8"))


def put_cells(bench, units, on_edit):
    """Puts the workbench's table in view on the page.

    Parameters
    ----------
    bench : Workbench
    units : Units
    on_edit : called with {path: text} when cells were changed
    """
    grid = grid_of(bench.sheet.file, bench.grid)
    key = f"cells_{bench.grid}"
    _table(key=key, data=_data(bench, grid, units),
           on_edited_change=lambda: _edited(bench, grid, st.session_state[key].edited, on_edit))


def _edited(bench, grid, edits, on_edit):
    """Hands new edits on; those that came before are the table making sure."""
    fresh = [edit for edit in edits or () if edit["number"] > bench.seen]
    paths = {(r, c): one.path for r, row in enumerate(grid.rows) for c, one in enumerate(row)}
    texts = {paths[edit["row"], edit["column"]]: edit["text"] for edit in fresh
             if (edit["row"], edit["column"]) in paths}  # the row may have gone meanwhile
    bench.seen = max((edit["number"] for edit in fresh), default=bench.seen)
    if texts:
        on_edit(texts)


def _data(bench, grid, units):
    """What the component draws."""
    faults = {}
    for one in bench.sheet.faults:
        for cell in one.cells:
            faults.setdefault(cell, f"{one.fault.value}: {one.fault.allowed}")
    asked, cell = bench.focus
    place = next(([r, c] for r, row in enumerate(grid.rows) for c, one in enumerate(row)
                  if cell is not None and one.path == cell), [-1, -1])
    return {"grid": bench.grid, "label": GRIDS[bench.grid], "seen": bench.seen,
            "headings": grid.headings, "focus": [asked, *place],
            "rows": [[_cell(bench.sheet.file, one, units, faults) for one in row]
                     for row in grid.rows]}


def _cell(file, entry, units, faults):
    if entry.path is None:
        return {"text": entry.words}
    kind = kind_of(entry.path)
    unit = {"length": f", {units.length}", "mass": f", {units.mass}"}.get(kind, "")
    return {"text": cell_text(entry.path, value_at(file, entry.path), units, typed_text),
            "label": entry.words + unit, "kind": kind, "choices": entry.choices or None,
            "fault": faults.get(entry.path)}
