"""Packages of few files, for tests of commands that do not look at the sheets."""

import pytest

from sizer.export import package
from sizer.export.read_me import READ_ME


def few_files(patch, *more):
    """Of every package only the read-me, the answer and what is named is made; sheets take seconds.
    """
    whole, wanted = package._makers, (READ_ME, package.ANSWER, *more)
    patch.setattr(package, "_makers", lambda *given: {
        name: make for name, make in whole(*given).items() if name in wanted})


@pytest.fixture(name="few_files")
def _few_files(monkeypatch):
    few_files(monkeypatch)
