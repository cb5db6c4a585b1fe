"""Everyone of a list fitted, as one record."""

import time
from collections import Counter
from dataclasses import dataclass

from sizer.crowd.batch import cores, fitted_rows, pace_words
from sizer.crowd.results import batch_lead, result_line


@dataclass(frozen=True)
class Everyone:
    """How many were fitted how, and the results file."""

    statuses: tuple[tuple[str, int], ...]  # of `sizer.crowd.results.STATUSES`, the most first
    csv: str


def everyone(rows, people, wish, progress):
    """The Everyone of a list.

    Parameters
    ----------
    rows : sequence of PersonRow and BadRow
    people : SHA-256 of the list, hexadecimal
    wish : Wish
    progress : called as progress(done, of, words)
    """
    lines, statuses, begun = [batch_lead("csv", people, wish)], Counter(), time.monotonic()
    for done, result in enumerate(fitted_rows(rows, wish, cores()), start=1):
        lines.append(result_line("csv", result))
        statuses[result["status"]] += 1
        pace = pace_words(done, len(rows) - done, time.monotonic() - begun)
        progress(done, len(rows), f"people fitted, {pace}")
    return Everyone(tuple(statuses.most_common()), "".join(lines))
