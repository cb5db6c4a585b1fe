"""Design files kept as they once were, so that tests can name a file's own numbers; the shipped
bases may be redrawn without them."""

from pathlib import Path

import pytest

from sizer.design.read import read_design
from sizer.hull.lines import fair_lines

KEPT = Path(__file__).parent / "kept"
KEPT_NAMES = sorted(path.stem for path in KEPT.glob("*.toml"))


@pytest.fixture(scope="session")
def kept_texts():
    """{name: text} of the kept design files."""
    return {name: (KEPT / f"{name}.toml").read_text("utf-8") for name in KEPT_NAMES}


@pytest.fixture(scope="session")
def kept_lines(kept_texts):
    """{name: Lines} of them."""
    return {name: fair_lines(read_design(text, f"{name}.toml"))
            for name, text in kept_texts.items()}
