"""A shop learns what its customers' tapes are: counts beside what it believed at first."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from core.model.names import FormatName, Speed, TvSystem
from core.playtime import evidence, explanations, learning, starting_beliefs
from core.playtime.explanations import Played
from core.playtime.habits import STARTING
from core.playtime.possibilities import Facts
from tests.bench import asking
from tests.bench import playtime as bench
from tests.support.worlds import tape_world

COMPACT = Facts(FormatName("vhs-c"), "TC-30", tv=TvSystem.NTSC)
HI8 = Facts(FormatName("hi8"), "P6-120", tv=TvSystem.NTSC)
SPEEDS = ("speed", "vhs-c-ntsc")


def compact(n: int, minutes: float, speed: Speed | None, box: str | None = None) -> Played:
    return Played(box or f"box {n}", COMPACT, minutes, speed)


def many(slow: int, of: int, *, looked: bool = True, box: str | None = None) -> tuple[Played, ...]:
    """Slow tapes and fast ones mixed all along, so that nothing changes."""
    is_slow = [n * slow % of < slow for n in range(of)]
    return tuple(
        compact(n, 80.0 if each else 25.0, (Speed.EP if each else Speed.SP) if looked else None, box)
        for n, each in enumerate(is_slow)
    )


def test_a_new_shop_believes_what_it_started_with() -> None:
    assert learning.learned(()) is STARTING
    assert STARTING.weights(SPEEDS)["ep"] == pytest.approx(0.25)  # starting beliefs


def test_what_was_seen_is_counted_and_said_beside_the_starting_belief() -> None:
    found = {each.group: each for each in evidence.evidence_of(many(31, 40), learning.learned(many(31, 40)))}
    told = found[SPEEDS]

    assert told.sentence == "31 of your last 40 VHS-C (NTSC) were EP."
    assert dict(told.at_first)["EP"] == pytest.approx(0.25)
    assert dict(told.seen)["EP"] == pytest.approx(31)
    # Conjugate: (worth × 0.25 + 31) ÷ (worth + 40), each tape from a box of its own.
    worth = learning.learned(many(31, 40)).worth("speed")
    assert dict(told.now)["EP"] == pytest.approx((worth * 0.25 + 31) / (worth + 40), abs=0.01)


def test_minutes_alone_tell_the_speed_where_only_one_explains_them() -> None:
    """80 minutes do not fit a TC-30 at SP; 25 could be a full SP tape or a third of EP."""
    slow = learning.learned(many(20, 20, looked=False)).weights(SPEEDS)["ep"]
    fast = learning.learned(many(0, 20, looked=False)).weights(SPEEDS)["ep"]

    assert slow > 0.8
    assert fast < 0.25


def test_tapes_of_one_box_count_for_less_than_as_many_boxes() -> None:
    boxes = learning.learned(many(12, 12)).weights(SPEEDS)["ep"]
    one_box = learning.learned(many(12, 12, box="one")).weights(SPEEDS)["ep"]

    assert 0.25 < one_box < boxes - 0.1


def test_belief_converges_to_what_the_customers_do() -> None:
    off = [
        abs(learning.learned(many(round(0.7 * of), of)).weights(SPEEDS)["ep"] - 0.7) for of in (10, 40, 400)
    ]
    assert off == sorted(off, reverse=True)
    assert off[-1] < 0.01


def test_only_the_newest_captures_count() -> None:
    old, new = many(0, 400), many(learning.WINDOW, learning.WINDOW)
    assert learning.learned((*old, *new)).weights(SPEEDS) == learning.learned(new).weights(SPEEDS)


def test_digital8_in_hi8_shells_is_learned_where_nobody_knew() -> None:
    digital = tuple(
        Played(f"{n}", HI8, 60.0, recorded_as=FormatName("digital8" if n % 2 else "hi8")) for n in range(30)
    )
    shop = learning.learned(digital)
    weights, worth = shop.weights(("system", "hi8")), shop.worth("system")
    assert weights["digital8"] == pytest.approx((worth * 0.15 + 15) / (worth + 30), abs=0.01)
    told = replace(HI8, recorded_as=FormatName("digital8"))
    assert ("system", "hi8") not in learning.learned((Played("1", told, 60.0),)).seen


def test_full_tapes_tell_how_much_longer_cassettes_are_than_their_marking() -> None:
    known = replace(HI8, recorded_as=FormatName("hi8"))
    full = tuple(Played(f"{n}", known, 124.8, Speed.SP) for n in range(60))
    weights = learning.learned(full).weights(("length", "marking"))
    longer = dict(zip(starting_beliefs.length_over(("length", "marking")), weights.values(), strict=True))

    assert max(longer, key=longer.__getitem__) == pytest.approx(0.04)
    half = tuple(Played(f"{n}", known, 61.0, Speed.SP) for n in range(60))
    assert not learning.learned(half).seen[("length", "marking")]


def test_minutes_that_nothing_explains_tell_only_what_was_seen() -> None:
    looked, not_looked = explanations.counts_of(
        (compact(1, 500.0, Speed.EP), compact(2, 500.0, None)), STARTING
    )
    assert looked == {SPEEDS: {"ep": pytest.approx(1.0)}}
    assert not any(not_looked.values())


def test_a_shop_whose_boxes_agree_learns_that_they_do() -> None:
    alike = tuple(
        compact(n, 80.0, Speed.EP if box % 2 else Speed.SP, f"{box}") for box in range(12) for n in range(6)
    )
    mixed = tuple(
        compact(n, 80.0, Speed.EP if n % 2 else Speed.SP, f"{box}") for box in range(12) for n in range(6)
    )
    alike_agree, mixed_agree = (learning.learned(each).concentration("speed") for each in (alike, mixed))
    assert alike_agree < 0.6 * STARTING.concentration("speed")
    assert mixed_agree > 3 * STARTING.concentration("speed")


@pytest.mark.parametrize("kind", ["like", "unlike"])
def test_ranges_of_a_shop_that_has_learned_hold_as_often_as_they_say(kind: str) -> None:
    """A small edition of ``python -m tests.bench playtime``, which asks about fourteen thousand tapes."""
    found = bench.verdicts(kind, 6, 150)

    # 900 tapes in 150 boxes of kin: ± 5 points is two standard errors of so many correlated tapes.
    assert found["learned"].inside == pytest.approx(0.8, abs=0.05)
    assert found["learned"].pinball < 1.10 * found["floor"].pinball
    assert found["with_siblings"].pinball < found["learned"].pinball < 1.02 * found["at_first"].pinball
    assert found["asked"].pinball < 0.5 * found["marking"].pinball


@pytest.mark.parametrize("kind", ["like", "unlike"])
def test_a_customer_who_answers_every_other_question_halves_the_loss_of_the_marking(kind: str) -> None:
    """A small edition of the bench: the Counter's questions in their order, one at a time.

    Every shop of it, because shops differ more than tapes, each with a few boxes.
    """
    found = bench.talk_verdicts(kind, bench.SHOPS, 40)

    for state in ("at first", "learned"):
        none, half, every = (found[f"{state}, {answered}"].pinball for answered in bench.ANSWERED)
        assert every < half < none
        assert half < 0.5 * found["marking"].pinball
    assert found["learned, half"].pinball < 1.02 * found["at first, half"].pinball


def test_a_customer_who_knows_nothing_leaves_every_belief_as_it_was() -> None:
    ((customers, dice),) = bench.invented("like", 1, bench.SEED)
    box = [tape for tape in tape_world.tapes(customers, 40, dice) if tape.job == 1]

    silent, told = (asking.ranges(box, STARTING, chance, np.random.default_rng(1)) for chance in (0.0, 1.0))
    assert silent == [bench.believed(tape, STARTING) for tape in box]
    assert told != silent


def test_the_simulated_shops_are_not_the_beliefs_in_disguise() -> None:
    """Their minutes are not those the program believes at first: a belief that is right tells nothing."""
    found = bench.verdicts("unlike", 12, 100)
    assert found["at_first"].inside < 0.76


def test_the_hours_of_a_box_hold_when_its_tapes_are_drawn_together_and_not_when_apart() -> None:
    found = bench.box_verdicts(8, 250)

    # Some 320 boxes, each shop taught by thirty others: ± 6 points is two standard errors.
    assert found["together"].inside > 0.74
    assert found["apart"].inside < found["together"].inside - 0.08
