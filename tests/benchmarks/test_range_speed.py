"""How long a range of sizes over a crowd takes, beside fitting everybody one by one.

Run with `.venv/bin/python -m pytest -s tests/benchmarks/test_range_speed.py`; asserts no time.
"""

import resource
import time

from sizer.crowd.finished import persons_of
from sizer.crowd.sizes import size_range
from sizer.fit.solve import fit
from tests.crowd.conftest import TRIP, day_boat, drawn_people

__all__ = ["day_boat"]  # a fixture
PEOPLE, SAMPLE, MOST = 6000, 60, 6


def test_a_range_over_thousands_beside_single_fits(day_boat):
    people = drawn_people(PEOPLE, spread=1.2)
    begun = time.process_time()
    for person in persons_of(people[:SAMPLE], TRIP):
        fit(day_boat, person)
    one_by_one = (time.process_time() - begun) * PEOPLE / SAMPLE
    begun, clock = time.process_time(), time.perf_counter()
    found = size_range(people, day_boat, TRIP, MOST)
    whole, clock = time.process_time() - begun, time.perf_counter() - clock
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"\nrange of 1 to {MOST} sizes over {PEOPLE} people, {found.pool} boats:\n"
          f"  {whole:.0f} s of processor, {clock:.0f} s by the clock, at most {memory:.0f} MB\n"
          f"  fitting each person once: {one_by_one:.0f} s of processor, from {SAMPLE} of them; "
          f"so a fit for each of the {PEOPLE * found.pool} pairs of person and boat would take "
          f"{one_by_one * found.pool / whole:.0f} times as long as the range")
    for choice in found.choices:
        print(f"  {len(choice.sizes)} sizes: {choice.served / PEOPLE:.2%} served, "
              f"{choice.clean / PEOPLE:.2%} without a caution, "
              f"{choice.roomy / PEOPLE:.2%} with room to spare")
    assert found.choices[0].served > 0
