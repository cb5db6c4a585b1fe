"""Loops over numbers compiled to machine code, by numba, when first called.

Kept beside the source or in the user's cache, so only the first run on a machine compiles; where
neither can be written, each process does so again (about half a second a loop).
"""

from functools import cache


@cache
def compiled(loop):
    """A function of arrays and numbers, compiled. Divisions by zero give inf or NaN as in numpy."""
    from numba import njit  # here, since its import takes a tenth of a second

    try:
        return njit(loop, cache=True, error_model="numpy")
    except RuntimeError:  # nowhere to keep it
        return njit(loop, error_model="numpy")
