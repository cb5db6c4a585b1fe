"""This tree beside an older one: a batch, a size range, a map, a single fit, loading; and memory.

Run with `.venv/bin/python -m pytest -s tests/benchmarks/test_then_and_now.py`, and with
`SIZER_OLDER=/path/to/an/older/tree` to have the older one worked out in the same run and the ratios
printed; nothing here asserts a time. Each measure is a process of its own; time is the processor's,
of the whole process, and of the work itself where it is told apart. "Odds off" leaves out what an
older tree may not have: how sure every check is, by boats with one input moved.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from sizer.crowd.population import Recipe, population_lines

HERE = Path(__file__).parents[2]
OLDER = os.environ.get("SIZER_OLDER")

# What older trees called differently is tried by name, so that one text serves both.
SETTING = """
import inspect, time
import numpy as np
from sizer.design.library import read_base
from sizer.hull.lines import fair_lines
from sizer.hydro.water import water_at
from sizer.paddler.body import COVARIANCE, MEAN
from sizer.paddler.measures import Measured
lines, water = fair_lines(read_base("day-boat")), water_at("fresh", 10.0)
rows = np.random.default_rng(4).multivariate_normal(MEAN, 1.2 * COVARIANCE, 3000)
people = tuple(Measured(float(np.clip(row[0], 38.0, 170.0)), float(row[1]), float(row[2]))
               for row in rows)
"""
ODDS_OFF = """
import numpy as np
try:
    from sizer.fit import odds
    odds._slopes = lambda assessed, inputs, rows, facts_in: np.zeros(
        (*np.shape(assessed.floats), len(rows), len(odds.INPUTS)))
except ImportError:
    pass
"""
RANGE = SETTING + """
from sizer.crowd.sizes import size_range
if "trip" in inspect.signature(size_range).parameters:
    from sizer.fit.request import Trip
    asked = (Trip("day-boat", "coastal-day", water, 10.0),)
else:
    asked = ("day-boat", "coastal-day", water, 10.0)
begun = time.process_time()
size_range(people, lines, *asked, 6)
print("own", time.process_time() - begun)
"""
FIT = SETTING + """
from sizer.fit.mishaps import mishaps
from sizer.fit.person import person_of
from sizer.fit.request import read_request
from sizer.fit.solve import fit
person = person_of(read_request({"base": "day-boat", "use": "coastal-day", "paddler": {
    "weight_kg": 82, "stature_mm": 1760, "hip_width_mm": 395}}))
for index in range(20):  # with the heeled and flooded boat in full
    found = fit(lines, person)
    if not hasattr(found, "mishaps"):
        mishaps(found.assessed)
    if index == 0:
        begun = time.process_time()
print("own", (time.process_time() - begun) * 20 / 19)
"""
MAP = FIT.split("for index")[0] + """
from sizer.fit.what_if import passing_map
found = fit(lines, person)
begun = time.process_time()
passing_map(found.assessed, False, "length", "beam")
print("own", time.process_time() - begun)
"""
BATCH = ["batch", "{people}", "--base", "day-boat", "--use", "coastal-day", "--out", "{out}"]
BATCH_ALONE = """
import sys
from sizer.cli import main
sys.exit(main(sys.argv[1:]))
"""
MEASURES = {
    "loading the command line": ["-c", "import sizer.cli"],
    "20 single fits": ["-c", FIT],
    "20 single fits, odds off": ["-c", ODDS_OFF + FIT],
    "a map of 195 boats": ["-c", MAP],
    "a batch of 1,500 people": ["-m", "sizer", *BATCH],
    "a batch of 1,500 people in one process": ["-c", BATCH_ALONE, *BATCH, "--workers", "1"],
    "a batch of 1,500 people in one process, odds off": [
        "-c", ODDS_OFF + BATCH_ALONE, *BATCH, "--workers", "1"],
    "a range of 1 to 6 sizes over 3,000 people": ["-c", RANGE],
    "a range of 1 to 6 sizes over 3,000 people, odds off": ["-c", ODDS_OFF + RANGE],
}


def used(tree, command):
    """Of a command run with a tree's source: processor seconds, those of the work itself or None,
    and MiB of the largest process."""
    process = subprocess.Popen(
        [sys.executable, *command], cwd=tree, stderr=subprocess.DEVNULL,
        stdout=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONPATH": str(tree), "OPENBLAS_NUM_THREADS": "1"})
    with process.stdout as out:
        told = out.read()
    _, code, found = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(code)
    assert process.returncode in (0, 1)  # 1: worked out, but somebody's boat fails
    own = [float(line.split()[1]) for line in told.splitlines() if line.startswith("own ")]
    return found.ru_utime + found.ru_stime, own[0] if own else None, found.ru_maxrss / 1024.0


def words(seconds, own, memory_mib):
    """What `used` gives, in words."""
    alone = "" if own is None else f" ({own:.2f} s the work itself)"
    return f"{seconds:.2f} s of processor{alone}, at most {memory_mib:.0f} MiB"


@pytest.mark.parametrize("name", MEASURES)
def test_beside_an_older_tree(name, tmp_path):
    people = tmp_path / "people.csv"
    people.write_text("\n".join(population_lines(Recipe(1500, 1, 0.5, 8.0, 1.2))) + "\n")

    def run(tree, out):
        files = {"{people}": str(people), "{out}": str(tmp_path / out)}
        return used(tree, [files.get(part, part) for part in MEASURES[name]])

    now = run(HERE, "now.csv")
    line = f"\n{name}: {words(*now)}"
    if OLDER:
        then = run(Path(OLDER), "then.csv")
        line += f"; then {words(*then)}: {then[0] / now[0]:.2f} times as fast"
        if now[1]:
            line += f", the work itself {then[1] / now[1]:.2f} times"
    print(line, f"(load {os.getloadavg()[0]:.1f})")
