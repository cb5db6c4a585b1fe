"""Loops over numbers compiled to machine code, by numba, when first called.

Kept beside the source or in the user's cache, so only the first run on a machine compiles; where
neither can be written, each process does so again (about half a second a loop).
"""

from functools import cache
from types import FunctionType


@cache
def compiled(loop, *inner):
    """A function of arrays and numbers, compiled. Divisions by zero give inf or NaN as in numpy.

    `inner` are functions of the same module that it calls, or that those named after them call,
    compiled with it: what is kept is worked out anew only when that module changes.
    """
    from numba import njit  # here, since its import takes a tenth of a second

    if inner:
        own = {one.__name__: compiled(one, *(
            before for before in inner[:place] if before.__name__ in one.__code__.co_names))
               for place, one in enumerate(inner)}
        loop = FunctionType(loop.__code__, {**loop.__globals__, **own}, loop.__name__)
    try:
        return njit(loop, cache=True, error_model="numpy")
    except RuntimeError:  # nowhere to keep it
        return njit(loop, error_model="numpy")
