"""The wizard as `python -m sizer` starts it, but what was worked out is kept from session to
session: walks through the pages ask for the same few boats again and again. And what it begins
beside itself is small."""

import sys
from functools import lru_cache

import small_work

from sizer.cli import main
from sizer.web import session
from sizer.web.steps import crowd, mend, patterns, trade, who_fits


def remember(put):
    """By `put(place, name, function)`, as of setattr: the same request leads to the same boat."""
    for place, name in ((session, "run"), (session, "study"), (patterns, "bench_of"),
                        (trade, "sweep")):
        put(place, name, lru_cache(64)(getattr(place, name)))
    found = lru_cache(64)(_on_pairs(mend.remedies))
    put(mend, "remedies", lambda request, lines, fitted, others, shop: found(
        request, lines, fitted, tuple(others.items()), shop))
    put(trade, "passing_map", _told_once(trade.passing_map))


def _on_pairs(work):
    """The work on bases that are given as pairs: a dict has no hash."""
    return lambda request, lines, fitted, others, shop: work(
        request, lines, fitted, dict(others), shop)


def _told_once(work):
    """What the work came to, whoever is told how far it is."""
    kept = {}

    def known(*given, tell):
        if given not in kept:
            kept[given] = work(*given, tell=tell)
        return kept[given]

    return known


if __name__ == "__main__":
    remember(setattr)
    crowd.range_package, who_fits.who_fits = small_work.range_package, small_work.who_fits
    sys.exit(main())
