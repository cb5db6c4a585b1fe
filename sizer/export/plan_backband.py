"""The backband's part of the plan set's sheet for what holds the paddler."""

from sizer.drawing.told import UNIT, in_mm, size, told
from sizer.export.pages import heading, whole, words
from sizer.scenes.band_view import band_view
from sizer.shop import outfit
from sizer.shop.said import both, marked
from sizer.shop.seat_parts import CASING_M, TIE_SPARE_M
from sizer.shop.stick_loops import BAND_TURNS, loop_words
from sizer.shop.trade_sizes import cord_text

SHARE = 0.20  # of a page, for its picture; our drawing


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
    """The band itself, and what keeps it up."""
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
