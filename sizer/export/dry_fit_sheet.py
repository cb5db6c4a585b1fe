"""The dry-fit sheet as PDF, to fill in at the bench: the design's figures beside the blanks."""

from sizer.built.asked import (
    ACROSS,
    DIAGONAL,
    HALF,
    HEIGHT,
    LENGTH,
    MARK,
    SHORT,
    asked_of,
    straight,
)
from sizer.built.behind_risers import BEHIND, INSTEAD, OTHER_FACE, behind_risers, more_words
from sizer.built.points import points_of
from sizer.built.read_twice import READ_TWICE_M
from sizer.built.smooth import before
from sizer.built.telling import most_telling, slopes_of, spreads_after
from sizer.design.records import MOULDED_POINT
from sizer.export.feet import MADE_BY, alone, ground
from sizer.export.pages import MARGIN_MM, SCALES, heading, table, whole, words
from sizer.export.tiles import PAPERS_MM, USUAL_PAPER
from sizer.fit.checks import LEG_CLEAR_M
from sizer.hull.seat import LEAST_CLEAR_M
from sizer.paddler.room import HIP_SIDE_M
from sizer.scenes.dry_fit_way import way_drawing
from sizer.shop.hip_pads import LEAST_SIDE_M
from sizer.shop.planing import WHEN_OFF
from sizer.shop.said import at_most
from sizer.shop.sundries import LATH_M
from sizer.shop.work_figures import NEAR_M, SIDES_ALIKE_M
from sizer.units import MARK_PARTS, MM_PER_M, least_tape_text, mark_figure, mark_text, of_metres

INNER_MM = min(long for _, long in PAPERS_MM.values()) - 2.0 * MARGIN_MM  # of either paper, lying
PAD_PT = 4.0  # a hand writes there
FRAME_MM = 75.0  # of a page: the heads, and the sticks of one frame that no page parts
DIAGONALS_MM = 45.0  # of a page: the head, and some lines under it
FIRST = 20  # measures that stand on the first page, as telling most
TAPE_M = 0.002  # one standard deviation of a reading, where nothing else is said
WAY_MM = (INNER_MM, 46.0)  # of the picture of how it is measured; our drawing
THERE = "page 1"  # in the blank of what is asked there
HOW = (
    "Sticks in all frames, zip ties, boat on its strongback, before any wood is cut again. Write "
    "down what was measured and go by “When it is off”; send the sheet, with the line at its "
    "head, to whoever made these papers, before you cover the boat. With the wizard: type it in "
    "its page “Dry fit”, or in a table for the command dry-fit. Heights (up) are over the "
    "strongback's top, half-breadths (out) from its centre line, as the picture behind the tables "
    "tells; breadths across between two such places on the lath, by one tape; of each stick at "
    f"one point: {MOULDED_POINT}, on the frame's face that the mark is for. Nothing is planed yet. "
    "What is more than {far} off may be a slip of the tape: read it a second time.")
MEND = (
    "Port and starboard differ by more than {alike}, or a figure is more than {near} off? In this "
    "order, and measure again after each (our judgement):",
    "1. All sticks of one frame off alike: the frame stands wrong. Mark, face that looks to it, "
    "height, plumb, centre line: set the frame right, no notch.",
    "2. One stick off: is it down on its notch's floor, straight there and its tie snug, nothing "
    "under it, the notch sawn to its line?",
    "3. It is, and sighted along the stick bumps there. Too far out of the boat: file the notch's "
    "floor deeper by what it is off, never into a lashing hole. Too far in: glue a slip of wood so "
    "thick on the floor. Too high or low along the skin: the same on the notch's wall that it "
    "rests on. Each side by its own figure; what is filed cannot be filed back.",
    "4. It is fair and both sides are alike: leave it. It is a slightly other boat: send this "
    "sheet and have it worked out before you cover it; weights and freeboards may differ.")
WAY = (
    "{frame} from ahead, 1 : {one_to}. Clamp a straight lath on edge across the beam, under the "
    "frame, its face on the frame's mark, and carry the beam's centre line onto it. A square "
    "stands on the lath, its blade in the plane of that face, one edge at the point: under a "
    "stick whose face looks down its end touches there, beside a gunwale it goes up to the "
    "corner. Out: along the lath from the centre line to that edge. Up: along the blade, and the "
    "lath's {lath} added. Across: from edge to edge of two squares, or both outs together. A "
    "diagonal runs through the sticks themselves, where no straight tape goes: only by a trammel "
    "that reaches round them, else leave it blank; out and up at both its ends tell the same.")
SAT = ("Sitting in it as the order of work tells, coaming laid on, dressed and shod as afloat but "
       "for the hips. Rails, boards and pads are made by these.")
WHO = "Measured by ____________________ on ____________ , tape good to ± ______ "


def dry_fit_pdf(job, unit="mm", paper=USUAL_PAPER):
    """The sheet of a Job, lying, in "mm", "cm" or "in", on "A4" or "Letter"; always the same."""
    points = points_of(job.fitted.assessed.boat)
    asked = asked_of(points, job.setting_up)
    first, known = _first(job, points, asked, unit)
    said = of_metres(mark_figure, unit)
    behind = behind_risers(job, asked)
    return alone(job, ground(job, paper, lying=True).titled("Dry fit").sheet(
        *map(words, (HOW.format(far=_little(READ_TWICE_M, unit)), known, WHO + unit,
                      MADE_BY)),
        *heading(f"What tells most, once round the boat, {unit}"),
        _abreast(("measure", "designed", "measured"), [
            (one.short, said(one.designed_m), BEHIND * (one in behind)) for one in first], 2,
            (7.5, 2.2, 3)), *map(words, _behind(behind, said)),
        whole(*heading(WHEN_OFF.strip("“”")), *map(words, _mend(unit))),
        whole(*heading(f"The paddler in the dry frame, {unit}"), words(SAT), _sat(job, said, unit)),
        whole(*heading(f"Along the strongback, {unit}"), _along(asked, job, said)),
        *heading(f"Frame by frame, bow to stern, {unit}", FRAME_MM),
        *_frames(asked, first, behind, said), _way(job, paper, unit),
        *heading(f"Diagonals, {unit}", DIAGONALS_MM),
        _diagonals(asked, first, behind, said)))


def _little(value_m, unit):
    """A small length in a sentence; in inches too where they are the unit, since it is no mark."""
    size = f"{value_m * MM_PER_M:.2g} mm"
    return f"{size} ({mark_text(value_m * MM_PER_M, unit)})" if unit == "in" else size


def _mend(unit):
    """What to do where it is off, step by step."""
    alike, near = (at_most(size) if unit == "in" else _little(size, unit)
                   for size in (SIDES_ALIKE_M, NEAR_M))
    return [step.format(alike=alike, near=near) for step in MEND]


def _first(job, points, asked, unit):
    """The measures that tell most, and what they and all of them tell."""
    slopes = slopes_of(job.fitted.assessed, job.drawn_for)
    asked = straight(asked)
    first = most_telling(points, slopes, before(points), asked, TAPE_M, FIRST)
    known = [f"displacement to ± {100.0 * share:.1f} % and GM to ± {_little(gm, unit)}"
             for share, gm in (spreads_after(points, slopes, before(points), some, TAPE_M)
                               for some in (first, asked))]
    return sorted(first, key=asked.index), (
        f"A few measures do. The {len(first)} on this page tell most of how the boat floats: by a "
        f"tape good to {_little(TAPE_M, unit)} {known[0]} (two times of three it is closer); all "
        f"on these sheets {known[1]}. A steel rule and a square tell more than a tape.")


def _way(job, paper, unit):
    """How out, up and across are measured, drawn on the widest frame."""
    station, pattern = max(zip(job.setting_up.stations, job.patterns.frames, strict=True),
                           key=lambda one: max(y for y, _ in one[0].points_m.values()))
    one_to, picture = ground(job, paper, lying=True).scaled(
        lambda letters: way_drawing(station, pattern, letters), WAY_MM, scales=SCALES)
    return whole(picture, words(WAY.format(frame=station.name, one_to=one_to,
                                           lath=_little(LATH_M[0], unit))))


def _behind(behind, said):
    """What is taped on the other face of its frame's plywood, and by how much that differs."""
    told = {}
    for one, more in behind.items():
        name = f"{one.stringer} {SHORT[one.what]}{f' to {one.to[2]}' if one.to else ''}"
        told.setdefault(one.frame, {})[name] = more_words(more, said)
    listed = "; ".join(f"{frame} {', '.join(f'{name} {more}' for name, more in of.items())}"
                       for frame, of in told.items())
    if told:
        yield (f"{BEHIND} {OTHER_FACE} what it says there with so much added (+) or taken off (−): "
               f"{listed}. {INSTEAD}")


def _along(asked, job, said):
    face = {one.name: one.reference_face for one in job.setting_up.stations}
    short = sum(tip for stem in job.patterns.stems for (tip, _), _ in [stem.head_m])
    rows = [(f"length over all: over the bare stems' tips, {said(short)} added"
             if one.what == LENGTH else f"{one.frame}, {face[one.frame]} face",
             said(one.designed_m), "") for one in asked if one.what in (LENGTH, MARK)]
    return _abreast(("frame", "mark", "measured"), rows, 3, (4.4, 3, 3.6))


def _sat(job, said, unit):
    """What is measured of the paddler in the frame, with the least or the place that is asked."""
    brace, up = job.patterns.seat.footbrace, job.setting_up
    sole = job.fitted.assessed.boat.seat_x_m - brace.set_m - up.strongback_start_x_m
    clear, legs, hips, board = (_least(one, said, unit) for one in (
        LEAST_CLEAR_M, LEG_CLEAR_M, HIP_SIDE_M, LEAST_SIDE_M))
    beside = f"{hips} at least, {board} for a board"
    rows = [("seat to the skin's line, least", f"{clear} at least", ""),
            ("legs to the nearest frame", f"{legs} at least", ""),
            ("thighs to what is over them", "a flat hand goes in", ""),
            ("hips, undressed, to the bare wood starb.", beside, ""),
            ("hips, the same to port", beside, ""),
            ("soles, on the tape", said(sole), ""),
            ("ten times in and out, the last quickly", "no hand on the legs", ""),
            ("where legs, feet or hips hung up", "nowhere", "")]
    return _abreast(("measure", "asked", "measured"), rows, 2, (5.4, 5, 2.4))


def _least(value_m, said, unit):
    """The least that is asked, never less in inches."""
    return least_tape_text(value_m * MM_PER_M, MARK_PARTS)[:-1] if unit == "in" else said(value_m)


def _abreast(header, rows, parts, shares):
    """A table folded into so many side by side, so that the sheet stays short."""
    rows = [*rows, *[("",) * len(header)] * (-len(rows) % parts)]
    high = len(rows) // parts
    return table(header * parts, [sum((rows[place + part * high] for part in range(parts)), ())
                                  for place in range(high)], shares * parts, INNER_MM,
                 pad_pt=PAD_PT)


def _frames(asked, first, behind, said):
    at = {(one.frame, one.stringer, one.what, one.side): one for one in asked}
    places = list(dict.fromkeys((one.frame, one.stringer) for one in asked
                                if one.what == HEIGHT and one.side != "port"))
    columns = ((ACROSS, "both"), (HALF, "starboard"), (HEIGHT, "starboard"), (HALF, "port"),
               (HEIGHT, "port"))
    rows = []
    for frame, stringer in places:
        row = [frame, stringer]
        for what, side in columns:
            one = at.get((frame, stringer, what, side))
            if one is None and (what, side) == (HEIGHT, "starboard"):
                one = at.get((frame, stringer, HEIGHT, "centre"))
            row += [said(one.designed_m), _blank(one, first, behind)] if one else ["–", "–"]
        rows.append(row)
    names = [frame for frame, _ in places]
    together = [(names.index(name), len(names) - 1 - names[::-1].index(name))
                for name in dict.fromkeys(names)]
    header = ("frame", "stick", "across", "measured", "starb. out", "measured", "starb. up",
              "measured", "port out", "measured", "port up", "measured")
    yield table(header, rows, (2.2, 5.2, *[3.2, 3.2] * 5), INNER_MM, pad_pt=PAD_PT,
                together=together)
    yield words("Sticks on the centre line: their height stands with starboard.")


def _blank(one, first, behind):
    """What stands in the blank of an Asked."""
    return THERE if one in first else BEHIND * (one in behind)


def _diagonals(asked, first, behind, said):
    pairs = zip(*([one for one in asked if one.what == DIAGONAL and one.side == side]
                  for side in ("starboard", "port")), strict=True)
    rows = [(one.frame, f"{one.stringer} to the other side's {one.to[2]}", said(one.designed_m),
             *(_blank(this, first, behind) for this in (one, other))) for one, other in pairs]
    return table(("frame", "from, to", "designed", "starboard down to port",
                  "port down to starboard"), rows, (2, 7, 3, 5, 5), INNER_MM, pad_pt=PAD_PT)
