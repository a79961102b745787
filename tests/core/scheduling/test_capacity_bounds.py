"""The deck time that no plan can do without."""

from __future__ import annotations

from core.scheduling.capacity_bounds import binding


def test_work_that_some_decks_alone_can_do_is_shared_by_them() -> None:
    bound = binding({(0, 1): 300.0, (2,): 500.0}, (0, 1))
    assert bound is not None
    assert (bound.decks, bound.minutes, bound.each) == (frozenset({0, 1}), 300.0, 150.0)


def test_work_on_fewer_of_the_decks_counts_with_the_rest() -> None:
    """VHS on three decks, S-VHS on one of them."""
    work = {(0, 1, 2): 600.0, (2,): 300.0}
    both, one = binding(work, (0, 1, 2)), binding({**work, (2,): 900.0}, (2,))
    assert both is not None
    assert one is not None
    assert both.each == 300.0
    assert one.decks == frozenset({2})


def test_no_work_binds_nothing() -> None:
    bound = binding({}, (0,))
    assert bound is None or bound.minutes == 0


def test_many_kinds_are_looked_at_in_time() -> None:
    bound = binding({(deck,): 60.0 for deck in range(40)}, (3,))
    assert bound is not None
    assert bound.each == 60.0
