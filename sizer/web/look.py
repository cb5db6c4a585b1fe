"""The look of the pages: paper and ink, one wood colour, status as word and shape.

Only here is HTML put together; every text that did not come from this program is escaped.
"""

from functools import cache, partial
from html import escape

import streamlit as st

from sizer.drawing.marks import PAPER_M, status_mark
from sizer.drawing.page_svg import page_svg
from sizer.drawing.pens import page_css
from sizer.drawing.record import Drawing
from sizer.export.fit_words import STATUS_WORDS
from sizer.export.tiles import PAPERS_MM
from sizer.units import NO_BREAK, unbroken
from sizer.web.component import text_beside
from sizer.web.state import act, draft, kept
from sizer.web.units_first import units_first

COLOURS = {
    "light": {"ink": "#2a2620", "pencil": "#a89c88", "wood": "#8a4b14", "water": "#47788a",
              "body": "#5d6f5a", "paper": "#faf6ee", "line": "#cdbfa6", "panel": "#f3ecdf",
              "pass": "#245c3c", "caution": "#7a4a00", "fail": "#9b1c1c",
              # of the map: a boat's ground by its status, and the mark that stands on it
              "on-pass": "#dfe9d8", "on-caution": "#dcb878", "on-fail": "#8f4438",
              "on-unknown": "#b9b2a6", "mark-pass": "#245c3d", "mark-caution": "#4a2c00",
              "mark-fail": "#ffe9e4", "mark-unknown": "#2b2620"},
    "dark": {"ink": "#ece7dc", "pencil": "#76808a", "wood": "#d79a5c", "water": "#8fbfd0",
             "body": "#a9bfa4", "paper": "#20262b", "line": "#4b555c", "panel": "#293036",
             "pass": "#8fd0a6", "caution": "#f0c060", "fail": "#ff9c92",
             "on-pass": "#9fc7a4", "on-caution": "#8a6a34", "on-fail": "#4a2a2c",
             "on-unknown": "#4d5257", "mark-pass": "#173d26", "mark-caution": "#ffe2a6",
             "mark-fail": "#ffb4ab", "mark-unknown": "#e6e0d4"},
}
KINDS = {"csv": "text/csv", "json": "application/json", "svg": "image/svg+xml",
         "zip": "application/zip", "pdf": "application/pdf", "toml": "application/toml"}
_CSS = text_beside("look.css")
_MOST_DRAWN = 24  # pictures kept of a session: those of the pages visited last; our judgement


def colours_of(theme):
    """The colour variables as CSS: of the page's theme as it is now, whatever we knew of it.

    A system may turn dark while a page is open. `theme`, "light" or "dark", is what a browser
    that cannot tell by itself shows.
    """
    light, dark = COLOURS["light"], COLOURS["dark"]
    known = dark if theme == "dark" else light
    plain = "".join(f"--sz-{name}: {value};" for name, value in known.items())
    own = "".join(f"--sz-{name}: light-dark({light[name]}, {dark[name]});" for name in light)
    return (f":root {{{plain}}} "
            f"@supports (color: light-dark(red, red)) {{:root {{{own}}}}}")


@cache
def chart_css():
    """Rules that give a chart's strokes and fills, of either theme, the page's colours."""
    rules = []
    for name in COLOURS["light"]:
        for what in ("fill", "stroke"):
            where = ", ".join(f'.js-plotly-plot [style*="{what}: {_rgb(COLOURS[theme][name])}"]'
                              for theme in COLOURS)
            rules.append(f"{where} {{ {what}: var(--sz-{name}) !important; }}")
    return "\n".join(rules)


def _rgb(colour):
    return "rgb({}, {}, {})".format(*(int(colour[at:at + 2], 16) for at in (1, 3, 5)))


def put_styles():
    """Puts the page's styles, in the colours of the theme that the person chose."""
    st.html(f"<style>{colours_of(st.context.theme.type)}{page_css()}{chart_css()}{_CSS}</style>")


def put(html):
    """Puts HTML of ours on the page, drawings included, the reader's units first."""
    one = draft()
    said = units_first(html.replace("\n", " "), one.length_unit, one.mass_unit)
    st.markdown(unbroken(said), unsafe_allow_html=True)


def put_picture(drawing, on=""):
    """Puts a Drawing; `on` "wide" or "narrow" screens alone, where it is for those."""
    put(_picture(drawing, on))


def put_drawn(draw, *what, on="", **form):
    """Puts what `draw` makes of `what`, as `put_picture`; what was drawn before is kept."""
    put(_drawn(draw, what, on, **form))


def put_scrolled(drawing):
    """Puts a long Drawing, which a phone shows large and moves sideways, and says so."""
    put('<p class="sz-sideways">The drawing goes on to the right: move it sideways.</p>'
        f'<div class="sz-picture sz-scrolled" tabindex="0" role="group" '
        f'aria-label="picture, moves sideways">{page_svg(drawing)}</div>')


def put_both(wide, narrow):
    """Puts HTML of two forms: for a desk, and for a phone."""
    put(f'<div class="sz-wide">{wide}</div><div class="sz-narrow">{narrow}</div>')


def put_scene(draw, *what):
    """As `put_drawn` what a scene draws, in its wide form or, on a phone, in its narrow one."""
    put(_drawn(draw, what, "wide") + _drawn(draw, what, "narrow", narrow=True))


def _drawn(draw, what, on, **form):
    """A picture's HTML; all of `what` has a hash, a record without `==` counts as itself."""
    return kept("drawn", (draw, what, on, *form.items()),
                lambda: _picture(draw(*what, **form), on), _MOST_DRAWN)


def _picture(drawing, on):
    kind = f"sz-picture sz-{on}" if on else "sz-picture"
    return f'<div class="{kind}">{page_svg(drawing)}</div>'


def put_download(label, data, name, **more):
    """Puts the button that hands a file over, of the kind that its name's ending says."""
    st.download_button(label, data, name, KINDS.get(name.rpartition(".")[2]), on_click="ignore",
                       **more)


def press(label, verb, *given, **more):
    """Puts a button whose press reads the page, then does `verb(*given)`; `more` of st.button."""
    st.button(label, on_click=act, args=(verb, *given), **more)


def put_papers(label, make, stamp, which):
    """Puts a button for each paper that a sheet is printed on; `make(paper)` gives its bytes."""
    for paper in PAPERS_MM:
        put_download(f"{label}, {paper} (PDF)", partial(make, paper),
                     stamp.named(f"{which}-{paper}.pdf"))


def status_html(status):
    """A status as shape and word, in colour."""
    return f'<span class="sz-status sz-{status}">{_shape(status)}{STATUS_WORDS[status]}</span>'


@cache
def _shape(status):
    """The status's shape as tall as text, named by its word."""
    drawn = Drawing(STATUS_WORDS[status], tuple(status_mark((0.0, 0.0), status, PAPER_M, 16.0)),
                    (STATUS_WORDS[status],), (0.0, 0.0, 16.0 * PAPER_M, 16.0 * PAPER_M))
    return page_svg(drawn, "1em")


def whole(text):
    """A text that no line ends within."""
    return text.replace(" ", NO_BREAK)


def note_html(text, kind="caution"):
    """A sentence set off from the page."""
    return f'<div class="sz-note sz-{kind}">{escape(text)}</div>'


def echo_html(html, fault=""):
    """The line under a field: HTML of what was understood, or in its place what is wrong."""
    if fault:
        return f'<div class="sz-echo sz-fault" role="alert">✕ {escape(fault)}</div>'
    return f'<div class="sz-echo">{html}</div>'


def place():
    """A place for what is there at times only, above what is typed or moved: without one, what is
    below would move up or down, and a field that moves is drawn anew and drops out of the hand."""
    return st.container()


def put_fault(fault):
    """Puts what is wrong with what was typed, where something is."""
    with place():
        if fault:
            put(f'<div class="sz-fault" role="alert">✕ {escape(fault)}</div>')


def put_alert(text, kind="caution"):
    """Puts a sentence that a screen reader says at once."""
    put(f'<div role="alert">{note_html(text, kind)}</div>')


def table_html(headings, rows, numbers=(), stack=False, plain=()):
    """A table of lists of cell HTML under headings, which are escaped here; `numbers` are the
    columns set to the right. With `stack`, on a phone each row becomes a block with headings beside
    the values, but for those of the columns `plain`, which speak for themselves there."""
    head = "".join(f'<th scope="col"{_right(i, numbers)}>{escape(text)}</th>'
                   for i, text in enumerate(headings))
    body = "".join(
        "<tr>" + "".join(
            f'<td{_right(i, numbers)}{_heading(i, headings, stack, plain)}>{cell}</td>'
            for i, cell in enumerate(row)) + "</tr>"
        for row in rows)
    kind = "sz-table sz-stack" if stack else "sz-table"
    return (f'<div class="sz-table-box" tabindex="0" role="group" aria-label="table: '
            f'{escape(headings[0])}"><table class="{kind}"><thead><tr>{head}</tr></thead>'
            f"<tbody>{body}</tbody></table></div>")


def _right(index, numbers):
    return ' class="sz-n"' if index in numbers else ""


def _heading(index, headings, stack, plain):
    shown = stack and index and index not in plain
    return f' data-h="{escape(headings[index])}"' if shown else ""
