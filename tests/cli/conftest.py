"""Packages of few files, for tests of commands that do not look at the sheets."""

import pytest

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


def one_bench(patch):
    """The same request in the same shop is taken to the bench once, whichever command asks."""
    made, kept = bench.bench_of, {}

    def known(job, shop=SHOP):
        key = job.request, repr(job.lines.design), shop
        if key not in kept:
            kept[key] = made(job, shop)
        return kept[key]

    patch.setattr(bench, "bench_of", known)
    patch.setattr(package, "bench_of", known)


@pytest.fixture(name="few_files")
def _few_files(monkeypatch):
    few_files(monkeypatch)
