"""Part of the Water step: which way the boat turns, paddled across the wind."""

from html import escape

import streamlit as st

from sizer.fit.study import HEELED_DEG, SEAT_AFT_M
from sizer.hydro.wind_under_way import CAUTION, SOURCE
from sizer.scenes.side_areas import side_under_way
from sizer.units import KN_PER_MPS, small_area_unit
from sizer.web.look import note_html, put, put_scene, table_html
from sizer.web.trade_words import NOT_KNOWN


def put_across_wind(one, job, more):
    """Which way it turns, paddled across a wind, and the skeg for it."""
    st.header("Paddled across the wind")
    assessed, shown = job.fitted.assessed, more.under_way["as_fitted"][1]
    put_scene(side_under_way, assessed.boat, more.wind, assessed.particulars, shown, one.said)
    put(f"<p>{escape(shown.says)}</p>" + note_html(CAUTION, "caution"))
    area, of_m2 = small_area_unit(one.length_unit)
    rows = [[f"{fitted.wind_mps:g} m/s ({fitted.wind_mps * KN_PER_MPS:.0f} knots), "
             f"{fitted.speed_mps:g} m/s ({fitted.speed_mps * KN_PER_MPS:.1f} knots)",
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
