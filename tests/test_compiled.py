"""Loops that are compiled, also where nothing can be kept for the next process."""

import numpy as np

from sizer.compiled import compiled


def test_a_loop_without_a_place_to_keep_it_is_compiled_all_the_same():
    made = {}
    exec("def doubled(values):\n    for i in range(values.size):\n        values[i] *= 2.0", made)
    values = np.array([1.5, -2.0])
    compiled(made["doubled"])(values)  # there is no file beside which it could be kept
    assert values.tolist() == [3.0, -4.0]
