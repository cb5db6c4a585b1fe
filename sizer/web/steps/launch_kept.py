"""The launch kept in the shop's book, and the shop's own bias over all that were."""

import json
from dataclasses import asdict
from datetime import date

import streamlit as st

from sizer.book.built import KeptLaunch, keep_launch, launches
from sizer.book.jobs import advance
from sizer.built.bias import Off, offs_of, shop_biases
from sizer.web.keeping import shop_book
from sizer.web.look import put
from sizer.web.state import act, begin_job, draft, kept_job, say


def put_keep(lesson):
    """The button that keeps what a Lesson was off, and says that the boat is launched."""
    st.button("Keep this launch in the shop's book", type="primary", on_click=act,
              args=(_keep, lesson))
    put("<p>The job counts as launched then. What the boat was off from what was calculated goes "
        "into this shop's own bias; nothing of the paddler's body is in that, and it stays when a "
        "customer is forgotten.</p>")


def shop_now():
    """{key: Bias} over the launches of the book, and how many there are."""
    kept = launches(shop_book()[0])
    return shop_biases([{key: Off(**one) for key, one in json.loads(launch.off).items()}
                        for launch in kept]), len(kept)


def _keep(lesson):
    if kept_job() is None:
        begin_job(draft())
    off = json.dumps({key: asdict(one) for key, one in offs_of(lesson).items()})
    book, key = shop_book()[0], kept_job().key
    keep_launch(book, key, KeptLaunch(date.today().isoformat(), off))
    advance(book, key, "launched")
    say("Kept: this boat is launched.")
