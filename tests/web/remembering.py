"""The wizard as `python -m sizer` starts it, but what was worked out is kept from session to
session: walks through the pages ask for the same few boats again and again. And what it begins
beside itself is small."""

import sys
from functools import lru_cache

import small_work

from sizer.book import issuing
from sizer.cli import main
from sizer.shop.settings import SHOP
from sizer.web import session
from sizer.web.steps import (
    boat,
    crowd,
    dry_fit_read,
    dry_fit_round,
    mend,
    patterns,
    trade,
    who_fits,
)


def remember(put):
    """By `put(place, name, function)`, as of setattr: the same request leads to the same boat."""
    for place, name in ((session, "run"), (session, "study"), (patterns, "bench_of"),
                        (trade, "sweep"), (boat, "skin_under_water"),
                        (dry_fit_read, "dry_fit"), (dry_fit_read, "behind_risers")):
        put(place, name, lru_cache(64)(getattr(place, name)))
    put(issuing, "run", _by_designs(issuing.run))
    found = lru_cache(64)(_on_pairs(mend.remedies))
    put(mend, "remedies", lambda request, lines, fitted, others, shop: found(
        request, lines, fitted, tuple(others.items()), shop))
    put(trade, "passing_map", _told_once(trade.passing_map))
    put(dry_fit_round, "most_telling", _by_covers(dry_fit_round.most_telling))


def _on_pairs(work):
    """The work on bases that are given as pairs: a dict has no hash."""
    return lambda request, lines, fitted, others, shop: work(
        request, lines, fitted, dict(others), shop)


def _by_designs(work):
    """The run on the base that an issued text holds, which is read anew for each print."""
    kept = {}

    def known(request, lines, shop=SHOP):
        key = request, repr(lines.design), shop
        if key not in kept:
            kept[key] = work(request, lines, shop=shop)
        return kept[key]

    return known


def _by_covers(work):
    """The work on arrays, which have no hash and are kept as they are."""
    kept = {}

    def known(points, slopes, cover_m2, asked, *more):
        key = points, slopes, id(cover_m2), tuple(asked), more
        if key not in kept:
            kept[key] = cover_m2, work(points, slopes, cover_m2, asked, *more)
        return kept[key][1]

    return known


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
