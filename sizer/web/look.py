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
from sizer.export.tiles import PAPERS_MM

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
WORDS = {"pass": "passes", "caution": "caution", "fail": "does not pass"}
KINDS = {"csv": "text/csv", "json": "application/json", "svg": "image/svg+xml",
         "zip": "application/zip", "pdf": "application/pdf", "toml": "application/toml"}

_CSS = """
.block-container { max-width: 1240px; padding-top: .8rem; padding-bottom: 4.5rem; }
[data-testid=stHeader] { height: 0; min-height: 0; }
[data-testid=stMain] * { transition: none !important; }
[data-testid=stMain] [data-stale] { opacity: 1 !important; }  /* every part fading at every move
  costs a phone more than the move; the boat's line and pictures alone pale until they are new */
[data-testid=stMain] [data-stale=true] :is(.sz-strip, .sz-picture) { opacity: .4;
  transition: opacity .5s ease-in .5s !important; }
.sz-narrow { display: none; }
.stElementContainer:has(.sz-unseen), :has(> .st-key-reach), .st-key-news {
  position: absolute; width: 1px; }
.sz-unseen { position: absolute; width: 1px; height: 1px; overflow: hidden;
  clip-path: inset(50%); }  /* for screen readers */
.st-key-odds .sz-picture { padding-bottom: 1rem; }
.sz-picture svg { width: 100%; height: auto; display: block; }
.st-key-steps { flex-direction: row; flex-wrap: wrap; align-items: center; gap: .3rem 1rem; }
.st-key-steps > :first-child { flex: 1 1 auto; width: auto; }
.st-key-steps > :last-child { flex: none; width: auto; }
.st-key-links button { min-height: 1.9rem; padding: 0 .3rem; }
.st-key-links button p { color: var(--sz-ink); }
.st-key-links strong { border-bottom: 2px solid var(--sz-wood); }
.st-key-units button { min-height: 1.9rem; padding: 0 .6rem; }
:has(> .st-key-strip) { position: sticky; top: 0; z-index: 80; background: var(--sz-paper); }
[data-testid=stMain] { scroll-padding: 7rem 0 6rem; }  /* what is in hand stands clear of both */
.st-key-strip { border-top: 1px solid var(--sz-line); border-bottom: 1px solid var(--sz-line);
  padding: .25rem 0; flex-wrap: nowrap; }
.st-key-strip > :first-child { flex: 1 1 0; min-width: 0; width: 0; }
.st-key-strip > :not(:first-child) { flex: none; width: auto; }  /* undo stays in its place */
.st-key-strip [data-testid=stMarkdownContainer] { margin-bottom: 0; }
.st-key-undo { width: 9.4rem; flex: none; flex-wrap: nowrap; justify-content: flex-end; }
.st-key-undo button { min-height: 2rem; padding: 0 .6rem; }
.sz-strip { display: flex; flex-wrap: wrap; gap: .1rem 1.2rem; align-items: baseline;
  font-size: .95rem; font-variant-numeric: tabular-nums; }
.sz-whose { font-weight: 600; border: 1px dashed var(--sz-wood); padding: 0 .5rem; }
.sz-status { white-space: nowrap; font-weight: 600; }
.sz-status svg { width: 1.05em; height: 1.05em; vertical-align: -.15em; margin-right: .3em; }
.sz-pass { color: var(--sz-pass); } .sz-caution { color: var(--sz-caution); }
.sz-fail { color: var(--sz-fail); }
[data-testid=stElementContainer]:has(.sz-job) { flex: 1 1 14rem; }
.sz-table-box { overflow-x: auto; background: linear-gradient(to right, var(--sz-paper) 40%,
  transparent) left, linear-gradient(to left, var(--sz-paper) 40%, transparent) right,
  linear-gradient(to right, var(--sz-wood), transparent) left,
  linear-gradient(to left, var(--sz-wood), transparent) right;
  background-size: 2.4rem 100%, 2.4rem 100%, .8rem 100%, .8rem 100%;
  background-repeat: no-repeat;
  background-attachment: local, local, scroll, scroll; }  /* a shade where columns go on */
.block-container:has([class*=st-key-cells_]) { max-width: 1760px; }
.sz-table-box { margin-bottom: 1rem; } .stMarkdown .sz-table { margin: 0; }
.sz-table { border-collapse: collapse; width: 100%; font-size: .9rem;
  font-variant-numeric: tabular-nums; }
.stMarkdown .sz-table th, .stMarkdown .sz-table td { border-left: 0; border-right: 0;
  border-top: 0; }
.stMarkdown .sz-table th { text-align: left; font-weight: 600;
  border-bottom: 1px solid var(--sz-ink); padding: .25rem .6rem .25rem 0; vertical-align: bottom; }
.stMarkdown .sz-table td { border-bottom: 1px solid var(--sz-line); padding: .3rem .6rem .3rem 0;
  vertical-align: top; }
.stMarkdown .sz-table .sz-n { text-align: right; white-space: nowrap; }
.sz-why { font-size: .82rem; opacity: .85; }
.sz-promise { font-size: 1.1rem; margin: .2rem 0 0; }
.sz-note { border-left: 4px solid var(--sz-line); background: var(--sz-panel);
  padding: .5rem .8rem; margin: .3rem 0; }
.sz-note.sz-fail { border-color: var(--sz-fail); color: inherit; }
.sz-note.sz-pass { border-color: var(--sz-pass); color: inherit; }
.sz-note.sz-caution { border-color: var(--sz-caution); color: inherit; }
.st-key-boat { display: grid; grid-template-columns: minmax(0, 13fr) minmax(17rem, 7fr);
  grid-template-rows: auto 1fr; gap: .8rem 2rem; }
.st-key-boat > * { min-width: 0; }
.st-key-boat > :has(> .st-key-boat_moves) { grid-column: 2; grid-row: 1 / span 2; }
.st-key-boat_moves { gap: .5rem; }
.st-key-boat_moves [data-testid=stSlider] label { margin: 0; }
.st-key-boat_moves [data-testid=stSlider] label + div > div { padding: 10px 0; }
.st-key-boat_moves > [class*=st-key-wished] [data-testid=stSlider] { display: flex;
  align-items: flex-end; }
.st-key-boat_moves > [class*=st-key-wished] [data-testid=stSlider] label { width: 8.2rem;
  margin-bottom: 5px; }
.st-key-boat_moves > [class*=st-key-wished] [data-testid=stSlider] label + div { flex: 1; }
.st-key-boat_moves > [class*=st-key-wished] [data-testid=stSlider] label + div > div {
  padding-top: 25px; }
[class*=st-key-size_] [data-testid=stMarkdownContainer] { margin: 0; line-height: 1.2; }
.st-key-folds { gap: .2rem; }
[class*=st-key-move_] { flex-wrap: nowrap; }
[class*=st-key-move_] > :last-child { flex: none; width: 6.6rem; }
[class*=st-key-move_] > :first-child { flex: 1 1 0; min-width: 0; }
[class*=st-key-move_] input { padding: .2rem .5rem; text-align: right;
  font-variant-numeric: tabular-nums; }
[class*=st-key-move_] [data-testid=stTextInputRootElement] { height: 2rem; }
[class*=st-key-move_] [data-testid=stSliderThumbValue] { display: none; }  /* typed beside it */
[class*=st-key-release_] button { min-height: 1.5rem; padding: 0 .3rem; }
.stMarkdown ul.sz-wrongs { list-style: none; margin: 0; padding: 0; display: grid;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 27rem), 1fr)); gap: .6rem 1.2rem; }
.stMarkdown ul.sz-wrongs > li { display: flex; gap: .9rem; margin: 0; padding: .5rem .8rem;
  border-left: 4px solid; background: var(--sz-panel); }
.sz-wrongs > li > div { color: var(--sz-ink); flex: 1; min-width: 0; }
.stLayoutWrapper:has(> .st-key-wrong):not(:has(.stMarkdown)) { display: none; }
.st-key-wrong:has(ul) { display: grid; gap: .6rem 1.2rem;
  grid-template-columns: repeat(auto-fit, minmax(min(100%, 27rem), 1fr)); }
.st-key-wrong > :has(li:nth-child(2)), .st-key-wrong:has(li:nth-child(2)) > * {
  grid-column: 1 / -1; }  /* one fault stands beside its remedies, more above them */
.st-key-wrong [data-testid=stMarkdownContainer] { margin: 0; }
.sz-wrongs .sz-picture { flex: none; width: 8.5rem; align-self: center; }
.stMarkdown .sz-wrongs p { margin: .2rem 0 0; }
.sz-wrongs details { display: inline; } .sz-wrongs details[open] { display: block; }
.sz-wrongs summary, .sz-table summary { cursor: pointer; text-decoration: underline dotted; }
.st-key-mends { gap: .4rem; font-size: .95rem; }
[class*=st-key-remedy_] { flex-wrap: nowrap; }
[class*=st-key-remedy_] > :first-child { flex: none; width: auto; }
[class*=st-key-remedy_] > :last-child { flex: 1 1 0; min-width: 0; width: auto; }
[class*=st-key-remedy_] button { min-height: 2rem; padding: 0 .6rem; }
[class*=st-key-remedy_] [data-testid=stMarkdownContainer],
[class*=st-key-remedy_] p { margin: 0; line-height: 1.35; }
.sz-bar svg { width: 150px; height: 18px; display: block; }
.sz-words { columns: 2; column-gap: 2.5rem; }
.sz-words dt { font-weight: 600; margin-top: .5rem; break-after: avoid; }
.sz-words dd { margin-left: 0; break-inside: avoid; }
.sz-fault { color: var(--sz-fail); font-size: .88rem; }
.sz-echo { font-size: .85rem; min-height: 1.5em; margin-top: -.75rem; padding-bottom: .5rem; }
.sz-echo:not(.sz-fault) { opacity: .85; }
[data-testid=InputInstructions] { display: none; }  /* it would cover what was understood */
.sz-foot { position: fixed; left: 0; right: 0; bottom: 0; z-index: 90; padding: .4rem 1rem;
  background: var(--sz-panel); border-top: 2px solid var(--sz-caution); font-size: .85rem;
  line-height: 1.35; text-align: center; }
[data-testid=stSliderThumbValue], [data-variant=segmented_control] p {
  color: var(--sz-ink) !important; }
[data-testid=stCaptionContainer] { opacity: .85 !important; }
[data-test-connection-state]:not([data-test-connection-state=CONNECTED])::after {
  content: "The program cannot be reached. What was entered until now is kept in the book, and "
    "this page comes back by itself once the program runs again. Enter nothing until then.";
  position: fixed; left: 0; right: 0; top: 0; z-index: 999999; padding: .6rem 1rem;
  background: var(--sz-fail); color: #fff; text-align: center; }
@media (max-width: 1400px) {  /* the pages and the units on one line of a small desk */
  .st-key-links { gap: 0; } .st-key-links button { padding: 0 .25rem; }
  .st-key-links button p { font-size: .88rem; } .st-key-units button { padding: 0 .45rem; }
}
@media (max-width: 640px) {
  .sz-words { columns: 1; }
  .sz-scrolled { overflow-x: auto; } .sz-scrolled svg { width: 880px; }
  .sz-wide { display: none; } .sz-narrow { display: block; }
  .block-container { padding-left: .8rem; padding-right: .8rem; padding-bottom: 5.4rem; }
  .sz-foot { font-size: .78rem; padding: .3rem .6rem; }
  .st-key-steps > :first-child, .st-key-steps > :last-child { width: 100%; }
  .st-key-links button { padding: 0 .4rem; }
  .st-key-boat { grid-template-columns: minmax(0, 1fr); grid-template-rows: none; }
  .st-key-boat > :has(> .st-key-boat_moves) { grid-column: 1; grid-row: auto; }
  .stMarkdown ul.sz-wrongs > li { padding: .4rem .6rem; display: block; }
  .st-key-boat_moves { padding-top: .7rem; }
  .sz-wrongs .sz-picture { width: 7rem; float: left; margin: 0 .6rem .2rem 0; }
  [class*=st-key-remedy_] p { font-size: .9rem; }
  .sz-strip { font-size: .82rem; gap: 0 .7rem; }
  .st-key-undo { flex-direction: column; align-items: flex-end; gap: .2rem; width: 4.4rem; }
  .st-key-undo button { min-height: 1.6rem; padding: 0 .4rem; }
  .sz-table.sz-stack br { display: none; }
  .sz-table.sz-stack, .sz-table.sz-stack tbody { display: block; width: 100%; }
  .sz-table.sz-stack thead { display: none; }
  .sz-table.sz-stack tr { display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.2rem;
    border-bottom: 1px solid var(--sz-line); padding: .4rem 0; }
  .stMarkdown .sz-table.sz-stack td { display: block; border: 0; padding: 0; text-align: left;
    white-space: normal; }
  .stMarkdown .sz-table.sz-stack td.sz-n { display: flex; justify-content: space-between;
    gap: .5rem; text-align: right; }
  .sz-table.sz-stack td:has(.sz-why), .sz-table.sz-stack td:first-child:has(+ .sz-n) {
    grid-column: 1 / -1; }
  .sz-table.sz-stack td[data-h]::before { content: attr(data-h) " ";
    opacity: .75; text-align: left; }
}
"""


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
    """A colour as a chart writes it."""
    return "rgb({}, {}, {})".format(*(int(colour[at:at + 2], 16) for at in (1, 3, 5)))


def put_styles():
    """Puts the page's styles, in the colours of the theme that the person chose."""
    st.html(f"<style>{colours_of(st.context.theme.type)}{page_css()}{chart_css()}{_CSS}</style>")


def put(html):
    """Puts HTML of ours on the page, drawings included."""
    st.markdown(html.replace("\n", " "), unsafe_allow_html=True)


def put_picture(drawing, on=""):
    """Puts a Drawing; `on` "wide" or "narrow" screens alone, where it is for those."""
    put(_picture(drawing, on))


def put_scrolled(drawing):
    """Puts a long Drawing, which a phone shows large and moves sideways."""
    put(f'<div class="sz-picture sz-scrolled" tabindex="0" role="group" '
        f'aria-label="picture, moves sideways">{page_svg(drawing)}</div>')


def put_both(wide, narrow):
    """Puts HTML of two forms: for a desk, and for a phone."""
    put(f'<div class="sz-wide">{wide}</div><div class="sz-narrow">{narrow}</div>')


def put_scene(draw, *what):
    """Puts what a scene draws, in its wide form or, on a phone, in its narrow one."""
    put(_picture(draw(*what), "wide") + _picture(draw(*what, narrow=True), "narrow"))


def _picture(drawing, on):
    kind = f"sz-picture sz-{on}" if on else "sz-picture"
    return f'<div class="{kind}">{page_svg(drawing)}</div>'


def put_download(label, data, name, **more):
    """Puts the button that hands a file over, of the kind that its name's ending says."""
    st.download_button(label, data, name, KINDS.get(name.rpartition(".")[2]), on_click="ignore",
                       **more)


def put_papers(label, make, stamp, which):
    """Puts a button for each paper that a sheet is printed on; `make(paper)` gives its bytes."""
    for paper in PAPERS_MM:
        put_download(f"{label}, {paper} (PDF)", partial(make, paper),
                     stamp.named(f"{which}-{paper}.pdf"))


def status_html(status):
    """A status as shape and word, in colour."""
    return f'<span class="sz-status sz-{status}">{_shape(status)}{WORDS[status]}</span>'


@cache
def _shape(status):
    """The status's shape as tall as text, named by its word."""
    drawn = Drawing(WORDS[status], tuple(status_mark((0.0, 0.0), status, PAPER_M, 16.0)),
                    (WORDS[status],), (0.0, 0.0, 16.0 * PAPER_M, 16.0 * PAPER_M))
    return page_svg(drawn, "1em")


def whole(text):
    """A text that no line ends within."""
    return text.replace(" ", "\N{NO-BREAK SPACE}")


def note_html(text, kind="caution"):
    """A sentence set off from the page."""
    return f'<div class="sz-note sz-{kind}">{escape(text)}</div>'


def echo_html(html, fault=""):
    """The line under a field: HTML of what was understood, or in its place what is wrong."""
    if fault:
        return f'<div class="sz-echo sz-fault" role="alert">✕ {escape(fault)}</div>'
    return f'<div class="sz-echo">{html}</div>'


def put_fault(fault):
    """Puts what is wrong with what was typed, where something is."""
    if fault:
        put(f'<div class="sz-fault" role="alert">✕ {escape(fault)}</div>')


def put_alert(text, kind="caution"):
    """Puts a sentence that a screen reader says at once."""
    put(f'<div role="alert">{note_html(text, kind)}</div>')


def table_html(headings, rows, numbers=(), stack=False, plain=()):
    """A table; cells are HTML already.

    Parameters
    ----------
    headings : texts, escaped here
    rows : lists of cell HTML
    numbers : indices of columns set to the right
    stack : on a phone, each row becomes a block with headings beside the values
    plain : indices of columns whose values speak for themselves there
    """
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
