"""The answer of a job as plain JSON values: keys carry their unit, numbers are finite."""

import json
import math

from sizer.hull.sections import closed_rings
from sizer.units import MM_PER_M

DIGITS = 4  # after the point: a tenth of a micrometre in mm, far below what any figure is worth


def json_text(answer):
    """One JSON object on one line."""
    return json.dumps(answer, ensure_ascii=False, allow_nan=False)


def job_answer(job):
    """The contract's answer to a fit."""
    assessed = job.fitted.assessed
    boat, load, scaling = assessed.boat, assessed.loading, assessed.boat.scaling
    return {
        "base": job.request.base,
        "design": boat.design.name,
        "use": job.request.use,
        "status": job.fitted.status,
        "size": {
            "length_mm": _mm(boat.length_m), "beam_mm": _mm(boat.beam_m),
            "depth_mm": _mm(boat.depth_m),
            "cockpit_length_mm": _mm(boat.opening.length_m),
            "cockpit_width_mm": _mm(boat.opening.width_m),
        },
        "factors": {"length": _n(scaling.length), "beam": _n(scaling.beam),
                    "depth": _n(scaling.depth), "deck_crown": _n(scaling.crown),
                    "body_zone": _n(boat.map.legs)},
        "set_by": job.fitted.set_by,
        "cockpit": {
            "front_x_mm": _mm(boat.opening.front_x_m), "back_x_mm": _mm(boat.opening.back_x_m),
            "rim_front_z_mm": _mm(boat.opening.rim_z_m[0]),
            "rim_back_z_mm": _mm(boat.opening.rim_z_m[1]),
            "seat_x_mm": _mm(boat.seat_x_m), "seat_z_mm": _mm(boat.seat_z_m),
            "seat_shift_mm": _mm(scaling.seat_shift_m),
            "foot_rest_ahead_mm": _mm(assessed.room.foot_rest_ahead_m),
        },
        "load": {
            "paddler_kg": _n(load.paddler_kg), "gear_kg": _n(load.gear_kg),
            "boat_kg": _n(load.boat_kg), "total_kg": _n(load.load.mass_kg),
            "lcg_mm": _mm(load.load.lcg_m), "vcg_mm": _mm(load.load.vcg_m),
            "vcg_cautious_mm": _mm(load.cautious.vcg_m),
        },
        "boat_parts": [{"name": part.name, "mass_kg": _n(part.mass_kg), "x_mm": _mm(part.x_m),
                        "z_mm": _mm(part.z_m)} for part in assessed.weight.parts],
        "flotation": particulars_answer(assessed.particulars, job.person.water)
        | {"gm_cautious_mm": _mm(assessed.gm_cautious_m)},
        "checks": [check_answer(check) for check in job.fitted.checks],
        "cautions": list(job.cautions),
        "setting_up": {
            "datum": "the strongback's forward end; one tape pull for every mark",
            "strongback_start_x_mm": _mm(job.setting_up.strongback_start_x_m),
            "strongback_length_mm": _mm(job.setting_up.strongback_length_m),
            "baseline_height_mm": _mm(job.setting_up.baseline_height_m),
        },
        "stations": [station_answer(station) for station in job.setting_up.stations],
        "paddler": body_answer(job.person.body),
        "folk_measures": {"length_mm": _mm(job.folk.length_m),
                          "beam_low_mm": _mm(job.folk.beam_low_m),
                          "beam_high_mm": _mm(job.folk.beam_high_m),
                          "note": "traditional rules of thumb, for comparison only"},
        "solve_ms": _n(job.solve_ms),
    }


def particulars_answer(particulars, water):
    """Flotation as the contract names it."""
    p = particulars
    return {
        "displacement_kg": _n(p.displacement_kg), "volume_m3": round(p.volume_m3, 8),
        "water": water.kind, "water_temperature_c": _n(water.temperature_c),
        "water_density_kgpm3": _n(water.density_kgpm3),
        "draft_mm": _mm(p.draft_m), "sinkage_mm": _mm(p.sinkage_m), "trim_deg": _n(p.trim_deg),
        "waterline_length_mm": _mm(p.waterline_length_m),
        "waterline_beam_mm": _mm(p.waterline_beam_m),
        "wetted_area_m2": _n(p.wetted_area_m2), "waterplane_area_m2": _n(p.waterplane_area_m2),
        "block_coefficient": _n(p.block_coefficient),
        "prismatic_coefficient": _n(p.prismatic_coefficient),
        "midship_coefficient": _n(p.midship_coefficient),
        "waterplane_coefficient": _n(p.waterplane_coefficient),
        "lcb_mm": _mm(p.lcb_m), "lcf_mm": _mm(p.lcf_m), "kb_mm": _mm(p.kb_m),
        "bm_mm": _mm(p.bm_m), "gm_mm": _mm(p.gm_m), "gm_long_mm": _mm(p.gm_long_m),
        "kg_per_cm": _n(p.kg_per_cm),
        "moment_to_trim_nm_per_deg": _n(p.moment_to_trim_Nm_per_deg),
        "freeboard_mm": _mm(p.freeboard_m), "rim_freeboard_mm": _mm(p.rim_freeboard_m),
        "bow_freeboard_mm": _mm(p.bow_freeboard_m), "stern_freeboard_mm": _mm(p.stern_freeboard_m),
    }


def righting_answer(sections, afloat):
    """Righting arms; `sinkage_mm` is null near 90 deg: water stands along the centre plane."""
    rows = []
    for heel, trim, level, arm in zip(afloat.heel_deg, afloat.trim_deg, afloat.level_m,
                                      afloat.righting_arm_m, strict=True):
        upward = math.cos(math.radians(trim)) * math.cos(math.radians(heel))
        height = level + math.sin(math.radians(trim)) * sections.mid_x_m
        rows.append({
            "heel_deg": _n(heel), "gz_mm": _mm(arm),
            "sinkage_mm": _mm(height / upward) if abs(upward) > 0.01 else None,
            "water_over_baseline_mm": _mm(height), "trim_deg": _n(trim)})
    return rows


def drag_answer(curve):
    """A row for each speed of a DragCurve."""
    return [{"speed_mps": _n(speed), "total_n": _n(total), "friction_n": _n(friction),
             "wave_n": _n(wave), "effort_w": _n(effort)}
            for speed, total, friction, wave, effort in zip(
                curve.speed_mps, curve.total_N, curve.friction_N, curve.wave_N, curve.effort_w,
                strict=True)]


def sections_answer(sections):
    """Closed rings, first point repeated last, counter-clockwise with starboard to the right."""
    rings = closed_rings(sections) * MM_PER_M
    return {"x_mm": [_n(x * MM_PER_M) for x in sections.x_m],
            "rings_mm": [[[_n(y), _n(z)] for y, z in ring] for ring in rings]}


def check_answer(check):
    """One check record."""
    return {"name": check.name, "value": _n(check.value), "limit": _n(check.limit),
            "sense": check.sense, "unit": check.unit, "margin": _n(check.margin),
            "status": check.status, "meaning": check.meaning, "source": check.source}


def station_answer(station):
    """One station; points are half-breadth and height over the strongback's top."""
    return {
        "name": station.name, "kind": station.kind, "x_mm": _mm(station.x_m),
        "reference_face": station.reference_face, "plywood_lies": station.plywood_lies,
        "strongback_mm": _mm(station.strongback_m), "spacing_mm": _mm(station.spacing_m),
        "gunwale_height_mm": _mm(station.gunwale_height_m),
        "keel_height_mm": _mm(station.keel_height_m), "thickness_mm": _mm(station.thickness_m),
        "half_breadths_mm": {name: _mm(y) for name, (y, _) in station.points_m.items()},
        "heights_mm": {name: _mm(z) for name, (_, z) in station.points_m.items()},
    }


def body_answer(body):
    """The paddler's measures, each with its plus or minus and whether it was measured."""
    names = ("stature", "hip_sitting", "sitting_height", "inseam", "buttock_knee", "knee_height",
             "foot_length", "shoe_length", "thigh_clearance", "shoulder_width", "arm_span")
    return {"weight_kg": _n(body.weight_kg)} | {
        f"{name}_mm": {"value": _mm(measure.value_m), "plus_minus": _mm(measure.plus_minus_m),
                       "measured": measure.measured}
        for name in names for measure in (getattr(body, name),)}


def _mm(value_m):
    return None if value_m is None else _n(value_m * MM_PER_M)


def _n(value):
    return round(float(value), DIGITS) + 0.0  # + 0.0 turns -0.0 into 0.0
