"""What else the bench takes: glue, screws, ties, thread, needles, the strongback, protection.

Quantities are worked out from the boat; how much of each a joint or a riser takes is common
practice, no source, unless it says whose judgement it is.
"""

from math import ceil

import numpy as np

from sizer.hydro.left_inside import PUMP_LPM
from sizer.shop import hip_pads, risers
from sizer.shop.bag_ties import CAP_M, HOSE_M, RING_LASHINGS, RING_MM, over_rails
from sizer.shop.coaming import LIP_HEIGHT_M
from sizer.shop.foot_rails import RAIL_LASHINGS, STOP_M, STOP_SCREWS_M
from sizer.shop.heel_mat import CORNERS
from sizer.shop.items import OUTFIT_SCREW_MM, SAW_M, Item, more_text, rough_text, waxed_cord
from sizer.shop.outfit import PIN_M, PINS_AFT_M, TIE_CORD_MM
from sizer.shop.pedals import BLOCK_M, BOLT_MM, CHEEK_M, PEDAL_SCREWS
from sizer.shop.said import both, both_far, both_sides
from sizer.shop.seat_parts import HARD_WOOD
from sizer.shop.stem_posts import ARM_BOARD_M, FOOT_LONG_M, STOCK_M, loose_arms
from sizer.shop.stem_stays import BLOCK_M as STAY_BLOCK_M
from sizer.shop.stick_loops import loops_cord
from sizer.shop.thigh import LASHINGS, LONG_M, PAD_WORDS
from sizer.shop.thigh import THICK_M as BRACE_M
from sizer.shop.trade_sizes import bit_text, bolt_text, cord_text, inside_text, screw_text
from sizer.units import both_volume

PROTECTION = "protection"  # the group of what whoever works wears
NONE = "none"  # where a line has no allowance
PADDLER = "paddler"  # the group of the list of what goes out with the boat
BEAM_M = (0.10, 0.09)  # width and depth of the strongback's beam, as it is drawn; our drawing
SOLD_BEAM_M = (0.089, 0.089)  # of 4 x 4, planed, in its place; common practice, no source
BOARD_M = 0.030  # least thickness of two boards on edge instead: feet's screws go into their
# middles, or near; our judgement
GLUE_KGPM2 = 0.40  # of a glued face, both sides wetted; our judgement
GLUE_SPARE_SHARE = 0.50  # left in pots and brushes; our judgement
EPOXY = "epoxy resin and hardener together, with filler for scarfs"
LEAST_GLUE_KG = 0.25  # what is mixed in small pots; our judgement
CONTACT_LPM2 = 0.25  # of contact glue on one face, two coats; our judgement
LEAST_CONTACT_L = 0.1  # a small tin; our judgement
# By the names of their filters in Europe and in North America; common practice, no source
DUST_MASK = "dust mask P2 (N95)"
VAPOUR_MASK = "mask for organic vapour, with a dust filter (A2-P2, or OV with P100)"
SPARE_SHARE = 0.15  # of ties, screws and boards; our judgement
TACK_M = 0.012  # length of one; common practice, no source
TACK_STEP_M = 0.100  # along each edge of the cloth, until it is sewn; common practice, no source
LACING_SHARE = 4.0  # of lacing over that edge, instead; our judgement
CLAMP_STEP_M = 0.080  # round the coaming, as its drawing tells
CLAMP_OPENS_M = 0.060  # least; common practice, no source
CLAMP = f"clamp, {both(CLAMP_OPENS_M)} opening"
RISER_CLAMPS = 2  # of a riser: one a cheek or hanger; our drawing
STRING_SPARE_M = 1.0  # our judgement
LATHS, LATH_M = 2, (0.030, 0.010, 1.2)  # how many; width, thickness, length; our judgement
FORM_M = 0.018  # thickness of a layer of the coaming's form; our drawing
FORM_OVER_M = 0.020  # of its board over the form's length and width; our judgement
SAME_M = 1e-6  # nearer to the opening's after end a notch is a ridge's
SCREW_MM = 20  # long: through 12 mm of plywood or rail, not out of what is behind; our drawing
OUTFIT_SCREW = screw_text((OUTFIT_SCREW_MM, SCREW_MM))
# What screws hold a riser and a post by, two a joint: (joints, more where one hangs, size, of a
# riser with ledges, of one that hangs, of a post).
SCREWS = ((("cheek to foot",), ("hanger and leg to bar and foot",), risers.CHEEK_SCREW_MM,
           4, 12, 0),
          (("ledge to cheek",), (), risers.LEDGE_SCREW_MM, 4, 0, 0),
          (("foot down, foot to post",), (), risers.FOOT_SCREW_MM, 2, 2, 4))
FORM_SCREWS = 8  # of a layer of the coaming's form, clear of its edge; our judgement
EYELET_MM = 8  # takes 4 mm cord twice; our judgement
VARNISH_LPM = 0.10  # of coaming, two coats; our judgement


def sundries(bought):
    """Items of glue, ties and sewing for Materials that are listed so far."""
    area = sum(side.scarf_m * max(stick.stringer.width_m, stick.stringer.depth_m)
               * len(side.middles_m) for stick, side in bought.sides)
    wall, lip = bought.coaming.strips
    glued = ((wall.count - 1) * wall.width_m * wall.length_m
             + lip.count * lip.width_m * lip.length_m)  # its innermost strip to the wall
    braced = 2.0 * (CHEEK_M[2] * (CHEEK_M[0] + sum(BLOCK_M)) + STOP_M[1] * STOP_M[2])
    glue = max((area + glued + braced) * GLUE_KGPM2 * (1.0 + GLUE_SPARE_SHARE), LEAST_GLUE_KG)
    yield Item("glue", EPOXY, glue, "kg", (),
               f"scarfs {area * 1e4:.0f}, coaming {glued * 1e4:.0f}, pedals, stops "
               f"{braced * 1e4:.0f} cm2; tenons and keel's ends from the spare; "
               f"{more_text(GLUE_SPARE_SHARE)}")
    yield waxed_cord(rim_lashings(bought.coaming), "coaming")
    yield Item("sewing", "thread, waxed polyester", bought.seams.thread_m, "m", (),
               "20 % more; strong enough that a hand cannot break it")
    cloths = bought.skin.lengths
    edges = 2.0 * cloths * bought.skin.run_m
    yield Item("sewing", f"tack, copper or stainless, {both(TACK_M)}, to hold the skin",
               ceil(edges / TACK_STEP_M), "pieces", (),
               f"one every {both(TACK_STEP_M)} of {'each' if cloths > 1 else 'the'} cloth's edges, "
               "all in until they are sewn, then of use again; or "
               f"{both_far(LACING_SHARE * edges)} of lacing")
    yield Item("sewing", "curved needle, and a sail palm", 3, "pieces", (), "two needles, one palm")
    long, wide = np.ptp(np.asarray(bought.coaming.outline_m), axis=0)
    layers = ceil(bought.coaming.strips[0].width_m / FORM_M)
    yield Item("coaming", "board for the bending form: thickness, length, width", layers, "pieces",
               (FORM_M, float(long) + FORM_OVER_M, float(wide) + FORM_OVER_M),
               f"{both(FORM_OVER_M)} over each way, to saw; layers as high as the wall "
               "or higher, screwed together; any board, to borrow: it is used again")
    yield Item("strongback", f"screw {screw_text(risers.LEDGE_SCREW_MM)}",
               FORM_SCREWS * (layers - 1), "pieces", (),
               f"coaming's form, {FORM_SCREWS} a layer on the first: {FORM_SCREWS * (layers - 1)}")
    yield Item("coaming", CLAMP, ceil(bought.coaming.girth_m / CLAMP_STEP_M),
               "pieces", (), f"to borrow; one every {both(CLAMP_STEP_M)}; once it has cured they "
               "serve to hold the frames to their risers")
    yield Item("coaming", "varnish for the coaming, two coats",
               VARNISH_LPM * bought.coaming.lip_girth_m, "l", (), NONE)
    for what in (DUST_MASK, VAPOUR_MASK, "goggles", "ear muffs"):
        yield Item(PROTECTION, what, 1, "pieces", (), "for all in the room")
    yield Item(PROTECTION, "gloves, nitrile, pairs", 20, "pieces", (), "epoxy, coating")
    yield Item(PROTECTION, "tin with a lid, for oily rags", 1, "pieces", (), NONE)
    yield from paddler_items(bought.coaming)


def paddler_items(rim):
    """Items that the paddler goes out with, the spray deck by a Coaming's rim."""
    yield Item(PADDLER, "spray deck for this rim: length, width over the lip", 1, "pieces",
               rim.lip_size_m, f"{both(rim.lip_girth_m)} round the lip, {both(rim.wall_girth_m)} "
               f"round the wall under it; lip {both(LIP_HEIGHT_M)} high: order it by the "
               "varnished rim, measured; off with one hand")
    yield Item(PADDLER, "PFD (buoyancy aid)", 1, "pieces", (),
               "of the paddler's size and weight, as its maker tells; tried on, seated")
    yield Item(PADDLER, "paddle", 1, "pieces", (), "of the paddler's length, as who sells it tells")
    yield Item(PADDLER, "clothing for the water's temperature, closed shoes", 1, "pieces", (),
               "the thickest shoes that are worn, at hand for every trial of the pedals")
    yield Item(PADDLER, "whistle", 1, "pieces", (), "tied to the PFD")
    yield Item(PADDLER, "hand pump that floats, on a cord", 1, "pieces", (),
               f"about {both_volume(PUMP_LPM, 0)} a minute")
    yield Item(PADDLER, "large sponge", 1, "pieces", (), "for what a pump leaves")


def rim_lashings(rim):
    """Lashings of a Coaming: one at a ridge, one to port and one to starboard at a frame's arms."""
    return sum(2 if 0.0 < one.round_m < 0.5 * rim.girth_m - SAME_M else 1 for one in rim.notches)


def two_boards_words():
    """What serves for a beam of one piece."""
    return (f"two boards on edge, {both_sides(BOARD_M, BEAM_M[1])} or thicker, blocks between at "
            f"every foot and post, {both(BEAM_M[0])} wide over all")


def bench_items(marks):
    """Items of the strongback, its risers and posts, for BenchMarks."""
    hung = [one.height_m for one in marks.risers if one.leg_m is not None]
    hangs = bool(hung)
    yield Item("strongback", CLAMP, RISER_CLAMPS * len(marks.risers), "pieces", (),
               f"to borrow; a frame to both cheeks{' or hangers' * hangs} of its riser; those of "
               "the coaming serve, its glue cured")
    yield Item("strongback", "string for the centre line", marks.strongback_m + STRING_SPARE_M,
               "m", (), f"{both_far(STRING_SPARE_M)} to tie")
    yield Item("strongback", "lath, straight: width, thickness, length", LATHS, "pieces", LATH_M,
               "one at the footbrace's mark, one to sight and lay over sticks")
    yield Item("strongback", "beam, straight: width, depth, length", 1, "pieces",
               (*BEAM_M, marks.strongback_m),
               "to borrow; or two boards on edge: Order of work; 4 x 4, "
               f"{both_sides(*SOLD_BEAM_M)}, serves: heights are over its top")
    boards = {}
    for riser in marks.risers:
        ledge = 0.0 if riser.ledge_m is None else risers.LEDGE_M + float(np.ptp(riser.ledge_m))
        cheek = f"ledges, cheeks{', hangers' * hangs}", round(riser.wide_m, 4)
        boards[cheek] = boards.get(cheek, 0.0) + 2.0 * (riser.long_m + ledge)
        if riser.leg_m is not None:
            leg = "legs", risers.LEG_M
            boards[leg] = boards.get(leg, 0.0) + 2.0 * riser.height_m
    widest = max(boards, key=lambda one: one[1])
    loose = loose_arms(marks.posts)
    boards[widest] += 2 * len(marks.posts) * STAY_BLOCK_M + loose * ARM_BOARD_M
    stems = f"stems' blocks{' and loose arms' * bool(loose)} too, "
    for (what, wide), long in boards.items():
        yield Item("strongback", f"planed softwood for risers, {what}: width, thickness",
                   long * (1.0 + SPARE_SHARE), "m", (wide, risers.THICK_M),
                   f"{stems * ((what, wide) == widest)}{more_text(SPARE_SHARE)}; "
                   f"{both(risers.SOLD_THICK_M)} serves: Setting up")
    feet = sum(one.foot_m * (1 if one.leg_m is None else 2) for one in marks.risers)
    posts = sum(one.long_m + FOOT_LONG_M for one in marks.posts)
    yield Item("strongback", "square stock for feet and posts: width, depth",
               (feet + posts) * (1.0 + SPARE_SHARE), "m", risers.FOOT_M,
               f"posts take {both_sides(STOCK_M, STOCK_M)} too; {both(risers.SOLD_SQUARE_M)} "
               "serves: Setting up")
    for joints, more, size, riser, hanging, post in SCREWS:
        screws = (riser * (len(marks.risers) - len(hung)) + hanging * len(hung)
                  + post * len(marks.posts))
        yield Item("strongback", f"screw {screw_text(size)}",
                   ceil(screws * (1.0 + SPARE_SHARE)), "pieces", (),
                   f"{', '.join((*joints, *more * hangs))}: {screws}, {more_text(SPARE_SHARE)}")


def _pair_m(piece_m):
    """Length of stock for two pieces so long, with what the saw takes."""
    return 2.0 * (piece_m + SAW_M)


def _both_long(piece_m):
    return both(_pair_m(piece_m))


def outfit_items(thigh, ties, rails, made, hips, spare_m, stowed, mat):
    """Items of ThighBraces, HipPads, FootRails, Pedals, a HeelMat, GearTies and what holds
    the bags, whose panels come out of the skin's cloth where that leaves a strip `spare_m` wide.
    """
    yield Item("outfit", "okoume plywood pedal of the footbrace: thickness, width, height", 2,
               "pieces", made.size_m, "by its pattern: port and starboard")
    yield Item("outfit", "okoume plywood cheek of a pedal: thickness, length, height", 2, "pieces",
               CHEEK_M, NONE)
    yield Item("outfit", f"{HARD_WOOD} block of a pedal: length, width, height", 2, "pieces",
               (*BLOCK_M, CHEEK_M[2]), f"both from {_both_long(CHEEK_M[2])} of "
               f"{rough_text(*BLOCK_M)}; grain upright")
    yield Item("outfit", "okoume plywood strap of the pedals: thickness, length, height", 1,
               "pieces", made.strap_size_m, "by its pattern")
    yield Item("outfit", f"bolt {bolt_text(BOLT_MM)}, stainless, round head on a "
               "square neck, wide washer, lock nut", 2 * len(made.bolts_m), "pieces", (),
               "for the strap")
    yield Item("outfit", f"{HARD_WOOD} stop of a footbrace's rail: thickness, length, height", 2,
               "pieces", STOP_M, "one a rail, against the after frame; both from "
               f"{_both_long(STOP_M[1])} more of the rails' stock", _pair_m(STOP_M[1]))
    screws = 2 * (PEDAL_SCREWS + len(STOP_SCREWS_M) + (hip_pads.SCREWS if hips else 0)
                  + (len(thigh.screws_m) if thigh else 0))
    more = "".join([", boards of hip pads" if hips else "", ", posts" if thigh else ""])
    yield Item("outfit", f"stainless screw {OUTFIT_SCREW}", ceil(screws * (1.0 + SPARE_SHARE)),
               "pieces", (), f"pedals, stops{more}: {screws}, "
                             f"{more_text(SPARE_SHARE)}")
    yield Item("outfit", f"stainless pin {bit_text(PIN_M)} with a ring: length "
               "under its head", 2 * len(PINS_AFT_M), "pieces", (rails.pin_long_m,),
               "two a pedal")
    yield Item("outfit", "foam heel mat: length, width", 1, "pieces", mat.size_m[1:],
               f"closed-cell, {both(mat.size_m[0])} thick; tied in")
    caps = CAP_M if over_rails(ties, rails) else None
    if caps:
        yield Item("outfit", "foam cap of a footbrace's rail: length, width", 2, "pieces",
                   CAP_M, "closed-cell, as the heel mat's: over its forward end, glued")
    yield waxed_cord(CORNERS, "heel mat")
    yield waxed_cord(RAIL_LASHINGS, "footbrace rails")
    foam = 2.0 * sum(long * wide for long, wide in filter(None, (
        hips and hips.size_m[1:], thigh and thigh.foam_m[1:], thigh and thigh.stop_m[1:], caps)))
    if foam:
        yield Item("outfit", "contact glue for foam and wood", max(
            2.0 * foam * CONTACT_LPM2 * (1.0 + GLUE_SPARE_SHARE), LEAST_CONTACT_L), "l", (),
            f"pads{' and caps' * bool(caps)} {foam * 1e4:.0f} cm2, both faces; "
            f"{more_text(GLUE_SPARE_SHARE)}")
    if hips:
        _, long, high = hips.board_m
        yield Item("glue", EPOXY, 2.0 * long * high * GLUE_KGPM2 * (1.0 + GLUE_SPARE_SHARE), "kg",
                   (), f"hip pads' boards {2e4 * long * high:.0f} cm2")
        yield Item("outfit", "okoume plywood board of a hip pad: thickness, length, height", 2,
                   "pieces", hips.board_m, NONE)
        yield Item("outfit", "closed-cell foam hip pad: thickness, length, height", 2, "pieces",
                   hips.size_m, "the most there is room for; in thin sheets, one on the other")
    if thigh:
        yield waxed_cord(2 * LASHINGS, "thigh braces")
        foot = 2.0 * thigh.post_size_m[0] * thigh.post_size_m[1]
        yield Item("glue", EPOXY, foot * GLUE_KGPM2 * (1.0 + GLUE_SPARE_SHARE), "kg", (),
                   f"posts {foot * 1e4:.0f} cm2")
        yield Item("outfit", f"{HARD_WOOD} post of a thigh brace: length, width, height", 2,
                   "pieces", thigh.post_size_m,
                   f"both from {_both_long(thigh.post_size_m[0])} more of the rails' stock",
                   _pair_m(thigh.post_size_m[0]))
        yield Item("outfit", "okoume plywood thigh brace: thickness, length, width", 2, "pieces",
                   (BRACE_M, LONG_M, thigh.wide_m), NONE)
        yield Item("outfit", "closed-cell foam pad of a thigh brace: thickness, length, width", 2,
                   "pieces", thigh.foam_m, f"under {PAD_WORDS}")
        yield Item("outfit", "closed-cell foam stop ahead of a post: thickness, length, width", 2,
                   "pieces", thigh.stop_m, "thigh braces': cut down to what is open there")
    if stowed:
        yield Item("fittings", "waterproof gear bags with handles, all together at most",
                   sum(one.most_l for one in stowed), "l", (), "where and how long: Float bags")
    for one in ties:
        yield Item("fittings", f"float bag, {one.end}, at least", one.litres, "l", (),
                   f"{both(one.long_m)} long; valve on {both(HOSE_M)} hose")
    turns = waxed_cord(RING_LASHINGS * len(ties), "the bags' rings").quantity
    yield waxed_cord(len(ties), "the bags' rings", turns)
    yield loops_cord(ties, stowed)
    yield Item("fittings", f"smooth ring, {inside_text(RING_MM)} inside", len(ties), "pieces", (),
               "bags' nose lines")
    yield Item("fittings", f"eyelet, {inside_text(EYELET_MM)} inside",
               ceil(sum(one.eyelets for one in ties) * (1.0 + SPARE_SHARE)), "pieces", (),
               f"bags' panels; {more_text(SPARE_SHARE)}")
    for one in ties:
        yield Item("fittings", f"cloth as the skin's for the {one.end} bag's panel: width, height",
                   1, "pieces", one.cloth_m,
                   "out of what the skin's cloth leaves over: large enough"
                   if min(one.cloth_m) <= spare_m else
                   "more than what the skin's cloth surely leaves over")
    yield Item("fittings", f"cord {cord_text(TIE_CORD_MM)}",
               sum(one.cord_m + one.nose_line_m for one in ties)
               + sum(one.cord_m for one in stowed), "m", (),
               f"bags' panels and noses,{' gear,' * bool(stowed)} knots")
