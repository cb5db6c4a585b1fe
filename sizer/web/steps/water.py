"""Step 5: what the water does: heeled, flooded, paddled along."""

from dataclasses import replace
from functools import partial
from html import escape

import streamlit as st

from sizer import units
from sizer.fit.mishaps import UNKNOWN_WAVE, aboard_of
from sizer.fit.study import HEELED_DEG, SEAT_AFT_M
from sizer.hydro.drag import NOTE
from sizer.hydro.ends import End, chambers_of
from sizer.hydro.flooded import flooded
from sizer.hydro.swamped import left_by_wet_exit, wet_exit_says
from sizer.hydro.wind_under_way import CAUTION, SOURCE
from sizer.scenes.side_areas import side_areas, side_under_way
from sizer.scenes.side_view import flooded_view
from sizer.web.charts import SETTINGS, Curve, Mark, curves_chart
from sizer.web.look import note_html, put, put_scene, table_html
from sizer.web.session import base_boat, study_for
from sizer.web.state import choice, field
from sizer.web.strip import put_cautions, put_next
from sizer.web.trade_words import LENGTH_SCALES, NOT_KNOWN, every_speed_text, quantity_text

ENDS = ("bow", "stern")
SEATED = ("in the seat", "in the water beside")
CASES = {"seated_high": "sitting tall", "without_gear": "without gear", "boat_alone": "boat alone"}


def page(one, job):
    more = study_for(job)
    _flooded(one, job)
    _righting(one, job, more)
    _on_wave(job, one.length_unit)
    _drag(one, more)
    _wind(one, job, more)
    _across_wind(one, job, more)
    _changes(one, more)
    put_cautions(job.cautions)
    put_next("Next: the bench", "bench")


def _flooded(one, job):
    st.header("Flooded")
    assessed, bags, full = job.fitted.assessed, job.mishaps.bags, job.mishaps.swamped
    fits = (bags.fits.bow.bag_l, bags.fits.stern.bag_l)
    picture, sliders = st.columns([7, 3], gap="medium")
    with sliders:
        litres = one.bags_l or (full.bow_l, full.stern_l)
        for end, now, most in zip(ENDS, litres, fits, strict=True):
            st.slider(f"Float bag, {end}, litres", 0, max(int(most), 1), **field(
                f"bags_l.{end}", min(int(now), int(most)), _bag_of(end, litres)))
        seated = st.radio("The paddler is", SEATED, horizontal=True,
                          **choice("flooded_paddler", SEATED[0], among=SEATED)) == SEATED[0]
    ends = [End(min(bag, most)) for bag, most in zip(litres, fits, strict=True)]
    aboard = aboard_of(assessed, seated)
    hull = assessed.boat, assessed.weight
    found = flooded(*hull, aboard, *ends, assessed.person.water)
    says = found.says if seated else wet_exit_says(found, _left(assessed, ends))
    with picture:
        if found.sinkage_m is not None:
            afloat = assessed.particulars
            shown = replace(afloat, sinkage_m=found.sinkage_m, trim_deg=found.trim_deg,
                            freeboard_m=found.freeboard_m,
                            draft_m=afloat.draft_m + found.sinkage_m - afloat.sinkage_m)
            put_scene(flooded_view, assessed.boat, base_boat(one, one.base), shown,
                      job.person.body, one.said,
                      chambers_of(assessed.boat, *ends, aboard.gear),
                      seated and found.can_be_paddled)
        put(note_html(says, "fail" if found.state != "rim clear"
                      or (seated and not found.can_be_paddled) else "caution"))
    put(f"<p>Fill the ends: {full.bow_l:.0f} litres in the bow, {full.stern_l:.0f} in the stern. "
        f"{escape(bags.says)} Calm water; waves wash in sooner.</p>")
    put(table_html(("Both ends full, the paddler", "rim over water", "side deck", "GM",
                    "stays upright"), [_swamped_row(one, *case) for case in (
                        ("in the seat", full.seated),
                        ("in the water beside, the boat as full as the sea", full.out),
                        ("climbing on over the back deck", full.climbing))], numbers=(1, 2, 3)))
    if full.rising is not None:
        put(f"<p>{escape(full.says[-1])}</p>")


def _left(assessed, ends):
    """What a wet exit leaves in an Assessed boat with End of bow and stern."""
    given = (assessed.boat, assessed.weight, aboard_of(assessed))
    seated = flooded(*given, *ends, assessed.person.water)
    return left_by_wet_exit(*given, tuple(ends), assessed.person.water, seated)


def _swamped_row(one, words, found):
    if found.gm_m is None:
        return [words, "sinks", "", "", "no"]
    return [words, *map(one.said, (found.rim_clearance_m, found.freeboard_m, found.gm_m)),
            "yes" if found.stays_upright else "no"]


def _bag_of(end, litres):
    """Takes one bag; the other stays as chosen, or as it was where none was."""
    return lambda one, moved: one.but(bags_l=tuple(
        moved if end == name else now
        for name, now in zip(ENDS, one.bags_l or litres, strict=True)))


def _arms(words, curve, unit):
    """The Curve of righting arms in a unit of lengths."""
    return Curve(words, curve.heel_deg, curve.gz_m * LENGTH_SCALES[unit])


def _righting(one, job, more):
    unit = one.length_unit
    st.header("Heeled")
    wrong = job.mishaps
    curves = [_arms("paddler keeps upright", wrong.mover, unit),
              _arms("paddler rigid", wrong.rigid, unit)]
    curves += [_arms(words, other, unit) for key, words in CASES.items()
               if key != "without_gear" and (other := more.other_curves[key])]
    sums, rigid = wrong.mover_sums, wrong.rigid_sums
    marks = [Mark(f"{words} {angle:.0f}°", angle) for words, angle in (
        ("rigid to", rigid.vanishing_deg), ("rim under at", sums.rim_deg),
        ("upright to", sums.vanishing_deg)) if angle]
    st.plotly_chart(curves_chart(curves, "heel, degrees", f"righting arm, {unit}",
                                 st.context.theme.type, marks), config=SETTINGS,
                    alt="Righting arm against heel; the sentence and table below say the same")
    put(f"<p>Sitting still, this paddler is righted to {_degrees(rigid.vanishing_deg)} of heel; "
        f"keeping the upper body upright, to {_degrees(sums.vanishing_deg)}. Water comes over the "
        f"rim at {_degrees(sums.rim_deg)}. Calm water; a brace or a roll is not counted.</p>")
    rows = [[name, f"{one.said(found.greatest_arm_m)} at "
             f"{found.greatest_arm_deg:.0f}°", _degrees(found.vanishing_deg),
             units.energy_text(found.energy_open_j, one.mass_unit)]
            for name, found in (("paddler keeps upright", sums), ("paddler rigid", rigid))]
    put(table_html(("Case", "greatest arm", "righted to", "energy of a knock"), rows,
                   numbers=(1, 2, 3)))


def _on_wave(job, unit):
    """Righting arms in waves of the boat's own length, beside those in calm water."""
    st.header("On a wave")
    wrong = job.mishaps
    if wrong.wave is None:
        put(note_html(UNKNOWN_WAVE, "fail"))
        return
    curves = [_arms(words, curve, unit) for words, curve in zip(
        ("calm water", "on the crest", "in the trough"), (wrong.mover, *wrong.wave.upright),
        strict=True)]
    st.plotly_chart(curves_chart(curves, "heel, degrees", f"righting arm, {unit}, paddler upright",
                                 st.context.theme.type), config=SETTINGS,
                    alt="Righting arm against heel on a wave; the sentence below says the same")
    put(f"<p>{escape(wrong.wave.says)} Static balance in a stated wave, its height our judgement "
        "for this use: an estimate, and no promise at sea.</p>")


def _degrees(angle):
    return "the end of the curve" if angle is None else f"{angle:.0f}°"


def _drag(one, more):
    st.header("Paddled along")
    knots = more.drag.speed_mps * units.KN_PER_MPS
    force, newtons = units.force_unit(one.mass_unit)
    total, friction, wave = (part / newtons for part in (
        more.drag.total_N, more.drag.friction_N, more.drag.wave_N))
    curves = [Curve("total", knots, total), Curve("friction", knots, friction),
              Curve("waves", knots, wave)]
    marks = [Mark(f"{effort:.0f} W", speed * units.KN_PER_MPS)
             for effort, speed in zip(more.pace.effort_w, more.pace.speed_mps, strict=True)
             if speed is not None]
    st.plotly_chart(curves_chart(curves, "speed, knots", f"drag, {force} (estimate)",
                                 st.context.theme.type, marks), config=SETTINGS,
                    alt="Drag against speed; the sentence and table below say the same")
    paces = "; ".join(f"{every_speed_text(speed)} at {effort:.0f} W"
                      for effort, speed in zip(more.pace.effort_w, more.pace.speed_mps,
                                               strict=True) if speed is not None)
    put(f"<p>A steady effort at the paddle gives about {paces}. {escape(NOTE)}</p>")
    rows = [[f"{speed * units.KN_PER_MPS:.1f}", f"{speed:.2f}", f"{speed * units.KMH_PER_MPS:.1f}",
             f"{speed * units.MPH_PER_MPS:.1f}", f"{whole:.1f}", f"{waves:.1f}", f"{effort:.0f}"]
            for speed, whole, waves, effort in zip(
                *(part[::3] for part in (more.drag.speed_mps, total, wave, more.drag.effort_w)),
                strict=True)]
    put(table_html(("Speed, knots", "m/s", "km/h", "mph", f"drag, {force} (estimate)",
                    f"of it waves, {force}", "effort, W"), rows, numbers=range(7)))


def _wind(one, job, more):
    st.header("Blown on")
    wind, assessed = more.wind, job.fitted.assessed
    unit, said = one.length_unit, one.said
    put_scene(side_areas, assessed.boat, wind, assessed.particulars, said)
    def told(side):
        return (*(units.area_text(part.area_m2, unit) for part in (side.above, side.below)),
                said(abs(side.below.x_m - side.above.x_m)), f"{100 * side.lead:+.1f} %")

    rows = [[words, *_cells(side, 4, told)]
            for words, side in (("as fitted", wind), ("with a skeg let down", more.wind_with_skeg),
                                (f"seat {said(SEAT_AFT_M)} farther aft", more.wind_seat_aft))]
    put(table_html(("Side areas", "above water", "below water", "between centres", "lead"), rows,
                   numbers=(1, 2, 3, 4), stack=True))
    put(f"<p>{escape(wind.meaning)} Lead is how far the wind's centre, paddler included, lies "
        "ahead of the water's, as a share of the waterline.</p>")


def _across_wind(one, job, more):
    """Which way it turns, paddled across a wind, and the skeg for it."""
    st.header("Paddled across the wind")
    assessed, shown = job.fitted.assessed, more.under_way["as_fitted"][1]
    put_scene(side_under_way, assessed.boat, more.wind, assessed.particulars, shown, one.said)
    put(f"<p>{escape(shown.says)}</p>" + note_html(CAUTION, "caution"))
    area, of_m2 = units.small_area_unit(one.length_unit)
    rows = [[f"{fitted.wind_mps:g} m/s ({fitted.wind_mps * units.KN_PER_MPS:.0f} knots), "
             f"{fitted.speed_mps:g} m/s ({fitted.speed_mps * units.KN_PER_MPS:.1f} knots)",
             f"{fitted.drift_deg:.0f}°", *(
                 NOT_KNOWN if ways is None else f"{100.0 * ways[index].lead:+.0f} %"
                 for ways in more.under_way.values()),
             f"{fitted.skeg_m2 / of_m2:.0f}",
             f"{fitted.skeg_low_m2 / of_m2:.0f} to {fitted.skeg_high_m2 / of_m2:.0f}"]
            for index, fitted in enumerate(more.under_way["as_fitted"])]
    with st.expander("Other winds and speeds, heeled, the seat farther aft"):
        put(table_html(("Wind, paddled at", "leeway", "lead", f"heeled {HEELED_DEG:.0f}°",
                        f"seat {one.said(SEAT_AFT_M)} aft", f"skeg, {area}", "from, to"), rows,
                       numbers=range(1, 7), stack=True))
        put("<p>A lead below 0 turns the boat up into the wind, one above lets its bow fall away; "
            "either may be off as the picture's level arm shows. The wind blows from abeam at the "
            "boat's height; a forecast's, 10 m up, is about 1.4 times as strong. "
            f"{escape(SOURCE)}</p>")


def _changes(one, more):
    st.header("What small changes do")
    def signed(text):
        """With its sign, and without where it rounds to nothing."""
        bare = text.lstrip("+-")
        return f"{'-' if text[0] == '-' else '+'}{bare}" if set(bare) & set("123456789") else bare

    text = partial(quantity_text, one)

    def told(change):
        return map(signed, (
            text(change.freeboard_m, "m"), f"{change.trim_deg:+.2f}°", text(change.gm_m, "m"),
            text(change.drag_3kn_N, "N"), text(change.drag_4kn_N, "N")))

    rows = [[escape(row.told(text).replace(".0 kg", " kg")), *_cells(row.change, 5, told)]
            for row in more.changes]
    put(table_html(("Change", "freeboard", "trim", "steadiness (GM)", "drag at 3 knots",
                    "drag at 4 knots"), rows, numbers=(1, 2, 3, 4, 5), stack=True))


def _cells(case, count, told):
    """So many cells of a table: what is told of a case, or that it is not known."""
    return (NOT_KNOWN, *(count - 1) * "–") if case is None else told(case)
