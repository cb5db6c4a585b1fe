"""What a session shares between its pages: the draft, the base's lines, the last job."""

from dataclasses import replace

import streamlit as st

from sizer.design.library import read_base, shipped_names
from sizer.design.read import read_design
from sizer.errors import BadInput, SizerError
from sizer.fit.request import read_request
from sizer.fit.study import study
from sizer.hull.boat import scaled_boat
from sizer.hull.lines import fair_lines
from sizer.hull.scale import Scaling
from sizer.job import run
from sizer.web.draft import Draft

OWN = "own"  # the key of an uploaded base design


def draft():
    """This session's draft; a first visit finds the sample in it."""
    if "draft" not in st.session_state:
        st.session_state["draft"] = Draft()
        st.session_state["draft"].load_sample()
    return st.session_state["draft"]


@st.cache_resource(show_spinner=False)
def shipped_lines(name):
    """Lines of a shipped base; no customer's data, so shared between sessions."""
    return fair_lines(read_base(name))


@st.cache_resource(show_spinner=False, max_entries=64)
def lines_of_text(text, name):
    """Lines of an uploaded base design.

    Raises BadInput with every fault.
    """
    return fair_lines(read_design(text, name))


def lines_of(one, base):
    """Lines of a base by its key."""
    return lines_of_text(one.own_design, one.own_name) if base == OWN else shipped_lines(base)


def base_keys(one):
    """Keys of the bases to choose from."""
    return (*shipped_names(), *((OWN,) if one.own_design else ()))


def base_boat(one, base):
    """The base as drawn."""
    return scaled_boat(lines_of(one, base), Scaling())


def job_of_wishes(one, wishes):
    """The job of kept wishes, as `job_for` gives it."""
    other = replace(one)
    other.take(wishes)
    return job_for(other)


def job_for(one, base=None):
    """The job of the draft's request, or None with the faults as texts.

    The last jobs are kept in this session only, by request.
    """
    if not one.ready():
        return None, ("Measure the paddler first.",)
    request = one.request()
    if base is not None and base != one.base:
        request = {key: value for key, value in request.items()
                   if key not in ("fixed", "follow")} | {"base": base}
    key = (repr(request), one.own_design if request["base"] == OWN else None)
    kept = st.session_state.setdefault("jobs", {})
    if key not in kept:
        if len(kept) > 24:
            kept.clear()
        kept[key] = _run(one, request)
    return kept[key]


def study_for(job):
    """The Study of a job, kept while the job stays."""
    if st.session_state.get("study_of") is not job:
        st.session_state["study"] = study(job.fitted.assessed, job.mishaps.rigid)
        st.session_state["study_of"] = job
    return st.session_state["study"]


def _run(one, request):
    try:
        return run(read_request(request), lines_of(one, request["base"])), ()
    except BadInput as error:
        return None, tuple(str(fault) for fault in error.faults)
    except SizerError as error:
        return None, (str(error),)
