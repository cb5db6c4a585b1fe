"""README's table of licences has every package that is installed with ours."""

import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from tests.licences import brought, listed

ROOT = Path(__file__).parents[1]
NAMED = listed((ROOT / "README.md").read_text("utf-8"))


def test_every_package_that_comes_along_is_listed():
    assert brought() - NAMED == set()


def test_every_dependency_is_among_those_that_come_along():
    given = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["dependencies"]
    names = {canonicalize_name(Requirement(one).name) for one in given}
    assert len(names) > 5
    assert names <= brought()
    assert names <= NAMED
