"""The heeled and swamped boat for many paddlers: worked out for a few, read off between them.

In one finished boat these figures go smoothly with body weight and with the height of the seated
centre; the few are the lightest, the heaviest, one between, and who sits highest and lowest.
"""

import numpy as np

from sizer.fit.assess import assess_crowd
from sizer.fit.facts import Mishap
from sizer.fit.mishaps import mishaps_of_many, quick_rightings
from sizer.fit.search import SEARCH_COUNT
from sizer.hull.boat import scaled_boat

FIGURES = tuple(Mishap.__dataclass_fields__)
BETWEEN = (0.0, 0.5, 1.0)  # shares of the way from the lightest to the heaviest


def mishap_of_many(hull, crowd, some):
    """The Mishap of a crowd in a finished boat, arrays (n,).

    Parameters
    ----------
    hull : Finished
    crowd : Crowd
    some : (n_some,) indices of the people it is wanted for; for others it is a guess. Without any,
        or where none can be worked out, -inf throughout.
    """
    boat = scaled_boat(hull.lines, hull.scaling, SEARCH_COUNT)
    few = np.array(_few(crowd, some), int)
    if few.size:
        many = assess_crowd(boat, [crowd.persons[index] for index in few], hull.weight)
        found = mishaps_of_many(many, quick_rightings(many), told=True)
        known = found.known
    if not few.size or not known.any():
        return Mishap(*np.full((len(FIGURES), crowd.weight_kg.size), -np.inf))
    terms = _terms(crowd.weight_kg, crowd.height_m)
    return Mishap(*(_read_off(terms, few[known], getattr(found, name)[known])
                    for name in FIGURES))


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
