"""The sticks' cards as PDF: one page a stick, to scale, with its marks in one tape pull, in
millimetres and in inches.
"""

from functools import lru_cache, partial

from reportlab.platypus import PageBreak

from sizer.drawing.told import READERS, UNIT, Told, in_tenths, row_of, told
from sizer.export.feet import alone, ground
from sizer.export.fit_words import CHECKS_WORDS
from sizer.export.lengths import in_of
from sizer.export.pages import height_mm, table, words
from sizer.export.pdf_canvas import BOLD
from sizer.export.stick_end_words import (
    both_of,
    deg,
    ends,
    feet,
    lap,
    marked_at,
    on_stems,
    tenths,
    ties,
)
from sizer.export.tiles import USUAL_PAPER
from sizer.scenes.stick_card import ACROSS, crowded, stick_card, stick_details
from sizer.shop.planing import planed_edges, planed_notches, planed_text, slope_words
from sizer.shop.scarfs import SCARF_RATIO
from sizer.shop.stick_marks import (
    over_all_m,
    scarf_faces,
    stick_marks,
)
from sizer.shop.stringers import ALLOWANCE_M, BENDS
from sizer.shop.trade_sizes import section_text, section_told
from sizer.shop.twists import TWISTS, bay_twists
from sizer.units import MM_PER_M

DETAIL_LETTERS_MM = 2.0  # of those of the ends and the scarf
DETAIL_SCALES = (4, 5, 6, 8)
DETAIL_MM = 40.0  # that they may be high
SCALES = (3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30)  # one to so many
NAME_PT, PAD_PT = 15.0, 0.6  # the latter over and under the letters of the table
# Of words and table, pt, of the picture's height and its capitals', mm: the first with which all is
# on one page, else the largest, on two; our drawing
SIZES = (
    (10.5, 11.0, 92.0, 2.7), (9.5, 10.5, 70.0, 2.7), (9.0, 10.0, 66.0, 2.7),
    (8.8, 9.2, 62.0, 2.7), (8.4, 8.6, 56.0, 2.2), (8.2, 8.2, 52.0, 2.1), (8.0, 8.0, 48.0, 2.1),
    (8.0, 8.0, 44.0, 2.1), (8.0, 8.0, 44.0, 1.85), (8.0, 8.0, 36.0, 1.85))
COLUMNS = (("tape, mm", 3.2), ("tape, in", 4.6), ("what", 7.4), ("width or rise", 5.2),
           ("face, °", 2.5), ("turns, °", 2.7))
LEAST_ROW = 0.12  # that is drawn, of a whole row; our drawing
LEAST_TWIST_DEG = 0.05  # less rounds to nothing
BESIDE_MM = 6.0  # of an end cut beside a row's end, both together
IN_INCHES = Told("", " Figures: inches, as below.")
BEYOND = "evenly from frame to frame and on to the ends"
NONE = "-"  # in a cell that does not apply


def sticks_pdf(job, bench, paper=USUAL_PAPER):
    """The cards of a job, then its cautions, on one of PAPERS_MM; the same bytes always."""
    return alone(job, sticks_sheet(ground(job, paper), bench), PageBreak())


def sticks_sheet(on, bench, numbers=None):
    """The cards as a Sheet with a foot of its own; `numbers` are {stick's name: part number}."""
    on, blocks = on.titled("Sticks"), []
    room = on.room_mm
    for stick in bench.sticks:
        name = f"{numbers[stick.name]}: {stick.name}" if numbers else stick.name
        for sizes in SIZES:
            if not _scales(on, stick, sizes[-1]):
                continue
            card = list(_card(on, bench, stick, name, room[0], sizes))
            if height_mm(card, room[0]) <= room[1]:
                break
        else:
            card = list(_card(on, bench, stick, name, room[0], SIZES[0]))
        blocks += [*([PageBreak()] if blocks else []), *card]
    return on.sheet(*blocks)


def _card(on, bench, stick, name, inner, sizes):
    """The blocks of one stick, `inner` mm wide, in letters of SIZES."""
    words_pt, table_pt, picture_mm, letters_mm = sizes
    one = stick.stringer
    line = "upper corner" if one.role == "gunwale" else "middle"
    one_to, picture = on.scaled(
        lambda letters: stick_card(stick, (inner - BESIDE_MM) / letters_mm * letters, letters,
                                   on.unit),
        (inner, picture_mm), letters_mm, _scales(on, stick, letters_mm) or SCALES)
    count = "one stick" if one.count == 1 else "two sticks, port and starboard alike but mirrored"
    yield words(name, NAME_PT, BOLD)
    yield words(f"{one.wood}, {section_text(one.width_m, one.depth_m)}; {count}. Finished "
                f"{both_of(over_all_m(stick))} over all, from long point to long point; on the "
                f"tape {both_of(stick.length_m)}. Cut {both_of(stick.cut_m)}: tape 0 is marked "
                f"{both_of(ALLOWANCE_M)} in from the rough forward end. The boat's checks: "
                f"{CHECKS_WORDS[on.job.status]}.", words_pt)
    yield picture
    yield words(f"Outer face{', port' if one.count > 1 else ''}, bow on the left, 1 : {one_to} "
                f"along, 1 : {one_to / ACROSS:.3g} across; one tape pull along its {line}. Of a "
                "taper: the width left. Of a frame, marked at its reference face (heavy): the "
                "face's angle from level, what it rises over the width there, and how it turns "
                f"from the frame before, + upright.{on.read(IN_INCHES)}", words_pt)
    yield from _details(on, stick, words_pt)
    yield table([name for name, _ in COLUMNS], [_row(on, mark) for mark in stick_marks(stick)],
                [share for _, share in COLUMNS], inner, table_pt, PAD_PT)
    for said in (*ends(on, stick), *on_stems(stick), *ties(stick), *lap(bench, stick),
                 *_bends(stick), *_pieces(stick), *map(on.read, _planed(bench, stick))):
        yield words(said, words_pt)


def _scales(on, stick, letters_mm):
    """SCALES at which the last row of a stick is no mere end of it, and in inches, which are longer
    to write, each row has room for its marks' figures; none where letters so high leave none."""
    return _scales_on(stick, letters_mm, on.inner_mm, on.unit)


@lru_cache(maxsize=256)  # a job's sticks: for plans and for cards, and for each size twice
def _scales_on(stick, letters_mm, inner_mm, unit):
    row_mm = inner_mm - BESIDE_MM
    rows = {scale: stick.length_m * MM_PER_M / scale / row_mm for scale in SCALES}
    found = [scale for scale, count in rows.items()
             if count <= 1.0 or count % 1.0 > LEAST_ROW] or SCALES
    if unit == READERS[0]:
        return found
    cards = ((scale, stick_card(stick, row_mm * scale / MM_PER_M, letters_mm * scale / MM_PER_M,
                                unit)) for scale in found)
    return [scale for scale, card in cards if not crowded(card)
            and card.width_m * MM_PER_M / scale <= inner_mm]


def _details(on, stick, words_pt):
    """The ends and the scarf as they are seen, where the stick has such."""
    if stick_details(stick, 1.0 / MM_PER_M) is None:
        return
    one_to, picture = on.scaled(partial(stick_details, stick), (on.inner_mm, DETAIL_MM),
                                DETAIL_LETTERS_MM, DETAIL_SCALES)
    yield picture
    cut = any(end.cut_deg is not None for end in (stick.forward, stick.after))
    seen = "from the side" if stick.stringer.lies_flat else "on the outer face"
    said = [f"1 : {one_to}, {on.read(UNIT)}."]
    both = stick.forward, stick.after
    if cut:
        said.append(f"End cuts {seen}, the tape's mark {marked_at(stick)}; dashed: sawn "
                    "off.")
    if any(end.bevel_deg for end in both):
        said.append("Under them bevels on the upper edge, outer face down: along either edge a "
                    "bevel is measured from that edge's own end, long point or short point.")
    if any(end.aslant for end in both):
        said.append("Under an end that is not twisted: where its bevel ends on the inner face, "
                    "seen through the stick; dashed over it where that begins on the outer face.")
    yield words(" ".join(said), words_pt)


def _row(on, mark):
    what = mark.what
    if mark.rise_m is None:
        size = "" if mark.width_m is None else f"wide {_wide(mark)}"
    else:
        size = f"rise {_short(mark.rise_m)}"
        what += "" if mark.width_m is None else f", {on.read(in_tenths(mark.width_m))} wide"
    return (tenths(mark.along_m), in_of(mark.along_m), what, size or NONE,
            _or(mark.face_deg, deg),
            _or(mark.turn_deg, lambda deg: f"{round(deg, 1) + 0.0:+.1f}"))  # + 0.0: no -0.0


def _bends(stick):
    hard = [f"{bend.verdict} {name}, radius {both_of(bend.radius_m)} at {both_of(bend.along_m)}"
            for name, bend in (("in plan", stick.plan), ("in profile", stick.profile))
            if bend and bend.verdict != BENDS[0]]
    said = f"It {'; '.join(hard) or BENDS[0]}"
    if abs(stick.twist_deg) >= LEAST_TWIST_DEG:
        fore, aft = stick.twisted_between
        said += f", and winds {deg(abs(stick.twist_deg))}° in all from {fore} to {aft}"
    yield f"{said}.{_twist(stick)}"


def _twist(stick):
    """What is told of its twists that are not easy."""
    return "".join(
        f" From {one.fore} to {one.aft}, {deg(one.deg)}° in {both_of(one.long_m)}, {one.verdict}: "
        f"cold it is strained there to {one.share:.1f} of what splits it, an estimate."
        for one in bay_twists(stick) if one.verdict != TWISTS[0])


def _pieces(stick):
    said = []
    for side, joints in stick.sides.items():
        if joints.middles_m:
            lengths = " + ".join(map(both_of, joints.pieces_m))
            said.append(f"{f'{side.capitalize()}: pieces' if side else 'Pieces'} {lengths}."
                        + (f" Mind: {joints.says}." if joints.says else ""))
    if said:
        seen, square = scarf_faces(stick)
        yield " ".join([*said, f"Each scarf is {both_of(stick.joints.scarf_m)} long, "
                        f"{SCARF_RATIO:g} : 1 through the thinner way: its slope is seen on "
                        f"{seen}, on {square} it is a line square across."])


def _planed(bench, stick):
    """What is planed off it where it stands outside the skin, and off which face."""
    said = [told("{} {}", frame.name, planed_text(notch)) for frame in bench.frames
            for notch in planed_notches(frame) if notch.stringer == stick.name]
    said += [told("{} {}", end.on, planed_edges(end.aslant.proud_m))
             for end in (stick.forward, stick.after) if end.aslant]
    if said:
        yield told("Stands outside the skin: the dry fit measured, plane {}: {}; {}.",
                   slope_words(stick.stringer.role), row_of(said, "; "), BEYOND)


def _or(value, written):
    return NONE if value is None else written(value)


def _wide(mark):
    """What is left of a stick there; at its end, which meets a stem, as the stem's thickness."""
    if mark.kind != "end":
        return _short(mark.width_m)
    return f"{tenths(mark.width_m)} ({section_told(mark.width_m).inches})"


def _short(value_m):
    return f"{tenths(value_m)} ({feet(value_m)})"
