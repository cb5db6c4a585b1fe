"""The wizard as `python -m sizer` starts it, but jobs that were worked out are kept from session to
session: walks through the pages ask for the same few boats again and again."""

import sys
from functools import lru_cache

from sizer.cli import main
from sizer.web import session
from sizer.web.steps import patterns


def remember(put):
    """By `put(place, name, function)`, as of setattr: the same request leads to the same boat."""
    for place, name in ((session, "run"), (session, "study"), (patterns, "bench_of")):
        put(place, name, lru_cache(64)(getattr(place, name)))


if __name__ == "__main__":
    remember(setattr)
    sys.exit(main())
