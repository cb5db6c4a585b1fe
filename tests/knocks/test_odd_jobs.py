"""Job files with bytes and values changed: opened as they were saved, or refused in a sentence."""

import hashlib
import json

from hypothesis import event, example, given
from hypothesis import strategies as st

from sizer.errors import BadInput
from sizer.fit.request import read_request
from sizer.web.draft import Draft, Variant
from sizer.web.job_file import job_text, opened_job
from tests.knocks.conftest import answered, knocks


def saved():
    drawn = Draft(use="coastal-day", base="long-tourer", notes="blue “skin” 舟")
    for key, text in (("weight_kg", "82"), ("stature_mm", "1780"), ("hip_width_mm", "38,5 cm")):
        drawn = drawn.enter(key, text)
    drawn = drawn.hold("beam_mm", 560.0)
    return drawn.but(variants=(Variant(name="Slim <b>", wishes=drawn.wishes()),))


JOB = job_text(saved())
OPENED = opened_job(JOB.encode())
VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=30)
    | st.sampled_from(["\ud800", "day-boat", "own", "x" * 5000, 10**400, "<script>"]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner,
                                                                max_size=3), max_leaves=5)


def opens_or_refuses(raw):
    """The OpenedJob or None; what is opened leads to a request that is read or refused."""
    opened, refused = answered(opened_job, raw)
    event("refused" if refused else "opened")
    if refused:
        assert isinstance(refused, BadInput)
        assert refused.faults
        return None
    draft = Draft().taking(opened.wishes)
    if draft.ready():
        answered(read_request, draft.request())
    return opened


@knocks(150)
@given(st.lists(st.tuples(st.floats(0.0, 1.0), st.integers(0, 40), st.binary(max_size=6)),
                max_size=4))
@example([])
@example([((JOB.encode().index(b"blue") + 0.5) / len(JOB.encode()), 4, b"pink")])
def test_a_broken_job_file_is_opened_as_it_was_or_refused(breaks):
    raw = JOB.encode()
    for share, taken, put in breaks:
        at = int(share * len(raw))
        raw = raw[:at] + put + raw[at + taken:]
    opened = opens_or_refuses(raw)
    assert opened is None or opened == OPENED


@st.composite
def places(draw, text=JOB):
    """A path of keys into a saved job, or into another JSON text."""
    path, value = [], json.loads(text)
    while isinstance(value, (dict, list)) and value and (not path or draw(st.booleans())):
        keys = list(value) if isinstance(value, dict) else list(range(len(value)))
        path.append(draw(st.sampled_from(keys)))
        value = value[path[-1]]
    return path


def sealed(text, path, value, remove):
    """The JSON text with another value at a path, or with none, and the sum over that."""
    content = json.loads(text)
    content.pop("sum")
    inside = content
    for key in path[:-1]:
        inside = inside.get(key, {}) if isinstance(inside, dict) else inside[key]
    if remove and isinstance(inside, dict):
        inside.pop(path[-1], None)
    else:
        inside[path[-1]] = value
    text = json.dumps(content, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    content["sum"] = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()
    return json.dumps(content)


@knocks(150)
@given(places(), VALUES, st.booleans())
@example(["notes"], "\ud800", False)
@example(["wishes", "base"], "own", False)
def test_a_job_file_sealed_over_odd_values_is_opened_or_refused(path, value, remove):
    opens_or_refuses(sealed(JOB, path, value, remove).encode())
