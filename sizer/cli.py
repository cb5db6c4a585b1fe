"""The command line: JSON on standard output, one line a fault on standard error.

Exit 0: answered, every check passes or cautions. 1: answered, but a check fails. 2: bad input,
nothing on standard output.
"""

import argparse
import os
import sys

from sizer import crowd_commands, range_commands
from sizer.commands import (
    DRAG_VCG_MM,
    EXAMPLE_REQUEST,
    build_command,
    drag_command,
    fit_command,
    float_command,
    flood_command,
    sections_command,
    wizard_command,
)
from sizer.design.library import shipped_names
from sizer.errors import BadInput, Fault, SizerError


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line, in the same form as every other fault."""

    def error(self, message):
        raise BadInput([Fault("command line", message, f"see {self.prog} --help")])


def main(arguments=None):
    """Runs one command; returns the exit code."""
    try:
        given = _parser().parse_args(arguments)
        code = given.run(given)
        sys.stdout.flush()
        return code
    except BrokenPipeError:  # the reader, such as `head`, has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except BadInput as error:
        for fault in error.faults:
            print(fault, file=sys.stderr)
        return 2
    except SizerError as error:
        print(error, file=sys.stderr)
        return 2


def _parser():
    parser = _Parser(
        prog="python -m sizer",
        description="Fits a skin-on-frame kayak to its paddler. Without a command, opens the "
        "wizard in the browser, on this machine only.",
        epilog="Shipped base designs: " + ", ".join(shipped_names())
        + ". Figures are calculated, not a trial; every answer carries its cautions.")
    parser.add_argument("--port", type=int, help="port of the wizard; a free one if not given")
    parser.add_argument("--no-browser", action="store_true", help="do not open a browser window")
    parser.add_argument("--network", action="store_true",
                        help="let other machines of this network open the wizard, such as a phone; "
                        "nobody is asked for a password")
    parser.set_defaults(run=wizard_command)
    commands = parser.add_subparsers(metavar="COMMAND", parser_class=_Parser)

    fit = _command(commands, "fit", fit_command, "fit a base design to a paddler",
                   f"example: echo '{EXAMPLE_REQUEST}' | python -m sizer fit -")
    fit.add_argument("request", metavar="REQUEST.json", help="a file, or - for standard input")

    _add_build(commands)

    afloat = _command(
        commands, "float", float_command, "float a boat under a load",
        "example: python -m sizer float day-boat --mass-kg 110 --lcg-mm 2330 --vcg-mm 280 "
        "--water salt --heel-deg 0,10,20")
    _add_design(afloat)
    _add_load(afloat)
    afloat.add_argument("--vcg-mm", required=True, help="its centre, above the baseline")
    afloat.add_argument("--heel-deg", default="", help="angles for righting arms, such as 0,10,20")

    drag = _command(
        commands, "drag", drag_command, "estimate the drag of a boat against speed",
        "example: python -m sizer drag day-boat --mass-kg 110 --lcg-mm 2330 "
        "--speeds-mps 1,1.5,2")
    _add_design(drag)
    _add_load(drag)
    drag.add_argument("--vcg-mm", default=str(DRAG_VCG_MM),
                      help=f"its centre, above the baseline (default: {DRAG_VCG_MM:g}; it hardly "
                      "moves the drag)")
    drag.add_argument("--speeds-mps", required=True, help="speeds such as 1,1.5,2")

    flood = _command(
        commands, "flood", flood_command, "flood a boat with its cockpit open to the sea",
        "example: python -m sizer flood request.json --bow-bag-l 30 --stern-bag-l 30 "
        "--paddler in")
    flood.add_argument("design", metavar="DESIGN|REQUEST.json",
                       help="a request .json (or -) for its fitted boat and paddler; a base design "
                       "floats whom it was drawn for")
    flood.add_argument("--bow-bag-l", default="0", help="float bag in the bow, litres (default: 0)")
    flood.add_argument("--stern-bag-l", default="0", help="in the stern, litres (default: 0)")
    flood.add_argument("--paddler", default="in", help="in the seat, or out beside (default: in)")

    sections = _command(commands, "sections", sections_command,
                        "closed outlines of a boat's sections",
                        "example: python -m sizer sections day-boat --count 101")
    _add_design(sections)
    sections.add_argument("--count", help="this many, evenly spaced; without it, the sections that "
                          "the flotation uses, which stand wherever a stringer begins or ends")

    crowd_commands.add_parsers(commands, _command)
    range_commands.add_parsers(commands, _command)
    return parser


def _add_build(commands):
    build = _command(
        commands, "build", build_command, "write the whole shop package into a folder",
        "example: python -m sizer build request.json --out package")
    build.add_argument("request", metavar="REQUEST.json", help="a file, or - for standard input")
    build.add_argument("--out", required=True, metavar="DIR",
                       help="a new or empty folder; it is written whole or not at all")
    build.add_argument("--force", action="store_true",
                       help="replace an older package there, once the new one is complete")
    build.add_argument("--stock-mm", default="3600",
                       help="length of the stock the sticks are cut from (default: 3600)")
    build.add_argument("--cloth-width-mm", default="1500",
                       help="width of the skin's cloth (default: 1500)")
    build.add_argument("--sheet-mm", default="2440,1220",
                       help="sides of a plywood sheet (default: 2440,1220)")


def _command(commands, name, run_it, words, example):
    command = commands.add_parser(name, help=words, description=words.capitalize() + ".",
                                  epilog=example)
    command.set_defaults(run=run_it)
    return command


def _add_design(command):
    command.add_argument("design", metavar="DESIGN",
                         help="a shipped base, a .toml design file, or a request .json (or -) for "
                         "its fitted boat")


def _add_load(command):
    command.add_argument("--mass-kg", required=True, help="everything afloat, the boat included")
    command.add_argument("--lcg-mm", required=True, help="its centre, aft of the foremost point")
    command.add_argument("--water", default="fresh", help="fresh or salt (default: fresh)")
    command.add_argument("--temperature-c", default="10", help="of the water (default: 10)")
