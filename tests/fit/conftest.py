"""Jobs whose plywood is not sawn, for tests of the boat alone: sawing takes longer than the fit."""

import pytest

from sizer.shop.patterns import Patterns


@pytest.fixture(scope="module")
def unsawn():
    """`run` without its patterns, nor what they are checked for."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("sizer.job.patterns_of",
                      lambda assessed, shop: Patterns((), (), None, None, None, ()))
        yield
