"""The ends of a stick in words, for its card: how each is cut and bevelled, what it is tied to."""

from sizer.shop.said import listed
from sizer.shop.stick_marks import bevel_back_m, cut_back_m, cut_high_m, marked_above
from sizer.shop.stringers import bent_thickness_m
from sizer.shop.trade_sizes import section_text
from sizer.units import MM_PER_M, tape_text


def ends(on, stick):
    thick, _ = bent_thickness_m(stick.stringer)
    for name, end in (("Forward", stick.forward), ("After", stick.after)):
        said = f"{name} end, on {end.on}: {on.read(end.words)}."
        back = bevel_back_m(stick, end)
        if back is not None:
            said += (f" Bevel, {deg(end.bevel_deg)}° off its inner face: {both_of(back)} back over "
                     f"its {both_of(thick)}.")
        if end.aslant:
            said += f" {_aslant(end)}"
        back = cut_back_m(stick, end)
        if back is not None:
            longer = "upper" if end.upper_longer else "lower"
            over = "the lap's" if end.kind == "stem head" else "its"
            said += (f" End cut {deg(end.cut_deg)}° off square: {both_of(back)} back over {over} "
                     f"{both_of(cut_high_m(stick, end))}, the {longer} edge longer.")
        if end.kind == "coaming":
            said += (f" The line it is cut square to, the deck's beside the opening, rises forward "
                     f"at {deg(end.slope_deg)}°.")
        if end.round_m is not None:
            said += f" Round its end to {both_of(end.round_m)}."
        if end.taper is not None:
            said += (f" Taper {both_of(end.taper.length_m)} from the feather tip; it meets at "
                     f"{deg(end.taper.meeting_deg)}°.")
        yield said


def _aslant(end):
    """How an end is bevelled that is not twisted to its stem."""
    lay = end.aslant
    (low, high), begins = map(both_of, lay.inner_m), " and ".join(
        f"{both_of(out)} back on the {name}" for name, out in zip(
            ("lower", "upper"), lay.outer_m, strict=True) if out > 0.0)
    return (f"It goes on as it comes out of {lay.frame}; {deg(lay.turn_deg)}° of twist to the "
            f"stem would strain it to {lay.share:.1f} of what splits it. Bevel: on the inner face "
            f"{low} back on the lower edge, {high} on the upper; on the outer face from {begins} "
            "edge to nothing at the end.")


def on_stems(stick):
    """What is said once of all its ends on a stem's side."""
    ends = [end for end in (stick.forward, stick.after) if end.inside_m is not None]
    aslant = (f"A bevel aslant takes out the lean; it is measured from {marked_at(stick)}. "
              if any(end.aslant for end in ends) else "")
    past = " and ".join(both_of(end.inside_m) for end in ends)
    if len(ends) == 1:
        yield (f"{aslant}The tape's mark is the stem's middle, {past} past its side: the stick, "
               "its bevel flat there, ends at the mark or up to as much short of it. Leave it "
               "long; mark its end on the stem, and saw it there.")
    elif ends:
        yield (f"{aslant}The tape's marks are the stems' middles, {past} past their sides: the "
               "stick, its bevels flat there, ends at its marks or up to as much short of them. "
               "Leave it long; mark its ends on the stems, and saw them there.")


def marked_at(stick):
    """Where on an end's cut the tape's mark is."""
    return "its upper corner" if marked_above(stick) else "midway of the cut end"


def ties(stick):
    """Where it is lashed to what it ends on."""
    for end, frame, places in stick.ties:
        yield (f"Lashed to the {end.on} between {frame or 'their parting'} and the tip, round both "
               f"sticks, no hole and no glue, at {listed(list(map(both_of, places)))}.")


def lap(bench, stick):
    """How a ridge is lapped over a stem's head."""
    for stem in bench.stems:
        lap = stem.ridge_lap
        if lap and stem.ridge == stick.name:
            yield (f"Over its last {both_of(lap.flat_m)} at the {stem.name}, measured from the "
                   f"tape's mark, not from the rough end, its underside is cut away until "
                   f"{both_of(lap.left_m)} are left, from there aslant to the whole at "
                   f"{both_of(lap.length_m)}; so far its sides are planed to "
                   f"{section_text(lap.end_width_m)}.")


def tenths(value_m):
    return f"{value_m * MM_PER_M:.1f}"


def feet(value_m):
    return tape_text(value_m * MM_PER_M)


def both_of(value_m):
    return f"{tenths(value_m)} mm ({feet(value_m)})"


def deg(value):
    return f"{value:.1f}"
