"""Sheets of a plan set that show shapes: the lines plan, frames and stems to scale."""

from functools import partial

from reportlab.platypus import PageBreak

from sizer.design.records import MOULDED_POINT
from sizer.drawing.told import BOTH_UNITS, UNIT, in_openings, in_tenths, row_of, size, told
from sizer.export.pages import LETTERS_MM, air, heading, table, whole, words
from sizer.scenes.frames_to_scale import pieces_to_scale, spacers_to_scale
from sizer.scenes.lines_plan import body_plan_drawing, profile_and_plan
from sizer.scenes.sheets_to_scale import sheets_to_scale
from sizer.shop.frame_drawing import filed_words
from sizer.shop.lashing import HOLE_SIZE
from sizer.shop.layout import FACE_GRAIN, PLATES_GRAIN
from sizer.shop.parts import plywood_numbers
from sizer.shop.planing import GAUGED, planed_words, where_words
from sizer.shop.said import listed
from sizer.shop.seat_drawing import plywood_plates
from sizer.shop.spacers import mortise_of, spacer_notes
from sizer.units import MM_PER_M, tape_text

SMALL_MM = 1.9  # where many figures stand close; our drawing
SHEET_SCALES = (10, 12, 15, 20, 25, 30, 40, 50, 60)
WORDS_MM = 10.0  # room for the words under pictures
SPACE_MM = 2.0
TABLE_PT = 7.6  # and of the words about stems under them


def lines_sheet(on):
    on = on.titled("Lines plan")
    under = WORDS_MM + SPACE_MM
    scale, long = on.pictured(profile_and_plan, on.boat, on.job.fitted.assessed.particulars,
                              less_mm=under, letters_mm=SMALL_MM)
    across, body = on.pictured(body_plan_drawing, on.boat, less_mm=under)
    body.hAlign = "CENTER"
    return on.sheet(
        long, air(),
        words(f"Profile and half-breadth plan, 1 : {scale}; {BOTH_UNITS}. "
              "Lines are moulded lines, the inside of the skin (of a stick "
              f"{MOULDED_POINT}); the gunwale's is the sheer. "
              "Under the profile: each frame's reference face from the bow; over the plan: its "
              "greatest half-breadth. Thin level line: the water with the load of the cover. "
              "All heights and half-breadths: Setting up.", 8.5),
        PageBreak(), body,
        words(f"Body plan, 1 : {across}: each frame's half, seen along the boat.", 8.5))


def pieces_sheet(on, bench, numbers):
    """Frames and stems of a Bench to scale."""
    on, job = on.titled("Frames and stems"), on.job
    width = on.inner_mm
    stations = job.setting_up.stations
    notes = [words(text, 8.5) for text in (
        "Seen on the reference face: on a face that looks to the bow, starboard is on the left. "
        "Their true outlines are in the patterns' file; here, to know each piece and to check it: "
        f"over all in {BOTH_UNITS}. First figure: part number. Lashing holes "
        f"{HOLE_SIZE}.",
        "Plywood lies " + "; ".join(f"{side} of the mark: " + ", ".join(
            one.name for one in stations if one.plywood_lies == side)
            for side in ("aft", "forward")) + ".",
        "Saw every notch on the pattern's heavy line, by hand or by router, and file nothing yet: "
        "it is wider already where its stick runs through at an angle. The dashed stick is for the "
        "eye. A solid frame has a window, smaller than a ring's opening.")]
    found = [(row, *on.pictured(lambda letters, row=row: pieces_to_scale(
        bench, numbers, letters, row), less_mm=14.0 * len(notes))) for row in (3, 2, 4)]
    _, one_to, picture = min(found, key=lambda one: (one[1], one[0]))
    cut = plywood_numbers(job.lines.design, bench.spacers, plywood_plates(bench.seat),
                          bench.outfit_pieces)
    plates = plywood_plates(bench.seat)
    grain = f"{FACE_GRAIN} {PLATES_GRAIN}" if plates else FACE_GRAIN
    near, sheets = on.pictured(lambda letters: sheets_to_scale(
        bench.layouts, cut, letters, (width - 1.0) / LETTERS_MM * letters, on.unit),
        share=0.55, scales=SHEET_SCALES)
    return on.sheet(
        picture, words(f"Scale 1 : {one_to}.", 8.5), *notes,
        whole(*heading("On the plywood"), sheets,
              words(f"Scale 1 : {near}; numbers as in the parts list. {grain} The kit's files "
                    "have the same at true size.", 8.5)),
        *_spacers(on, bench, numbers), *heading("Of single pieces"),
        words(on.read(_plane_off(bench)), 8.5),
        table(("frame", f"wider by, {on.read(UNIT)} at the other face",
               f"plane off the stick, {on.read(UNIT)}"),
              [(one.name, *(on.read(row_of(made(one), "; ")) for made in (
                  filed_words, planed_words))) for one in bench.frames], (1.4, 7.6, 8.6), width,
              TABLE_PT),
        *heading("Lashing holes of the stems"), *_stem_holes(bench, width),
        *(words(on.read(text), TABLE_PT) for text in _own_notes(bench)))


def _plane_off(bench):
    """What the table's last column means, and off which face."""
    where = where_words(bench.frames)
    return told("Plane off: where a stick, not the frame, stands outside the skin{} The step of "
                "the Order of work tells when.",
                told(": plane {}. {}", where, GAUGED) if where else ".")


def _spacers(on, bench, numbers):
    """The spacers to scale, their mortises, how they are fixed."""
    if not bench.spacers:
        return
    one_to, picture = on.scaled(partial(spacers_to_scale, bench.spacers, numbers),
                                (on.inner_mm - 1.0, 60.0))
    up = on.job.setting_up.baseline_height_m
    mortises = []
    for one in bench.frames:
        if one.mortises:
            (half, high), sides, _ = mortise_of(one)
            mortises.append(told("{} {}, its middle {} off the centre line and {} over the "
                                 "strongback", one.name, size(*sides, form=in_openings),
                                 in_tenths(half), in_tenths(high + up)))
    notes = [words(on.read(text), 8.0) for text in spacer_notes(bench.spacers)]
    yield whole(*heading("Spacers"), picture, words(
        f"1 : {one_to}, {on.read(UNIT)}, bow on the left, two of each, port and "
        "starboard; they keep two cockpit frames apart and square under the paddler's weight. "
        "The two tenons of one spacer may be of unlike length: where two spacers meet in one "
        "frame, each goes half through. "
        f"Mortises: {on.read(row_of(mortises, '; '))}.", 8.0))
    yield from map(whole, notes)


def _stem_holes(bench, width):
    rows = []
    for stem in bench.stems:
        end, _, _, head = stem.wood.bounds
        for one in stem.lashings:
            rows += [(stem.name, listed(list(one.sticks)), in_tenths(inboard - end),
                      in_tenths(head - height), tape_text((inboard - end) * MM_PER_M),
                      tape_text((head - height) * MM_PER_M))
                     for inboard, height in one.holes]
    yield words("Middles, measured on the piece as it stands in the boat: level, from its point "
                "farthest out, and straight down from its highest point.", 8.5)
    yield table(("stem", "lashing of", "inboard, mm", "down, mm", "inboard, in", "down, in"), rows,
                (2.4, 5.6, 2.4, 2.4, 2.6, 2.6), width, TABLE_PT)


def _own_notes(bench):
    """What the patterns tell of shared pockets, of each stem, and of all stems at once."""
    for frame in bench.frames:
        for one, other in frame.shared_notches:
            yield f"{frame.name}: {one} and {other} share one pocket; its pattern tells how."
    stems = [one.notes for one in bench.drawings[len(bench.frames):]]
    alike = [note for note in stems[0] if all(note in other for other in stems)]
    yield from (row_of([note for note in one if note not in alike], " ") for one in stems)
    if alike:
        yield told("Each stem: {}", row_of(alike, " "))
