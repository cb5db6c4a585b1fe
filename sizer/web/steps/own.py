"""The builder's own design: edited in a table, with the drawing beside it."""

import re
from html import escape

import streamlit as st

from sizer.design.cells import Units, sound
from sizer.design.grids import GRIDS
from sizer.design.library import shipped_names, shipped_text
from sizer.design.offsets import offsets_csv
from sizer.design.records import MOULDED_POINT
from sizer.design.write import design_toml
from sizer.errors import BadInput
from sizer.fit.cautions import standing_cautions
from sizer.fit.sizes import main_sizes_mm
from sizer.hull.fairness import worst_status
from sizer.scenes.long_views import as_drawn
from sizer.units import MM_PER_M
from sizer.web.cells import put_cells
from sizer.web.figures import typed_text
from sizer.web.look import note_html, press, put, put_download, put_picture, status_html, table_html
from sizer.web.session import lines_of, shipped_lines
from sizer.web.state import act, begin_job, change, choice, draft, kept, kept_job, said, view
from sizer.web.steps.own_use import put_asked, put_use
from sizer.web.upload import KINDS, read_upload
from sizer.web.workbench import Workbench, copied, sheet_of, sheet_with, table_of

MOST_UPLOAD_MB = 2
MOST_SHEETS = 12  # kept as worked out, for undo and redo
_CAUTION = "# CAUTION: "
_HINTS = {
    "frames": "out is half-breadth, up is height ({units.length}), of each stringer: "
              f"{MOULDED_POINT}. Leave both blank where it does not cross. A block copied from a "
              "spreadsheet can be pasted.",
    "stringers": "width is along the skin, depth is into the boat ({units.length}). A stick "
                 "starts and ends at the stem, the coaming, a place along the boat such as "
                 "1200 mm, or, where it blends into another, “chine at 1200 mm”.",
    "rest": "Lengths ({units.length}), weights ({units.mass}), cloth (g/m²). Limits of length, "
            "beam, depth and crown are factors.",
}


def _bench():
    return kept("workbench", "own", lambda: Workbench(_sheet, _put))


def _sheet():
    """The Sheet of the draft's table; of a copy of the base before anything is entered there."""
    one = draft()
    if one.own_table is not None:
        return kept("sheets", one.own_table, lambda: sheet_of(one.own_table), MOST_SHEETS)
    text = one.base_text()
    return kept("sheet_of_base", (one.base, text),
                lambda: sheet_with(copied(lines_of(one, one.base).design), text))


def _put(sheet):
    """Takes the next Sheet into the draft: where the visit began here, of nobody's boat yet; the
    sample paddler was not asked for."""
    table = table_of(sheet)
    kept("sheets", table, lambda: sheet, MOST_SHEETS)
    if kept_job() is None and draft().sample and view().get("began") == "own":
        begin_job(draft().new_customer(), empty=True)
    change(draft().but(own_table=table))


def page():
    one, bench = draft(), _bench()
    picture, table = st.columns([5, 7], gap="medium")
    with picture:
        _picture(one, bench)
    with table:
        put_use(bench)
        put_asked(bench)
        _table(one, bench)
    _files(bench)


def _picture(one, bench):
    """The design as drawn, its size, and whether its sticks are fair."""
    drawn, unit = bench.sheet.drawn, one.length_unit
    if not bench.good:
        put(note_html("The table has faults; the drawing shows the last design without any.",
                      "fail"))
    put_picture(as_drawn(drawn.boat, drawn.unfair, bench.sheet.frame))
    length, beam, depth = map(one.said_mm, main_sizes_mm(drawn.boat))
    put(f"<p><b>{escape(drawn.design.name)}</b>: {length} long, {beam} wide, {depth} deep. "
        f"The run of its sticks: {status_html(worst_status(drawn.unfair))}</p>")
    if worst_status(drawn.unfair) == "fail":
        put(note_html("Boats of this base do not pass until the sticks below run fair.", "fail"))
    if drawn.unfair:
        rows = [[f"{number} {escape(found.stringer)}", status_html(found.status),
                 f"{escape(found.what)} {escape(found.place)}, in {found.axis}",
                 _by(found, unit)]
                for number, found in enumerate(drawn.unfair, start=1)]
        put(table_html(("Ring", "status", "what and where", "by"), rows))


def _by(found, unit):
    """What to move a bump's point by, or how deep a hollow is."""
    size = f"{typed_text(abs(found.offset_m) * MM_PER_M, unit)} {unit}"
    ways = {"plan": ("inwards", "outwards"), "profile": ("down", "up")}[found.axis]
    return f"move {size} {ways[found.offset_m > 0]}" if found.what == "bump" else f"{size} deep"


def _table(one, bench):
    units = Units(one.length_unit, one.mass_unit)
    view()["own_grid"] = bench.grid
    st.segmented_control("Table", tuple(GRIDS), format_func=GRIDS.get, required=True,
                         label_visibility="collapsed",
                         **choice("own_grid", bench.grid, bench.show, "default"))
    put_cells(bench, units)
    put(f'<span class="sz-why">{_HINTS[bench.grid].format(units=units)}</span>')
    if bench.grid != "rest":
        _rows(bench)


def _rows(bench):
    part = "frame" if bench.grid == "frames" else "stringer"
    rows = bench.sheet.file[part]
    with st.container(horizontal=True, vertical_alignment="bottom", gap="small"):
        at = st.selectbox(f"One {part}", range(len(rows)), key=f"own_{part}", width=170,
                          format_func=lambda index: sound(rows[index]["name"]))
        if part == "frame":
            press("Add a frame behind it", bench.add_frame, at,
                  disabled=not bench.good or at == len(rows) - 1)
        else:
            press("Add one above it", bench.add_stringer, at,
                  disabled=not bench.can_add_stringer(at))
        press("Take it out", bench.remove_frame if part == "frame" else bench.remove_stringer, at)


def _files(bench):
    opened, copies, saved = st.columns(3, gap="medium")
    with opened:
        st.file_uploader("Open a design (.toml), or offsets (.csv) for this design",
                         type=list(KINDS), max_upload_size=MOST_UPLOAD_MB, key="own_file",
                         on_change=act, args=(_open, bench))
        if bench.file_faults:
            put('<div class="sz-fault" role="alert">✕ This file was not opened; the table is as '
                "it was:</div>")
            for fault in bench.file_faults:
                put(f'<div class="sz-fault">✕ {escape(str(fault))}</div>')
    with copies:
        put("<p>Or start from a copy:</p>")
        with st.container(horizontal=True, gap="small"):
            for name in shipped_names():
                design = shipped_lines(name).design
                press(f"Copy {design.name}", bench.open, copied(design), shipped_text(name),
                      key=f"copy_{name}")
    with saved:
        put("<p>Save it as a file:</p>")
        _downloads(bench)


def _open(bench):
    given = said()["own_file"]
    if given is None:
        bench.file_faults = ()
        return
    try:
        text, design = read_upload(given.name, given.getvalue(), bench.sheet.drawn.design,
                                   bench.sheet.text)
        bench.open(design, text)
    except BadInput as error:
        bench.file_faults = error.faults


def _downloads(bench):
    sheet = bench.sheet  # a file is made when it is asked for, where no session is known
    design = sheet.drawn.design
    name = re.sub(r"[^a-z0-9]+", "-", design.name.lower()).strip("-") or "own-design"
    cautions = "".join(f"{_CAUTION}{caution}\n" for caution in standing_cautions())
    why = None if bench.good else "Mend the faults first."

    def toml():
        return cautions + "".join(line for line in design_toml(design, sheet.text).splitlines(
            keepends=True) if not line.startswith(_CAUTION))  # of a file saved here before

    with st.container(horizontal=True, gap="small"):
        put_download("Design (TOML)", toml, f"{name}.toml", disabled=not bench.good,
                     help=why)
        for notation, label in (("mm", "Offsets, mm (CSV)"),
                                ("feet", "Offsets, feet-inches-eighths (CSV)")):
            text, cannot = _offsets(design, notation)
            put_download(label, cautions + text, f"{name}-offsets-{notation}.csv",
                         help=why or cannot, disabled=bool(why or cannot))


def _offsets(design, notation):
    """The table of offsets, or why this notation cannot write it."""
    try:
        return offsets_csv(design, notation), None
    except BadInput as error:
        return "", str(error.faults[0])
