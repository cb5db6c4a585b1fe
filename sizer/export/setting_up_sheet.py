"""The setting-up sheet as PDF: the strongback to scale, every mark on it, heights and faces."""

from sizer.design.records import MOULDED_POINT
from sizer.drawing.record import side_by_side
from sizer.drawing.told import UNIT, WHOLE, Told, in_marks, in_mm
from sizer.export.feet import alone, ground
from sizer.export.fit_words import CHECKS_WORDS, odds_met
from sizer.export.lengths import columns_of, in_of, marked, mm_of, sized
from sizer.export.pages import SCALES, heading, table, whole, words
from sizer.export.riser_words import made_words
from sizer.export.tiles import USUAL_PAPER
from sizer.scenes.risers import IN_A_ROW, hung_side, riser_side, risers_and_stay_drawing
from sizer.scenes.stem_post import posts_drawing
from sizer.scenes.strongback import strongback_drawing
from sizer.shop.bench_marks import set_up_words
from sizer.shop.risers import FOOT_SCREW_MM, THICK_M
from sizer.shop.said import both, both_sides, listed
from sizer.shop.stem_posts import FOOT_LONG_M, LOOSE, STOCK_M, arms_words
from sizer.shop.stem_stays import STAYED, stay_words
from sizer.shop.trade_sizes import screw_text

WORDS_MM = 28.0  # room for the words over and under the picture
RISER_WORDS_MM = 60.0  # the same of the risers' picture, with them from the side over it
POSTS_MM = 56.0  # of the stems' posts; our drawing
SIDE_MM, SIDE_SCALES = 52.0, (3, 4, 5, 6, 8, 10)  # of a riser from the side; our drawing
TABLE_PT, WORDS_PT = 8.2, 9.0
PLANE_NONE = ("Plane no frame for the skin: whether the water presses it onto one, the step “Skin "
              "on” of the order of work tells.")
LETTERS_MM = 2.6  # of the picture's words on paper; our drawing
FIGURES_MM = {"mm": LETTERS_MM, "in": 2.1}  # of many figures: inches are longer; our drawing


def setting_up_pdf(job, bench, paper=USUAL_PAPER):
    """The sheet of a job, lying, on one of PAPERS_MM; bytes, the same for the same job."""
    return alone(job, setting_up_sheet(ground(job, paper, lying=True), bench))


def setting_up_sheet(on, bench):
    """The same as a Sheet with a foot of its own."""
    on, job = on.titled("Setting up"), on.job
    inner = on.inner_mm
    return on.sheet(
        *_picture(on, bench), whole(*heading("Frames"), _frames(job, inner)),
        *_offsets(job, inner), *heading("Risers and stem posts"), *_risers(on, bench),
        *heading("Other marks"), _marks(bench.marks, inner), words(_cockpit(job)),
        *_doubts(bench),
        words(PLANE_NONE),
        words(f"Made for this shop: {bench.shop_words}"))


def _picture(on, bench):
    job, boat, up, marks = on.job, on.boat, on.job.setting_up, bench.marks
    one_to, picture = on.pictured(
        lambda letters_m: strongback_drawing(job, bench, letters_m, lambda value_m: on.read(
            Told(in_mm(value_m), in_marks(value_m).inches))),
        less_mm=WORDS_MM, letters_mm=FIGURES_MM[on.unit], scales=SCALES)
    yield words(f"{sized(boat.length_m)} long, {sized(boat.beam_m)} wide; "
                f"checks: {CHECKS_WORDS[job.status]}; {odds_met(job.fitted.odds_all_hard)}. "
                f"Strongback {marked(marks.strongback_m)} long; all marks in one "
                "tape pull from its forward end, the datum, which stands "
                f"{marked(up.strongback_start_x_m)} aft of the bow. Mark the reference face; the "
                "plywood lies on the side that the small triangle points to, the riser on the "
                f"other. Set up {set_up_words(marks.risers)}.", WORDS_PT)
    yield picture
    yield words(f"Scale 1 : {one_to}, {on.read(WHOLE)}. From above: tape marks (minus: ahead of "
                "the datum); thin: all feet; heavy: laths of stems and legs. From the side: "
                "gunwale and keel over the strongback.", WORDS_PT)


def _frames(job, inner):
    header = ("frame", "kind", "mark, mm", "mark, in", "face looks", "plywood lies",
              "gunwale, mm", "in", "keel, mm", "in", "plywood, mm")
    rows = [(one.name, one.kind, *columns_of(one.strongback_m),
             "to the bow" if one.reference_face == "forward" else "to the stern",
             f"{one.plywood_lies} of the mark", *columns_of(one.gunwale_height_m),
             *columns_of(one.keel_height_m), mm_of(one.thickness_m))
            for one in job.setting_up.stations]
    return table(header, rows, (3, 3.6, 3.2, 3.6, 4, 5.4, 3.4, 3.4, 3, 3.2, 3), inner, TABLE_PT)


def _risers(on, bench):
    """Every riser and stem post with its stock, heights and fixing."""
    marks, base = bench.marks, on.job.setting_up.baseline_height_m
    yield from (words(text, WORDS_PT) for text in made_words(bench))
    yield from _from_the_side(on, bench)
    one_to, _, picture = min(((scale, row, picture) for row in IN_A_ROW[on.unit]
                              for scale, picture in [on.pictured(
                                  risers_and_stay_drawing, bench, base, on.unit, row,
                                  less_mm=RISER_WORDS_MM, letters_mm=FIGURES_MM[on.unit],
                                  scales=SCALES)]),
                             key=lambda one: (one[0], -one[1]))
    yield picture
    yield words(f"Scale 1 : {one_to}, {on.read(UNIT)}, each seen on the frame's reference face; "
                "heights over the strongback. Last the bow stem's laths, from ahead.")
    yield words(" ".join((STAYED, LOOSE)[:1 + any(one.tips for one in marks.posts)]), WORDS_PT)
    for unit, written in (("mm", mm_of), ("in", in_of)):
        yield whole(_risers_table(marks.risers, unit, written, on.inner_mm))
    yield whole(_laths_table(bench, on.inner_mm), words(
        "A lath's screws: tape / from the centre line / over the strongback, minus: under its top.",
        TABLE_PT))
    bare = {one.name: [high + base for _, high in one.head_m] for one in bench.stems}
    for post, stay in zip(marks.posts, bench.stays, strict=True):
        face, foot = ("outer" if post.foot_outside else "inner"), map(marked, post.foot_tape_m)
        yield whole(words(
            f"{post.stem}: post {both_sides(STOCK_M, STOCK_M)}, {marked(post.long_m)} long to its "
            f"arms' top, its face to the boat's middle at {marked(post.strongback_m)} on the tape. "
            f"A slot {marked(post.slot_m)} wide takes the stem's edge: its floor "
            f"{marked(post.inner_floor_m)} high at that face and {marked(post.outer_floor_m)} at "
            f"the other, its arms sawn level, {marked(post.arms_m)} over the higher. The bare "
            f"plywood's tip, its point farthest out, stands {marked(bare[post.stem][0])} high, the "
            f"inner corner of its head {marked(bare[post.stem][1])}; the ridge on it is "
            f"{marked(post.head_m)} high at the boat's end. {stay_words(stay)}"
            f"{arms_words(post)}Against the post's "
            f"{face} face, from {' to '.join(foot)} on the tape, lies a foot of its stock, "
            f"{both(FOOT_LONG_M)} across the beam: two screws "
            f"{screw_text(FOOT_SCREW_MM)} through the post into it, two down, one each side.",
            WORDS_PT))


def _from_the_side(on, bench):
    """The lowest riser of each kind from the side with its screws."""
    pairs = [(riser, pattern.thickness_m) for riser, pattern in zip(
        bench.marks.risers, bench.frames, strict=True)]
    stand, hang = ([one for one in pairs if (one[0].bar_m is not None) == hung]
                   for hung in (False, True))
    shown = [(view, *min(some, key=lambda one: one[0].height_m))
             for view, some in ((riser_side, stand), (hung_side, hang)) if some]
    one_to, picture = on.scaled(
        lambda letters: side_by_side("from the side", [
            view(riser, thick, letters) for view, riser, thick in shown], 2.0 * letters),
        (on.inner_mm - 1.0, SIDE_MM), LETTERS_MM, SIDE_SCALES)
    yield whole(picture, words(
        f"{listed([riser.frame for _, riser, _ in shown])} from the side, the bow on the left, "
        f"1 : {one_to}, screws heavy; the others alike, turned round where their boards stand on "
        "the other side of the mark."))
    loose = any(one.tips for one in bench.marks.posts) * (
        "thin beside it, the boards of its loose arms, which are sawn off along the floor; ")
    one_to, picture = on.scaled(lambda letters: posts_drawing(bench.marks.posts, letters),
                                (on.inner_mm - 1.0, POSTS_MM), LETTERS_MM, SIDE_SCALES)
    yield whole(picture, words(
        f"The stems' posts, 1 : {one_to}, {on.read(WHOLE)}: from the side, the bow on the left, "
        f"dashed the slot's floor, and from the boat's middle; {loose}heights over the "
        "strongback."))


def _risers_table(risers, unit, written, width):
    header = ("frame", "riser", f"face on mark, {unit}", "cheek stands", f"cheek, {unit}",
              f"half-breadths, {unit}", f"lower end, {unit}", f"top, {unit}",
              f"ledge, inner / outer edge, {unit}")
    rows = [(one.frame, one.kind, written(one.strongback_m), f"{one.stands} of it",
             f"{written(one.wide_m)} x {written(THICK_M)}",
             f"{written(one.inner_m)} to {written(one.outer_m)}", written(one.low_m),
             written(one.height_m), " / ".join(written(edge) for edge in one.ledge_m or ()))
            for one in risers]
    shares = (2.2, 2.8, 3.4, 4.0, 4.4, 5.4, 3, 3.2, 5.0)
    hung = any(one.bar_m for one in risers)
    header, shares = (*header, f"foot{', bar' * hung}, {unit}"), (*shares, 3)
    rows = [(*row, written(one.foot_m)) for row, one in zip(rows, risers, strict=True)]
    if hung:
        header, shares = (*header, f"leg, inner face from centre, {unit}"), (*shares, 3)
        rows = [(*row, "-" if one.leg_m is None else written(one.leg_m))
                for row, one in zip(rows, risers, strict=True)]
    if any(one.hides for one in risers):
        header, shares = (*header, "lashed when it is off"), (*shares, 4.0)
        rows = [(*row, ", ".join(one.hides) or "-") for row, one in zip(rows, risers, strict=True)]
    return table(header, rows, shares, width, TABLE_PT)


def _laths_table(bench, width):
    """Where the screws of the laths that stay stems and legs are, to starboard, and how long."""
    laths = [*((f"{one.stem}, from its block", one) for one in bench.stays),
             *((f"{one.frame}'s leg", one) for one in bench.leg_stays if one.clear)]
    rows = [[name, *(" / ".join(map(written, end)) for end in one.ends_m
                     for written in (mm_of, in_of)), *columns_of(one.long_m)]
            for name, one in laths]
    ends = [f"{end} end, {unit}" for end in ("upper", "lower") for unit in ("mm", "in")]
    return table(("laths, a pair each", *ends, "long, mm", "in"), rows,
                 (5.6, *(5.2, 6.0) * 2, 2.2, 2.4), width, TABLE_PT)


def _offsets(job, inner):
    """Where each stick lies at each frame, in mm and in inches."""
    stations = job.setting_up.stations
    names = [one.name for one in job.fitted.assessed.boat.design.stringers
             if any(one.name in station.points_m for station in stations)]
    for unit, written in (("mm", mm_of), ("inches", in_of)):
        rows = [(station.name, *(" / ".join(map(written, station.points_m.get(name, ()))) or "-"
                                 for name in names)) for station in stations]
        yield whole(*heading(f"Half-breadths and heights over the strongback, {unit}"), table(
            ("frame", *names), rows, (2.2, *[4.0] * len(names)), inner, TABLE_PT))
    yield words("Half-breadth from the centre line, then height over the strongback's top, to the "
                f"stick on the reference face: {MOULDED_POINT}. Inches to the nearest 1/32.")


def _cockpit(job):
    """Between which frames the opening lies, and which stand in it."""
    opening, stations = job.fitted.assessed.boat.opening, job.setting_up.stations
    fore = [one.name for one in stations if one.x_m <= opening.front_x_m]
    aft = [one.name for one in stations if one.x_m >= opening.back_x_m]
    inside = [one.name for one in stations
              if opening.front_x_m < one.x_m < opening.back_x_m]
    return (f"The cockpit's opening lies between {fore[-1]} and {aft[0]}"
            + (f"; {', '.join(inside)}, open at the top, stands within it." if inside else "."))


def _marks(marks, inner):
    rows = [(one.name, *columns_of(one.strongback_m), *columns_of(one.height_m),
             "on the strongback" if one.on_strongback else "beyond the strongback's end")
            for one in marks.marks]
    return table(("mark", "tape, mm", "tape, in", "height, mm", "height, in", "where"), rows,
                 (7, 3, 3, 3, 3, 5), inner, TABLE_PT)


def _doubts(bench):
    """What does not pass among patterns and sticks."""
    unfair = [one for one in bench.unfair if one.status != "pass"]
    checks = [one for one in bench.checks if one.status != "pass"]
    if unfair:
        yield from heading("Look here along the sticks")
    for number, one in enumerate(unfair, start=1):
        yield words(f"!{number} ({one.status}) {one.stringer}, {one.place}: {one.what} in "
                    f"{one.axis}. {one.meaning}")
    if checks:
        yield from heading("Look here on the frames")
    for one in checks:
        yield words(f"({one.status}) {one.frame}, {one.place}: {one.name} {one.value:.1f}, "
                    f"{one.sense} {one.limit:.1f} {one.unit}. {one.meaning.capitalize()}.")
