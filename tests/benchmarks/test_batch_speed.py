"""How long a batch takes for 1,500, 3,000 and 6,000 people, and how much memory.

Run with `.venv/bin/python -m pytest tests/benchmarks/test_batch_speed.py -s`; nothing here asserts
a time. Processor time and memory are those of the whole tree of processes, its start included;
memory is that of the largest process.
"""

import os
import subprocess
import sys

import pytest

from sizer.crowd.population import Recipe, population_lines

KIB_PER_MIB = 1024.0


def batch(people, out):
    """Runs a batch on all cores; returns what the kernel counted for it."""
    process = subprocess.Popen(
        [sys.executable, "-m", "sizer", "batch", str(people), "--base", "day-boat", "--use",
         "coastal-day", "--out", str(out)], stderr=subprocess.DEVNULL)
    _, code, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(code)
    assert process.returncode in (0, 1)
    return used


@pytest.mark.parametrize("count", [1500, 3000, 6000])
def test_batch(benchmark, tmp_path, count):
    benchmark.group = "a batch of people on all cores"
    people, out = tmp_path / "people.csv", tmp_path / "results.csv"
    people.write_text("\n".join(population_lines(Recipe(count, 1, 0.5, 8.0, 1.2))) + "\n")
    used = benchmark.pedantic(batch, (people, out), rounds=1)
    results = out.read_text("utf-8-sig").splitlines()
    assert len(results) - 1 - [line[:4] for line in results].index("row,") == count
    seconds = benchmark.stats.stats.total
    cpu_s = used.ru_utime + used.ru_stime
    print(f"\n{count} people: {seconds:.1f} s, {1e3 * seconds / count:.1f} ms each; processors "
          f"{cpu_s:.1f} s, {1e3 * cpu_s / count:.1f} ms each; largest process "
          f"{used.ru_maxrss / KIB_PER_MIB:.0f} MiB")
