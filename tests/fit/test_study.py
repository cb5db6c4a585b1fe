"""A case of a study that does not float: nothing is told of it, and all else as before."""

import pytest

import sizer.fit.sensitivity
import sizer.fit.study
from sizer.errors import NotSolved, WillNotFloat
from sizer.export.answer import full_answer
from sizer.fit.request import read_request
from sizer.fit.study import HEELED_DEG, study
from sizer.job import run


@pytest.fixture(scope="module")
def job(base_lines):
    return run(read_request({"base": "day-boat", "use": "sheltered-day", "paddler": {
        "weight_kg": 71, "stature_mm": 1730, "hip_width_mm": 380}}), base_lines["day-boat"])


def answered(job):
    return full_answer(job, study(job.fitted.assessed, job.mishaps.rigid))


def refusing(work, when, error=WillNotFloat):
    """The work, which refuses what `when(*given)` is true of."""
    def tried(*given, **more):
        if when(*given):
            raise error("not this one")
        return work(*given, **more)
    return tried


def refuse(monkeypatch, module, name, *how):
    monkeypatch.setattr(module, name, refusing(getattr(module, name), *how))


def test_where_no_case_floats_only_the_cases_are_missing(job, monkeypatch):
    whole = answered(job)
    refuse(monkeypatch, sizer.fit.study, "righting_curve", lambda *_: True)
    refuse(monkeypatch, sizer.fit.study, "float_at", lambda *given: given[3] == HEELED_DEG)
    refuse(monkeypatch, sizer.fit.study, "wind_after_seat_shift", lambda *_: True, NotSolved)
    refuse(monkeypatch, sizer.fit.sensitivity, "float_at", lambda *given: given[4] is not None)
    found = answered(job)
    for name in ("seated_high", "without_gear", "boat_alone"):
        assert found["stability"].pop(name) is None
        assert whole["stability"].pop(name)
    for where in (found["wind"], found["wind"]["under_way"]):
        assert where.pop("seat_50_mm_aft") is None
    assert found["wind"]["under_way"].pop("heeled_10_deg") is None
    for where, name in ((whole["wind"], "seat_50_mm_aft"),
                        (whole["wind"]["under_way"], "seat_50_mm_aft"),
                        (whole["wind"]["under_way"], "heeled_10_deg")):
        assert where.pop(name)
    for one, other in zip(found.pop("sensitivity"), whole.pop("sensitivity"), strict=True):
        assert one.pop("change") == other.pop("change")
        assert set(one) == set(other) == {"freeboard_mm", "trim_deg", "gm_mm", "drag_at_3_kn_n",
                                          "drag_at_4_kn_n"}
        assert set(one.values()) == {None}
    assert found == whole


def test_a_change_is_told_only_where_both_its_sides_float(job, monkeypatch):
    now = job.fitted.assessed.loading.load.mass_kg
    refuse(monkeypatch, sizer.fit.sensitivity, "float_at",
           lambda *given: given[1].mass_kg > now + 3.0)
    told = {one["change"]: one["freeboard_mm"] for one in answered(job)["sensitivity"]}
    assert [name for name, change in told.items() if change is None] == ["10 kg more gear"]
