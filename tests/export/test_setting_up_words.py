"""The setting-up sheet tells of the risers that the boat has, and of no others."""

from dataclasses import replace

import pytest
from pdf_reading import words_of

from sizer.export.setting_up_sheet import setting_up_pdf
from sizer.shop.bench import bench_of
from sizer.shop.settings import SHOP


def _read(job, bench):
    return words_of(setting_up_pdf(job, bench))


@pytest.mark.parametrize("base", ["teaching-boat", "load-carrier"])
def test_legs_bars_and_hangers_are_told_where_a_frame_hangs(base, middle_job, middle_bench):
    job, bench = middle_job(base), middle_bench(base)
    said, hung = _read(job, bench), any(one.kind == "hung" for one in bench.marks.risers)
    assert hung == (base == "load-carrier")
    for word in ("hangers", "foot, bar", "leg, inner face"):
        assert (word in said) == hung, word


@pytest.mark.parametrize("kind", ["forked", "posts"])
def test_the_kind_of_riser_in_the_tables_is_explained(kind, middle_job):
    job = middle_job("teaching-boat")
    said = _read(job, bench_of(job, replace(SHOP, risers=kind)))
    assert f"{kind.capitalize()}, as the tables call it" in said
    other = {"forked": "Posts", "posts": "Forked"}[kind]
    assert f"{other}, as the tables call it" not in said
