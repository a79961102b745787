"""The starting beliefs weigh little in a shop that is unlike them, and more in one that is like them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from core.playtime import prior_worth, starting_beliefs
from core.playtime.habits import STARTING, ShopHabits, starting

SPEEDS = ("speed", "vhs-c-ntsc")


def worth(sp: float, ep: float) -> float:
    return prior_worth.learned({SPEEDS: {"sp": sp, "ep": ep}}, starting)["speed"]


def test_a_shop_unlike_the_others_gives_up_the_starting_belief() -> None:
    like, unlike, new = worth(45, 15), worth(3, 57), worth(0, 0)
    assert starting(SPEEDS)["ep"] == pytest.approx(0.25)
    assert unlike < new < like
    assert unlike < starting_beliefs.worth("speed") / 4


def test_candidates_are_weighed_by_how_well_they_foretold_the_tapes() -> None:
    """Against the probabilities of two tapes counted by hand, rising factorials (Dirichlet–multinomial)."""
    candidates = [factor * starting_beliefs.worth("speed") for factor in prior_worth.FACTORS]

    def foretold(each: float) -> float:
        ep = Fraction(each) / 4
        return float(ep * (ep + 1) / (Fraction(each) * (Fraction(each) + 1)))

    weights = [foretold(each) for each in candidates]
    expected = sum(w / (1 + each) for w, each in zip(weights, candidates, strict=True)) / sum(weights)
    assert 1 / (1 + worth(0, 2)) == pytest.approx(expected)


def test_what_a_shop_may_be_mistaken_about_follows_the_worth() -> None:
    """Variance of a Dirichlet share: 1 ÷ (1 + worth + tapes) of that of one tape."""
    sure, unsure = (ShopHabits(worths={"speed": each}) for each in (24.0, 1.5))
    assert STARTING.worth("speed") == starting_beliefs.worth("speed")
    assert unsure.prior_concentration(SPEEDS) < sure.prior_concentration(SPEEDS) < sure.concentration("speed")
