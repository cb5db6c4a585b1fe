"""The command line: JSON on standard output, one line a fault on standard error.

Exit 0: answered, every check passes or cautions. 1: answered, but a check fails. 2: bad input,
nothing on standard output.
"""

import argparse
import errno
import gc
import os
import sys
from dataclasses import replace

from sizer.book.opening import ELSEWHERE, book_path
from sizer.cli import afloat, book, built, crowd, fit, sizes
from sizer.cli.options import Command, Group, Option, checked, switch
from sizer.design.library import shipped_names
from sizer.errors import BadInput, Fault, SizerError

# Objects made until Python looks for what only points at itself; at its own 700 that takes a tenth
# of the time of a package or more, since its records stay.
LOOKED_THROUGH_AFTER = 20_000
FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO)


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line, in the same form as every other fault."""

    def error(self, message):
        raise BadInput([Fault("command line", message, f"see {self.prog} --help")])


def main(arguments=None):
    """Runs one command; returns the exit code."""
    _speak_utf_8()
    gc.set_threshold(LOOKED_THROUGH_AFTER)
    try:
        if sys.stdout is None:
            raise BadInput([Fault("standard output", "closed", "open, to answer on")])
        given = _parser().parse_args(arguments)
        code = given.command.run(checked(given.command.options, given)) or 0
        sys.stdout.flush()
        return code
    except BrokenPipeError:  # the reader, such as `head`, has seen enough
        _answer_nowhere()
        return 0
    except BadInput as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 2
    except SizerError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:  # files answer for themselves; what is left is the output
        if error.errno not in FULL:
            raise
        _answer_nowhere()
        print(Fault("standard output", "not written whole",
                    f"{error.strerror}; make room or write elsewhere"), file=sys.stderr)
        return 2


def _speak_utf_8():
    """Whatever the system's language: names of files come out as the bytes they were given as."""
    for stream, odd in ((sys.stdout, "surrogateescape"), (sys.stderr, "backslashreplace")):
        if stream is not None:
            stream.reconfigure(encoding="utf-8", errors=odd)


def _answer_nowhere():
    """What could not be written is not tried again as the program ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def wizard(given):
    """Opens the wizard in the browser; returns when it is stopped."""
    from sizer.web.serve import serve  # the web stack loads only where it is wanted

    if given.book:
        os.environ[ELSEWHERE] = str(book_path(given.book))  # by which the pages find it
    return serve(given.port, not given.no_browser, given.network)


WIZARD = Command(
    "wizard", wizard, "Fits a skin-on-frame kayak to its paddler. Without a command, opens the "
    "wizard in the browser, on this machine only.",
    "Shipped base designs: " + ", ".join(shipped_names())
    + ". Figures are calculated, not a trial; every answer carries its cautions.", (
        Option("--port", "port of the wizard; a free one if not given", more={"type": int}),
        replace(book.BOOK, more={"metavar": "PATH"}),
        switch("--no-browser", "do not open a browser window"),
        switch("--network", "let other machines of this network open the wizard, such as a phone; "
               "they are asked for a word that is printed here")))


COMMANDS = (*fit.COMMANDS, *afloat.COMMANDS, *built.COMMANDS, *crowd.COMMANDS, *sizes.COMMANDS,
            book.GROUP)


def _parser():
    parser = _Parser(prog="python -m sizer", description=WIZARD.words, epilog=WIZARD.example)
    _declare(parser, WIZARD)
    several = parser.add_subparsers(metavar="COMMAND", parser_class=_Parser)
    for command in COMMANDS:
        _add(several, command)
    return parser


def _add(several, command):
    """Adds a command to those of a parser, or a group with its own."""
    parser = several.add_parser(command.name, help=command.words,
                                description=command.words.capitalize() + ".",
                                epilog=f"example: {command.example}")
    if isinstance(command, Group):
        actions = parser.add_subparsers(metavar="ACTION", dest="ACTION", required=True,
                                        parser_class=_Parser)
        for action in command.commands:
            _add(actions, action)
    else:
        _declare(parser, command)


def _declare(parser, command):
    for option in command.options:
        parser.add_argument(option.flag, help=option.words, **option.more)
    parser.set_defaults(command=command)
