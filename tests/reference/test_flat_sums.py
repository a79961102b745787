"""Flat sums against an invented world that knows nothing of how the program believes.

`tests.bench flat_price` says it of twelve thousand boxes; here it is said of fewer, with the standard error
it has, so that it can fail.
"""

from __future__ import annotations

import numpy as np

from tests.bench import flat_boxes

SHOPS, BOXES, SEED = 150, 12, 20261201


def test_shops_unlike_the_starting_beliefs_gain_nothing_on_average_by_agreeing_flat() -> None:
    """Within one percent and twice the standard error of the mean over the shops."""
    shops = flat_boxes.agreed(SHOPS, BOXES, SEED)
    gains = np.array([flat_boxes.gain(boxes) for boxes in shops])
    error = float(gains.std(ddof=1)) / len(gains) ** 0.5
    together = flat_boxes.gain([box for boxes in shops for box in boxes])
    assert error < 0.03  # else the test below would say nothing
    assert abs(together) < flat_boxes.WITHIN + 2 * error
    assert float(gains.min()) < 0 < float(gains.max())
