"""The answer of a job as plain JSON values: keys carry their unit, numbers are finite."""

import math

from sizer.border import table_of
from sizer.export import water_answer
from sizer.export.numbers import mm, named, number
from sizer.fit.checks import RIGHTING_SOURCE
from sizer.fit.facts import facts_of, room_left
from sizer.fit.matters import gm_sd_m, matters, with_care, worth_measuring
from sizer.fit.sizes import factors, sizes_mm
from sizer.hull.seat import clear_of_skin_m
from sizer.hull.sections import closed_rings
from sizer.hydro.stability import stability_particulars
from sizer.shop.skin_relief import skin_under_water
from sizer.units import MM_PER_M

FINE = 6  # digits of a check: a value that just misses its limit does not read as if it met it


def job_answer(job):
    assessed = job.fitted.assessed
    boat, load, scaling = assessed.boat, assessed.loading, assessed.boat.scaling
    return {
        "job": imprint_answer(job.imprint),
        "base": job.request.trip.base,
        "design": boat.design.name,
        "use": job.request.trip.use,
        "status": job.status,
        "size": boat_size_answer(boat),
        "factors": {key: number(one) for key, one in factors(scaling).items()}
        | {"body_zone": number(boat.map.legs)},
        "set_by": job.fitted.set_by,
        "cockpit": {
            "front_x_mm": mm(boat.opening.front_x_m), "back_x_mm": mm(boat.opening.back_x_m),
            "rim_front_z_mm": mm(boat.opening.rim_z_m[0]),
            "rim_back_z_mm": mm(boat.opening.rim_z_m[1]),
            "seat_x_mm": mm(boat.seat_x_m), "seat_z_mm": mm(boat.seat_z_m),
            "seat_shift_mm": mm(scaling.seat_shift_m),
            "foot_rest_ahead_mm": mm(assessed.room.foot_rest_ahead_m),
        },
        "load": {
            **named(load, "paddler_kg", "gear_kg", "boat_kg"),
            "total_kg": number(load.load.mass_kg),
            "lcg_mm": mm(load.load.lcg_m), "vcg_mm": mm(load.load.vcg_m),
            "vcg_cautious_mm": mm(load.cautious.vcg_m),
        },
        "boat_parts": list(map(named, assessed.weight.parts)),
        "flotation": particulars_answer(assessed.particulars, job.person.water)
        | {"gm_cautious_mm": mm(
            assessed.upright.gm_m - load.cautious.vcg_m + load.load.vcg_m)},
        "wishes": vars(job.request.wishes),
        **({"shop_bias": table_of(job.request.shop_bias, {})}
           if job.request.shop_bias.words else {}),
        "sought": [sought_answer(one) for one in job.fitted.sought],
        "padding": {f"{place}_mm": mm(size)
                    for place, size in room_left(facts_of(assessed)).items()},
        "seat": seat_answer(boat, job.person.body.weight_kg),
        **odds_answer(job.fitted, job.person.body),
        "checks": [check_answer(check) for check in job.fitted.checks],
        "cautions": list(job.cautions),
        "setting_up": {
            "datum": "the strongback's forward end; one tape pull for every mark",
            **named(job.setting_up, "strongback_start_x_m", "strongback_length_m",
                    "baseline_height_m"),
        },
        "stations": [station_answer(station) for station in job.setting_up.stations],
        "paddler": body_answer(job.person.body),
        "folk_measures": {**named(job.folk, "length_m", "beam_low_m", "beam_high_m"),
                          "note": "traditional rules of thumb, for comparison only"},
        "solve_ms": number(job.solve_ms),
    }


def imprint_answer(imprint):
    """Whose the answer is, and `does_not_pass`: null, or that and the first failed check."""
    return {**imprint.stamp.told, "boat": imprint.boat, "line": imprint.line,
            "does_not_pass": imprint.refusal or None}


def boat_size_answer(boat):
    """The five sizes of a boat, by key of a request's `fixed`."""
    return {key: number(size) for key, size in sizes_mm(boat).items()}


def full_answer(job, study):
    """The answer with what the water does: righting, flooding, drag."""
    wrong = job.mishaps
    return job_answer(job) | {
        "stability": {
            "paddler_rigid": water_answer.righting_curve_answer(wrong.rigid, wrong.rigid_sums),
            "paddler_upright": water_answer.righting_curve_answer(wrong.mover, wrong.mover_sums),
            **{name: None if curve is None
               else water_answer.righting_curve_answer(curve, stability_particulars(curve))
               for name, curve in study.other_curves.items()},
            "on_wave": water_answer.wave_answer(wrong.wave), "note": RIGHTING_SOURCE,
        },
        "flooded": named(wrong.bare) | {
            "float_bags": water_answer.bags_answer(wrong.bags),
            "ends_full": water_answer.swamped_answer(wrong.swamped)},
        "drag": {"curve": water_answer.drag_answer(study.drag)}
        | water_answer.pace_answer(study.pace),
        "wind": water_answer.wind_answer(study.wind) | {
            "with_skeg": water_answer.wind_answer(study.wind_with_skeg),
            "seat_50_mm_aft": water_answer.wind_answer(study.wind_seat_aft),
            "under_way": water_answer.under_way_answer(study.under_way)},
        "skin": water_answer.skin_answer(skin_under_water(
            job.fitted.assessed.boat, job.fitted.assessed.particulars, job.person.water)),
        "sensitivity": [water_answer.change_answer(change) for change in study.changes],
    }


def particulars_answer(particulars, water):
    """Flotation as the contract names it."""
    p = particulars
    return {
        "displacement_kg": number(p.displacement_kg), "volume_m3": round(p.volume_m3, 8),
        "water": water.kind, "water_temperature_c": number(water.temperature_c),
        "water_density_kgpm3": number(water.density_kgpm3),
        **named(p, "draft_m", "sinkage_m", "trim_deg", "waterline_length_m", "waterline_beam_m",
                "wetted_area_m2", "waterplane_area_m2", "block_coefficient",
                "prismatic_coefficient", "midship_coefficient", "waterplane_coefficient",
                "lcb_m", "lcf_m", "kb_m", "bm_m", "gm_m", "gm_long_m", "kg_per_cm"),
        "moment_to_trim_nm_per_deg": number(p.moment_to_trim_Nm_per_deg),
        **named(p, "freeboard_m", "rim_freeboard_m", "bow_freeboard_m", "stern_freeboard_m"),
    }


def righting_answer(sections, afloat):
    """Righting arms; `sinkage_mm` is null near 90 deg: water stands along the centre plane."""
    rows = []
    for heel, trim, level, arm in zip(afloat.heel_deg, afloat.trim_deg, afloat.level_m,
                                      afloat.righting_arm_m, strict=True):
        upward = math.cos(math.radians(trim)) * math.cos(math.radians(heel))
        height = level + math.sin(math.radians(trim)) * sections.mid_x_m
        rows.append({
            "heel_deg": number(heel), "gz_mm": mm(arm),
            "sinkage_mm": mm(height / upward) if abs(upward) > 0.01 else None,
            "water_over_baseline_mm": mm(height), "trim_deg": number(trim)})
    return rows


def sections_answer(sections):
    """Closed rings, first point repeated last, counter-clockwise, starboard to the right."""
    rings = closed_rings(sections) * MM_PER_M
    return {"x_mm": [number(x * MM_PER_M) for x in sections.x_m],
            "rings_mm": [[[number(y), number(z)] for y, z in ring] for ring in rings]}


def check_answer(check):
    window = dict(zip(("fails_below", "wanted_from", "wanted_to", "fails_above"), check.window,
                      strict=True))
    return {"key": check.key, "name": check.name, "value": number(check.value, FINE),
            "limit": number(check.limit, FINE), "sense": check.sense, "unit": check.unit,
            **named(check, "odds", "spread"), "margin": number(check.margin, FINE),
            "status": check.status,
            **{side: number(value, FINE) for side, value in window.items()},
            "too": check.too or None, "remedy": check.remedy or None,
            "meaning": check.meaning, "source": check.source}


def odds_answer(fitted, body):
    """The odds that all hard checks are met, what measuring more would bring, and what to measure
    or build with care, the most important first."""
    found = matters(fitted.checks, fitted.sure, body)
    return {"odds_all_hard": number(fitted.odds_all_hard),
            "gm_spread_mm": mm(gm_sd_m(fitted.sure)),
            "measuring_more": [matter_answer(one) for one in worth_measuring(found)],
            "with_care": [matter_answer(one) for one in with_care(found)]}


def matter_answer(one):
    """One thing known exactly: the spread of GM and the odds of all hard checks then."""
    return {"key": one.key, "do": one.what, "gm_spread_mm": mm(one.gm_sd_m),
            "odds_all_hard": number(one.odds)}


def sought_answer(one):
    factor = MM_PER_M if one.aim.unit == "mm" else 1.0
    return {"key": one.aim.key, "name": one.aim.title, "unit": one.aim.unit,
            "value": number(one.value * factor), "wanted": number(one.wanted * factor),
            "off": number(one.off * factor)}


def seat_answer(boat, body_kg):
    seat = boat.design.seat
    return {**named(seat, "kind", "stands_on"), "top_mm": mm(boat.seat_z_m),
            "clear_of_skin_mm": mm(clear_of_skin_m(boat.design, boat.seat, body_kg)),
            **named(seat, "thickness_m", "width_m", "length_m")}


def station_answer(station):
    """One station; points are half-breadth and height over the strongback's top."""
    return {
        **named(station, "name", "kind", "x_m", "reference_face", "plywood_lies", "strongback_m",
                "spacing_m", "gunwale_height_m", "keel_height_m", "thickness_m"),
        "half_breadths_mm": {name: mm(y) for name, (y, _) in station.points_m.items()},
        "heights_mm": {name: mm(z) for name, (_, z) in station.points_m.items()},
    }


def body_answer(body):
    """The paddler's measures, each with its plus or minus and whether it was measured."""
    names = ("stature", "hip_sitting", "sitting_height", "inseam", "buttock_knee", "knee_height",
             "foot_length", "shoe_length", "thigh_clearance", "shoulder_width", "arm_span")
    return {"weight_kg": number(body.weight_kg)} | {
        f"{name}_mm": {"value": mm(measure.value_m), "plus_minus": mm(measure.plus_minus_m),
                       "measured": measure.measured}
        for name in names for measure in (getattr(body, name),)}
