"""Whose page is drawn: one after another, since side by side on one interpreter all come late."""

from contextlib import contextmanager
from threading import Lock, local

_turn, _own = Lock(), local()


@contextmanager
def in_turn():
    """Waits for the turn and holds it, to its end or to whatever ends the page early."""
    with _turn:
        _own.held = True
        try:
            yield
        finally:
            _own.held = False


@contextmanager
def out_of_turn():
    """Lets others draw meanwhile: round what may take a second or more."""
    if not getattr(_own, "held", False):
        yield
        return
    _own.held = False
    _turn.release()
    try:
        yield
    finally:
        _turn.acquire()
        _own.held = True
