"""The table of licences in README.md: `.venv/bin/python tests/licences.py` prints it anew."""

import re
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

SHORT = {  # how packages that name no identifier say it
    "BSD License": "BSD", "MIT License": "MIT", "Apache Software License": "Apache-2.0",
    "Apache License 2.0": "Apache-2.0", "Apache License, Version 2.0": "Apache-2.0",
    "Apache License": "Apache-2.0", "Mozilla Public License 2.0 (MPL 2.0)": "MPL-2.0",
    "Python Software Foundation License": "PSF-2.0", "BSD": "BSD", "3-Clause BSD License":
    "BSD-3-Clause", "BSD 3-Clause": "BSD-3-Clause", "Apache 2.0": "Apache-2.0"}


def brought(name="sizer"):
    """Names of all packages that one needs, and of those that they need, with extras asked for."""
    found, new, seen = set(), {(canonicalize_name(name), "")}, set()
    while new:
        one, extra = pair = new.pop()
        seen.add(pair)
        try:
            needs = map(Requirement, distribution(one).requires or ())
        except PackageNotFoundError:  # of another system
            found.discard(one)
            continue
        for need in needs:
            wanted = canonicalize_name(need.name)
            if not need.marker or need.marker.evaluate({"extra": extra}):
                found.add(wanted)
                new |= {(wanted, each) for each in ("", *need.extras)} - seen
    return found


def licence(name):
    """What a package says its licence is, in a word."""
    about = distribution(name).metadata
    said = about.get("License-Expression")
    if not said:
        classes = [one.rpartition(" :: ")[2] for one in about.get_all("Classifier", ())
                   if one.startswith("License :: ") and one != "License :: OSI Approved"]
        said = " and ".join(classes) or (about.get("License") or "not said").splitlines()[0]
    return " and ".join(SHORT.get(one, one) for one in said.split(" and "))


def table():
    """Lines of the table: a licence, and who is under it."""
    under = {}
    for name in sorted(brought()):
        under.setdefault(licence(name), []).append(name)
    return ["| licence | packages |", "|---|---|",
            *(f"| {one} | {', '.join(names)} |" for one, names in sorted(under.items()))]


def listed(text):
    """Names in the table of a text."""
    part = re.search(r"\| licence \| packages \|\n(.*?)(\n\n|\Z)", text, re.S)[1]
    return {name for row in part.splitlines()[1:]
            for name in row.strip("| ").split(" | ")[1].split(", ")}


if __name__ == "__main__":
    print("\n".join(table()))
    print("README.md has it so" if listed(
        (Path(__file__).parents[1] / "README.md").read_text("utf-8")) == brought()
        else "README.md has other names")
