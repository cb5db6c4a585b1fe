"""Which of the footbrace's places are offered, the same on rails, seat, sheets and papers.

Frames and base leave a row of places; a foot may be held only where the pedals, sawn for this
paddler's, leave no gap that takes it. Only those places are bored and told.
"""

from dataclasses import replace

from sizer.shop.outfit import PINS_AFT_M


def offered(seat, rails, made):
    """(SeatBuilt, FootRails, Pedals) with the places next to this paddler's that are safe, this
    paddler's alone where it is not: its check fails then."""
    first, last = made.safe_m or (made.set_m, made.set_m)
    soles = tuple(one for one in rails.soles_m if first <= one <= last)
    brace, outs = seat.footbrace, [rails.half_m(one) - rails.half_m(rails.set_m) for one in soles]
    brace = replace(brace, soles_m=soles, nearest_m=brace.set_m + rails.set_m - soles[-1],
                    farthest_m=brace.set_m + rails.set_m - soles[0])
    return (replace(seat, footbrace=brace),
            replace(rails, soles_m=soles, holes_m=brace.holes_m),
            replace(made, outs_m=(min(outs), max(outs)), openings=tuple(
                one for one in made.openings if first <= one.sole_m <= last)))


def pinned(rails, sole_m):
    """Numbers of the holes that a pedal's pins go into at a place, counted from the bow."""
    return tuple(1 + min(range(len(rails.holes_m)),
                         key=lambda row: abs(rails.holes_m[row] - sole_m - aft))
                 for aft in PINS_AFT_M)


def places_words(rails):
    """Which holes of FootRails are whose, for who builds and who owns the boat."""
    at, *others = (_and(pinned(rails, sole)) for sole in (
        rails.set_m, *(one for one in rails.soles_m if one != rails.set_m)))
    allowed = f"; {' or '.join(others)} are allowed too" if others else ""
    return (f"Each rail has {len(rails.holes_m)} holes, counted from the bow: this paddler's pins "
            f"are in {at}{allowed}, both pedals alike. No other hole is bored: elsewhere a gap "
            "beside these pedals may hold a foot. Another leg, another paddler: have the boat "
            "fitted again")


def _and(numbers):
    return " and ".join(map(str, numbers))
