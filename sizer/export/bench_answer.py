"""What goes to the bench as plain JSON values, beside the answer of the fit."""

from sizer.export.numbers import mm, number


def bench_answer(bench):
    """Sticks, materials, marks, plywood and the checks of the patterns."""
    marks, bought = bench.marks, bench.materials
    return {
        "pattern_status": bench.pattern_status,
        "fairness_status": bench.fairness_status,
        "pattern_checks": [
            {"frame": one.frame, "place": one.place, "name": one.name, "value": number(one.value),
             "limit": number(one.limit), "sense": one.sense, "unit": one.unit,
             "status": one.status, "meaning": one.meaning, "source": one.source}
            for one in bench.checks],
        "fairness": [_unfair(one) for one in bench.unfair],
        "strongback_mm": mm(marks.strongback_m),
        "risers": [{"frame": one.frame, "strongback_mm": mm(one.strongback_m),
                    "stands": one.stands, "height_mm": mm(one.height_m)} for one in marks.risers],
        "marks": [{"name": one.name, "x_mm": mm(one.x_m), "strongback_mm": mm(one.strongback_m),
                   "height_mm": mm(one.height_m), "on_strongback": one.on_strongback}
                  for one in marks.marks],
        "stringers": [_stick(one) for one in bench.sticks],
        "seat": _seat(bench.seat),
        "materials": [_item(one) for one in bought.items],
        "weights": [{"name": one.name, "mass_kg": number(one.mass_kg), "x_mm": mm(one.x_m),
                     "z_mm": mm(one.z_m)} for one in bought.weights],
        "plywood": [{"thickness_mm": mm(one.thickness_m), "sheets": one.count,
                     "sheet_mm": [mm(side) for side in one.sheet_m]} for one in bench.layouts],
    }


def _item(one):
    return {"part": one.group, "what": one.what, "quantity": number(one.quantity),
            "unit": one.unit, "size_mm": [mm(size) for size in one.size_m],
            "allowance": one.allowance}


def _seat(seat):
    """The seat as it is built, with the backband and the footbrace."""
    band, brace = seat.backband, seat.footbrace
    return {
        "kind": seat.kind, "stands_on": list(seat.stands_on), "front_x_mm": mm(seat.front_x_m),
        "back_x_mm": mm(seat.back_x_m), "sit_x_mm": mm(seat.sit_x_m), "top_mm": mm(seat.top_m),
        "clear_of_skin_mm": mm(seat.clear_of_skin_m), "sag_mm": mm(seat.sag_m),
        "parts": [_item(one) for one in seat.items], "says": list(seat.says),
        "backband": {"x_mm": mm(band.x_m), "over_seat_mm": mm(band.over_seat_m),
                     "frame": band.frame, "tie_x_mm": mm(band.tie_x_m),
                     "tie_half_breadth_mm": mm(band.tie_half_breadth_m),
                     "tie_z_mm": mm(band.tie_z_m)},
        "footbrace": {"nearest_mm": mm(brace.nearest_m), "set_mm": mm(brace.set_m),
                      "farthest_mm": mm(brace.farthest_m), "fore_frame": brace.fore_frame,
                      "aft_frame": brace.aft_frame, "rail_mm": mm(brace.rail_m)},
    }


def _unfair(one):
    return {"stringer": one.stringer, "axis": one.axis, "what": one.what, "place": one.place,
            "x_mm": mm(one.point_m[0]), "offset_mm": mm(one.offset_m), "status": one.status,
            "meaning": one.meaning}


def _stick(stick):
    one = stick.stringer
    return {
        "name": one.name, "count": one.count, "wood": one.wood, "width_mm": mm(one.width_m),
        "depth_mm": mm(one.depth_m), "length_mm": mm(stick.length_m), "cut_mm": mm(stick.cut_m),
        "forward_end": stick.forward.words, "after_end": stick.after.words,
        "bend": stick.verdict, "twist_deg": number(stick.twist_deg),
        "scarf_middles_mm": [mm(place) for place in stick.joints.middles_m],
        "marks_mm": {crossing.frame: mm(crossing.along_m) for crossing in stick.crossings},
    }
