"""In which step of the order of work the small parts are made, the sheets that have their sizes,
how the coaming's strips are sawn and bent: words of the {name}s in work.toml."""

from sizer.drawing.told import size, told
from sizer.shop.bag_ties import CAP_M, EYELET_STEP_M, HEM_M, over_rails
from sizer.shop.coaming import WALL_M
from sizer.shop.foot_push import cleat_words
from sizer.shop.hip_pads import LEAST_SIDE_M
from sizer.shop.lashing import MORTISE_SPARE_M
from sizer.shop.outfit import PINS_AFT_M
from sizer.shop.outfit import SHEET as OUTFIT
from sizer.shop.outfit_boards import PEDAL, STRAP
from sizer.shop.pedals import BOLT_MM
from sizer.shop.said import both, both_sides, listed, marked
from sizer.shop.stem_lashing import bevels_passed
from sizer.shop.sundries import DUST_MASK, VAPOUR_MASK
from sizer.shop.thigh import PAD_WORDS
from sizer.shop.tools import FEELER_MM
from sizer.shop.trade_sizes import bolt_name, fine_text, section_text, sold_as
from sizer.shop.work import called
from sizer.units import MM_PER_M

CUT = ("seat plate", "slat", "webbing strap")  # a seat's pieces, as its items name them
FADE_M = 0.100  # of the stem's corners, until the keel's slopes have run out; our judgement
PANELS = told("Make both panels of the skin's cloth: draw the corners that the sheet Float bags "
              "tells, cut {} outside of them, fold that twice to a hem {} wide, sew it down; an "
              "eyelet at every corner and every {} between, in the hem's middle.",
              *map(size, (HEM_M, 0.5 * HEM_M, EYELET_STEP_M)))
STRIP_OFF = fine_text(0.1)  # of a strip as it is sawn, mm; our judgement
THIN_RIP = (  # common practice, no source
    "the strip on the blade's free side, never between blade and fence; the fence set anew for "
    "each; riving knife, insert without a gap, feather board ahead of the blade, push block over "
    "it; a helper only takes the strip, and never pulls; or a band saw, and plane. [p]")


def made_words(bench, start_x_m):
    """{name: words} of a Bench; `start_x_m` of the strongback, for the tape."""
    seat = f"{listed(list(_seat(bench)))} (sizes: Seat)"
    panel = bench.seat.kind == "panel"
    posts = "; 2 posts of the thigh braces" if bench.thigh else ""
    other = "" if panel else f" Of other stock: {seat}."
    plates = [f"{seat}, face grain athwart"] if panel else []
    return {"sheets_measured": _sheets_measured(bench),
            "small_parts": "From the same sheets, where they are drawn on them: "
                           f"{_plywood(bench, plates)}.{other}",
            "hard_parts": f"Make the footbrace's hard wood by {OUTFIT}: 2 rails"
                          f"{_ends_round(bench)}, all {len(bench.foot_rails.holes_m)} holes "
                          f"bored and all {len(bench.foot_rails.grooves_m)} grooves sawn, 2 stops, "
                          f"2 blocks, 2 cleats{posts}.",
            "glued": "; ".join(glued_faces(bench)), "oiled_later": _oiled_later(bench),
            "glued_boards": _glued_boards(bench, start_x_m), "bare": _bare(bench),
            "wedges": _wedges(bench.stems), "rail_caps": _rail_caps(bench),
            "bow_gear": bow_gear_words(bench), "panels": PANELS,
            "pedals_out": pedals_out_words(bench), "laps": _laps(bench.stems),
            "beyond": _beyond(bench), "dust_mask": DUST_MASK, "vapour_mask": VAPOUR_MASK}


def _sheets_measured(bench):
    """What the sheets must truly measure, what goes in at most, and what to do otherwise."""
    names, true = (listed([tell(one) for one in bench.layouts]) for tell in (
        lambda one: sold_as(one.thickness_m), lambda one: fine_text(one.true_m * MM_PER_M)))
    most, off = listed(list(_openings(bench))), fine_text(MORTISE_SPARE_M * MM_PER_M)
    return (f"First caliper the sheets, {names} as they are sold: all is drawn for {true} of true "
            f"plywood, whatever it is called. At most {most}. A sheet off by more than {off} "
            "either way: have the papers made anew for what it measures, since notches, spacers "
            "and mortises all follow it; none is forced in. [j]")


def _openings(bench):
    """What the most is that goes into mortises and stem posts."""
    found = {one.thickness_m for one in bench.frames if one.mortises}
    if found:
        most = fine_text(round((min(found) + MORTISE_SPARE_M) * MM_PER_M, 2))
        yield f"a mortise takes {most}"
    slot = fine_text(round(min(one.slot_m for one in bench.marks.posts) * MM_PER_M, 2))
    yield f"a stem post's slot takes {slot}"


def _ends_round(bench):
    """How the rails' ends are left: the after ones stand at a leg that leaves the boat."""
    forward = "both" if over_rails(bench.bag_ties, bench.foot_rails) else "after"
    return f", their {forward} ends well rounded, no edge left for a shin"


def glued_faces(bench):
    """Every face oiled with sticks and frames that glue comes to later, in words."""
    yield "the keel's ends and the stems' mouths, if you glue them"
    if bench.spacers:
        yield "the spacers' tenons and mortises"
    if any(bevels_passed(bench.stems)):
        yield "sticks and stems where a lashing lies past a bevel, for a wedge"
    yield (f"the inner faces of the {bench.cleats.stick} ahead of {bench.cleats.frame}, where the "
           "cleats lie")
    if bench.hip_pads:
        yield f"the inner face of {bench.hip_pads.spacer} a side, where the hip pads' boards lie"


def _wedges(stems):
    """What is glued under the lashings that lie past a bevel."""
    past = {name: listed(sorted({stick for _, sticks in some for stick, _ in sticks}))
            for name, some in ((stem.name, list(bevels_passed([stem]))) for stem in stems) if some}
    if not past:
        return ""
    return ("Where a lashing lies past a bevel (" + "; ".join(
        f"{name}: {sticks}" for name, sticks in past.items()) + ") glue a wedge of the stick's "
        "wood into what is open between stick and stem, trimmed until it fills it, as thick under "
        "the cord as the sheet Lashing tells: the cord bends nothing. ")


def _rail_caps(bench):
    """The foam over the ends of rails that press on a float bag's panel, and the way to them."""
    if not over_rails(bench.bag_ties, bench.foot_rails):
        return ""
    return (f"Pedals and strap out first, as in {called()['at_outfit']}: no hand gets past them. "
            f"A cap of foam, {both_sides(*CAP_M)}, glued over each rail's forward end, which "
            "presses on the bag's panel; then pedals in again, same holes, all bolts tight, all "
            "pins with rings. ")


def bow_gear_words(bench):
    """What stands in the way of gear that goes in past the footbrace."""
    start = bench.seat.footbrace.start_x_m
    if not any(one.x_m < start for one in bench.gear_ties):
        return ""
    return (" Gear ahead of the footbrace goes in past it: pedals and strap come out first (a "
            f"spanner for {bolt_name(BOLT_MM)}), and go in again, tried with both shoes as when "
            "they were built, each time it is loaded or taken out.")


def _oiled_later(bench):
    parts = ["the pedals with cheeks and blocks", "the rails with their stops",
             "the cleats", *(["the hip pads' boards"] if bench.hip_pads else []),
             *(["the thigh braces' boards with their posts"] if bench.thigh else [])]
    return f"Not now, but once they are glued: {listed(parts)}."


def _glued_boards(bench, start_x_m):
    """What else is glued with the footbrace, and where it is left out."""
    hips = bench.hip_pads
    told = [cleat_words(bench.cleats),
            *(["the posts to the thigh braces' boards"] if bench.thigh else [])]
    if hips:
        told.append(
            f"the hip pads' boards, a board a side on the inner face of {hips.spacer}, from tape "
            f"{marked(hips.fore_x_m - start_x_m)} to {marked(hips.aft_x_m - start_x_m)}, but none "
            f"where sitting in the dry frame left the hips less than {both(LEAST_SIDE_M)} a side "
            "from it: board, foam and the room that the hips keep take that much")
    return f"{'; '.join(told)}. "


def _bare(bench):
    foam = [*(["the rails' forward ends"]
              if over_rails(bench.bag_ties, bench.foot_rails) else []),
            *(["the hip pads' boards, inner faces"] if bench.hip_pads else []),
            *([f"the thigh braces' undersides, {PAD_WORDS}, tops ahead of posts"]
              if bench.thigh else [])]
    return f"but where foam will be glued ({'; '.join(foam)})" if foam else "all of it"


def pedals_out_words(bench):
    """How the pedals leave the boat, one by one: whole, their bar is wider than any opening."""
    return (f"draw the {2 * len(PINS_AFT_M)} pins, undo the strap's "
            f"{2 * len(bench.pedals.bolts_m)} bolts and take it away, slide one pedal "
            "aft on its rail clear of the other, draw it off the rail towards the middle and up, "
            "as its notch leans, turn it lengthwise and bring it out through "
            f"{bench.foot_rails.aft}; the other after it, the strap last; in again the other way "
            "round")


def _plywood(bench, seat):
    between = [f"2 of {one.name}" for one in bench.spacers]
    holes = [one.name for one in bench.frames if one.mortises]
    outfit = [f"2 pedals (pattern: {PEDAL}), their 2 cheeks and the strap ({STRAP})",
              *(["2 boards of the hip pads"] if bench.hip_pads else []),
              *(["2 boards of the thigh braces"] if bench.thigh else [])]
    return "; ".join([
        *([f"{listed(between)}, face grain along them, and the mortises for them in "
           f"{listed(holes)} (sizes: Frames and stems)"] if between else []),
        *seat, f"{listed(outfit)} (sizes: {OUTFIT}), face grain either way"])


def _seat(bench):
    """The seat's own pieces, counted."""
    counts = {}
    for one in bench.seat.items:
        name = next((word for word in CUT if one.size_m and word in one.what), None)
        if name:
            counts[name] = counts.get(name, 0) + round(one.quantity)
    return (f"{count} {name}s" for name, count in counts.items())


def _laps(stems):
    """What of each ridge's end is cut away to lie on a stem's head."""
    told = [f"{stem.ridge}, underside over its last {both(stem.ridge_lap.flat_m)} to "
            f"{both(stem.ridge_lap.left_m)} of {both(stem.ridge_lap.depth_m)}, whole again "
            f"{both(stem.ridge_lap.length_m)} from the same mark"
            for stem in stems if stem.ridge_lap]
    return ("Cut the laps that lie on the stems' heads, measured from the tape's mark there, never "
            f"from the rough end: {'; '.join(told)}. ") if told else ""


def _beyond(bench):
    first, last = bench.frames[0].name, bench.frames[-1].name
    heads = ("; over the stems' heads plane the ridges' edges down until no step is left under "
             "the skin") if any(one.ridge_lap for one in bench.stems) else ""
    return (f"Beyond {first} and {last} no figure is told: carry each slope on to the stick's end "
            f"in the same sweep, by a straight edge from stick to stick, fair into the stem's "
            f"edge{heads}. A stem's outer edge stays flat, its corners rounded; only from the "
            f"keel's end {both(FADE_M)} on are they planed into the keel's slopes, running out.")


def planed_words(rim):
    """Which end the wall's strips are as wide as, and where and when its lower edge is planed."""
    front, back = (round(one * MM_PER_M) for one in rim.wall_m)
    if front == back:
        return "Its strips are bent at the width that it has all round: nothing is planed."
    wide, narrow = ("in front", "behind") if front > back else ("behind", "in front")
    return (f"Its strips are bent at the width {wide}; plane its lower edge before it is sat in, "
            f"nothing {wide}, more and more towards the other end, "
            f"{both(abs(front - back) / MM_PER_M)} {narrow}: notches come only then, their depth "
            "from the planed edge.")


def bent_words(rim):
    """{name: words} of a Coaming."""
    strips = rim.strips
    inside = f"{both(rim.length_m)} along its slope x {both(rim.width_m)}"
    return {
        "wall_planed": f"Off the form when the lip has cured too. {planed_words(rim)}",
        "feeler": fine_text(FEELER_MM),
        "strip_true": f"By caliper each is {section_text(strips[0].thickness_m)}, off by "
                      f"{STRIP_OFF} at most, its ends and its middle alike: plane or sort out what "
                      f"is not.",
        "thin_rip": THIN_RIP,
        "form": inside, "coaming_size": inside,
        "coaming_strips": " ".join(
            f"{one.count} strips for the {one.name.removeprefix('coaming ')}, "
            f"{both(one.width_m)} x {section_text(one.thickness_m)}, "
            f"{both(one.length_m)} long."
            for one in strips),
        "wall": section_text(WALL_M),
        "coaming_radius": both(rim.tightest_m)}
