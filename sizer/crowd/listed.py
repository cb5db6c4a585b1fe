"""A list of people for one range of sizes: who is counted, and what is to be said of the list."""

from dataclasses import dataclass

from sizer.crowd.people import BadRow, PersonRow
from sizer.errors import BadInput, Fault
from sizer.paddler.measures import Measured, read_paddler

OWN = ("gear_kg", "use", "base")  # of a row, which a range for all cannot follow


@dataclass(frozen=True, eq=False)
class Listed:
    rows: tuple[PersonRow, ...]
    measured: tuple[Measured, ...]  # of each row, in the same order
    bad: tuple[BadRow, ...]
    notes: tuple[str, ...]  # what a range cannot follow, and odd bodies


def listed(people, use, gear_kg):
    """The Listed of PersonRow and BadRow, all to be counted for one use and gear; raises BadInput
    at "people", where no row can be used."""
    rows = tuple(row for row in people if not isinstance(row, BadRow))
    bad = tuple(row for row in people if isinstance(row, BadRow))
    if not rows:
        raise BadInput([Fault("people", f"none of {len(bad)} rows can be used", str(reason))
                        for row in bad[:1] for reason in row.reasons]
                       or [Fault("people", "no rows", "give one person or more")])
    return Listed(rows, tuple(read_paddler(row.given["paddler"]) for row in rows), bad,
                  tuple(_notes(rows, use, gear_kg)))


def _notes(rows, use, gear_kg):
    own = sum(any(key in row.given for key in OWN) for row in rows)
    if own:
        yield (f"{own} rows name a base, a use or gear of their own: a range is for one, so all "
               f"are counted for {use} with {gear_kg:g} kg.")
    for row in rows:
        for caution in row.cautions:
            yield f"row {row.number} {row.label}".strip() + f": {caution}"
