"""How hard to knock: a few cases in the normal run, or as many as SIZER_KNOCKS names.

`SIZER_KNOCKS=20000 bash tests/run tests/knocks --hypothesis-seed=1` runs 20,000 of each kind; the
same seed gives the same cases. Without a count they are the same few each time.
"""

import os

from hypothesis import HealthCheck, settings

from sizer.errors import SizerError

NAMED = int(os.environ.get("SIZER_KNOCKS", "0"))


def knocks(few, share=1.0):
    """Hypothesis's settings for `few` cases, or a share of as many as are named."""
    return settings(max_examples=int(NAMED * share) or few, derandomize=not NAMED, deadline=None,
                    database=None, suppress_health_check=list(HealthCheck))


def answered(work, *given):
    """(what it returns, None), or (None, the SizerError that it refuses with)."""
    try:
        return work(*given), None
    except SizerError as error:
        return None, error
