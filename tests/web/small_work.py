"""What the wizard begins in processes of their own, with few boats, rows and files: how the pages
begin it, stop it and show what it came to does not hang on their number."""

import pytest

from sizer.crowd.region import who_fits as whole_who_fits
from sizer.export.range_package import range_package as whole_range
from tests.crowd.conftest import few_rows, small_pool


def range_package(*given, **more):
    from tests.cli.conftest import few_files  # the commands with it: here alone they are loaded

    with pytest.MonkeyPatch.context() as patch:
        small_pool(patch)
        few_rows(patch)
        few_files(patch)
        return whole_range(*given, **more)


def who_fits(*given, **more):
    with pytest.MonkeyPatch.context() as patch:
        few_rows(patch)
        return whole_who_fits(*given, **more)
