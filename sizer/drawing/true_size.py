"""How a builder sees that what is printed at true size is so: by lengths known before."""

from dataclasses import dataclass, replace

from sizer.drawing.told import READERS, Told
from sizer.units import MM_PER_IN, at_most_text, both_text


@dataclass(frozen=True)
class Bar:
    """A length to measure, a whole number of what its reader's tape is marked in."""

    said: str
    long_mm: float
    ticks: int  # along it, even


# Two on every page at true size, along and up the paper
BAR = dict(zip(READERS, (Bar("100 mm", 100.0, 10), Bar("4 in", 4.0 * MM_PER_IN, 8)), strict=True))
LARGE_BAR = replace(BAR["mm"], said=both_text(BAR["mm"].long_mm))  # on large pages, read in either
# A run is scaled as one, and paper stretches; our judgement
WHERE = ("along and up the paper, on the first and the last page of every print run "
         "of the patterns")
BARS = Told(f"both {BAR['mm'].said} bars, {WHERE}",
            f"both {BAR['in'].said} bars (on large pages {LARGE_BAR.said}), {WHERE}")
BOTH_BARS = f"both {BAR['mm'].said} bars (on Letter paper {BAR['in'].said}), {WHERE}"
JOINED_WITHIN_MM = 1.5  # of a check length over taped joints: a bar is read no finer; our judgement
JOINED_WITHIN = f"within {at_most_text(JOINED_WITHIN_MM)}"
