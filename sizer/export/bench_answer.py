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
        "materials": [{"part": one.group, "what": one.what, "quantity": number(one.quantity),
                       "unit": one.unit, "size_mm": [mm(size) for size in one.size_m],
                       "allowance": one.allowance} for one in bought.items],
        "weights": [{"name": one.name, "mass_kg": number(one.mass_kg), "x_mm": mm(one.x_m),
                     "z_mm": mm(one.z_m)} for one in bought.weights],
        "plywood": [{"thickness_mm": mm(one.thickness_m), "sheets": one.count,
                     "sheet_mm": [mm(side) for side in one.sheet_m]} for one in bench.layouts],
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
