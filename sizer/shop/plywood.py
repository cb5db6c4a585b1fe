"""Which of the shop's true thicknesses a boat takes: an entry counts for what the boat is made of.

A boat's plywood is drawn by its metric thickness; a shop that buys by the inch enters what it calls
the same sheet. That name is taken for the nearest sheet of the boat where it can mean no other.
"""

from dataclasses import dataclass, replace

from sizer.design.allowed import between
from sizer.shop.pedals import THICK_M as OUTFIT_M
from sizer.shop.said import listed
from sizer.shop.trade_sizes import NAMED_SHARE
from sizer.units import MARK_PARTS, MM_PER_IN, MM_PER_M, inches_error_mm, inches_text

PLYWOOD_MM = (2.0, 80.0)  # generously; our judgement
SAME_MM = 1e-3  # two that differ by less are one thickness: what rounding in between may add
INCH_DIGITS = 3  # of a true thickness, as a caliper has it


@dataclass(frozen=True)
class Plywood:
    """What plywood sold under a thickness really measures."""

    nominal_m: between(*PLYWOOD_MM)
    true_m: between(*PLYWOOD_MM)

    @property
    def in_inches(self):
        """The name in inches that it is sold under; "" where that is none."""
        named = abs(inches_error_mm(self.nominal_m * MM_PER_M, MARK_PARTS)) < SAME_MM
        return f"{inches_text(self.nominal_m * MM_PER_M)} in" * named

    @property
    def name(self):
        name = f"{self.nominal_m * MM_PER_M:g} mm"
        return f"{name} ({self.in_inches})" if self.in_inches else name


@dataclass(frozen=True)
class Taken:
    """What a boat's sheets are of the thicknesses that a shop has entered."""

    sold_m: tuple[float, ...]  # thicknesses that the boat is drawn for, the thinnest first
    entries: tuple[Plywood | None, ...]  # of each of them; None: as thick as it is sold
    other: tuple[Plywood, ...]  # that no part of the boat is of
    doubtful: tuple[Plywood, ...]  # that could be more than one sheet of it, or one of several

    def true_m(self, sold_m):
        """What plywood of one of the boat's thicknesses measures."""
        entry = self.entries[self.sold_m.index(sold_m)]
        return sold_m if entry is None else entry.true_m


def taken(plywoods, sold_m):
    """The Taken of a shop's Plywoods by a boat of sheets that are sold as so thick."""
    sold = tuple(sorted(set(sold_m)))
    meant = {one: _meant(one, sold, plywoods) for one in plywoods}
    claims = {own: [one for one in meant if meant[one] == (own,)] for own in sold}
    return Taken(sold, tuple(some[0] if len(some) == 1 else None for some in claims.values()),
                 tuple(one for one in meant if not meant[one]),
                 tuple(one for one in meant if len(meant[one]) > 1 or any(
                     len(some) > 1 and one in some for some in claims.values())))


def _meant(entry, sold, plywoods):
    """The thicknesses of a boat that an entry can mean: its own, or those its inches are near.

    One that the shop has entered by itself is left to that entry.
    """
    exact = tuple(own for own in sold if _same(entry, own))
    if exact or not entry.in_inches:
        return exact
    return tuple(own for own in sold
                 if abs(entry.nominal_m - own) <= NAMED_SHARE * own + SAME_MM / MM_PER_M
                 and not any(_same(one, own) for one in plywoods))


def _same(entry, sold_m):
    return abs(entry.nominal_m - sold_m) * MM_PER_M < SAME_MM


def sold_m(design):
    """Thicknesses of all plywood that a BaseDesign's boat is sawn from, the thinnest first."""
    plates = (design.seat.thickness_m,) if design.seat.kind == "panel" else ()
    return tuple(sorted({*(part.thickness_m for part in (*design.frames, design.bow,
                                                         design.stern)), *plates, OUTFIT_M}))


def with_true_plywood(boat, shop):
    """The boat with its frames and stems as thick as the shop's plywood is: what is cut to fit it.

    Nothing else of the boat moves; it is weighed and floated with the nominal thickness.
    """
    if not shop.plywoods:
        return boat
    design = boat.design
    true_m = taken(shop.plywoods, sold_m(design)).true_m
    frames = tuple(replace(frame, thickness_m=true_m(frame.thickness_m))
                   for frame in design.frames)
    bow, stern = (replace(stem, thickness_m=true_m(stem.thickness_m))
                  for stem in (design.bow, design.stern))
    design = replace(design, frames=frames, bow=bow, stern=stern)
    return replace(boat, lines=replace(boat.lines, design=design))


def thicknesses_words(sold_m):
    """Thicknesses in a row, such as 6, 12 and 18 mm."""
    return f"{listed([f'{one * MM_PER_M:g}' for one in sold_m])} mm"


def true_words(plywoods, sold_m=None):
    """What a shop's plywood measures, in words that go on from "plywood"; of a boat's sheets,
    where it is known which."""
    if not plywoods:
        return " as thick as it is sold"
    if sold_m is None:
        return "".join(f", {one.name} measures {one.true_m * MM_PER_M:g}" for one in plywoods)
    found = taken(plywoods, sold_m)
    measured = [(own, one) for own, one in zip(found.sold_m, found.entries, strict=True) if one]
    rest = [own for own, one in zip(found.sold_m, found.entries, strict=True) if not one]
    return ("".join(f", {_measured_words(own, one)}" for own, one in measured)
            + (f", {thicknesses_words(rest)} as sold" if rest else ""))


def _measured_words(own_m, entry):
    words = f"{own_m * MM_PER_M:g} mm measures {entry.true_m * MM_PER_M:g}"
    if _same(entry, own_m):
        return words
    inches = f"{entry.true_m * MM_PER_M / MM_PER_IN:.{INCH_DIGITS}f} in"
    return f"{words} ({inches}, entered for {entry.in_inches}, taken as this sheet)"


def unused_words(plywoods, sold_m):
    """A sentence on each of a shop's entries that a boat does not take; "" where it takes all."""
    found, has = taken(plywoods, sold_m), thicknesses_words(sold_m)
    said = []
    if found.other:
        said.append(f"No part of this boat is of {listed([one.name for one in found.other], 'or')} "
                    f"plywood: it has {has}. What that measures is not used.")
    if found.doubtful:
        said.append(f"Not used: {listed([one.name for one in found.doubtful])}. It is not plain "
                    f"which sheet of this boat is meant: it has {has}. Enter one for each, by its "
                    "mm.")
    return " ".join(said)
