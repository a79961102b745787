"""A share that was told or read of a tape: which stretches it leaves, against integrals done by hand."""

from __future__ import annotations

import pytest

from core.model.errors import WrongInput
from core.playtime.fill_stretches import around, beyond

HALVES = (0.0, 0.5, 1.0)


def weights(*told: tuple[tuple[float, float], float]) -> dict[tuple[float, float], float]:
    """Stretches with their shares of the whole, to a billionth."""
    whole = sum(mass for _, mass in told)
    return {(round(a, 9), round(b, 9)): round(mass / whole, 9) for (a, b), mass in told}


def test_what_would_run_past_the_end_of_the_tape_ends_there() -> None:
    """Nine tenths, give or take two: 0.7 to 1.1 evenly; of that stretch a quarter lies past the end."""
    found = weights(*around(0.9, 0.2, (0.0, 1.0), [1.0]))

    assert found == {(0.7, 1.0): 0.75, (1.0, 1.0): 0.25}


def test_past_the_end_the_density_of_the_last_stretch_goes_on() -> None:
    """Half of the tape holds 0.2, the other 0.8: densities 0.4 and 1.6. Around 0.8 ± 0.4 lie 0.1 × 0.4,
    0.5 × 1.6 and, past the end, 0.2 × 1.6: together 1.16."""
    found = weights(*around(0.8, 0.4, HALVES, [0.2, 0.8]))

    assert found == {
        (0.4, 0.5): pytest.approx(0.04 / 1.16),
        (0.5, 1.0): pytest.approx(0.8 / 1.16),
        (1.0, 1.0): pytest.approx(0.32 / 1.16),
    }


def test_within_the_tape_nothing_lies_at_its_end() -> None:
    assert weights(*around(0.5, 0.25, HALVES, [0.5, 0.5])) == {(0.25, 0.5): 0.5, (0.5, 0.75): 0.5}
    assert weights(*around(0.75, 0.25, HALVES, [0.5, 0.5])) == {(0.5, 1.0): 1.0}


def test_a_stretch_nobody_believed_in_is_not_ruled_out() -> None:
    """Cromwell's rule: the tape may be the first of its kind."""
    assert weights(*around(0.25, 0.1, HALVES, [0.0, 1.0])) == {(0.15, 0.35): 1.0}
    assert weights(*beyond(0.75, {(0.0, 0.5): 1.0, (0.5, 1.0): 0.0})) == {(0.75, 1.0): 1.0}


def test_recorded_up_to_a_share_at_least_leaves_the_rest_in_its_proportions() -> None:
    """Of four tenths below the half and six above, from a quarter on: 0.2 and 0.6."""
    found = weights(*beyond(0.25, {(0.0, 0.5): 0.4, (0.5, 1.0): 0.6}))

    assert found == {(0.25, 0.5): 0.25, (0.5, 1.0): 0.75}
    assert weights(*beyond(0.5, {(0.0, 0.5): 0.4, (0.5, 1.0): 0.6})) == {(0.5, 1.0): 1.0}


@pytest.mark.parametrize(("off", "is_fine"), [(0.0, False), (1e-6, True), (1.0, True), (1.000001, False)])
def test_how_far_a_share_may_be_off_is_more_than_nothing_and_a_whole_tape_at_most(
    off: float, is_fine: bool
) -> None:
    if is_fine:
        assert list(around(0.5, off, HALVES, [0.5, 0.5]))
    else:
        with pytest.raises(WrongInput):
            list(around(0.5, off, HALVES, [0.5, 0.5]))


def test_stretches_of_unlike_width_count_by_what_is_left_of_each() -> None:
    """A quarter holds 0.4: of it 0.15 ÷ 0.25 are left from a tenth on, 0.24; of the rest all of 0.6."""
    found = weights(*beyond(0.1, {(0.0, 0.25): 0.4, (0.25, 1.0): 0.6}))

    assert found == {(0.1, 0.25): pytest.approx(0.24 / 0.84), (0.25, 1.0): pytest.approx(0.6 / 0.84)}


def test_stretches_of_unlike_width_count_by_their_density() -> None:
    """0.2 on a quarter and 0.8 on three: densities 0.8 and 16/15. Around 0.25 ± 0.15: 0.15 × each."""
    found = weights(*around(0.25, 0.15, (0.0, 0.25, 1.0), [0.2, 0.8]))

    whole = 0.8 + 16 / 15
    assert found == {(0.1, 0.25): pytest.approx(0.8 / whole), (0.25, 0.4): pytest.approx(16 / 15 / whole)}
