"""A quote for the customer, and the hours and cost behind it for the shop."""

from functools import partial
from html import escape

import streamlit as st

from sizer.shop.cost import cost_of
from sizer.web.keeping import money_now
from sizer.web.look import note_html, put, put_papers, table_html
from sizer.web.steps.shop import to_rates


def put_quote(job, bench):
    """The quote of a Job as it is printed, to download, and what stands behind its price."""
    from sizer.export.quote import invented_words, quote_pdf  # writers load where they are wanted

    money = money_now()
    cost = cost_of(bench, money)
    st.subheader("Quote")
    if invented := invented_words(money):
        put(note_html(invented.split(":")[0] + ": see Shop, Rates and prices."))
    with st.container(horizontal=True):
        put_papers("Quote for the customer", partial(quote_pdf, job, bench, cost, money),
                   job.stamp, "quote")
        st.button("Change rates and prices", key="to_rates", on_click=to_rates)
    with st.expander("Hours and cost, for the shop alone"):
        put(table_html(("Step", "hours"), [[escape(one.title), f"{one.hours:.1f}"] for one in
                                          cost.hours], numbers=(1,)))
        sums = (("all hours", f"{cost.total_h:.1f} h"), *(
            (name, f"{getattr(cost, name):,.2f}") for name in (
                "work", "materials", "overhead", "profit", "tax", "price")))
        put(table_html(("Sum", money.currency), [list(one) for one in sums], numbers=(1,)))
