"""The sheet of the float bags: where they lie, how large they are, where they are tied."""

import numpy as np

from sizer.export.pages import words
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.bag_views import bags_from_above, panels, tied_at
from sizer.shop.bag_ties import HEM_M
from sizer.shop.lashing import TURNS
from sizer.shop.outfit import RAIL_OVER_M
from sizer.shop.said import both
from sizer.units import MM_PER_M

TEXT_PT = 7.6


def bags_sheet(on, bench):
    """Where both bags lie and where they are tied."""
    on, up = on.titled("Float bags"), on.job.setting_up
    one_to, plan = on.pictured(bags_from_above, on.boat, bench, up.strongback_start_x_m, share=0.34)
    across, held = on.pictured(panels, bench, up.baseline_height_m, share=0.18)
    return on.sheet(
        plan, words(f"From above, 1 : {one_to}, bow on the left. Below: each panel on its frame, "
                    f"seen from astern, 1 : {across}, tied to the sticks at the letters; and how "
                    "it is laced there, larger.", 8.0),
        held, *_told(on.job, bench))


def _told(job, bench):
    lost = job.mishaps.swamped.says[0]
    yield words(lost, 9.0, BOLD)
    yield words(f"Before the skin: {TURNS} turns of waxed cord round both gunwales and the ridge, "
                "close behind each stem's head, hold a smooth ring under the ridge; the gunwales "
                "spread from there, no pull draws them aft. Reeve each nose line from the panel's "
                "frame through the last frame's window, through the ring and back; tie both ends "
                "off. At every letter tie a loop of cord round the stick, beside its lashing, on "
                "the bag's side, its bight just inside the stick. In the finished boat: one end of "
                "the line to the bag's nose; haul the bag in empty by the other, through the "
                "frames' openings, until its nose is up at the ring; tie off tight at the panel's "
                "frame, no slack for a foot; blow it up; look with a lamp that it lies there "
                "unfolded. Close it in with its panel, laced as drawn: eyelet, loop, eyelet, all "
                "round, no gap that a fist goes through. Cloth and no net: feet are near it, and "
                "none may go through. Never tie to a lashing, nor to the skin. Common practice, no "
                "source; the panel our judgement, places and cord worked out here.", TEXT_PT)
    yield words(_gear(job), TEXT_PT)
    for one in bench.bag_ties:
        points = "; ".join(f"{letter} {both(y)} out, {both(z)} up" for letter, y, z in tied_at(one))
        yield words(f"{one.end.capitalize()} bag: {one.litres:.0f} litres or more. Ring "
                    f"{both(one.ring_in_m)} in from the {one.end}, the bag "
                    f"reckoned from {both(abs(one.nose_x_m - _tip_m(job, one)))} in. "
                    f"Nose line through {one.nose}, {one.nose_line_m:.1f} m of 4 mm cord; panel at "
                    f"{one.panel}, {_panel(one)}, laced with {one.cord_m:.1f} m of it."
                    f"{_rails_through(one, bench.foot_rails)} Room, litres: {_rooms(job, one)}. "
                    f"Panel tied, over the strongback: {points}.", TEXT_PT)


def _panel(tie):
    """A panel's corners and what it is cut from."""
    corners = ", ".join(f"{out * MM_PER_M:.0f} / {up * MM_PER_M:.0f}"
                        for out, up in tie.corners_m)
    return (f"its corners off the centre line / up, mm: {corners}; cut from "
            f"{' x '.join(map(both, tie.cloth_m))}, {HEM_M * MM_PER_M:g} mm of it hem all round")


def _tip_m(job, tie):
    """Of the boat's end that a bag lies in, from its foremost point."""
    return 0.0 if tie.end == "bow" else float(job.fitted.assessed.boat.length_m)


def _rails_through(tie, rails):
    """What a panel needs whose face the footbrace's rails stand out of."""
    if tie.panel != rails.fore:
        return ""
    return (f" The footbrace's rails stand {both(RAIL_OVER_M)} out of that frame's forward face: "
            "round their ends, and lace the panel loosely enough to lie over them.")


def _rooms(job, tie):
    """The whole litres from frame to frame, their sum, what of it is left to gear."""
    stowed = round(sum(heap.mass_kg for heap in job.fitted.assessed.loading.gear
                       if _end_of(job, heap) == tie.end))
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


def _end_of(job, heap):
    """"bow" or "stern", where a heap of gear lies in that end; else ""."""
    ends = job.mishaps.bags.fits
    return next((end for end, zone in (("bow", ends.bow), ("stern", ends.stern))
                 if zone.front_x_m <= heap.lcg_m <= zone.back_x_m), "")


def _gear(job):
    """Where the job's gear is reckoned to lie, and what it takes of the bags' room."""
    heaps = job.fitted.assessed.loading.gear
    if not heaps:
        return "Gear: none is reckoned with; the bags fill both ends."
    told, inside = [], 0.0
    for heap in heaps:
        end = _end_of(job, heap)
        inside += heap.mass_kg if end else 0.0
        told.append(f"{heap.mass_kg:.0f} kg {both(heap.lcg_m)} aft of the bow"
                    f"{f', in the {end}' * bool(end)}")
    less = (f" The litres above leave {inside:.0f} litres for what lies in the ends: as much water "
            "as it weighs. It goes in from the cockpit, is tied in beside the bag before that is "
            "blown up, and the panel is laced over both: no hatch is reckoned with." if inside else
            " None of it lies in the ends: the litres above leave no room for gear there.")
    return (f"Gear is reckoned to lie so: {'; '.join(told)}.{less} It is reckoned to be as heavy "
            "as its own volume of water and to stay where it is: in waterproof bags, tied in. Gear "
            "is no float bag: never leave a bag out, nor buy it smaller, for gear.")
