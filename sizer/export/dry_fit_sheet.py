"""The dry-fit sheet as PDF, to fill in at the bench: the design's figures beside the blanks."""

from sizer.built.asked import ACROSS, DIAGONAL, HALF, HEIGHT, LENGTH, MARK, asked_of
from sizer.built.measures import MOST_OFF_M
from sizer.built.points import points_of
from sizer.export.feet import LAST, cautions_blocks, foot
from sizer.export.pages import MARGIN_MM, document, heading, table, words
from sizer.export.tiles import PAPERS_MM
from sizer.units import MM_PER_M, mark_figure

INNER_MM = min(long for _, long in PAPERS_MM.values()) - 2.0 * MARGIN_MM  # of either paper, lying
PAD_PT = 4.5  # a hand writes there
HOW = (
    "Sticks in all frames, zip ties, boat on its strongback, before any wood is cut again. A few "
    "measures do, each side; those amidships of keel and chines tell most. Type them in the "
    "wizard's page “Dry fit”, or in a table for the command dry-fit. Heights are over the "
    "strongback's top, half-breadths from its centre line by a plumb, breadths across by one tape "
    "from stick to stick; all to the outer corner of the stick, on the frame's reference face.",
    f"What is more than {MOST_OFF_M * MM_PER_M:.0f} mm off is more likely a slip of the tape: "
    "measure it again.")


def dry_fit_pdf(job, unit="mm", paper="A4"):
    """The sheet of a Job, lying, its figures in "mm", "cm" or "in", on "A4" or "Letter"; bytes, the
    same for the same job."""
    boat = job.fitted.assessed.boat
    asked = asked_of(points_of(boat), job.setting_up)

    def said(value_m):
        return mark_figure(value_m * MM_PER_M, unit)

    return document(
        f"Dry fit: {boat.design.name}",
        [*map(words, HOW), *heading(f"Along the strongback, {unit}"), _along(asked, said),
         *heading(f"Frame by frame, bow to stern, {unit}"), *_frames(asked, said),
         *heading(f"Diagonals, {unit}"), _diagonals(asked, said),
         *cautions_blocks(job)],
        foot(job, LAST), PAPERS_MM[paper][::-1], job.imprint)


def _along(asked, said):
    """Three marks side by side, so that the sheet stays short."""
    rows = [("length over all" if one.what == LENGTH else one.frame, said(one.designed_m), "")
            for one in asked if one.what in (LENGTH, MARK)]
    rows += [("", "", "")] * (-len(rows) % 3)
    third = len(rows) // 3
    return table(("frame", "mark", "measured") * 3,
                 [sum((rows[place + part * third] for part in range(3)), ())
                  for place in range(third)], (4, 3, 4) * 3, INNER_MM, pad_pt=PAD_PT)


def _frames(asked, said):
    at = {(one.frame, one.stringer, one.what, one.side): one for one in asked}
    places = dict.fromkeys((one.frame, one.stringer) for one in asked
                           if one.what == HEIGHT and one.side != "port")
    columns = ((ACROSS, "both"), (HALF, "starboard"), (HEIGHT, "starboard"), (HALF, "port"),
               (HEIGHT, "port"))
    rows = []
    for frame, stringer in places:
        row = [frame, stringer]
        for what, side in columns:
            one = at.get((frame, stringer, what, side))
            if one is None and (what, side) == (HEIGHT, "starboard"):
                one = at.get((frame, stringer, HEIGHT, "centre"))
            row += [said(one.designed_m), ""] if one else ["–", "–"]
        rows.append(row)
    header = ("frame", "stick", "across", "measured", "starboard out", "measured", "up",
              "measured", "port out", "measured", "up", "measured")
    yield table(header, rows, (2.6, 5, *[3.0, 3.6] * 5), INNER_MM, pad_pt=PAD_PT)
    yield words("Sticks on the centre line: their height stands with starboard.")


def _diagonals(asked, said):
    rows = [(one.frame, f"{one.stringer} to the other side's {one.to[2]}", said(one.designed_m),
             "", "") for one in asked if one.what == DIAGONAL and one.side == "starboard"]
    return table(("frame", "from, to", "designed", "starboard down to port",
                  "port down to starboard"), rows, (2, 7, 3, 5, 5), INNER_MM, pad_pt=PAD_PT)
