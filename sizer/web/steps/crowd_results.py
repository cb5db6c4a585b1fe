"""What a run on a crowd found: the sizes and their people, or everyone's fit."""

from html import escape

import numpy as np
import streamlit as st

from sizer.crowd.finished import persons_of, title_of, titles_of
from sizer.crowd.served import OF_THE_PADDLER
from sizer.crowd.sizes import which_size
from sizer.export.fit_words import STATUS_WORDS
from sizer.export.size_map import size_map
from sizer.fit.check_figures import written
from sizer.fit.request import Trip, read_request
from sizer.fit.uses import USES
from sizer.hydro.water import water_at
from sizer.web.charts import SETTINGS, Curve, curves_chart
from sizer.web.look import note_html, put, put_download, put_scrolled, status_html, table_html
from sizer.web.state import kept
from sizer.web.strip import put_cautions

SHARES = (("served_share", "served"), ("without_caution_share", "without a caution"),
          ("room_to_spare_share", "with room to spare"))
MANY = 100  # people, from which a share says more than their count alone
MOST_NAMED = 60  # people whose sizes the page tells one by one; of more the files do
MAP_SCALE = 4.0  # of the map's paper to the page's, so that its pens are as fine as all others


def put_range(one, made, put_about):
    """The sizes chosen (a RangePackage), who takes which, and what more sizes would bring;
    `put_about()` says first what it was made from."""
    answer, files = made.answer, made.files
    sizes = len(answer["sizes"])
    st.header(f"{sizes} size{'s' * (sizes != 1)} of {answer['design']}")
    put_about()
    picture, words = st.columns([3, 2], gap="large")
    with picture:
        drawn = size_map(made.people_map, one.length_unit, one.mass_unit)
        put_scrolled(drawn.scaled(MAP_SCALE))
    with words:
        counted = answer["people"]["counted"]
        put(f"<p><b>{_people(answer['served_share'], counted)} people</b> pass, some of them with "
            f"a caution, in one of these boats, for {escape(USES[answer['use']].words)}.</p>")
        _left_out(answer)
        _which_for_customer(one, made)
    put(table_html(("Size", "length × beam × depth", "cockpit", "people", "weight", "stature",
                    "hip width"), [_size_row(size, one, counted) for size in answer["sizes"]],
                   numbers=(3,), stack=True))
    _who(made)
    _curve(answer["curve"], counted)
    st.subheader("Take away")
    with st.container(horizontal=True):
        for name, data in files.items():
            put_download(name, data, name, key=f"crowd_{name}")
    put(f"<p class='sz-why'>{escape(answer['method'])} {escape(answer['righting_note'])}</p>")
    put_cautions(answer["cautions"], of="this water")


def _people(share, counted):
    """A share of so many people as a count, and in percent where that says more."""
    return f"{round(share * counted)} of {counted}" + (
        f" ({share:.1%})" if counted >= MANY else "")


def _who(made):
    """Who takes which size, and who is left out and why, by name or by row of the list."""
    names = [label or f"row {number}" for number, label in made.people]
    if len(names) > MOST_NAMED:
        put(f"<p class='sz-why'>Who takes which: people.csv below tells all {len(names)}.</p>")
        return
    st.subheader("Who takes which")
    taken = made.people_map.taken.tolist()
    rows = [[f"<b>{escape(size.name)}</b>", escape(", ".join(
        name for name, at in zip(names, taken, strict=True) if at == index)) or "nobody"]
        for index, size in enumerate(made.sizes)]
    rows += [[f"left out: {escape(one['label'] or 'row {row}'.format(**one))}",
              f"fails: {escape(', '.join(one['fails']))}; nearest is {escape(one['nearest_size'])}"]
             for one in made.answer["left_out"]]
    put(table_html(("Size", "who, or what fails"), rows, stack=True, plain=(1,)))


def _size_row(size, one, counted):
    def lengths(*keys):
        return " × ".join(one.said_mm(size["size"][key]) for key in keys)

    def span(key, words):
        limits = size["paddlers"][key]
        return " to ".join(words(value) for value in limits) if limits else "–"

    return [f"<b>{escape(size['name'])}</b>", lengths("length_mm", "beam_mm", "depth_mm"),
            lengths("cockpit_length_mm", "cockpit_width_mm"), _people(size["share"], counted),
            span("weight_kg", one.weighed),
            *(span(key, one.said_mm) for key in ("stature_mm", "hip_width_mm"))]


def _left_out(answer):
    out = answer["left_out_by_check"]
    if out:
        put(table_html(("Left out for", "people"), [[escape(name), str(count)]
                                                    for name, count in out.items()], numbers=(1,)))
    if answer["bad_rows"]:
        rows = ", ".join(str(row["row"]) for row in answer["bad_rows"][:MOST_NAMED])
        put(note_html(f"Rows that could not be used: {rows}; range.json says why."))
    for note in answer["notes"]:
        put(note_html(note))


def _curve(curve, counted):
    st.subheader("What more sizes bring")
    count = np.array([row["sizes"] for row in curve], float)
    if len(curve) > 1:
        curves = [Curve(words, count, np.array([100.0 * row[key] for row in curve]))
                  for key, words in SHARES]
        chart = curves_chart(curves, "sizes", "share of the people, %", st.context.theme.type)
        chart.update_xaxes(dtick=1)
        st.plotly_chart(chart, config=SETTINGS,
                        alt="Share of the people against the number of sizes; the table below "
                        "gives the same")
    put(table_html(("Sizes", *(words for _, words in SHARES), "gap to the best of boats tried"),
                   [[str(row["sizes"]), *(_people(row[key], counted) for key, _ in SHARES),
                     f"{row['bounds'][0]['gap_people']:.0f} people"] for row in curve],
                   numbers=range(5)))


def _which_for_customer(one, made):
    """Every size for the customer at hand: what it leaves, and the one to take."""
    if not one.ready():
        return
    st.subheader("Which size for this customer?")
    rows = _verdicts(one, made)
    put(table_html(("Size", "status", "tightest", "what does not pass"), [
        [f"<b>{escape(name)}</b>" + (", take this one" if place == 0 and found.serves else ""),
         escape(title_of("unknown")) if found.unknown else status_html(found.status),
         escape(title_of(found.tightest)),
         escape(", ".join(titles_of((*found.fails, *found.cautions))) or "–")]
        for place, (name, found) in enumerate(rows)], stack=True))
    if len(rows) > 1 and rows[1][1].serves:
        _given_up(one, rows[:2])


def _given_up(one, rows):
    """Margins of two sizes that both serve."""
    (first, best), (second, other) = rows
    pairs = zip(best.margins, other.margins, strict=True)
    table = [[escape(title_of(key)), _margin(mine, unit, one), _margin(its, unit, one)]
             for (key, mine, unit), (_, its, _) in pairs if key in OF_THE_PADDLER]
    with st.expander(f"What {first} gives up against {second}, and the other way round"):
        put(table_html(("Room left at", first, second), table, numbers=(1, 2)))


def _margin(value, unit, one):
    figure, behind = written(unit, one.length_unit)
    return f"{figure(value)}{behind}"


def _verdicts(one, made):
    """(size's name, Verdict for the customer at hand), the best first; kept while neither moves."""
    def judged():
        answer = made.answer
        measured = read_request(one.request()).measured
        water = water_at(answer["water"]["kind"], answer["water"]["temperature_c"])
        person, = persons_of([measured], Trip(answer["base"], answer["use"], water,
                                              answer["gear_kg"]))
        return which_size({size.name: size.hull for size in made.sizes}, person)

    return kept("verdicts", (repr(one.request()), id(made)), judged)


def put_fits(made, put_about):
    """Everyone's fit, counted by status, with the list to take away, as `put_range`."""
    st.header("Everyone fitted")
    put_about()
    put(table_html(("Status", "people"), [
        [status_html(status) if status in STATUS_WORDS else escape(status), str(count)]
        for status, count in made.statuses], numbers=(1,)))
    put_download("Results (CSV)", made.csv.encode(), "fits.csv", type="primary")
