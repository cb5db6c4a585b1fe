"""Righting, flooding and drag as plain JSON values."""

from dataclasses import fields

from sizer.export.numbers import mm, named, number
from sizer.fit.checks import WAVE_SOURCE
from sizer.fit.sensitivity import Figures
from sizer.hydro.drag import NOTE
from sizer.hydro.stability import stability_particulars
from sizer.hydro.wind_under_way import CAUTION, LEAD_ERROR, SOURCE


def righting_curve_answer(curve, sums):
    """One righting curve with its sums."""
    return {
        **named(curve, "heel_deg", "gz_m", "trim_deg"),
        "gm_mm": mm(sums.gm_m), "slope_mm_per_rad": mm(sums.slope_m_per_rad),
        **named(sums, "loll_deg", "greatest_arm_m", "greatest_arm_deg", "vanishing_deg", "rim_deg",
                "energy_to_greatest_arm_j", "energy_to_vanishing_j", "energy_open_j"),
    }


def bags_answer(bags):
    """The smallest float bags, what fits, and the boat with them and with the larger one lost;
    numbers of a boat that sinks are null."""
    return {
        **named(bags, "bow_l", "stern_l"),
        "bow_fits_l": number(bags.fits.bow.bag_l), "stern_fits_l": number(bags.fits.stern.bag_l),
        **named(bags, "margin_m", "says"),
        "with_bags": named(bags.kept),
        "larger_lost": named(bags.larger_lost),
        "larger_lost_paddler_out": named(bags.larger_lost_out),
    }


def swamped_answer(swamped):
    """The boat swamped with bags that fill its ends: in it, out of it, climbing on, a bag lost."""
    rising = swamped.rising
    return {
        **named(swamped, "bow_l", "stern_l", "can_be_paddled", "says"),
        "paddler_in": named(swamped.seated), "paddler_out": named(swamped.out),
        "left_by_wet_exit": _left_answer(swamped.left),
        "climbing_on": named(swamped.climbing),
        "larger_lost": named(swamped.larger_lost),
        "larger_lost_paddler_out": named(swamped.larger_lost_out),
        "larger_lost_left_by_wet_exit": _left_answer(swamped.larger_lost_left),
        "rising_water": None if rising is None else {
            **named(rising, "litres", "gm_m"),
            "free_surface_mm": [mm(one) for one in rising.loss_m],
            **named(rising, "tips_at_l")},
    }


def _left_answer(left):
    """The water of a wet exit left inside; null where the boat goes under or it is not known."""
    return None if left is None else named(left) | named(left, "pump_minutes", "most_pump_minutes")


def wave_answer(wave):
    """The boat on a crest and in a trough; null where it is not known."""
    if wave is None:
        return None
    return {
        **named(wave.arms, "height_m", "length_m"),
        **{where: {"paddler_rigid": righting_curve_answer(curve, stability_particulars(curve)),
                   "paddler_upright": righting_curve_answer(upright, sums)}
           for (where, curve), upright, sums in zip(
               wave.arms.curves, wave.upright, (wave.crest, wave.trough), strict=True)},
        "arm_area_mm_rad": mm(wave.arm_area_mrad), "says": wave.says, "note": WAVE_SOURCE,
    }


def skin_answer(skin):
    """The skin pressed in by the water, slack and tight, and the frames it would touch."""
    return {
        **{name: named(one, "lost_l", "deeper_m", "deepest_m", "deepest_x_m")
           | {"tension_n_per_m": number(one.tension_npm)}
           for name, one in (("slack", skin.slack), ("tight", skin.tight))},
        "touches": [named(one, "frame", "place", "sawn_m", "slack_m", "tight_m")
                    for one in skin.touches],
        "says": skin.says,
    }


def drag_answer(curve):
    columns = {"speed_mps": curve.speed_mps, "total_n": curve.total_N,
               "friction_n": curve.friction_N, "wave_n": curve.wave_N, "effort_w": curve.effort_w}
    return [dict(zip(columns, map(number, row), strict=True))
            for row in zip(*columns.values(), strict=True)]


def pace_answer(pace):
    return {
        "at_effort": [{"effort_w": number(effort), "speed_mps": number(speed)}
                      for effort, speed in zip(pace.effort_w, pace.speed_mps, strict=True)],
        "waves_equal_friction_mps": number(pace.waves_equal_friction_mps),
        "note": NOTE,
    }


def wind_answer(wind):
    """Side areas above and below water and the lead between their centres; null if not known."""
    return None if wind is None else {
        **{where: named(side, "area_m2", "x_m", "height_m")
           for where, side in (("above", wind.above), ("below", wind.below))},
        "lead_percent_of_waterline": number(100.0 * wind.lead), "says": wind.meaning,
    }


def under_way_answer(cases):
    """Which way the boat turns under way in wind, by case of a Study, and the skeg for it."""
    return {
        name: None if ways is None else list(map(_way_answer, ways))
        for name, ways in cases.items()
    } | {"lead_plus_minus_percent": number(100.0 * LEAD_ERROR), "note": CAUTION,
         "source": SOURCE}


def _way_answer(way):
    return {**named(way, "wind_mps", "speed_mps", "drift_deg", "wind_x_m", "water_x_m"),
            "side_force_n": number(way.side_force_N),
            "lead_percent_of_waterline": number(100.0 * way.lead), "turns": str(way.turns),
            **named(way, "skeg_x_m", "skeg_m2", "skeg_low_m2", "skeg_high_m2"),
            "says": way.says}


def change_answer(change):
    """What one small change does; null where it is not known."""
    effect = change.change or Figures(*[None] * len(fields(Figures)))
    return {"change": change.name, **named(effect, "freeboard_m", "trim_deg", "gm_m"),
            "drag_at_3_kn_n": number(effect.drag_3kn_N),
            "drag_at_4_kn_n": number(effect.drag_4kn_N)}
