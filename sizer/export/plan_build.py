"""Sheets of a plan set for what is made on the frame: coaming, outfit, skin."""

from sizer.drawing.measured import tenth_text
from sizer.export.pages import heading, table, words
from sizer.scenes.coaming_views import coaming_form, coaming_section, notch_words
from sizer.scenes.outfit_views import footbrace_view, thigh_view
from sizer.scenes.skin_views import LARGER, skin_drawing
from sizer.shop import foot_rails as made
from sizer.shop import outfit
from sizer.shop.coaming import SEWING_HOLE_M
from sizer.shop.seat_parts import RAIL_M
from sizer.shop.sundries import PEDAL_SCREWS, SCREW_MM, STOP_SCREWS
from sizer.shop.thigh import LONG_M
from sizer.shop.work_figures import both
from sizer.units import MM_PER_M

SECTION_SCALES = (1, 2, 3)
TEXT_PT = 9.0
NO_BRACES = ("No thigh braces: outside the opening and behind the knees no place between two "
             "frames is left for them. Pad the hips instead, loosely.")


def coaming_sheet(on, bench):
    """The coaming: bending form, section, notches, strips, how it is fastened."""
    on, rim = on.titled("Coaming"), bench.materials.coaming
    one_to, form = on.pictured(coaming_form, rim, on.boat, share=0.42)
    near, section = on.pictured(coaming_section, rim, share=0.26, scales=SECTION_SCALES)
    *says, _, _ = bench.coaming.notes  # the one before the last is told here in both units
    says.append(f"The wall stands {both(rim.wall_m[0])} over the deck line in front, "
                f"{both(rim.wall_m[1])} behind, and {both(rim.below_m)} under it between its "
                f"notches: {'; '.join(notch_words(rim))}. A frame's notch is on both sides. Mark "
                "them in the dry fit, then saw. Its strips are bent at the width in front; plane "
                "the lower edge until it is as told behind. The rim's top rises forward at "
                f"{rim.slope_deg:.1f} degrees, the deck line under it at {rim.deck_slope_deg:.1f}. "
                "Wall first; the lip round it on the same form when the wall has cured, flush with "
                "its upper edge.")
    return on.sheet(
        form, words(f"Form from above, 1 : {one_to}, bow on the left. Solid: the wall's inside, "
                    "which the form is sawn to; dashed: outside of wall and lip. Small circles: "
                    "a clamp every 80 mm, its inner jaw in a 40 mm hole bored through the form "
                    "20 mm inside the edge. True size: the patterns' file.", TEXT_PT),
        section, words(f"Section in front, 1 : {near}, the opening on the right, mm.", TEXT_PT),
        *(words(note, TEXT_PT) for note in (*says, bench.coaming.notes[-1])))


def outfit_sheet(on, bench):
    """Footbrace, backband and thigh braces: where they stand and how they are made."""
    on, up, band = on.titled("Footbrace and thigh braces"), on.job.setting_up, bench.seat.backband
    one_to, brace = on.pictured(footbrace_view, bench, share=0.17)
    return on.sheet(
        *heading("Footbrace"), brace, words(f"1 : {one_to}, mm, {_rails(bench, up)}", TEXT_PT),
        words(_pedals(bench, up), TEXT_PT),
        *heading("Backband"),
        words(f"Its middle {both(band.over_seat_m)} over the seat, ties to the gunwales at "
              f"{band.frame}, {both(band.tie_half_breadth_m)} off the centre line, with a cord "
              "that a hand can loosen.", TEXT_PT),
        *heading("Thigh braces"), *_thigh_braces(on, bench))


def _rails(bench, up):
    rails = bench.foot_rails
    return (f"seen from inside the boat, bow on the left. Two rails of hard wood {_sizes(RAIL_M)} "
            f"mm, from {rails.fore} to {rails.aft} and {outfit.RAIL_OVER_M * MM_PER_M:g} and "
            f"{outfit.RAIL_PAST_M * MM_PER_M:g} mm past them, middle "
            f"{both(rails.z_m + up.baseline_height_m)} over the strongback, flat on the openings' "
            f"inner edges: outer face {both(rails.fore_half_m)} off the centre line at "
            f"{rails.fore}, leaning {rails.fore_lean_deg:.0f} degrees outward, "
            f"{both(rails.aft_half_m)} and {rails.aft_lean_deg:.0f} degrees at {rails.aft}. At "
            "each frame two lashings, one inside the other, cross the rail's inner face before and "
            f"behind the plywood, in grooves {_sizes(outfit.GROOVE_M)} mm deep so that a pedal "
            "goes past, and go through one hole over and one under it: 3.2 mm, on the patterns, mm "
            "off the centre line and over the strongback: "
            f"{_rail_holes(bench.frames, up.baseline_height_m)}. A stop of hard wood "
            f"{_sizes(made.STOP_M)} mm, glued and screwed ({STOP_SCREWS} screws 3.5 x {SCREW_MM}) "
            f"to the rail's outer face against {rails.aft}'s after face, takes the push of the "
            "feet: no lashing does. Before the skin.")


def _pedals(bench, up):
    rails = bench.foot_rails
    tape = bench.seat.footbrace.start_x_m - up.strongback_start_x_m  # of a rail's forward end
    return (f"A pedal: a plate {_sizes(rails.pedal_m)} mm across the boat for the sole, "
            f"{rails.plate_wide_m[0] * MM_PER_M:.0f} wide at its lower edge, which lies "
            f"{both(rails.low_m)} under the rail's middle, to {made.INNER_M * MM_PER_M:g} mm off "
            f"the centre line, against a cheek {_sizes(made.CHEEK_M)} mm; in the corner ahead of "
            f"both a block of hard wood {_sizes(made.BLOCK_M)} mm (along, across), as high as the "
            f"cheek and flush with its forward end, {made.AHEAD_M * MM_PER_M:g} mm ahead of the "
            f"sole, the plate's after face. Glued, {PEDAL_SCREWS} screws 3.5 x {SCREW_MM}, heads "
            "flush: four through the plate into the block, two through the cheek into each. A "
            f"strap of plywood {_sizes(made.STRAP_M)} mm ahead of both plates makes them one bar "
            f"from rail to rail: four M{made.BOLT_MM[0]} bolts, {_listed(made.BOLTS_M)} mm off the "
            f"centre line, in slots {made.SLOT_M * MM_PER_M:g} mm long in the strap, loosened to "
            "move the bar. Never push without it: each pedal alone breaks out of its corner. The "
            "cheek lies on the rail's inner face and runs on aft beside the shoe; two "
            f"{outfit.PIN_M * MM_PER_M:g} mm pins, {made.PIN_LONG_M * MM_PER_M:g} mm under their "
            f"heads, with rings, go through cheek and rail {_listed(outfit.PINS_AFT_M)} mm behind "
            f"the sole: with one it would turn. Holes {outfit.HOLE_STEP_M * MM_PER_M:g} mm apart: "
            f"soles from tape {both(tape + rails.soles_m[0])} to {both(tape + rails.soles_m[-1])}, "
            f"this paddler's {both(tape + rails.set_m)}, with "
            f"{(rails.set_m - rails.soles_m[0]) * MM_PER_M:.0f} mm left forward of it and "
            f"{(rails.soles_m[-1] - rails.set_m) * MM_PER_M:.0f} aft: try before boring. Push with "
            "all your weight before the skin is on. Or buy a pair of sliding footbraces instead of "
            "rails and pedals. Our drawing.")


def _thigh_braces(on, bench):
    found, up = bench.thigh, on.job.setting_up
    if found is None:
        yield words(NO_BRACES, TEXT_PT)
        return
    base, start = up.baseline_height_m, up.strongback_start_x_m
    across, view = on.pictured(thigh_view, on.job.fitted.assessed, bench, base, share=0.21)
    yield view
    yield words(f"1 : {across}, from astern, at the boards' after end; dashed: the paddler's "
                f"thighs. A board of 12 mm plywood a side, {both(LONG_M)} long and "
                f"{both(found.wide_m)} wide, tape {both(found.fore_x_m - start)} to "
                f"{both(found.aft_x_m - start)}; its underside {both(found.inner_z_m + base)} over "
                f"the strongback at its inner edge and {both(found.outer_z_m + base)} at the "
                f"gunwale. Foam {both(found.pad_m)} thick is glued under its inner half with "
                "contact glue. It lies under the deck from the gunwale to the coaming's wall, "
                "which it meets at its after end; two lashings to each, round the gunwale and "
                "through the wall under the deck line, none through the skin. It reaches "
                f"{both(found.overlap_m)} in over the thigh's outer edge and no farther: seen from "
                "above it stands outside the opening, so that nothing of it lies over the way out. "
                "Our drawing, our judgement: leave it out where the paddler comes out less freely "
                "with it than without.", TEXT_PT)


def _rail_holes(frames, up):
    return "; ".join(f"{frame.name} " + ", ".join(
        f"{tenth_text(y)} and {tenth_text(z + up)}"
        for name, (y, z) in frame.holes if name == made.RAIL and y > 0.0)
        for frame in frames if any(name == made.RAIL for name, _ in frame.holes))


def _sizes(size_m):
    return " x ".join(f"{one * MM_PER_M:g}" for one in size_m)


def _listed(lengths_m):
    return " and ".join(f"{one * MM_PER_M:g}" for one in lengths_m)


def skin_sheet(on, bench):
    """Cloth, which way it goes, seams, stitches, coating, order against the coaming."""
    on = on.titled("Skin")
    cloth, sewn = bench.materials.skin, bench.materials.seams
    coat = next(one for one in bench.materials.items if one.what.startswith("coating"))
    wider = ("" if cloth.wider_m is None else
             f" A cloth {both(cloth.wider_m)} wide or more would take one length less.")
    rows = [("girth, the greatest, to the coaming's top", both(cloth.girth_m)),
            ("along the bottom from end to end", both(cloth.run_m)),
            ("cloth", f"{both(cloth.cloth_width_m)} wide, {cloth.lengths} x "
                      f"{both(cloth.cloth_m / cloth.lengths)}"),
            ("seams, without the coaming's", both(sewn.seam_m)),
            ("round the coaming's wall, outside", f"{both(sewn.coaming_m)}, {sewn.holes} holes "
                                                   f"of {SEWING_HOLE_M * MM_PER_M:g} mm"),
            ("thread", f"{sewn.thread_m:.0f} m"),
            ("skin without the opening", f"{cloth.area_m2:.2f} m2 ({cloth.area_m2 * 10.7639:.1f} "
                                         "sq ft)"),
            ("coating as it dries", f"{coat.quantity:.2f} kg")]
    one_to, picture = on.pictured(skin_drawing, on.boat, sewn, share=0.4)
    return on.sheet(
        picture, words(f"From above, 1 : {one_to}, bow on the left, seams heavy. Across behind "
                       f"the opening, 1 : {one_to / LARGER:g}: cloth heavy, seams in rings.",
                       TEXT_PT),
        table(("what", "how much"), rows, (7.0, 11.0), on.inner_mm),
        *(words(text, 10.0) for text in (
            f"{sewn.way} {sewn.where}{wider}",
            "The coaming is on the frame before the skin: the skin goes up its wall's outside to "
            "the lip and is sewn through it; then all is coated. Middle first, then lengthwise, "
            "then crosswise, from the middle to the ends. Stitches 8 to 10 mm apart, there and "
            "back, thread doubled and waxed, edges folded under.",
            f"Cloth: tightly woven polyester or nylon, uncoated, about "
            f"{on.boat.design.skin.fabric_kgpm2 * 1000.0:.0f} g a square metre; polyester stays "
            "tight when wet, nylon is tougher and slackens. Coating: one that stays flexible, such "
            "as two-part polyurethane for cloth, or oil-based varnish; try it on an offcut, folded "
            "when dry.",
            "Coat in thin coats, seams twice, over the coaming's stitches too; look for pin holes "
            "with a lamp inside. Steps, checks and dangers: Order of work. Common practice, no "
            "source.")))
