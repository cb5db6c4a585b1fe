"""Whose page is drawn: one after another, since side by side on one interpreter all come late."""

from contextlib import contextmanager
from threading import Event, Lock, local

import streamlit as st

from sizer.web.look import note_html, put

PATIENCE_S = 60.0  # then a page is not waited for any longer; our judgement

_turn, _own, _awake = Lock(), local(), Event()


@contextmanager
def in_turn():
    """Waits for the turn and holds it, to its end or to whatever ends the page early."""
    _take()
    try:
        yield
    finally:
        _give_up()


@contextmanager
def waking():
    """Round the first page of a process, which readies what all others find ready."""
    place = st.empty()  # on every page, so that what follows keeps its place
    if not _awake.is_set():
        with place:
            put(note_html("Getting ready: the first time after installing this takes half a "
                          "minute.", "pass"))
    yield
    place.empty()
    _awake.set()


@contextmanager
def long_work(telling):
    """Round what may take a second or more: tells it, and lets others draw meanwhile."""
    with st.spinner(telling), out_of_turn():
        yield


@contextmanager
def out_of_turn():
    """Lets others draw meanwhile; for `long_work`, and where progress is told another way."""
    if getattr(_own, "lock", None) is None:
        yield
        return
    _give_up()
    try:
        yield
    finally:
        _take()


def _take():
    """Takes the turn. A page that never ends keeps its own, and the others share out a new one."""
    global _turn
    while not (lock := _turn).acquire(timeout=PATIENCE_S):
        if lock is _turn:
            _turn = Lock()
    _own.lock = lock


def _give_up():
    _own.lock.release()
    _own.lock = None
