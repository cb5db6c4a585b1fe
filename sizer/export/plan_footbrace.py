"""The footbrace of the sheet for what holds the paddler: its pictures, tables and words."""

from sizer.drawing.told import UNIT, Told, in_full, in_mm, in_tenths, row_of, size, told
from sizer.export.pages import heading, table, whole, words
from sizer.hull.seat_bears import SURE_TO_BEAR
from sizer.scenes.footbrace_views import cleat_view, pedals_view, rail_view, under_foot_m
from sizer.shop import foot_rails, outfit, pedals
from sizer.shop.foot_push import cleat_told
from sizer.shop.foot_rails import places_words
from sizer.shop.items import outfit_bored_text
from sizer.shop.lashing import HOLE_SIZE
from sizer.shop.outfit_boards import CHEEK, PEDAL, STOP, STRAP
from sizer.shop.said import at_least, both, marked
from sizer.shop.seat_parts import HARD_WOOD
from sizer.shop.sundries import OUTFIT_SCREW
from sizer.shop.trade_sizes import bit_text, bolt_name, sold_told
from sizer.shop.work_room import forward_left_m

CLEAT_SCALES = (2, 3, 4)
AFTER_MM = Told(" mm", "")  # after figures, whose inches have their mark


def footbrace_blocks(on, bench, parts, text_pt):
    """Where it stands and how it is made; its cleats by their number in the list of parts."""
    up = on.job.setting_up
    one_to, rail = on.pictured(rail_view, bench, share=0.17)
    near, across = on.pictured(pedals_view, on.job.fitted.assessed, bench, up.baseline_height_m,
                               share=0.26)
    close, cleat = on.pictured(cleat_view, bench, share=0.14, scales=CLEAT_SCALES)
    number = next(one.number for one in parts if one.name.startswith("cleat"))
    yield from heading("Footbrace")
    yield rail
    yield words(f"1 : {one_to}, {on.read(UNIT)}, {on.read(_rails(bench, up))}", text_pt)
    yield _rail_table(on, bench.foot_rails, text_pt)
    yield _holes_table(on, bench, text_pt)
    yield words(on.read(_stop(bench.foot_rails)), text_pt)
    yield whole(cleat, words(
        f"1 : {close}, {on.read(UNIT)}: a cleat at {bench.cleats.frame}, from astern, starboard, "
        "dashed the plywood; and from above, bow on the left. "
        f"{on.read(cleat_told(bench.cleats, up.baseline_height_m, number))}", text_pt))
    yield whole(across, words(
        f"1 : {near}, {on.read(UNIT)}. Left: across the boat at this paddler's plates, from "
        "astern; dashed: the strap. Right: from the side at a foot's middle, bow on the left, its "
        "ball on the plate's after face, its heel on the skin; the plate's height there, over all "
        f"{on.read(size(bench.pedals.size_m[2], form=in_mm))}.", text_pt))
    for text in (*_pedals(bench), *_open(on.boat, bench), _places(bench, up)):
        yield words(on.read(text), text_pt)


def _rails(bench, up):
    rails = bench.foot_rails
    return told(
        "seen from inside the boat, bow on the left. Two rails of hard wood {}, from {} to {} and "
        "{} and {} past them, middle {} over the strongback, flat on the openings' inner edges: "
        "outer face {} off the centre line at {}, leaning {:.0f} degrees outward, {} and {:.0f} "
        "degrees at {}. At each frame two lashings, one inside the other, cross the rail's inner "
        "face before and behind the plywood, in grooves {} deep, so that a pedal goes past, and "
        "go through one hole over and one under it, {}, on the patterns too. Before the skin.",
        size(*rails.size_m), rails.fore, rails.aft, in_full(outfit.RAIL_OVER_M),
        size(outfit.RAIL_PAST_M), marked(rails.z_m + up.baseline_height_m), both(rails.fore_half_m),
        rails.fore, rails.fore_lean_deg, both(rails.aft_half_m), rails.aft_lean_deg, rails.aft,
        size(*outfit.GROOVE_M), HOLE_SIZE)


def _stop(rails):
    """What takes the push of the feet, and how well the rails bear it."""
    return told(
        "A stop of hard wood {}, glued and screwed ({} screws {}, from its forward end / lower "
        "edge {}: pattern {}) to the rail's outer face against {}'s after face, takes the push of "
        "the feet: no lashing does. {}",
        size(*foot_rails.STOP_M), len(foot_rails.STOP_SCREWS_M), OUTFIT_SCREW, row_of([
            told("{} / {}", *map(in_mm, one)) for one in foot_rails.STOP_SCREWS_M]),
        STOP, rails.aft, _bear(rails))


def _rail_table(on, rails, text_pt):
    ends = list(map(_span, rails.grooves_m))
    rows = [*((f"grooves ahead of {name} and behind it", told("{} and {}", *two))
              for name, two in ((rails.fore, ends[:2]), (rails.aft, ends[2:]))),
            (f"middles of holes 1 to {len(rails.holes_m)}",
             row_of(list(map(in_mm, rails.holes_m))))]
    return table(("a rail", f"from its forward end, {on.read(UNIT)}"),
                 [(what, on.read(where)) for what, where in rows], (6, 12), on.inner_mm, text_pt)


def _holes_table(on, bench, text_pt):
    rails, up, rows = bench.foot_rails, on.job.setting_up.baseline_height_m, []
    for frame in bench.frames:
        spots = sorted((spot for name, spot in frame.holes if name == foot_rails.RAIL
                        and spot[0] > 0.0), key=lambda spot: abs(spot[1] - rails.z_m))
        over, under = ([spot for spot in spots if (spot[1] > rails.z_m) == above]
                       for above in (True, False))
        rows += [(frame.name, which, *(on.read(in_tenths(one)) for half, high in pair
                                       for one in (half, high + up)))
                 for which, pair in zip(("inner", "outer"), zip(over, under, strict=True),
                                        strict=False)]
    unit = on.read(UNIT)
    return table(("frame", "lashing", f"over the rail: off the centre line, {unit}", "height",
                  f"under it: off the centre line, {unit}", "height"), rows,
                 (1.6, 1.8, 5.2, 2.2, 5.0, 2.2), on.inner_mm, text_pt)


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


def _span(span_m):
    return told("{} to {}", *map(in_mm, span_m))


def _pedals(bench):
    made = bench.pedals
    top = made.strap_m[:, 1].max()
    (inner, low), (outer, high) = ((out, top - up) for out, up in made.bolts_m)
    yield told(
        "A pedal: a plate of {} plywood, {} across the boat for the sole, sawn by its pattern "
        "({}), {} off the centre line. A cheek of {} plywood, {} (pattern {}), stands in its notch "
        "on the rail's inner face; behind it the notch clears the rail by {} over and under: no "
        "toe goes in there. In the corner "
        "ahead of both a block of hard wood {} (along, across), as high as the cheek and flush "
        "with its forward end, {} ahead of the plate's after face. {}Glued, {} screws "
        "{}, heads flush, {}: four through the plate into the block; through the cheek two "
        "into the block and two into the plate's edge, at the patterns' crosses.",
        *sawn(made.size_m), PEDAL, size(pedals.INNER_M), *sawn(pedals.CHEEK_M), CHEEK,
        size(pedals.PLAY_M), size(*pedals.BLOCK_M), size(pedals.AHEAD_M),
        _corner(bench.foot_rails), pedals.PEDAL_SCREWS, OUTFIT_SCREW, outfit_bored_text())
    yield told(
        "A strap of {} plywood, {}, sawn by its pattern ({}), ahead of both plates, down to the "
        "bottom between them, its upper edge flush with theirs, makes them one bar from rail to "
        "rail: four {} bolts in holes of {} through the plates, a side one {} off the centre line "
        "and {} under the strap's upper edge, one {} and {}, in slots {} wide across the boat in "
        "the strap, {} off the centre line, for every "
        "place told below: loosened to move the bar. Round heads behind, under the shoes, their "
        "square necks drawn into the plates so that they do not turn; washers and lock nuts ahead "
        "of the strap. Never push without it: each pedal alone breaks out of its corner.",
        *sawn(made.strap_size_m), STRAP, bolt_name(pedals.BOLT_MM),
        bit_text(pedals.BOLT_HOLE_M), size(inner, form=in_mm), in_mm(low),
        in_mm(outer), in_mm(high), bit_text(pedals.SLOT_WIDE_M),
        told("{}{}", _in_row(map(_span, made.slots_m)), AFTER_MM))
    yield told(
        "Beside the shoe two {} pins, {} under their heads, with rings, go through cheek and rail, "
        "the first {} and the other {} behind the plate's after face, at half the height of both, "
        "the cheek's bored through the rail's: with one it would turn. Heads lie against the "
        "cheek, the rings, put on by feel, behind the rail, where they catch no lace: pull at "
        "every head.",
        bit_text(outfit.PIN_M), size(bench.foot_rails.pin_long_m),
        *map(size, outfit.PINS_AFT_M))


def sawn(sides_m):
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
        "Plates' after faces, where the balls of the feet bear, from tape {} to {}, this "
        "paddler's {}, with {} left forward of it and {} aft: bored once the paddler sat in the "
        "dry frame. {}. Push with all your weight before the skin is on, on the soft floor as the "
        "order of work tells. Buy no footbrace in its place: no sheet fits it, and bought sliding "
        "ones leave more open. Our drawing.",
        *(marked(tape + one) for one in (rails.soles_m[0], rails.soles_m[-1], rails.set_m)),
        size(forward_left_m(rails), form=in_mm), in_mm(rails.soles_m[-1] - rails.set_m),
        places_words(rails))
