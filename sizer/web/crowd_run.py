"""A long computation of the command line in a process of its own, beside the wizard.

So the wizard stays quick, the run goes on while other pages are looked at, and it can be stopped.
"""

import os
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

PEOPLE, ANSWER, SAID, OUT = "people.csv", "answer.json", "said.txt", "out"
OWN_BASE = "own-design.toml"
TAIL_BYTES = 400


@dataclass(frozen=True, eq=False)
class Run:
    """One run; its folder goes when nothing holds it any more."""

    process: subprocess.Popen
    folder: tempfile.TemporaryDirectory

    @property
    def going(self):
        """Whether it still works."""
        return self.process.poll() is None

    def stop(self):
        """Ends it; nothing of it is kept."""
        self.process.terminate()
        self.process.wait()

    def progress(self):
        """What it said last, in a line."""
        with (Path(self.folder.name) / SAID).open("rb") as said:
            said.seek(0, os.SEEK_END)
            said.seek(max(0, said.tell() - TAIL_BYTES))
            lines = said.read().decode("utf-8", "replace").strip().splitlines()
        return lines[-1] if lines else ""

    def faults(self):
        """Everything it said, where it ended in bad input."""
        return (Path(self.folder.name) / SAID).read_text("utf-8", "replace").strip().splitlines()

    def read(self, name):
        """Bytes of a file it wrote."""
        return (Path(self.folder.name) / name).read_bytes()

    def written(self):
        """{name: bytes} of the folder it wrote."""
        folder = Path(self.folder.name) / OUT
        return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def begin(command, people, own_design, options):
    """Starts a command on a list of people.

    Parameters
    ----------
    command : "range" or "batch"
    people : text of the list, CSV
    own_design : text of a base design of one's own, or None; then --base is among the options
    options : further arguments; OUT in them is a place in the run's folder
    """
    folder = tempfile.TemporaryDirectory(prefix="sizer-", ignore_cleanup_errors=True)
    inside = Path(folder.name)
    (inside / PEOPLE).write_text(people, "utf-8")
    if own_design is not None:
        (inside / OWN_BASE).write_text(own_design, "utf-8")
        options = (*options, "--base", OWN_BASE)
    with (inside / ANSWER).open("wb") as answer, (inside / SAID).open("wb") as said:
        process = subprocess.Popen(
            [sys.executable, "-m", "sizer", command, PEOPLE, *options, "--progress"],
            cwd=inside, stdin=subprocess.DEVNULL, stdout=answer, stderr=said,
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)})
    return Run(process, folder)
