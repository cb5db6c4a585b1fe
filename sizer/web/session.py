"""The bases and the jobs of a session, worked out once each."""

from functools import lru_cache

import streamlit as st

from sizer.design.library import read_base, shipped_names
from sizer.design.read import read_design
from sizer.errors import BadInput, SizerError
from sizer.fit.request import read_request
from sizer.fit.sizes import size_title
from sizer.fit.study import study
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.web.entered import LABELS
from sizer.web.keeping import shop_now
from sizer.web.state import kept

OWN = "own"  # the key of an uploaded base design
MOST_JOBS = 9  # a MB each: one for every base to choose from, and the last before


@st.cache_resource(show_spinner=False)
def shipped_lines(name):
    """Lines of a shipped base; no customer's data, so shared between sessions."""
    return fair_lines(read_base(name))


@st.cache_resource(show_spinner=False, max_entries=64)
def lines_of_text(text, name):
    """Lines of an uploaded base design; raises BadInput with every fault."""
    return fair_lines(read_design(text, name))


def lines_of(one, base):
    return lines_of_text(one.own_design, one.own_name) if base == OWN else shipped_lines(base)


def base_keys(one):
    return (*shipped_names(), *((OWN,) if one.own_design else ()))


def base_boat(one, base):
    return _as_drawn(lines_of(one, base))


@lru_cache(64)  # as many as there are lines of texts
def _as_drawn(lines):
    return scaled_boat(lines, Scaling())


def job_for(one, base=None, shop=None):
    """(Job of an Entered, ()), or (None, the faults as texts); on another `base` nothing is held,
    and `shop` is the one that is settled now where None."""
    if not one.ready():
        return None, lacking(one)
    if base not in (None, one.base):
        one = one.on(base)
    request = one.request()
    shop = shop or shop_now()
    of = repr(request), one.own_design if one.base == OWN else None, shop
    return kept("jobs", of, lambda: _run(one, request, shop), MOST_JOBS)


def lacking(one):
    """Why an Entered is of no boat yet: a sentence for each figure that cannot be read, then one
    for those that are still to measure."""
    faults = [f"{LABELS[key]} {fault}." for key, fault in one.at_fault().items()]
    missing = ", ".join(LABELS[key].lower() for key in one.missing()
                        if not one.entries[key].fault)
    return (*faults, *([f"Measure the paddler first: {missing}."] if missing else ()))


def study_for(job):
    """The Study of a job, kept while the job stays."""
    return kept("study", job, lambda: study(job.fitted.assessed, job.mishaps.rigid))


def fault_text(fault):
    """A Fault of a request in the words of the pages: its own keys are of the command line."""
    part, _, key = fault.place.rpartition(".")
    if part == "paddler" and key in LABELS:
        return f"{LABELS[key]} {fault.value}: {fault.allowed}"
    if part == "fixed":
        return f"{size_title(key)} held at {fault.value}: {fault.allowed}"
    return str(fault)


def _run(one, request, shop):
    try:
        return run(read_request(request), lines_of(one, request["base"]), shop=shop), ()
    except BadInput as error:
        return None, tuple(map(fault_text, error.faults))
    except SizerError as error:
        return None, (str(error),)
