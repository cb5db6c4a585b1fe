"""Beside the walk: a crowd of people, the few sizes that serve most of them, who fits this boat."""

import json
from html import escape

import streamlit as st

from sizer.crowd.people import BadRow, PersonRow, read_people
from sizer.crowd.population import Recipe, population_lines
from sizer.crowd.sizes import MOST_SIZES
from sizer.errors import BadInput
from sizer.fit.uses import USES
from sizer.web.charts import SETTINGS, crowd_chart
from sizer.web.crowd_run import ANSWER, OUT, begin
from sizer.web.draft import length_text, mass_text
from sizer.web.look import note_html, put
from sizer.web.session import OWN, draft, lines_of
from sizer.web.steps.crowd_results import put_fits, put_range
from sizer.web.steps.who_fits import put_who_fits

SOURCES = ("Drawn from the body survey", "My own list")
ACTIONS = {"range": "Choose the sizes that serve most", "batch": "Fit everyone one by one"}
MOST_LIST_MB = 5
LOOKED_EVERY_S = 1.0


def page():
    """Draws the page."""
    one = draft()
    found = st.session_state.get("crowd_found")
    if found is not None:
        put_range(one, found) if found["action"] == "range" else put_fits(found)
    st.header("A crowd and its boats")
    put(f"<p>For <b>{escape(lines_of(one, one.base).design.name)}</b> and "
        f"{escape(USES[one.use].words)}: choose others on the page Use and base. A size serves a "
        "person who passes every check in it with only seat, footbrace and padding moved.</p>")
    _going() if "crowd_run" in st.session_state else _wishes(one)
    put_who_fits(one)


def _wishes(one):
    """Whose bodies, and what is wanted."""
    picture, wanted = st.columns([6, 4], gap="large")
    with wanted:
        source = st.radio("People", SOURCES, horizontal=True, key=_kept("source", SOURCES[0]))
        text, faults = _drawn() if source == SOURCES[0] else _listed()
        for fault in faults:
            put(f'<div role="alert">{note_html(fault, "fail")}</div>')
        action = st.radio("What to do", tuple(ACTIONS), format_func=ACTIONS.get,
                          key=_kept("action", "range"))
        sizes = (st.slider("Sizes, at most", 1, MOST_SIZES, key=_kept("sizes", 3))
                 if action == "range" else None)
        if st.button("Work it out", type="primary", disabled=text is None):
            _start(one, action, text, sizes)
            st.rerun()
        for fault in st.session_state.get("crowd_faults", ()):
            put(f'<div role="alert">{note_html(fault, "fail")}</div>')
    with picture:
        _crowd(one, text)


def _crowd(one, text):
    """The people as marks, weight against stature, and the customer at hand among them."""
    bodies = _bodies(text)
    own = [(one.entries["stature_mm"].value, one.entries["weight_kg"].value)] if one.ready() else []
    st.plotly_chart(crowd_chart(one, bodies, own, st.context.theme.type), config=SETTINGS,
                    key="crowd_chart", alt="Weight against stature of the people")
    if bodies:
        ends = [(min(values), max(values)) for values in zip(*bodies, strict=True)]
        put(f"<p>{len(bodies)} people, {length_text(ends[0][0], one.length_unit)} to "
            f"{length_text(ends[0][1], one.length_unit)} tall, "
            f"{mass_text(ends[1][0], one.mass_unit)} to "
            f"{mass_text(ends[1][1], one.mass_unit)}.</p>")


def _bodies(text):
    """(stature mm, weight kg) of everyone in a list, kept while the list stays."""
    if st.session_state.get("crowd_text") != text:
        rows = read_people((text or "").splitlines(), "csv") if text else ()
        st.session_state["crowd_bodies"] = [
            (row.given["paddler"]["stature_mm"], row.given["paddler"]["weight_kg"])
            for row in rows if isinstance(row, PersonRow)]
        st.session_state["crowd_text"] = text
    return st.session_state["crowd_bodies"]


def _kept(name, first):
    """The key of a widget that stands where it was left when its page is opened again."""
    left, key = st.session_state.setdefault("crowd_left", {}), f"crowd_{name}"
    left[name] = st.session_state.setdefault(key, left.get(name, first))
    return key


def _drawn():
    """(CSV text, faults) of a crowd drawn from the survey."""
    count = st.slider("How many people", 100, 6000, step=100, key=_kept("count", 500))
    women = st.slider("Women among them, %", 0, 100, key=_kept("women", 50))
    shift = st.slider("Heavier than the survey by, kg", 0, 30, key=_kept("shift", 0),
                      help="The survey is of soldiers; customers are often heavier.")
    spread = st.slider("Spread of weights against the survey's, %", 50, 200, step=5,
                       key=_kept("spread", 100))
    seed = st.number_input("Draw number", 0, 10**6, key=_kept("seed", 1),
                           help="The same number draws the same people.")
    try:
        return "\n".join(population_lines(
            Recipe(count, int(seed), women / 100.0, float(shift), spread / 100.0))) + "\n", ()
    except BadInput as error:
        return None, tuple(str(fault) for fault in error.faults)


def _listed():
    """(CSV text, faults) of a list that was given."""
    given = st.file_uploader(
        "A list of people (.csv)", type=["csv"], max_upload_size=MOST_LIST_MB,
        help="Columns weight_kg, stature_mm, hip_width_mm and, if you like, name and further "
        "measures. The list stays on this machine.")
    if given is None:
        return None, ()
    try:
        text = given.getvalue().decode("utf-8-sig")
        rows = tuple(read_people(text.splitlines(), "csv"))
    except UnicodeDecodeError:
        return None, ("the list is not UTF-8 text: save it as UTF-8 CSV",)
    except BadInput as error:
        return None, tuple(str(fault) for fault in error.faults)
    bad = [row for row in rows if isinstance(row, BadRow)]
    put(f"<p>{len(rows) - len(bad)} people can be used, {len(bad)} rows cannot.</p>")
    return (text if len(bad) < len(rows) else None), tuple(
        f"row {row.number}: " + "; ".join(str(reason) for reason in row.reasons)
        for row in bad[:10])


def _start(one, action, text, sizes):
    gear = one.entries["gear_kg"].value
    options = ["--use", one.use, "--water", one.water_kind, "--temperature-c", f"{one.water_c:g}",
               "--out", OUT if action == "range" else f"{OUT}.csv"]
    if action == "range":
        options += ["--sizes", str(sizes)]
        options += [] if gear is None else ["--gear-kg", f"{gear:g}"]
    own = one.own_design if one.base == OWN else None
    options += [] if own is not None else ["--base", one.base]
    st.session_state["crowd_run"] = begin(action, text, own, options)
    st.session_state["crowd_wish"] = {"action": action, "base": one.base, "own_design": own}
    st.session_state["crowd_faults"] = ()


@st.fragment(run_every=LOOKED_EVERY_S)
def _going():
    """How far the run is; it goes on while other pages are looked at."""
    run = st.session_state.get("crowd_run")
    if run is None or not run.going:
        _finish(run)
        st.rerun()
    put(f'<p role="status">Working, {escape(run.progress() or "getting ready")}. You can look at '
        "other pages meanwhile.</p>")
    if st.button("Stop"):
        run.stop()
        del st.session_state["crowd_run"]
        st.rerun()


def _finish(run):
    """Takes the result over, or says what was wrong."""
    if run is None:
        return
    del st.session_state["crowd_run"]
    wish = st.session_state["crowd_wish"]
    if run.process.returncode not in (0, 1):
        st.session_state["crowd_faults"] = tuple(run.faults()[-10:]) or ("the run was ended",)
        return
    st.session_state["crowd_found"] = wish | (
        {"answer": json.loads(run.read(ANSWER)), "files": run.written()}
        if wish["action"] == "range" else {"results": run.read(f"{OUT}.csv")})
