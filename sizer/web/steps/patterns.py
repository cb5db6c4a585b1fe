"""The workshop half of the bench: frame patterns, stick cards and materials."""

from html import escape

import streamlit as st

from sizer.drawing.marks import on_page
from sizer.export.tile_words import readable
from sizer.scenes.long_views import fair_marks
from sizer.scenes.strongback import strongback_drawing
from sizer.shop.bench import bench_of
from sizer.shop.settings import shop_words
from sizer.units import INCH_PARTS, MM_PER_M, inches_text, mark_figure, mark_text, of_metres
from sizer.web.keeping import shop_now
from sizer.web.look import (
    note_html,
    put,
    put_picture,
    put_scene,
    put_scrolled,
    status_html,
    table_html,
    whole,
)
from sizer.web.state import go, kept
from sizer.web.turn import long_work

UNIT_NAMES = {"in": "inches"}  # in a sentence
# Of a pattern's width: 11 px where it takes three fifths of a desk's page, or all of a phone's.
LETTERS_SHARES = {"wide": 0.0165, "narrow": 0.028}
LETTERS_M = 0.055  # on the strongback's drawing, to read when it fills the page


def put_strongback(one, job):
    """The strongback with every mark, in the unit of the screen."""
    unit, name = one.length_unit, UNIT_NAMES.get(one.length_unit, one.length_unit)
    drawn = strongback_drawing(job, bench_for(job), LETTERS_M, of_metres(mark_figure, unit))
    put_scrolled(on_page(drawn, "Strongback from above and from the side, with the mark of every "
                         f"frame in {name}"))
    st.caption(f"From above and from the side; marks in {name} from the strongback's forward end, "
               "heights over its top")


def put_workshop(one, job):
    bench = bench_for(job)
    put(f"<p>Made for the shop as it is settled: {escape(shop_words(bench.shop, bench.sold_m))}"
        "</p>")
    if bench.unused_words:
        put(note_html(bench.unused_words))
    st.button("Change the shop", key="to_shop", on_click=go, args=("shop",))
    _patterns(bench, one.length_unit)
    _fairness(job, bench)
    _sticks(one, bench)
    _materials(one, bench)


def bench_for(job):
    """The Bench of a job for the shop as it is settled, kept while neither changes."""
    shop = shop_now()

    def drawn():
        with long_work("Drawing the patterns"):
            return bench_of(job, shop)

    return kept("bench", (job, shop), drawn)


def _patterns(bench, unit):
    st.subheader("Patterns")
    drawings = {drawing.name: drawing for drawing in (*bench.drawings, bench.coaming)}
    picture, notes = st.columns([3, 2], gap="large")
    with picture:
        name = st.selectbox("Pattern", tuple(drawings))
        shown = drawings[name]
        drawn = kept("pattern", (bench, name), lambda: [
            on_page(readable(shown, shown.width_m * share), f"Pattern of {name}")
            for share in LETTERS_SHARES.values()])
        for on, picture_on in zip(LETTERS_SHARES, drawn, strict=True):
            put_picture(picture_on, on)
        st.caption(f"{name}: full size in the files, in mm")
    with notes:
        put(f"<p>{len(bench.checks)} checks of plywood, notches and room: "
            f"{status_html(bench.pattern_status)}</p>")
        _pattern_notes(bench, unit)
    with st.expander("What is checked, and where it is tightest"):
        put(table_html(("Check", "tightest", "asked for", "what it means"),
                       _tightest(bench.checks, unit), stack=True))


def _told(check, value, unit):
    """A figure of a PatternCheck: a count has no decimals, a length is in inches too."""
    if isinstance(value, int):
        return f"{value} {check.unit.removesuffix('s') if value == 1 else check.unit}"
    also = f" ({mark_text(value, 'in')})" * (check.unit == "mm" and unit == "in")
    return f"{value:.1f} {check.unit}{also}"


def _pattern_notes(bench, unit):
    for check in bench.checks:
        if check.status != "pass":
            put(note_html(
                f"{check.frame}, {check.place}: {check.name} {_told(check, check.value, unit)}, "
                f"{check.sense} {_told(check, check.limit, unit)} wanted; {check.meaning}.",
                check.status))


def _tightest(checks, unit):
    """A row for every kind of check: its value where least is left, what is asked, its meaning."""
    kinds = {}
    for one in checks:
        kinds.setdefault((one.name, one.sense, one.limit), []).append(one)
    for some in kinds.values():
        one = min(some, key=lambda check: (check.value - check.limit) * (
            1.0 if check.sense == "at least" else -1.0))
        yield (escape(one.name), f"{_told(one, one.value, unit)}: {escape(one.frame)}, "
               f"{escape(one.place)}", f"{one.sense} {_told(one, one.limit, unit)}",
               f'<span class="sz-why">{escape(one.meaning)}</span>')


def _fairness(job, bench):
    st.subheader("Fair sticks?")
    put(f"<p>{status_html(bench.fairness_status)} &nbsp; "
        + ("every stick bends one way, without hollow or bump.</p>" if not bench.unfair else
           "places to sight along at the dry fit:</p>"))
    if bench.unfair:
        boat = job.fitted.assessed.boat
        put_scene(fair_marks, boat, bench.unfair)
        rows = [[f"{number} {escape(found.stringer)}", status_html(found.status),
                 f"{escape(found.what)}, {escape(found.place)}",
                 f"{found.offset_m * MM_PER_M:.1f} mm",
                 f'<span class="sz-why">{escape(found.meaning)}</span>']
                for number, found in enumerate(bench.unfair, start=1)]
        put(table_html(("Stick", "status", "what and where", "by", "what it means"), rows,
                       numbers=(3,), stack=True, plain=(1, 2, 4)))


def _sticks(one, bench):
    st.subheader("Sticks")
    said = one.marked
    rows = [[f"<b>{escape(stick.name)}</b>", str(stick.stringer.count),
             " × ".join(whole(said(size)) for size in (stick.stringer.width_m,
                                                       stick.stringer.depth_m)),
             said(stick.length_m), said(stick.cut_m),
             escape(stick.verdict), str(len(stick.joints.middles_m)),
             f'<span class="sz-why">{escape(stick.forward.on)}: {escape(stick.forward.words)}; '
             f"{escape(stick.after.on)}: {escape(stick.after.words)}</span>"]
            for stick in bench.sticks]
    put(table_html(("Stick", "count", "stock", "finished", "cut", "bends", "scarfs", "ends"), rows,
                   numbers=(1, 3, 4, 6), stack=True, plain=(5, 7)))


def _sizes(one, item):
    if one.length_unit != "in":
        return map(one.marked, item.size_m)
    return item.inches(lambda mm: f"{inches_text(mm, INCH_PARTS)} in", " in")


def _materials(one, bench):
    with st.expander("Materials to buy"):
        rows = [[escape(item.group), escape(item.what),
                 " × ".join(map(whole, _sizes(one, item))),
                 whole(escape(" ".join(item.bought(one.length_unit)))),
                 f'<span class="sz-why">{escape(item.allowance)}</span>']
                for item in bench.materials.items]
        put(table_html(("For", "what", "size", "how much", "allowance"), rows, stack=True))
