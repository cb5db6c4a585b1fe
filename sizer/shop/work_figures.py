"""This boat's figures for the order of work: the words of every {name} in work.toml."""

from itertools import pairwise

import numpy as np

from sizer.design.records import MOULDED_POINT
from sizer.drawing.told import in_tenths, row_of, size, told
from sizer.drawing.true_size import BARS, JOINED_WITHIN
from sizer.fit.checks import LEG_CLEAR_M
from sizer.hull.seat import LEAST_CLEAR_M, SIT_APART_M
from sizer.hull.weight import AS_WEIGHED
from sizer.paddler.room import HIP_SIDE_M
from sizer.shop import planing
from sizer.shop.aboard import aboard_step_words, take_off_words
from sizer.shop.bench_marks import RIM_MARKS, risers_in_seat
from sizer.shop.blocks import prop_words
from sizer.shop.coaming import RIM_HOLES, RIM_LASHED, SEWING_HOLES
from sizer.shop.cross_feet import cross_feet_words
from sizer.shop.lashing import HOLE_SIZE
from sizer.shop.notches import CLEARANCE_M
from sizer.shop.pedals import BAR, BAR_MADE
from sizer.shop.said import at_least, at_most, both, both_far, listed, marked
from sizer.shop.stem_posts import arms_off_words, arms_on_words
from sizer.shop.stick_marks import over_all_m
from sizer.shop.stringers import ALLOWANCE_M, BENDS
from sizer.shop.sundries import BEAM_M, two_boards_words
from sizer.shop.thigh import LASHINGS, OVER_THIGH_M, PAD_WORDS, wall_holes_words
from sizer.shop.twists import HOT_DANGER, any_hot, twisted_words
from sizer.shop.work import GLUE_WAIT_H, VARNISH_WAIT_H
from sizer.shop.work_parts import bent_words, made_words
from sizer.shop.work_risers import riser_words
from sizer.shop.work_room import boarding_words, room_words
from sizer.shop.work_skin import skinned_words
from sizer.stamp import NO_JOB
from sizer.units import KG_PER_LB, MM_PER_M, both_text, both_volume, mark_figure, rough_text

SIDES_ALIKE_M, NEAR_M = 0.003, 0.004  # what a dry fit may be off by; our judgement
ROUGH_M = 0.005  # that an end is left long for the dry fit; our judgement


def figures(job, bench):
    """{name: words} of a Job and its Bench for `sizer.shop.work.filled`."""
    return {**_prepared(job, bench), **_set_up(job, bench), **_sticks(job, bench),
            **_tied(bench), **_fitted_out(job, bench), **skinned_words(job, bench),
            **_afloat(job, bench), **made_words(bench, job.setting_up.strongback_start_x_m),
            **boarding_words(job), **room_words(job, bench),
            **riser_words(bench), **bent_words(bench.materials.coaming),
            **aboard_step_words(job, bench)}


def _prepared(job, bench):
    status = job.status
    tall = max(bench.frames, key=lambda one: one.section.skin_m[:, 0].max())
    left, low, right, high = tall.wood.bounds
    scarfs = sum(len(side.middles_m) for _, side in bench.materials.sides)
    long = sorted({round(side.scarf_m, 6) for _, side in bench.materials.sides if side.middles_m})
    bends = [f"{one.name}: {one.verdict}" for one in bench.sticks if one.verdict != BENDS[0]]
    return {
        "line": job.imprint.line, "whose": _whose(job.stamp),
        "fitted_file": job.stamp.named("fitted-boat.toml"),
        "launch_file": job.stamp.named("launch.pdf"),
        "dry_fit_file": job.stamp.named("dry-fit.pdf"),
        "glue_wait": f"{GLUE_WAIT_H:.0f} hours",
        "verdict": {"pass": "The boat passes all its checks",
                    "caution": "The boat passes with caution: read what is marked on the cover",
                    "fail": "THE BOAT DOES NOT PASS: stop here"}[status],
        "play": at_most(CLEARANCE_M), "joined": JOINED_WITHIN, "bars": BARS,
        "hole": HOLE_SIZE,
        "plywood_parts": f"{len(bench.frames)} frames and {len(bench.stems)} stems",
        "holes": str(sum(len(one.holes) for one in (*bench.frames, *bench.stems))),
        "frame_check": f"{tall.name}, the widest: {both(right - left)} wide and "
                       f"{both(high - low)} high over the wood.",
        "scarfs": "No stick needs a scarf." if not scarfs else
                  f"{scarfs} scarfs, {listed(list(map(both, long)))} long (8 times the thickness).",
        "scarf_check": "" if not scarfs else "Length over the joint as the card's pieces tell.",
        "allowance": marked(ALLOWANCE_M), "rough": both(ROUGH_M),
        "bends": f"Mind: {'; '.join(bends)}." if bends else "All bend cold.",
        "bend_danger": "Steam burns: long gloves, never stand over the box's end, a way out of "
                       "the room. Plane: fingers behind the iron." if any(
                           one.verdict == BENDS[2] for one in bench.sticks) else
                       "Plane: fingers behind the iron. A stick bent to test it springs back.",
        "twisted_in": twisted_words(bench.sticks),
        "twist_danger": HOT_DANGER if any_hot(bench.sticks) else "",
    }


def _whose(stamp):
    """What to do where the line tells no job."""
    return ("It names no job: write whose boat it is on the cover, and on every sheet that leaves "
            "the others." if stamp.code == NO_JOB and not stamp.mark else "")


def _set_up(job, bench):
    boat, up, marks = job.fitted.assessed.boat, job.setting_up, bench.marks
    base = up.baseline_height_m
    widest = max(up.stations, key=lambda one: max(y for y, _ in one.points_m.values()))
    half, high = widest.points_m[boat.lines.gunwale.stringer.name]
    bow, stern = marks.posts
    tip_in, tip_high = bench.stems[0].head_m[0]
    diagonal = np.hypot(np.hypot(widest.x_m - tip_in, half), high - tip_high - base)
    return {
        "eased": planing.EASED, "floors_wait": planing.FLOORS_WAIT, "when_off": planing.WHEN_OFF,
        "cross_feet": cross_feet_words(bench.cross_feet),
        "cross_feet_count": f"{bench.cross_feet.count}",
        "strongback_long": both(marks.strongback_m),
        "beam_section": " x ".join(both(side) for side in BEAM_M),
        "last_mark": f"{up.stations[-1].name} {marked(up.stations[-1].strongback_m)}",
        "bow_over": marked(up.strongback_start_x_m),
        "bow_floor": marked(bow.inner_floor_m), "stern_floor": marked(stern.inner_floor_m),
        "arms_off": arms_off_words(marks.posts), "arms_on": arms_on_words(marks.posts),
        "two_boards": two_boards_words(),
        "heads": "; ".join(
            f"{one.end} {marked(tip + base)} and {marked(inner + base)}"
            for one in bench.stems for (_, tip), (_, inner) in [one.head_m]),
        "widest_frame": widest.name, "widest_gunwale": marked(widest.gunwale_height_m),
        "widest_keel": marked(widest.keel_height_m), "beam": marked(2.0 * half),
        "diagonal": marked(diagonal),
    }


def _sticks(job, bench):
    up = job.setting_up
    by_role = {}
    for one in bench.sticks:
        by_role.setdefault(one.stringer.role, []).append(one)
    keel, chines = by_role["keel"][0], by_role.get("chine", [])
    widest = max(up.stations, key=lambda one: max(y for y, _ in one.points_m.values()))
    points = widest.points_m
    ends = [one.forward.slope_deg or one.after.slope_deg for one in by_role.get("ridge", [])
            if one.forward.slope_deg or one.after.slope_deg]
    five = np.linspace(0, len(up.stations) - 1, 5).round().astype(int)
    said = []
    for row in sorted(set(five.tolist())):
        one = up.stations[row]
        half, high = one.points_m[by_role["gunwale"][0].name]
        said.append("{} {} / {} mm ({} / {} in)".format(one.name, *(
            mark_figure(float(size) * MM_PER_M, unit) for unit in ("mm", "in")
            for size in (half, high))))
    return {
        "stick_check": "; ".join(f"{one.name}, {one.crossings[-1].frame} at "
                                 f"{marked(one.crossings[-1].along_m)}" for one in bench.sticks
                                 if one.stringer.role in ("keel", "gunwale") and one.crossings),
        "keel_check": f"Keel {marked(points[keel.name][1])} over the strongback at {widest.name}."
                      if keel.name in points else "Keel on every floor.",
        "chines": listed([one.name for one in chines]).capitalize() if chines else "No chines",
        "lowest_first": ", lowest pair first" if len(chines) > 1 else "",
        "chine_check": "At " + widest.name + ", half-breadth and height: " + "; ".join(
            f"{one.name} {marked(points[one.name][0])} and {marked(points[one.name][1])}"
            for one in chines if one.name in points) + ".",
        "deck_sticks": listed([one.name for role in ("deck", "ridge")
                               for one in by_role.get(role, [])]).capitalize(),
        "deck_check": _deck_check(job.fitted.assessed.boat.opening, bench.frames),
        "slope": f"{ends[0]:.1f} degrees, rising forward" if ends else "level",
        "measured_at": MOULDED_POINT,
        "sides_alike": at_most(SIDES_ALIKE_M),
        "dry_fit_near": at_most(NEAR_M),
        "dry_fit": "Gunwale, half-breadth / height over the strongback: " + "; ".join(said) + ".",
        "planed": _planed(bench),
        "planed_where": told(": {}", where) if (where := planing.where_words(bench.frames)) else "",
        "lengths": "; ".join(f"{one.name} {both(over_all_m(one))}" for one in bench.sticks),
        **_stem_ends(bench.sticks),
    }


def _stem_ends(sticks):
    """How the ends are sawn that lie on a stem's side, and how much shorter that makes a stick."""
    short = {one.name: sum(end.inside_m for end in (one.forward, one.after)
                           if end.inside_m is not None) for one in sticks}
    ends = [name for name, most in short.items() if most > 0.0]
    if not ends:
        return {"stem_ends": "", "stem_short": ""}
    return {"stem_ends": f"Mark on {listed(ends)} each end where it lies on its stem, bevel flat, "
                         "fair with the stem's edge. ",
            "stem_short": "; by the marks on the stems shorter, at most " + ", ".join(
                f"{name} {both(short[name])}" for name in ends)}


def _deck_check(opening, frames):
    """Where a straight edge is laid from stick to stick over the deck beside the opening."""
    decked = [one for one in frames if any(
        notch.role == "ridge" for notch in one.section.notches)]
    beside = [*[one for one in decked if one.x_m <= opening.front_x_m][-1:],
              *[one for one in decked if one.x_m >= opening.back_x_m][:1]]
    laid = []
    for one in beside:
        names = [notch.stringer for notch in reversed(one.section.notches[one.section.sheer:])]
        laid.append(f"at {one.name} from {', and from '.join(map(' to '.join, pairwise(names)))}")
    return (f"A straight edge, port and starboard, {'; '.join(laid)}: it lies on both sticks and "
            "off the plywood.") if laid else ""


def _planed(bench):
    """The most that comes off each stick, and where."""
    most = {}
    for frame in bench.frames:
        for notch in planing.planed_notches(frame):
            deep = max(notch.planed_m)
            if deep > most.get(notch.stringer, (0.0, ""))[0]:
                most[notch.stringer] = deep, frame.name
    if not most:
        return "In this boat none stands out by more than sanding takes."
    return told("{} At most {}.", planing.GAUGED, row_of([
        told("{} {} at {}", name, size(deep, form=in_tenths), frame)
        for name, (deep, frame) in most.items()]))


def _tied(bench):
    bought = bench.materials
    oil = next(one for one in bought.items if one.what.startswith("oil"))
    return {"oil": f"{both_volume(oil.quantity)} of oil",
            "spacer_glue": "Glue the spacers' tenons into their mortises as those frames are "
                           "joined, in the same order, and lift them onto their ledges while the "
                           "glue is wet, so that it cures with every frame on its mark: no lashing "
                           "holds them." if bench.spacers else "",
            "pockets": "Sticks that share a pocket with one lashing over both. "
                       if bought.lashing.pockets else "",
            "ridges": "ridges" if any(one.stringer.role == "ridge" for one in bench.sticks)
                      else "deck",
            "lashings": bought.lashing.says, "tied_ends": _tied_ends(bought.lashing.along),
            "end_ties": " and where a card tells lashings to a host" if bought.lashing.along
                        else ""}


def _tied_ends(along):
    """How what ends on another stick is lashed to it, each by its name."""
    if not along:
        return ""
    return "Then " + listed([f"{stick} to {host}" for stick, host, _ in along]) + (
        ", round both where the card tells, from the frame to the feather tip: no hole, no glue. ")


def _fitted_out(job, bench):
    rim, seat, brace, thigh = (bench.materials.coaming, bench.seat, bench.seat.footbrace,
                               bench.thigh)
    base = job.setting_up.baseline_height_m
    start = job.setting_up.strongback_start_x_m
    boat = job.fitted.assessed.boat
    sole = boat.seat_x_m - brace.set_m - start
    frames, hips = [one.name for one in bench.frames], bench.hip_pads
    return {
        "notches": "over " + listed([f"{one.over} on both sides" if one.over in frames
                                     else one.over for one in rim.notches]),
        "rim_holes": RIM_HOLES, "rim_lashed": RIM_LASHED,
        "varnish_wait": f"{VARNISH_WAIT_H:.0f} hours",
        "sewing_holes": told("{} {}", bench.materials.seams.holes, SEWING_HOLES),
        "coaming_order": "Before the skin.",
        "brace_holes": "" if thigh is None else told(
            "Bore it for the thigh braces too, {}. ", wall_holes_words(thigh, rim, boat.opening)),
        "wall_front": both(rim.wall_m[0]), "wall_back": both(rim.wall_m[1]),
        "stands_on": listed(list(seat.stands_on)),
        "seat_prop": prop_words(boat),
        "seat_bevels": "" if seat.kind != "panel" else
                       "Plane the bevels under the seat plates' edges, as the sheet Seat tells, "
                       "until they lie flat on both sticks. ",
        "rim_tried": _rim_tried(rim, bench.marks.marks),
        "seat_laid": _seat_laid(seat, job.setting_up, bench.marks.risers),
        "seat_top": f"{both(SIT_APART_M)} off the centre line {marked(seat.top_m + base)}",
        "seat_clear": at_least(LEAST_CLEAR_M),
        "hips_clear": f"hips, undressed, {at_least(HIP_SIDE_M)} clear of the spacers "
                      "beside them; "
                      if bench.spacers else "",
        "leg_clear": at_least(LEG_CLEAR_M), "brace_mark": f"tape {marked(sole)}",
        "brace_fore": brace.fore_frame, "brace_aft": brace.aft_frame,
        "brace_set": f"{both(brace.set_m)} ahead of the back of the buttocks",
        "pedal_gap": f"No round {BAR} ({BAR_MADE}) may go by the pedals, under or "
                     "beside them or in their notches behind the rails (as drawn, "
                     f"{both_text(bench.pedals.worst[0] * MM_PER_M, rough_text)} at most does): "
                     "a foot that goes in there is held.",
        "band_frame": f"the gunwales ahead of {seat.backband.frame}",
        "nose_lines": " and ".join(f"{one.end} {both_far(one.nose_line_m, 1)} through {one.nose}"
                                   for one in bench.bag_ties),
        "bag_frames": listed([one.panel for one in bench.bag_ties]),
        "thigh": "No thigh braces: they find no place in this boat." if thigh is None else
                 f"Thigh braces, tape {marked(thigh.fore_x_m - start)} to "
                 f"{marked(thigh.aft_x_m - start)}, each with its post under the coaming's "
                 f"wall, {LASHINGS} lashings a board by their sheet, only if the paddler came "
                 "freely out of the dry frame without them.",
        "hip_pads": "No hip pads: no room is over." if hips is None else
                    "",
        "foam_later": "" if thigh is None and hips is None else
                      " Their foam is glued in once the coating is dry, not now.",
        "foam": _foam(thigh, hips),
        "foam_check": "" if thigh is None else
                      f"A flat hand ({at_least(OVER_THIGH_M)}) between thigh and foam. ",
        "thigh_check": "" if thigh is None else
                       f"the braces' foam held by tape, a flat hand "
                       f"({at_least(OVER_THIGH_M)}) between thigh and foam; both thighs "
                       "pushed up hard, neither board nor rim gives;",
    }


def _rim_tried(rim, marks):
    """How the coaming is laid on for the trial of sitting, before it has its notches."""
    front, back = (next(one.strongback_m for one in marks if one.name == name)
                   for name in RIM_MARKS)
    return ("Then lay the coaming on, cured, no glue standing out of it, the inside of its wall at "
            f"tape {marked(front)} and {marked(back)}, held by tape alone, so that it gives, and "
            f"never leant on: it stands {both(rim.below_m)} higher than it will with its notches. ")


def _foam(thigh, hips):
    """What is glued of ThighBraces and HipPads once the coating is dry."""
    told = [*([f"under {PAD_WORDS} of the thigh braces' boards {both(thigh.pad_m)} thick at "
              "most, and on them what stops the gaps ahead of their posts"] if thigh else []),
            *([f"on the hip pads' boards {both(hips.pad_m)} at most, the bare board first"]
              if hips else [])]
    if not told:
        return "This boat has no pads: only try the way out."
    return ("Held by tape first, then with contact glue, on wood bare of oil and coating: "
            f"{'; '.join(told)}.")


def _seat_laid(seat, up, made):
    """How the seat goes in while the frames stand on their risers."""
    met = risers_in_seat(seat, up, made)
    if met:
        return (f"the cheeks at {listed(list(met))} stand where it goes: take them off first, ties "
                "and the other risers hold the frame. [j]")
    if seat.kind == "panel":
        return ("it lies clear of every riser: all stay, and only clamps that a leg or the board "
                "would meet come off.")
    return (f"its ends lie over the floors of {listed(list(seat.stands_on))}, beside the risers' "
            "cheeks: only the clamps there, and those that a leg or the board would meet, come "
            "off.")


def _afloat(job, bench):
    assessed, wrong = job.fitted.assessed, job.mishaps
    afloat, weight = assessed.particulars, assessed.weight
    start = job.setting_up.strongback_start_x_m
    deeper = "stern" if afloat.trim_deg > 0.0 else "bow"
    return {
        "bag_ties": "; ".join(
            f"{one.end} {one.litres:.0f} litres, at {one.panel} (tape "
            f"{marked(one.panel_x_m - start)}), {both_far(one.cord_m, 1)} of cord"
            for one in bench.bag_ties),
        "swamped": wrong.swamped.out.says,
        "boat_kg": f"{weight.mass_kg:.1f} kg ({weight.mass_kg / KG_PER_LB:.0f} lb)",
        "boat_lcg": both(weight.lcg_m), "as_weighed": AS_WEIGHED,
        "take_off": take_off_words(bench.thigh, bench.hip_pads),
        "bar": BAR,
        "draft": both(afloat.draft_m), "freeboard": both(afloat.freeboard_m),
        "trim": "level" if abs(afloat.trim_deg) < 0.05 else
                f"{abs(afloat.trim_deg):.1f} degrees, {deeper} deeper",
    }
