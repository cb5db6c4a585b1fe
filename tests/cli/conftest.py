"""Packages of few files, boats worked out once: for tests of commands that look at neither."""

import pytest

from sizer.book import issuing
from sizer.cli import inputs
from sizer.export import package
from sizer.export.read_me import READ_ME
from sizer.shop import bench
from sizer.shop.settings import SHOP


def few_files(patch, *more):
    """Of every package only the read-me, the answer and what is named is made; sheets take seconds.
    """
    whole, wanted = package._makers, (READ_ME, package.ANSWER, *more)
    patch.setattr(package, "_makers", lambda *given: {
        name: make for name, make in whole(*given).items() if name in wanted})


def one_paper(patch):
    """Of every sheet that a package has on both papers only one is made."""
    whole = package._makers
    patch.setattr(package, "_makers", lambda *given: {
        name: make for name, make in whole(*given).items() if not name.endswith("-Letter.pdf")})


def _once(work):
    """By `_once(work)(key, *given)`, what the work gave for the first of this key."""
    kept = {}

    def known(key, *given):
        if key not in kept:
            kept[key] = work(*given)
        return kept[key]

    return known


FITTED, MADE = _once(inputs.run), _once(bench.bench_of)  # of all tests of this process


def remembered(patch):
    """The same request is fitted once and taken to the bench of the same shop once, whichever
    command of whichever test asks."""
    def run(request, lines, shop=SHOP):
        return FITTED((request, repr(lines.design), shop), request, lines, None, shop)

    def bench_of(job, shop=SHOP):
        return MADE((job.request, repr(job.lines.design), shop), job, shop)

    for place in (inputs, issuing):
        patch.setattr(place, "run", run)
    for place in (bench, package):
        patch.setattr(place, "bench_of", bench_of)


@pytest.fixture(scope="module", name="remembered")
def _remembered():
    with pytest.MonkeyPatch.context() as patch:
        remembered(patch)
        yield


@pytest.fixture(name="few_files")
def _few_files(monkeypatch):
    few_files(monkeypatch)
