"""A book of a test's own, and what is written into it."""

import pytest

from sizer.book.opening import open_book


@pytest.fixture
def path(tmp_path):
    return tmp_path / "shop" / "book.sqlite3"


@pytest.fixture
def book(path):
    opened = open_book(path)
    yield opened
    opened.close()
