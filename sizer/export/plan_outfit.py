"""The sheet of a plan set for what holds the paddler: footbrace, backband, braces and pads."""

from sizer.drawing.told import UNIT, Told, in_full, in_mm, in_tenths, row_of, size, told
from sizer.export.fit_words import capital
from sizer.export.pages import heading, whole, words
from sizer.export.plan_backband import backband_blocks
from sizer.hull.seat_bears import SURE_TO_BEAR
from sizer.scenes.footbrace_views import pedals_view, rail_view, under_foot_m
from sizer.scenes.outfit_views import LARGER, hip_view, thigh_view
from sizer.shop import foot_rails, hip_pads, outfit, pedals
from sizer.shop.foot_rails import places_words
from sizer.shop.hip_pads import room_words
from sizer.shop.items import outfit_bored_text
from sizer.shop.lashing import HOLE_SIZE, TURNS
from sizer.shop.outfit_boards import BRACE, CHEEK, HIP_BOARD, PEDAL, STOP, STRAP
from sizer.shop.said import at_least, both, marked
from sizer.shop.seat_parts import HARD_WOOD
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
from sizer.shop.trade_sizes import bit_text, bolt_name, sold_as, sold_told
from sizer.shop.work_room import forward_left_m

TEXT_PT = 8.1
AFTER_MM = Told(" mm", "")  # after figures, whose inches have their mark
THIGH_SHARE, HIPS_SHARE = 0.21, 0.13  # of a page, for their pictures; ours
NO_BRACES = ("No thigh braces: outside the opening and behind the knees no place between two "
             "frames is left for them, clear of the backband's ties and the coaming's lashings. "
             "Pad the hips instead, loosely.")
NO_PADS = ("No hip pads: beside the hips no room is over, or no spacer stands there to bear a "
           "board. Nothing is glued to skin.")


def outfit_sheet(on, bench):
    """Footbrace, backband and thigh braces: where they stand and how they are made."""
    on, up = on.titled(outfit.SHEET), on.job.setting_up
    one_to, rail = on.pictured(rail_view, bench, share=0.17)
    near, across = on.pictured(pedals_view, on.job.fitted.assessed, bench, up.baseline_height_m,
                               share=0.26)
    return on.sheet(
        *heading("Footbrace"), rail,
        words(f"1 : {one_to}, {on.read(UNIT)}, {on.read(_rails(bench, up))}", TEXT_PT),
        whole(across, words(f"1 : {near}, {on.read(UNIT)}. Left: across the boat at this "
                            "paddler's soles, from astern; dashed: the strap ahead of both plates. "
                            "Right: the same from the side at the middle of a foot, bow on the "
                            "left; the plate's height there, over all "
                            f"{on.read(size(bench.pedals.size_m[2], form=in_mm))}.", TEXT_PT)),
        *(words(on.read(text), TEXT_PT) for text in (_pedals(bench), *_open(on.boat, bench),
                                           _places(bench, up))),
        *backband_blocks(on, bench, TEXT_PT),
        *heading("Thigh braces"), *_thigh_braces(on, bench),
        *_hip_pads(on, bench))


def _rails(bench, up):
    rails = bench.foot_rails
    return told(
        "seen from inside the boat, bow on the left. Two rails of hard wood {}, from {} to {} and "
        "{} and {} past them, middle {} over the strongback, flat on the openings' inner edges: "
        "outer face {} off the centre line at {}, leaning {:.0f} degrees outward, {} and {:.0f} "
        "degrees at {}. At each frame two lashings, one inside the other, cross the rail's inner "
        "face before and behind the plywood, in grooves {} deep, {} from the rail's forward end, "
        "so that a pedal goes past, and go through one hole over and one under it: {}, on the "
        "patterns, {}off the centre line and over the strongback: {}. A stop of hard wood {}, "
        "glued and screwed ({} screws {}, from its forward end / lower edge {}: pattern {}) to the "
        "rail's outer face against {}'s after face, takes the push of the feet: no lashing does. "
        "{}Before the skin.",
        size(*rails.size_m), rails.fore, rails.aft, in_full(outfit.RAIL_OVER_M),
        size(outfit.RAIL_PAST_M), marked(rails.z_m + up.baseline_height_m), both(rails.fore_half_m),
        rails.fore, rails.fore_lean_deg, both(rails.aft_half_m), rails.aft_lean_deg, rails.aft,
        size(*outfit.GROOVE_M), told("{}{}", _spans(rails.grooves_m), AFTER_MM), HOLE_SIZE,
        Told("mm ", ""), _rail_holes(bench.frames, up.baseline_height_m), size(*foot_rails.STOP_M),
        len(foot_rails.STOP_SCREWS_M), OUTFIT_SCREW, row_of([
            told("{} / {}", *map(in_mm, one)) for one in foot_rails.STOP_SCREWS_M]),
        STOP, rails.aft, _bear(rails))


def _bear(rails):
    """How well FootRails bear the feet's push."""
    short = "" if rails.bears >= SURE_TO_BEAR else "TOO LITTLE: never push hard. "
    return (f"A rail of wet {HARD_WOOD} bears this paddler's whole weight, pushed on it alone, "
            f"{rails.bears:.2f} times ({SURE_TO_BEAR:.2f} wanted, our judgement): clear, straight "
            f"grain, no knot. {short}Plates and strap: no figure; the push below proves them. ")


def _in_row(texts):
    """As `listed`, of Tolds."""
    *most, last = texts
    return told("{} and {}", row_of(most), last) if most else last


def _spans(spans_m):
    """From where to where each of some goes."""
    return _in_row(told("{} to {}", *map(in_mm, span)) for span in spans_m)


def _pedals(bench):
    made = bench.pedals
    top = made.strap_m[:, 1].max()
    (inner, low), (outer, high) = ((out, top - up) for out, up in made.bolts_m)
    return told(
        "A pedal: a plate of {} plywood, {} across the boat for the sole, sawn by its pattern "
        "({}), {} off the centre line. A cheek of {} plywood, {} (pattern {}), stands in its notch "
        "on the rail's inner face; behind it the notch clears the rail by {} over and under: no "
        "toe goes in there. In the corner "
        "ahead of both a block of hard wood {} (along, across), as high as the cheek and flush "
        "with its forward end, {} ahead of the sole, the plate's after face. {}Glued, {} screws "
        "{}, heads flush, {}: four through the plate into the block; through the cheek two "
        "into the block and two into the plate's edge, at the patterns' crosses. A strap of "
        "{} plywood, {}, sawn by its pattern ({}), ahead of both plates, down to the bottom "
        "between them, its upper edge flush with theirs, makes them one bar from rail to rail: "
        "four {} "
        "bolts in holes of {} through the plates, a side one {} off the centre line and {} under "
        "the strap's upper edge, one {} and {}, in slots {} wide across the boat in the strap, {} "
        "off the centre line, for every "
        "place told below: loosened to move the bar. Round heads behind, under the soles, their "
        "square necks drawn into the plates so that they do not turn; washers and lock nuts ahead "
        "of the strap. Never push without it: each pedal alone breaks out of its corner. Beside "
        "the shoe two {} pins, {} under their heads, with rings, go through cheek and rail, the "
        "first {} and the other {} behind the sole, at half the height of both, the cheek's "
        "bored through the rail's: with one it would turn. Heads lie against the cheek, the rings, "
        "put on by feel, behind the rail, where they catch no lace: pull at every head.",
        *_sawn(made.size_m), PEDAL, size(pedals.INNER_M), *_sawn(pedals.CHEEK_M), CHEEK,
        size(pedals.PLAY_M), size(*pedals.BLOCK_M), size(pedals.AHEAD_M),
        _corner(bench.foot_rails), pedals.PEDAL_SCREWS, OUTFIT_SCREW, outfit_bored_text(),
        *_sawn(made.strap_size_m), STRAP, bolt_name(pedals.BOLT_MM),
        bit_text(pedals.BOLT_HOLE_M), size(inner, form=in_mm), in_mm(low),
        in_mm(outer), in_mm(high), bit_text(pedals.SLOT_WIDE_M),
        told("{}{}", _spans(made.slots_m), AFTER_MM), bit_text(outfit.PIN_M),
        size(bench.foot_rails.pin_long_m), *map(size, outfit.PINS_AFT_M))


def _sawn(sides_m):
    """What plywood a board is sawn from, and its sides."""
    thick, *sides = sides_m
    return sold_told(thick), size(*sides)


def _corner(rails):
    """How a pedal's corner is out of square; nothing where no plane would take it."""
    away = round(rails.bevel_deg)
    return "" if not away else (
        f"As the rails draw together forward, the corner aft of the plate is {90 + away} degrees, "
        f"the block's, planed to suit, {90 - away}: then both plates lie flat on a straight edge. ")


def _open(boat, bench):
    """What is left open round the pedals, and how it is tried."""
    made = bench.pedals
    here, (bar, off) = made.here, made.worst
    kept = "" if here.safe else " IT IS MORE HERE: do not paddle with these pedals."
    yield told(
        "GAP, danger to life: a heel or a shoe that slips under or beside a pedal is held. So "
        "the plates go down to the bottom, out under the rail and over it. The gap is told as the "
        "thickest round bar that goes by them anywhere, in the notch behind the rail too. As drawn "
        "it is {} at this paddler's place, {} at the worst of all places that have holes.{} Once "
        "sawn it must be less than the bar to try with, a round {}: {} (our judgement). Before "
        "the skin, a lath held from stick to stick for it, and again with it on: push that bar in "
        "everywhere, from the keel out, up over the rails and in behind them; it must go "
        "through nowhere. Then both shoes, heel first, toes first. No gap for a foot, but room "
        "for skin that is pressed in: the plates stand {} over the skin under the middle of a "
        "foot, as drawn beside, {} off skin and sticks where they are nearest; as sawn keep {} "
        "there.",
        size(here.bar_m, form=in_mm), size(bar, form=in_mm), kept, pedals.BAR, pedals.BAR_MADE,
        size(under_foot_m(boat, bench), form=in_mm), size(off, form=in_mm),
        at_least(pedals.LEAST_OFF_M))
    yield told(
        "OVER the plates {} stay open to the deck at a foot's middle (left): toes reach over "
        "them and may hook. Round the upper edges of plates and strap well; in the thickest shoes, "
        "before the skin and with it, push "
        "both feet over that edge as far as they go, heels lifted, and draw them out in one "
        "movement, no hand on the legs, ten times. If a shoe hooks once: a slimmer one, or not "
        "this boat.", size(here.over_m, form=in_mm))


def _places(bench, up):
    rails = bench.foot_rails
    tape = bench.seat.footbrace.start_x_m - up.strongback_start_x_m  # of a rail's forward end
    return told(
        "Holes in the rails, middles from the forward end: {}. Soles from tape {} to {}, this "
        "paddler's {}, with {} left forward of it and {} aft: bored once the paddler sat in the "
        "dry frame. {}. Push with all your weight "
        "before the skin is on, on the soft floor as the order of work tells. Buy no footbrace in "
        "its place: no sheet fits it, and bought sliding ones leave more open. Our drawing.",
        told("{}{}", row_of(map(in_mm, rails.holes_m)), AFTER_MM),
        *(marked(tape + one) for one in (rails.soles_m[0], rails.soles_m[-1], rails.set_m)),
        size(forward_left_m(rails), form=in_mm), in_mm(rails.soles_m[-1] - rails.set_m),
        places_words(rails))


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
        f"no pad. A board of {on.read(told('{} plywood, {}', *_sawn(one.board_m)))} a side "
        f"(pattern {HIP_BOARD}), "
        "edges and corners round, is "
        f"glued and screwed ({hip_pads.SCREWS} screws {OUTFIT_SCREW}, heads flush, in a row "
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


def _rail_holes(frames, up):
    return row_of([told("{} {}", frame.name, row_of([
        told("{} and {}", in_tenths(y), in_tenths(z + up))
        for name, (y, z) in frame.holes if name == foot_rails.RAIL and y > 0.0]))
        for frame in frames if any(name == foot_rails.RAIL for name, _ in frame.holes)], "; ")
