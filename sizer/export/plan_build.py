"""Sheets of a plan set for what is made on the frame: coaming and skin."""

from sizer.drawing.told import UNIT, in_mm, row_of, size, told
from sizer.export.pages import table, whole, words
from sizer.scenes.coaming_views import coaming_form, coaming_section, notch_words
from sizer.scenes.skin_views import LARGER, seam_drawing, skin_drawing
from sizer.shop.coaming import CLAMP_HOLE_M, CLAMP_WOOD_M, SEWING_HOLE_M
from sizer.shop.coaming_drawing import clamp_hole_in_m
from sizer.shop.materials import coating_on_kg
from sizer.shop.said import both, both_far, marked
from sizer.shop.skin import STITCHES, wet_words
from sizer.shop.sundries import CLAMP_STEP_M
from sizer.shop.thigh import wall_holes_words
from sizer.shop.trade_sizes import bit_text
from sizer.shop.work_parts import planed_words
from sizer.shop.work_skin import over_words
from sizer.units import both_cloth, both_mass

SECTION_SCALES = (1, 2, 3)
TEXT_PT, SMALL_PT = 8.7, 8.0


def coaming_sheet(on, bench, shares):
    """The coaming: bending form, section, notches, strips, how it is fastened; `shares` of a page's
    height for the form and for the section."""
    on, rim = on.titled("Coaming"), bench.materials.coaming
    one_to, form = on.pictured(coaming_form, rim, on.boat, share=shares[0])
    near, section = on.pictured(coaming_section, rim, share=shares[1], scales=SECTION_SCALES)
    *says, _, _ = bench.coaming.notes  # the one before the last is told here in both units
    front, behind, below = (on.read(size(one, form=in_mm)) for one in (*rim.wall_m, rim.below_m))
    says.append(f"The wall stands {front} over the deck line in front, "
                f"{behind} behind, and {below} under it between its "
                f"notches: {on.read(row_of(list(notch_words(rim)), '; '))}. "
                f"A frame's notch is on both sides. {_marked(on, rim)} {planed_words(rim)} The "
                f"rim's top rises forward at {rim.slope_deg:.1f} degrees, the deck line under it "
                f"at {rim.deck_slope_deg:.1f}. "
                "Wall first; the lip round it on the same form when the wall has cured, flush with "
                "its upper edge.")
    if bench.thigh:
        says.append("For the thigh braces' lashings, before the varnish, "
                    f"{on.read(wall_holes_words(bench.thigh, rim, on.boat.opening))}.")
    return on.sheet(
        form, words(f"Form, in its slope, 1 : {one_to}, bow on the left. Solid: the wall's inside, "
                    "which the form is sawn to; dashed: outside of wall and lip. Large circles: "
                    "{} Small ones by a letter: both ends of that notch. True size, with these "
                    "holes' middles: the patterns' file, and {} for a router.".format(on.read(told(
                        "a clamp every {}, its inner jaw in a hole of {} bored through the form, "
                        "its middle {} inside the edge: {} of wood stay.", both(CLAMP_STEP_M),
                        bit_text(CLAMP_HOLE_M), size(clamp_hole_in_m()), size(CLAMP_WOOD_M))),
                    on.job.stamp.named("coaming.dxf")),
                    TEXT_PT),
        section, words(f"Section in front, 1 : {near}, the opening on the right, "
                       f"{on.read(UNIT)}.", TEXT_PT),
        *(words(on.read(note), TEXT_PT) for note in (*says, bench.coaming.notes[-1])))


def _marked(on, rim):
    """When a Coaming comes on the frame for its notches, and how they are marked."""
    front = marked(on.boat.opening.front_x_m - on.job.setting_up.strongback_start_x_m)
    return ("Mark them in the dry fit, before the sticks come out: the coaming laid on arms and "
            "ridges, held by tape, centre line over the ridges', inside of its front at tape "
            f"{front}; it stands {both(rim.below_m)} too high. Square up its wall both sides of "
            "each arm and ridge as they stand, by these figures where they should; saw when it is "
            "fitted.")


def skin_sheet(on, bench):
    """Cloth, which way it goes, seams, stitches, coating, order against the coaming."""
    on = on.titled("Skin")
    cloth, sewn = bench.materials.skin, bench.materials.seams
    coat = next(one for one in bench.materials.items if one.what.startswith("coating"))
    wider = ("" if cloth.wider_m is None else
             f" A cloth {both(cloth.wider_m)} wide or more would take one length less.")
    rows = [("at the widest, deck to the coaming's top", over_words(cloth)),
            ("along the bottom from end to end", both(cloth.run_m)),
            ("cloth", f"{both(cloth.cloth_width_m)} wide, {cloth.lengths} x "
                      f"{both(cloth.cloth_m / cloth.lengths)}"),
            ("seams, without the coaming's", both(sewn.seam_m)),
            ("round the coaming's wall, outside", f"{both(sewn.coaming_m)}, {sewn.holes} holes "
                                                   f"of {bit_text(SEWING_HOLE_M)}"),
            ("thread", both_far(sewn.thread_m)),
            ("skin without the opening", f"{cloth.area_m2:.2f} m2 ({cloth.area_m2 * 10.7639:.1f} "
                                         "sq ft)"),
            ("coating on the boat, dry", both_mass(coating_on_kg(on.boat, cloth), 2)),
            ("coating to buy, as it dries", f"{both_mass(coat.quantity, 2)}; "
                                            f"{wet_words(coat.quantity)}")]
    one_to, picture = on.pictured(skin_drawing, on.boat, sewn, share=0.24)
    near, close = on.pictured(seam_drawing, on.boat, bench.materials, share=0.25,
                              scales=SECTION_SCALES)
    return on.sheet(
        picture, words(f"From above, 1 : {one_to}, bow on the left, seams heavy. Across behind "
                       f"the opening, 1 : {one_to / LARGER:g}: cloth heavy, seams in rings.",
                       TEXT_PT),
        whole(close, words(f"1 : {near}, {on.read(UNIT)}, layers drawn apart. {sewn.folded} The "
                           "rim's cloth: cut, snipped and turned as the order of work tells.",
                           TEXT_PT)),
        table(("what", "how much"), rows, (5.0, 13.0), on.inner_mm, SMALL_PT),
        *(words(text, SMALL_PT) for text in filter(None, (
            f"{sewn.way} {sewn.where} {sewn.trimmed}{wider}", sewn.down_stems,
            "The coaming is on the frame before the skin: the skin goes up its wall's outside to "
            "the lip and is sewn through it; then all is coated. "
            f"Stitches {STITCHES} apart, there and "
            "back, thread doubled and waxed, edges folded under.",
            f"Cloth: tightly woven polyester or nylon, uncoated, about "
            f"{both_cloth(on.boat.design.skin.fabric_kgpm2)}; polyester stays "
            "tight when wet, nylon is tougher and slackens. Coating: one that stays flexible, such "
            "as two-part polyurethane for cloth, or oil-based varnish; try it on an offcut, folded "
            "when dry. How it is coated, steps, checks and dangers: Order of work. Common "
            "practice, no source."))))
