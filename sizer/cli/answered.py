"""Where every JSON answer of the command line is printed."""

import sys

from sizer.export.numbers import json_text


def put_answer(answer):
    """Prints an answer: for eyes over many lines, for a program that reads it on one."""
    print(json_text(answer, indent=2 if sys.stdout.isatty() else None))
