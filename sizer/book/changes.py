"""What differs between two answers, figure by figure."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Change:
    """A figure that is no longer what it was; None where it is missing on that side."""

    place: str  # keys and numbers into the answer, such as "stations.2.x_mm"
    was: object
    now: object


def changes(was, now, place=""):
    """Every Change between two JSON-like values, in their order.

    `place` is where the values stand, before each Change's own place.
    """
    if isinstance(was, dict) and isinstance(now, dict):
        pairs = [(key, was.get(key), now.get(key)) for key in {**was, **now}]
    elif isinstance(was, list) and isinstance(now, list):
        pairs = [(at, *(side[at] if at < len(side) else None for side in (was, now)))
                 for at in range(max(len(was), len(now)))]
    else:
        return () if was == now else (Change(place, was, now),)
    found = []
    for key, before, after in pairs:
        found += changes(before, after, f"{place}.{key}" if place else str(key))
    return tuple(found)
