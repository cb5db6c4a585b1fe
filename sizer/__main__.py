"""`python -m sizer`."""

import sys

from sizer.cli import main

sys.exit(main())
