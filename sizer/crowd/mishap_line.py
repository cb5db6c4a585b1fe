"""The heeled and swamped boat for many paddlers: worked out for a few, read off between them.

In one finished boat these figures go smoothly with body weight and with the height of the seated
centre; the few are the lightest, the heaviest, one between, and who sits highest and lowest.
"""

import numpy as np

from sizer.fit.assess import assess_many
from sizer.fit.facts import Mishap
from sizer.fit.mishaps import mishaps_of_many, quick_rightings
from sizer.fit.search import SEARCH_COUNT
from sizer.hull.boat import scaled_boat
from sizer.rows import one_of, side_by_side

FIGURES = tuple(Mishap.__dataclass_fields__)
BETWEEN = (0.0, 0.5, 1.0)  # shares of the way from the lightest to the heaviest


def mishap_in_each(hulls, crowd, some):
    """A list of the Mishap of a crowd in each of some finished boats, arrays (n_people,).

    Parameters
    ----------
    hulls : sequence of Finished of one base
    crowd : Crowd
    some : for each hull (n_some,) indices of the people it is wanted for; for others it is a
        guess. Without any, or where none can be worked out, -inf throughout.
    """
    few = [np.array(_few(crowd, each), int) for each in some]
    which = np.repeat(np.arange(len(hulls)), [each.size for each in few])
    terms = _terms(crowd.weight_kg, crowd.height_m)
    if not which.size:
        return [_unknown(terms)] * len(hulls)
    boats = scaled_boat(hulls[0].lines, side_by_side([hull.scaling for hull in hulls]),
                        SEARCH_COUNT)
    weights = side_by_side([hull.weight for hull in hulls])
    many = assess_many(one_of(boats, which), one_of(crowd.person, np.concatenate(few)),
                       weight=one_of(weights, which))
    found = mishaps_of_many(many, quick_rightings(many), told=True)
    known = found.known
    return [_read_off_all(terms, each[known[which == hull]], one_of(found, known & (which == hull)))
            for hull, each in enumerate(few)]


def _unknown(terms):
    return Mishap(*np.full((len(FIGURES), len(terms)), -np.inf))


def _read_off_all(terms, few, found):
    """The Mishap of all, from that of the few."""
    if not few.size:
        return _unknown(terms)
    return Mishap(*(_read_off(terms, few, getattr(found, name)) for name in FIGURES))


def _read_off(terms, few, figure):
    """One figure of all (n,), from those of a few; NaN where the use asks for none, and -inf for
    all where it could not be worked out for one of the few."""
    lost = np.isnan(figure)
    if lost.any():
        return np.full(len(terms), np.nan if lost.all() else -np.inf)
    return terms @ np.linalg.lstsq(terms[few], figure, rcond=1e-6)[0]


def _terms(weight_kg, height_m):
    """What the figures are taken to go with: (n, 4), about one each."""
    weight = weight_kg / 80.0 - 1.0
    return np.stack([np.ones_like(weight), weight, weight**2, height_m / 0.26 - 1.0], axis=1)


def _few(crowd, some):
    """The people to work out: over the weights, and those who sit highest and lowest for theirs."""
    if not some.size:
        return ()
    weight, height = crowd.weight_kg[some], crowd.height_m[some]
    by_weight = some[np.argsort(weight, kind="stable")]
    places = np.round(np.array(BETWEEN) * (some.size - 1)).astype(int)
    mean = weight.mean()
    slope = ((weight - mean) @ height) / max(float((weight - mean) @ (weight - mean)), 1e-9)
    off = height - slope * (weight - mean)
    return tuple(dict.fromkeys((*by_weight[places].tolist(), int(some[np.argmin(off)]),
                                int(some[np.argmax(off)]))))
