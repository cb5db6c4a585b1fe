"""What mends a boat that does not pass: remedies that were tried, each one tap away."""

from html import escape

import streamlit as st

from sizer.design.write import design_toml
from sizer.errors import SizerError
from sizer.fit.request import read_request
from sizer.fit.sizes import main_sizes_mm
from sizer.fit.uses import USES
from sizer.remedies import remedies
from sizer.units import MM_PER_M
from sizer.web.figures import typed_text
from sizer.web.keeping import shop_now
from sizer.web.look import note_html, press, put, status_html
from sizer.web.session import OWN, base_keys, lines_of
from sizer.web.state import change, draft, go, kept, kept_job
from sizer.web.steps.choose import say_let_go
from sizer.web.turn import out_of_turn
from sizer.web.workbench import copied

MOST_KEPT = 24
IN_THE_BASE = ("opening", "sticks")  # kinds of remedy that change the base itself


def put_remedies(one, job):
    """The remedies of what is entered, unless its Job, None without a boat, passes every check."""
    if job is not None and job.fitted.status == "pass":
        return
    found = kept("remedies", (repr(one.request()), one.own_design), most=MOST_KEPT,
                 work=lambda: _found(one, job))
    if found is None:
        return
    if not found:
        put(note_html("Nothing tried here mends it: no other base, less gear, wider opening or "
                      "deeper sticks under the seat. "
                      "Measure again, or change the base in “Own design”.",
                      job.fitted.status if job else "fail"))
        return
    put("<b>What mends it</b>, each tried for this paddler:")
    for index, remedy in enumerate(found):
        with st.container(horizontal=True, vertical_alignment="center", gap="small",
                          key=f"remedy_{index}"):
            if remedy.kind in IN_THE_BASE and one.base == OWN and one.own_table is not None:
                st.button("To Own design", key=f"mend_{index}", on_click=go, args=("own",))
            else:
                press("Do this", _follow, remedy, key=f"mend_{index}")
            left = f": {escape(', '.join(remedy.left))}" if remedy.left else ""
            put(f"{escape(_words(remedy, one))} — {status_html(remedy.status)}{left}"
                f'<br><span class="sz-why">{escape(_redrawn(remedy, one, job))}</span>')


def _words(remedy, one):
    if remedy.kind != "gear":
        return remedy.words
    then_kg = remedy.request.trip.gear_kg
    less_kg = one.request().get("gear_kg", USES[one.use].gear_kg) - then_kg
    return f"{_gear_text(less_kg, one)} less gear (then {_gear_text(then_kg, one)})"


def _gear_text(mass_kg, one):
    unit = "kg" if one.mass_unit == "kg" else "lb"
    return f"{typed_text(mass_kg, unit)} {unit}"


def _redrawn(remedy, one, job):
    """Which boat is drawn once a remedy is done, and its freeboard before; "" for the same boat."""
    def told(sizes_mm, freeboard_m):
        *sizes, freeboard = map(one.said_mm, (*sizes_mm, freeboard_m * MM_PER_M))
        return " × ".join(sizes), freeboard

    now = job and told(main_sizes_mm(job.fitted.assessed.boat),
                       job.fitted.assessed.particulars.freeboard_m)
    sizes, freeboard = then = told(remedy.sizes_mm, remedy.freeboard_m)
    if then == now:
        return ""
    load = (f" for {_gear_text(remedy.request.trip.gear_kg, one)} of gear, and not checked with "
            "more" if remedy.kind == "gear" else "")
    was = f", now {now[1]}" if now else ""
    return f"The boat is then drawn anew{load}: {sizes}, freeboard {freeboard}{was}."


def _found(one, job):
    try:
        request = job.request if job else read_request(one.request())
        others = {key: lines_of(one, key) for key in base_keys(one) if key != one.base}
        with out_of_turn():
            return remedies(request, lines_of(one, one.base), job and job.fitted, others,
                            shop_now())
    except SizerError:
        return None  # what is entered is at fault, and said so elsewhere


def _follow(remedy):
    one = draft()
    if remedy.kind == "base":
        say_let_go(one, "base")
        change(one.on(remedy.request.trip.base))
    elif remedy.kind == "gear":
        change(one.enter("gear_kg", typed_text(remedy.request.trip.gear_kg, one.mass_unit)))
    elif remedy.kind in IN_THE_BASE:
        kept_as = kept_job()  # the next customer finds this base too, and whose it is
        design = copied(remedy.lines.design, *(
            [f", made for {kept_as.row.code}"] if kept_as else []))
        change(one.but(base=OWN, own_design=design_toml(design, one.base_text()),
                       own_name=design.name))
    else:
        still = dict(remedy.request.fixed)
        change(one.letting_go([key for key, _ in one.held if key not in still]))
