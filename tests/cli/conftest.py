"""Packages of few files, for tests of commands that do not look at the sheets."""

import pytest

from sizer.export import package
from sizer.export.read_me import READ_ME


def few_files(patch):
    """Of every package only the read-me and the answer are made; the sheets take seconds."""
    whole = package._makers
    patch.setattr(package, "_makers", lambda *given: {
        name: make for name, make in whole(*given).items() if name in (READ_ME, package.ANSWER)})


@pytest.fixture(name="few_files")
def _few_files(monkeypatch):
    few_files(monkeypatch)
