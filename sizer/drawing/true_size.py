"""How a builder sees that what is printed at true size is so: by lengths known before."""

from sizer.units import at_most_text

BAR_MM = 100.0  # of two bars on every page at true size, along and up the paper
BARS = (f"both {BAR_MM:g} mm bars, along and up the paper, on the first and the last page of every "
        "print run of the patterns")  # a run is scaled as one, and paper stretches; our judgement
JOINED_WITHIN_MM = 1.5  # of a check length over taped joints: a bar is read no finer; our judgement
JOINED_WITHIN = f"within {at_most_text(JOINED_WITHIN_MM)}"
