"""Beside the walk: a crowd of people, the few sizes that serve most of them, who fits this boat."""

import hashlib
import io
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from html import escape

import streamlit as st

from sizer.crowd.people import COLUMNS_SAID, BadRow, read_people
from sizer.crowd.population import Recipe, population_lines
from sizer.crowd.results import everyone
from sizer.crowd.sizes import MOST_SIZES
from sizer.design.read import utf8_text
from sizer.errors import BadInput, Fault
from sizer.export.range_package import RangePackage, range_package
from sizer.fit.request import Trip
from sizer.fit.uses import USES
from sizer.hydro.water import water_at
from sizer.shop.said import listed
from sizer.units import KG_PER_MASS_UNIT
from sizer.web.charts import SETTINGS, crowd_chart
from sizer.web.keeping import shop_now
from sizer.web.look import note_html, press, put, put_alert
from sizer.web.session import OWN, lines_of
from sizer.web.state import choice, draft, kept, view
from sizer.web.steps import going as works
from sizer.web.steps.crowd_results import put_fits, put_range
from sizer.web.steps.who_fits import put_who_fits
from sizer.web.upload import put_upload

PREFIX, LIST = "crowd_", "people"  # of the page's choices in the view, and its list of people
SOURCES = ("Drawn from the body survey", "My own list")
ACTIONS = {"range": "Choose the sizes that serve most", "batch": "Fit everyone one by one"}
MOST_LIST_MB = 5
MOST_HEAVIER = {"kg": 30, "lb": 66}
OWN_BASE = "own-design.toml"  # name of an own design in results


@dataclass(frozen=True, eq=False)
class Asked:
    """What a run was begun with."""

    people: str  # in words
    base: str  # name of the design
    use: str  # key
    of: dict  # {in words: what is held against the same of now}
    choices: dict  # of the page, for whoever comes back to it

    @property
    def named(self):
        """The list of people as it was given, (name, text); None where they were drawn."""
        return self.choices.get(LIST)


def page():
    if (was := works.take_up("crowd")) is not None:
        view().update(was.choices)
        st.rerun()  # what the page hears of a work under way is put before the page
    one, work = draft(), works.going("crowd")  # the work first: it may have just ended
    last = st.container()  # filled once it is read what is chosen now
    st.header("A crowd and its boats")
    put(f"<p>For <b>{escape(lines_of(one, one.base).design.name)}</b> and "
        f"{escape(USES[one.use].words)}: choose others on the page Use and base. A size serves a "
        "person whom no check fails in it with only seat, footbrace and padding moved.</p>")
    now = works.put_going("crowd", work) if work else _wishes(one)
    with last:
        _last(one, now)
    put_who_fits(one)


def _last(one, now):
    last, about = works.found("crowd"), partial(_put_made_from, works.asked_of("crowd"), now)
    if isinstance(last, RangePackage):
        put_range(one, last, about)
    elif last is not None:
        put_fits(last, about)


def _wishes(one):
    """Whose bodies, and what is wanted; the Asked of it."""
    picture, wanted = st.columns([6, 4], gap="large")
    with wanted:
        source = st.radio("People", SOURCES, horizontal=True,
                          **choice("crowd_source", SOURCES[0], among=SOURCES))
        people, text, faults = _drawn() if source == SOURCES[0] else _listed()
        for fault in faults:
            put_alert(fault, "fail")
        action = st.radio("What to do", tuple(ACTIONS), format_func=ACTIONS.get,
                          **choice("crowd_action", "range", among=ACTIONS))
        sizes = (st.slider("Sizes, at most", 1, MOST_SIZES, **choice("crowd_sizes", 3))
                 if action == "range" else None)
        now = _asked(one, people, text or "", action, sizes, _gear_kg(one) if sizes else None)
        if st.button("Work it out", type="primary", disabled=text is None):
            _start(one, action, text, sizes, now)
            st.rerun()
        put("<p class='sz-why'>What comes out stays on this page, after a reload too, until the "
            f"wizard itself is stopped; of all screens the last {works.MOST_SHELVED} are kept. "
            "Take the files away before that.</p>")
        works.put_faults("crowd")
    with picture:
        _crowd(one, text)
    return now


def _asked(one, people, text, action, sizes, gear_kg):
    """The Asked of a Draft and of what the page chooses; `people` in words, `text` their CSV."""
    base = one.own_design if one.base == OWN else one.base
    of = {"the people": hashlib.sha256(text.encode()).hexdigest(), "what to do": action,
          "the sizes at most": sizes, "the base design": base, "the use": one.use,
          "the water": (one.water_kind, one.water_c), "the gear": gear_kg,
          "the shop's settings": shop_now() if sizes else None}
    choices = {key: value for key, value in view().items() if key.startswith(PREFIX)}
    if named := view().get(LIST):
        choices[LIST] = named
    return Asked(people, lines_of(one, one.base).design.name, one.use, of, choices)


def _put_made_from(was, now):
    """What a run was made from, and what of it is another `now`; None where neither is known."""
    if was is None:
        return
    put(f"<p>Made from {escape(was.people)}; {escape(was.base)}; "
        f"{escape(USES[was.use].words)}.</p>")
    changed = [] if now is None else [
        words for words, value in was.of.items() if value != now.of[words]]
    if changed:
        put(note_html(f"Changed since this was worked out: {listed(changed)}. What stands here is "
                      "still of what it was made from: work it out again for what is chosen now."))


def _crowd(one, text):
    """The people as marks, weight against stature, and the customer at hand among them."""
    bodies = [(row.given["paddler"]["stature_mm"], row.given["paddler"]["weight_kg"])
              for row in _rows(text) if not isinstance(row, BadRow)]
    own = [(one.entries["stature_mm"].value, one.entries["weight_kg"].value)] if one.ready() else []
    st.plotly_chart(crowd_chart(one, bodies, own, st.context.theme.type), config=SETTINGS,
                    key="crowd_chart", alt="Weight against stature of the people")
    if bodies:
        tall, heavy = (" to ".join(map(words, (min(values), max(values)))) for words, values in zip(
            (one.said_mm, one.weighed), zip(*bodies, strict=True), strict=True))
        put(f"<p>{len(bodies)} people, {tall} tall, {heavy}.</p>")


def _rows(text):
    """PersonRow and BadRow of a list, kept while the list stays.

    Raises BadInput, where it is no list of people.
    """
    if not text:
        return ()
    return kept("people", text, lambda: tuple(read_people(io.StringIO(text, None), "csv")))


def _drawn():
    """(who in words, CSV text, faults) of a crowd drawn from the survey."""
    count = st.slider("How many people", 100, 6000, step=100, **choice("crowd_count", 500))
    women = st.slider("Women among them, %", 0, 100, **choice("crowd_women", 50))
    unit = "kg" if draft().mass_unit == "kg" else "lb"
    shift = st.slider(f"Heavier than the survey by, {unit}", 0, MOST_HEAVIER[unit],
                      **choice(f"crowd_shift_{unit}", 0),
                      help="The survey is of soldiers; customers are often heavier.")
    spread = st.slider("Spread of weights against the survey's, %", 50, 200, step=5,
                       **choice("crowd_spread", 100))
    seed = st.number_input("Draw number", 0, 10**6, **choice("crowd_seed", 1),
                           help="The same number draws the same people.")
    people = (f"{count} people drawn from the body survey, {women} % women, heavier by {shift} "
              f"{unit}, spread {spread} %, draw {seed}")
    try:
        return people, _drawn_text(Recipe(count, int(seed), women / 100.0, shift
                                          * KG_PER_MASS_UNIT[unit], spread / 100.0)), ()
    except BadInput as error:
        return people, None, tuple(str(fault) for fault in error.faults)


@lru_cache(maxsize=8)  # nobody's own data
def _drawn_text(recipe):
    return "\n".join(population_lines(recipe)) + "\n"


def _listed():
    """(who in words, CSV text, faults) of the list given last, which stays through other pages."""
    put(f'<p class="sz-why">{escape(COLUMNS_SAID)}</p>')
    put_upload("A list of people (.csv)", "people", ("csv",), MOST_LIST_MB, _take_list,
               help="The list stays in the memory of this machine: while this window does, or with "
               "what was worked out from it, until it is put away or the wizard is stopped.")
    if LIST not in view():
        return "no list", None, ()
    name, text = view()[LIST]
    rows = _rows(text)
    bad = [row for row in rows if isinstance(row, BadRow)]
    put(f"<p>{escape(name)}: people that can be used {len(rows) - len(bad)}, "
        f"rows that cannot {len(bad)}.</p>")
    press("Put this list away", _put_away)
    faults = tuple(f"row {row.number}: " + "; ".join(
        reason.removeprefix("paddler.") for reason in row.reasons)  # by their columns
        for row in bad[:10])
    people = f"{name}, {len(rows) - len(bad)} people"
    return people, (text if len(bad) < len(rows) else None), faults


def _put_away():
    """A list goes from the shelf too, with what was worked out from it."""
    gone = view().pop(LIST, None)
    works.clear_shelf(lambda asked: asked.named == gone)


def _take_list(name, data):
    text = utf8_text(data, name)
    if not _rows(text):
        raise BadInput([Fault(name, "no rows", "give one person or more")])
    view()[LIST] = name, text


def _gear_kg(one):
    gear = one.entries["gear_kg"].value
    return USES[one.use].gear_kg if gear is None else gear


def _start(one, action, text, sizes, now):
    base = OWN_BASE if one.base == OWN else one.base
    trip = Trip(base, one.use, water_at(one.water_kind, one.water_c))
    if action == "range":
        trip = replace(trip, gear_kg=_gear_kg(one))
        works.start("crowd", partial(range_package, shop=shop_now()), _rows(text),
                    lines_of(one, one.base), trip, sizes, asked=now)
    else:
        works.start("crowd", everyone, _rows(text), hashlib.sha256(text.encode()).hexdigest(), trip,
                    files=((OWN_BASE, one.own_design),) if one.base == OWN else (), asked=now)
