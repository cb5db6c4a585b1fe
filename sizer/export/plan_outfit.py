"""The sheet of a plan set for what holds the paddler: footbrace, backband, braces and pads."""

from sizer.drawing.told import UNIT, Told, in_full, in_mm, row_of, size, told
from sizer.export.fit_words import capital
from sizer.export.pages import heading, whole, words
from sizer.export.plan_footbrace import footbrace_blocks, sawn
from sizer.scenes.band_view import band_view
from sizer.scenes.outfit_views import LARGER, hip_view, thigh_view
from sizer.shop import hip_pads, outfit
from sizer.shop.hip_pads import room_words
from sizer.shop.items import outfit_bored_text
from sizer.shop.lashing import TURNS
from sizer.shop.outfit_boards import BRACE, HIP_BOARD
from sizer.shop.said import both, marked
from sizer.shop.seat_parts import CASING_M, TIE_SPARE_M
from sizer.shop.stick_loops import BAND_TURNS, loop_words
from sizer.shop.sundries import OUTFIT_SCREW
from sizer.shop.thigh import (
    AT_GUNWALE,
    AT_WALL,
    LASHINGS,
    LONG_M,
    NICK_M,
    PAD_WORDS,
    POST_LONG_M,
    POST_WIDE_M,
    THICK_M,
    wall_holes_words,
)
from sizer.shop.trade_sizes import cord_text, sold_as

TEXT_PT = 8.1
THIGH_SHARE, HIPS_SHARE = 0.21, 0.13  # of a page, for their pictures; ours
NO_BRACES = ("No thigh braces: outside the opening and behind the knees no place between two "
             "frames is left for them, clear of the backband's ties and the coaming's lashings. "
             "Pad the hips instead, loosely.")
NO_PADS = ("No hip pads: beside the hips no room is over, or no spacer stands there to bear a "
           "board. Nothing is glued to skin.")
SHARE = 0.20  # of a page, for its picture; our drawing


def outfit_sheet(on, bench, parts):
    """Footbrace, backband and thigh braces: where they stand and how they are made."""
    on = on.titled(outfit.SHEET)
    return on.sheet(
        *footbrace_blocks(on, bench, parts, TEXT_PT),
        *backband_blocks(on, bench, TEXT_PT),
        *heading("Thigh braces"), *_thigh_braces(on, bench),
        *_hip_pads(on, bench))


def _thigh_braces(on, bench):
    found, up = bench.thigh, on.job.setting_up
    if found is None:
        yield words(NO_BRACES, TEXT_PT)
        return
    base, start = up.baseline_height_m, up.strongback_start_x_m
    across, view = on.pictured(thigh_view, on.job.fitted.assessed, bench, base, share=THIGH_SHARE)
    yield view
    yield words(
        f"Left, 1 : {across}, from astern, at the middle of the posts, between the boards "
        f"there; dashed: the paddler's thighs. Inner edges {both(2.0 * found.inner_m)} apart "
        f"ahead of the posts. A board of {sold_as(THICK_M)} plywood a side (pattern {BRACE}), "
        f"{both(LONG_M)} long and {both(found.wide_m)} wide, tape "
        f"{marked(found.fore_x_m - start)} to {marked(found.aft_x_m - start)}; its underside "
        f"{marked(found.inner_z_m + base)} over the "
        f"strongback at its inner edge, {marked(found.outer_z_m + base)} at the gunwale; the last "
        f"{both(POST_LONG_M)} of that edge "
        "sawn along the wall's inside, its outer edge planed until it lies flat on the gunwale's "
        "inner face. There a post of hard wood, "
        f"{on.read(size(found.post_size_m[0], POST_WIDE_M))}, "
        f"{both(found.post_m[0])} high at its fore and {both(found.post_m[1])} at its after end, "
        f"is glued on and held from below by one screw {OUTFIT_SCREW}, bored first, at the "
        "pattern's cross: a second would split the post or meet the cord. "
        "The wall's lower edge lies on it, wood on wood, unglued: it bears most of the thigh's "
        "push, the gunwale's lashings the rest. The pad lies between them: farther forward a push "
        "would tip the board. Push up hard on the pad on the soft floor, before the skin: board "
        "and rim stay. "
        f"Ahead of the post {on.read(size(found.slot_m, form=in_mm))} at most are open over "
        f"the board, too little for a hand: foam {on.read(size(*found.stop_m))}, cut to it, is "
        "glued on the board there when the pads are. All edges round. "
        f"The board reaches {both(found.overlap_m)} in over the thigh's outer edge, seen from "
        "above outside the opening: nothing of it lies over the way out. Our drawing, our "
        "judgement: leave it out where the paddler comes out less freely with it than without.",
        TEXT_PT)
    yield words(
        f"Right, 1 : {across / LARGER:g}, {on.read(UNIT)}: the starboard board from above, bow on "
        f"the left; port is its mirror image. {LASHINGS} lashings a board, none through the skin: "
        f"{AT_GUNWALE} round the gunwale, each through its hole; {AT_WALL} round post and wall, "
        "through two holes in the wall, the nicks and the holes beside the post. "
        f"{on.read(_bored(found))} Bore the wall before its varnish, "
        f"{on.read(wall_holes_words(found, bench.materials.coaming, on.boat.opening))}. "
        f"{TURNS} turns and the reef knot as on the sheet Lashing. Foam "
        f"{both(found.pad_m)} thick at most is tried before the skin, held by "
        "tape; once the coating is dry it is glued under "
        f"{PAD_WORDS} of the board (dashed) with contact glue, hollowed over the cord.", TEXT_PT)


def _bored(found):
    """Where a board is bored and nicked, by a rule along two of its sides."""
    holes, nicks = (row_of([told("{} / {}", *map(in_mm, spot)) for spot in spots])
                    for spots in (found.holes_m, found.nicks_m))
    return told("Aft / out from its fore inner corner{}: holes {}; nicks {}, {} deep.",
                Told(", mm", ""), holes, nicks, in_full(NICK_M))


def _hip_pads(on, bench):
    one, up = bench.hip_pads, on.job.setting_up
    if one is None:
        yield whole(*heading("Hip pads"), words(NO_PADS, TEXT_PT))
        return
    base, start = up.baseline_height_m, up.strongback_start_x_m
    across, view = on.pictured(hip_view, on.job.fitted.assessed, bench, base, share=HIPS_SHARE)
    yield whole(*heading("Hip pads"), view, words(
        f"1 : {across}, from astern, at the sitting bones; dashed: the paddler's hips. Skin bears "
        f"no pad. A board of {on.read(told('{} plywood, {}', *sawn(one.board_m)))} a side "
        f"(pattern {HIP_BOARD}), "
        "edges and corners round, is "
        f"glued and screwed ({hip_pads.SCREWS} screws {OUTFIT_SCREW}, heads flush, "
        f"{on.read(outfit_bored_text())}, in a row "
        f"along the spacer's middle, at the pattern's crosses) to the inner face of "
        f"{one.spacer}, tape {marked(one.fore_x_m - start)} to {marked(one.aft_x_m - start)}, from "
        f"{marked(one.low_m + base)} to {marked(one.high_m + base)} over the "
        "strongback: before the skin. On it foam as large, tried there, held by tape, and glued "
        "with contact glue once the coating is dry. Begin with the bare board, "
        "then thin sheets, one on the other. "
        f"{capital(room_words(one))}; all {marked(one.hips_z_m + base)} over the strongback, where "
        f"the hips are widest. Hips that come nearer than {both(hip_pads.LEAST_SIDE_M)} to the "
        "bare spacer in the dry frame take no board. Our drawing, our judgement: hips turn and "
        "slide out freely, or the pad comes off again.", TEXT_PT))


def backband_blocks(on, bench, text_pt):
    """The backband in its boat, and how it is made, in letters of a size."""
    one_to, drawn = on.pictured(band_view, on.boat, bench, share=SHARE)
    yield whole(*heading("Backband"), drawn, words(
        f"1 : {one_to}, {on.read(UNIT)}, bow on the left. Left: from above, starboard, port alike; "
        "dashed: the band round a back. Right: from the side. Heavy: the tie, from its loop on the "
        f"gunwale round {bench.seat.backband.frame}'s plywood, cased there, to the band's eye.",
        text_pt))
    for text in (_band(bench), _ties(bench), _loops(bench, on.job.setting_up)):
        yield words(on.read(text), text_pt)


def _band(bench):
    band = bench.seat.backband
    return told(
        "The band: {} from eye to eye, laid straight, about {} high, its middle {} over the seat; "
        "an eye at half its height in each end. A light elastic cord, {}, its middle hitched to "
        "the middle of the band's upper edge, both ends round {}'s {}, keeps it up.",
        size(band.eyes_m, form=in_mm), size(outfit.BAND_M[1]), marked(band.over_seat_m),
        cord_text(outfit.ELASTIC_MM), band.behind, outfit.ELASTIC_TIED)


def _ties(bench):
    """Both ties: how long, what cases them, what a back's curve takes of them."""
    band, frames = bench.seat.backband, bench.frames
    straight, leant = (outfit.tie_round_m(band, frames, one) for one in (False, True))
    cased = outfit.cased_m(outfit.tie_path_m(band, frames))
    edge = "" if cased is None else told(
        ", round the plywood's inner edge, which is well rounded there and the cord cased in "
        "leather or hose, {} of it, its middle {} from the eye", size(CASING_M, form=in_mm),
        size(cased, form=in_mm))
    return told(
        "The ties: {}, {} from eye to loop as drawn{}; {} with the knots. Round a back that "
        "leans on it (drawn as a curve of {}, our judgement) the eyes come forward and {} of it "
        "are left: haul that in at the loop. A longer band shortens each tie by about half of "
        "what it is longer. Bowline in the eye of the band's end; a round turn and two half "
        "hitches on the loop, the last one slipped: a pull at its short end loosens it.",
        outfit.TIE_CORD, size(straight, form=in_mm), edge,
        size(straight + TIE_SPARE_M, form=in_mm), size(outfit.BACK_ROUND_M, form=in_mm),
        size(leant, form=in_mm))


def _loops(bench, up):
    """The loops on the gunwales that the ties go to."""
    band = bench.seat.backband
    return told(
        "The loops: one round each gunwale, before the skin, its middle at tape {}, {} ahead of "
        "{}'s face and clear of its lashing, {} off the centre line: {}; no tie itself goes round "
        "a stick. {}[p]", marked(band.loop_x_m - up.strongback_start_x_m),
        size(band.tie_x_m - band.loop_x_m), band.frame, size(band.tie_half_breadth_m, form=in_mm),
        loop_words(BAND_TURNS), _tie_room(bench))


def _tie_room(bench):
    """What the thigh braces' boards leave the ties, where they come near."""
    band, thigh = bench.seat.backband, bench.thigh
    if thigh is None or thigh.aft_x_m > band.tie_x_m:
        return ""
    return (f"The thigh brace's board ends {both(band.tie_x_m - thigh.aft_x_m)} ahead of "
            f"{band.frame}: try that a hand gets to that end with it in. ")
