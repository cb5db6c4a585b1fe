"""The sheet of the float bags: where they lie, how large they are, where they are tied."""

import numpy as np

from sizer.export.gear_words import gear_words
from sizer.export.pages import words
from sizer.export.pdf_canvas import BOLD
from sizer.scenes.bag_views import bags_from_above, panels, tied_at
from sizer.shop.bag_ties import HEM_M, HOSE_M
from sizer.shop.lashing import TURNS
from sizer.shop.outfit import RAIL_OVER_M
from sizer.shop.said import both
from sizer.units import MM_PER_M

TEXT_PT = 7.6


def bags_sheet(on, bench, shares):
    """Where both bags lie and where they are tied; `shares` of a page's height for the boat from
    above and for the panels."""
    on, up = on.titled("Float bags"), on.job.setting_up
    one_to, plan = on.pictured(bags_from_above, on.boat, bench, up.strongback_start_x_m,
                               share=shares[0])
    across, held = on.pictured(panels, bench, up, share=shares[1])
    return on.sheet(
        plan, words(f"From above, 1 : {one_to}, bow on the left. Below, 1 : {across}: each panel "
                    "on its frame, from astern, tied at the letters; larger, its lacing; from "
                    f"above, bow up, {_tied(bench)}.", 8.0),
        held, *_told(on.job, bench))


def _tied(bench):
    """What else is drawn as tied in."""
    return f"{'gear in its loops; ' * bool(bench.gear_ties)}the heel mat"


def _told(job, bench):
    lost = job.mishaps.swamped.says[0]
    yield words(lost, 8.0, BOLD)
    yield words(f"Before the skin: {TURNS} turns of waxed cord round both gunwales and the ridge, "
                "close behind each stem's head, hold a smooth ring under the ridge; the gunwales "
                "spread from there, no pull draws them aft. Reeve each nose line from the panel's "
                "frame through the last frame's window, through the ring and back; tie both ends "
                "off. At every letter tie a loop of cord round the stick, beside its lashing, on "
                "the bag's side, its bight just inside the stick. In the finished boat: one end of "
                "the line to the bag's nose; haul the bag in empty by the other, through the "
                "frames' openings, until its nose is as far from the ring, and its inner end from "
                "the panel, as told below: its litres are reckoned so; a longer bag's nose comes "
                "nearer to the ring, a shorter bag leaves room unfilled. Tie off tight at the "
                "panel's frame, no slack for a foot; blow it up; look with a lamp that it lies "
                "there unfolded. Close it in with its panel, laced as drawn: eyelet, loop, "
                "eyelet, all round, no gap that a fist goes through. The valve, at the bag's "
                f"inner end on a hose of {both(HOSE_M)} or more, comes out between the two eyelets "
                "at the ridge, the hose flat along the lacing, its cap tied to it: air goes in and "
                "out while the panel stays laced. "
                "Cloth and no net: feet are near it, and none may go through. "
                "Never tie to a lashing, nor to the skin. Common practice, no source; panel and "
                "hose our judgement, places and cord worked out here.", TEXT_PT)
    yield words(gear_words(bench), TEXT_PT)
    for one in bench.bag_ties:
        points = "; ".join(f"{letter} {both(y)} out, {both(z)} up" for letter, y, z in tied_at(one))
        yield words(f"{one.end.capitalize()} bag: {one.litres:.0f} litres or more, blown up "
                    f"{both(one.long_m)} long, {both(one.longest_m)} at most. Ring "
                    f"{both(one.ring_in_m)} in from the {one.end}, {both(one.lead_m)} of line to "
                    f"the bag's nose, {both(abs(one.nose_x_m - _tip_m(job, one)))} in; its inner "
                    f"end {both(one.short_of_panel_m)} short of the panel. Nose line through "
                    f"{one.nose}, {one.nose_line_m:.1f} m of 4 mm cord; panel at {one.panel}, "
                    f"{_panel(one)}, laced with {one.cord_m:.1f} m of it."
                    f"{_rails_through(one, bench.foot_rails)} Room, litres: "
                    f"{_rooms(bench.gear_ties, one)}. Panel tied, over the strongback: {points}.",
                    TEXT_PT)


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
