"""The sheet of the float bags: where they lie, how large they are, where they are tied."""

from functools import partial

import numpy as np

from sizer.drawing.told import Told, in_mm, in_quarters, row_of, size, told
from sizer.export.gear_words import gear_words
from sizer.export.pages import CLOSE_SCALES, beside, table, words
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.bag_views import bags_from_above, panels, tied_at
from sizer.shop.bag_ties import HEM_M, HOSE_M, over_rails
from sizer.shop.lashing import TURNS
from sizer.shop.outfit import RAIL_OVER_M, TIE_CORD
from sizer.shop.said import both, both_far
from sizer.shop.stick_loops import LOOP_TURNS, NO_THICKER, loop_words

TEXT_PT, TABLE_PT = 7.5, 7.5
COMMA_MM = Told(", mm", "")  # before figures, whose inches have their mark
ROWS = ("bag", "boat inside", "ring and line", "panel")
SCALES = (*CLOSE_SCALES, 50)  # of the boat from above: the longest goes beside words on Letter
LEFT_SHARE, GAP_MM = 0.54, 5.0  # of the page, for the boat, and beside it; our drawing
IN_THE_BOAT = (  # how a bag goes in; our judgement
    "In the finished boat: one end of the nose line to the bag's nose; haul the bag in empty by "
    "the other, through the frames' openings, until its nose is as far from the ring, and its "
    "inner end from the panel, as told below, as its litres are reckoned; a longer bag's nose "
    "comes nearer to the ring, a shorter or otherwise tapered one leaves room unfilled. Tie "
    "off tight to the panel's loop round the keel (A), no slack for a foot. "
    "Blow it up; look with a lamp that it lies unfolded; let air out again until a hand goes in "
    "between it and the frame. Two for one (What to buy): both noses on its line, one panel.",
    "Lace the panel over the soft bag, by feel, a hand through the frame's opening: eyelet, loop, "
    "eyelet, from A up both sides, on through the eyelets where no stick has a loop, drawn tight, "
    "no gap that a fist goes through; tie off to A. The valve's "
    f"hose, {both(HOSE_M)} or more from the bag's inner end, comes out between the two eyelets at "
    "the ridge, flat along the lacing, its cap tied to it.",
    "Only now blow it up firm, by the hose, and press the panel all over: the bag is felt behind "
    "it, no lacing is slack. Air goes in and out by the hose, before anybody sits in the boat.",
)


def bags_sheet(on, bench, shares):
    """Where both bags lie and where they are tied; `shares` of a page's height for the boat from
    above and for the panels, what is done before the skin beside them."""
    on, up = on.titled("Float bags"), on.job.setting_up
    width, height = on.room_mm
    wide = LEFT_SHARE * width
    one_to, plan = on.scaled(partial(bags_from_above, on.boat, bench, up.strongback_start_x_m),
                             (wide - GAP_MM, shares[0] * height), scales=SCALES)
    across, held = on.pictured(panels, on.job, bench, share=shares[1])
    return on.sheet(
        beside([plan], list(_before(on)), wide, on.inner_mm), held,
        words(f"Above, 1 : {one_to}, bow on the left. Then, 1 : {across}: each panel on its frame, "
              "from astern, tied at the letters; the lacing, larger; from above, bow up, "
              f"{_tied(bench)}.", TEXT_PT), *_told(on, bench))


def _tied(bench):
    """What else is drawn as tied in."""
    alike = ", each end's other pack alike" * (len(bench.gear_ties) > len(
        {one.end for one in bench.gear_ties}))
    return f"{f'gear in its loops{alike}; ' * bool(bench.gear_ties)}the heel mat"


def _before(on):
    """What is lost without the bags, and what is tied before the skin."""
    yield words(on.job.mishaps.swamped.says[0], TEXT_PT, BOLD)
    yield words(f"Before the skin: {TURNS} turns of waxed cord round both gunwales and the ridge, "
                "close behind each stem's head, hold a smooth ring under the ridge; the gunwales "
                "spread from there, no pull draws them aft. Reeve each nose line from the panel's "
                "frame through the last frame's window, through the ring and back. At every letter "
                "tie a loop, as told below, beside the stick's lashing, on the bag's side; until "
                "the bag goes in, both ends of the nose line are tied to the loop round the keel "
                "(A).", TEXT_PT)


def _told(on, bench):
    pulls = max(one.pulls_loop_kg for one in bench.bag_ties)
    yield words(f"A loop: {loop_words(LOOP_TURNS)}; a bag pulls at each with {pulls:.0f} kg at "
                f"most, the boat on end. {NO_THICKER} "
                "Cloth and no net: feet are near it, and none may go through. "
                f"{_rails_through(bench)}Never tie to a lashing, nor to the skin. [p], [j]",
                TEXT_PT)
    for row, said in enumerate(IN_THE_BOAT, start=1):
        yield words(f"{row}. {said}", TEXT_PT)
    yield words(gear_words(bench), TEXT_PT)
    yield table(("", *(f"{one.end.capitalize()} bag" for one in bench.bag_ties)),
                list(zip(ROWS, *(_figures(on, bench, one) for one in bench.bag_ties),
                         strict=True)), (0.75, 4.0, 4.0), on.inner_mm, TABLE_PT,
                together=((0, len(ROWS) - 1),), right_pt=8.0)


def _figures(on, bench, one):
    """A bag's figures, one for each of ROWS."""
    inside = row_of([told("{} {} x {}", name, in_quarters(wide), in_quarters(high))
                     for name, wide, high in one.inside_m])
    tied = row_of([told("{} {} / {}", letter, in_mm(y), in_mm(z))
                   for letter, y, z in tied_at(one)])
    tip_m = 0.0 if one.end == "bow" else on.boat.length_m
    return tuple(map(on.read, (
        f"{one.litres:.0f} litres or more, blown up {both(one.long_m)} long, "
        f"{both(one.longest_m)} at most. Room, litres: {_rooms(bench.gear_ties, one)}",
        told("wide x high{}: {}", COMMA_MM, inside),
        f"ring {both(one.ring_in_m)} in from the {one.end}, {both(one.lead_m)} of line to the "
        f"bag's nose, {both(abs(one.nose_x_m - tip_m))} in; through {one.nose}, "
        f"{both_far(one.nose_line_m, 1)} of {TIE_CORD}; inner end "
        f"{both(one.short_of_panel_m)} short of the panel",
        told("panel at {}, off the centre line / over the strongback{}: tied at {}; {}; "
             f"{one.eyelets} eyelets; {one.loops} loops; laced with {both_far(one.cord_m, 1)} of "
             f"{TIE_CORD}", one.panel, COMMA_MM, tied, _panel(one)))))


def _panel(tie):
    """A panel's corners and what it is cut from."""
    return told("its corners {}; cut from {}, {} of it hem all round",
                row_of([told("{} / {}", *map(in_mm, one)) for one in tie.corners_m]),
                Told(" x ".join(map(both, tie.cloth_m)),
                     size(*tie.cloth_m, form=in_mm).inches), size(HEM_M))


def _rails_through(bench):
    """What a panel needs whose face the footbrace's rails stand out of."""
    return "".join(
        f"The footbrace's rails stand {both(RAIL_OVER_M)} out of {one.panel}'s forward face, their "
        f"ends rounded, a cap of foam glued on before it is laced; the {one.end} bag's panel "
        "bulges over them, laced as tight as elsewhere. "
        for one in over_rails(bench.bag_ties, bench.foot_rails))


def _rooms(gear, tie):
    """The whole litres from frame to frame, their sum, what of it is left to gear."""
    stowed = round(sum(one.mass_kg for one in gear if one.end == tie.end))
    names, litres = zip(*tie.bays_l, strict=True)
    left = round(tie.litres)
    total = left + stowed if left else round(sum(litres))
    said = ", ".join(f"{name} {part}" for name, part in zip(
        names, _whole_parts(litres, total), strict=True))
    less = f", less {total - left} for the gear there: {left}" * bool(stowed)
    return f"{said}, in all {total}{less}"


def _whole_parts(values, total):
    """Some values, whose sum is within rounding of a whole total, as whole numbers that add up to
    it, each off by less than 1 beside that rounding."""
    edges = np.round(np.cumsum(values) * total / np.sum(values)).astype(int)
    return np.diff(edges, prepend=0).tolist()
