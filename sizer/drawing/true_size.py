"""How a builder sees that what is printed at true size is so: by lengths known before."""

JOINED_WITHIN_MM = 1.5  # of a check length over taped joints: a bar is read no finer; our judgement
JOINED_WITHIN = f"within {JOINED_WITHIN_MM:g} mm (1/16 in)"
