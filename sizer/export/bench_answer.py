"""What goes to the bench as plain JSON values, beside the answer of the fit."""

from sizer.border import table_of
from sizer.export.numbers import mm, named, number


def bench_answer(bench):
    """Sticks, materials, marks, plywood and the checks of the patterns."""
    marks, bought = bench.marks, bench.materials
    return {
        "pattern_status": bench.pattern_status,
        "fairness_status": bench.fairness_status,
        "pattern_checks": [
            {**named(one, "frame", "place", "name"), "value": number(one.value),
             "limit": number(one.limit),
             **named(one, "sense", "unit", "status", "meaning", "source")}
            for one in bench.checks],
        "fairness": [_unfair(one) for one in bench.unfair],
        "strongback_mm": mm(marks.strongback_m),
        "risers": [{**named(one, "frame", "kind", "strongback_m", "stands", "inner_m", "outer_m",
                            "low_m", "height_m", "foot_m", "leg_m"),
                    "ledge_mm": [mm(edge) for edge in one.ledge_m or ()],
                    "bar_mm": [mm(edge) for edge in one.bar_m or ()],
                    **named(one, "hides")} for one in marks.risers],
        "stem_posts": list(map(named, marks.posts)),
        "marks": list(map(named, marks.marks)),
        "stringers": [_stick(one) for one in bench.sticks],
        "seat": _seat(bench.seat),
        "foot_rails": named(bench.foot_rails, "fore", "aft", "long_m", "z_m", "fore_half_m",
                            "aft_half_m", "fore_lean_deg", "aft_lean_deg", "set_m", "holes_m",
                            "thick_m", "bears"),
        "pedals": {**named(bench.pedals, "size_m", "strap_size_m"),
                   "plate_mm": [[mm(one) for one in corner] for corner in bench.pedals.plate_m],
                   "openings": list(map(named, bench.pedals.openings))},
        "thigh_braces": bench.thigh and named(bench.thigh),
        "hip_pads": bench.hip_pads and named(bench.hip_pads, "spacer", "fore_x_m", "aft_x_m",
                                             "low_m", "high_m", "pad_m", "board_m"),
        "bag_ties": [{**named(one, "end", "front_x_m", "back_x_m", "nose", "ring_x_m", "panel",
                              "panel_x_m",
                              "cord_m", "litres", "long_m", "lead_m", "short_of_panel_m"),
                      "bays_l": {name: number(litres) for name, litres in one.bays_l}}
                     for one in bench.bag_ties],
        "gear_ties": [named(one, "mass_kg", "x_m", "long_m", "end", "frames", "near", "stick",
                            "cord_m", "most_l") for one in bench.gear_ties],
        "heel_mat": named(bench.heel_mat, "fore_x_m", "aft_x_m", "half_m", "stick", "size_m"),
        "seams": {**named(bought.seams, "lengths", "seam_m", "coaming_m", "thread_m", "holes"),
                  "stems": list(map(named, bought.seams.stems))},
        "materials": [_item(one) for one in bought.items],
        "weights": list(map(named, bought.weights)),
        "plywood": [_plywood(one) for one in bench.layouts],
        "shop": table_of(bench.shop, {}),
    }


def _plywood(layout):
    """The sheets of one thickness, each with its parts; a part sheet says so."""
    return {**named(layout, "thickness_m", "true_m", "used_share"),
            "sheets": [{"kind": one.kind, "sheet_mm": [mm(side) for side in one.size_m],
                        **named(one, "used_share", "offcut_m"),
                        "parts": [named(place, "piece", "left_m", "bottom_m", "width_m",
                                        "height_m", "turn_deg") for place in one.placements]}
                       for one in layout.sheets]}


def _item(one):
    return {"part": one.group, "what": one.what, "quantity": number(one.quantity),
            **named(one, "unit", "size_m", "allowance")}


def _seat(seat):
    """The seat as it is built, with the backband and the footbrace."""
    return {
        **named(seat, "kind", "stands_on", "front_x_m", "back_x_m", "sit_x_m", "top_m",
                "clear_of_skin_m", "sag_m"),
        "parts": [_item(one) for one in seat.items], **named(seat, "says"),
        "backband": named(seat.backband, "x_m", "over_seat_m", "frame", "tie_x_m",
                          "tie_half_breadth_m", "tie_z_m"),
        "footbrace": named(seat.footbrace, "nearest_m", "set_m", "farthest_m", "fore_frame",
                           "aft_frame", "rail_m"),
    }


def _unfair(one):
    return {**named(one, "stringer", "axis", "what", "place"), "x_mm": mm(one.point_m[0]),
            **named(one, "offset_m", "status", "meaning")}


def _stick(stick):
    one = stick.stringer
    return {
        **named(one, "name", "count", "wood", "width_m", "depth_m"),
        **named(stick, "length_m", "cut_m"),
        "forward_end": stick.forward.words, "after_end": stick.after.words,
        "bend": stick.verdict, **named(stick, "twist_deg", "twists_deg"),
        "scarf_middles_mm": [mm(place) for place in stick.joints.middles_m],
        "starboard_scarf_middles_mm": [mm(place) for place in stick.starboard.middles_m],
        "mind": sorted(stick.says),
        "marks_mm": {crossing.frame: mm(crossing.along_m) for crossing in stick.crossings},
    }
