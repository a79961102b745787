"""What somebody wants stored goes by one id until it was answered."""

from __future__ import annotations

import pytest

from core.model.errors import Refused, Unavailable
from core.model.names import JobNumber
from core.services import drafts, jobs, payments
from gui.toolkit.intents import Intent, Intents

NUMBER = JobNumber("000018")


def begin(intents: Intents, minor: int = 500) -> Intent:
    made = intents.begin(payments.refund, (NUMBER, minor), {"note": "paid twice"})
    assert made is not None
    return made


def test_the_same_pressed_twice_is_one_wish() -> None:
    intents = Intents()
    begin(intents)
    assert intents.begin(payments.refund, (NUMBER,), {"minor": 500, "note": "paid twice"}) is None


def test_the_same_after_something_else_is_another_wish() -> None:
    """From SP to LP and back to SP: the third is none of the first."""
    intents = Intents()
    first, second = begin(intents), begin(intents, 400)
    assert len({first.command, second.command, begin(intents).command}) == 3


@pytest.mark.parametrize("failure", [None, Refused("not allowed")])
def test_after_an_answer_the_same_is_another_wish(failure: Refused | None) -> None:
    intents = Intents()
    first = begin(intents)
    intents.end(first, failure)
    assert begin(intents).command != first.command
    assert intents.to_look_up() == ()


@pytest.mark.parametrize("failure", [Unavailable("gone"), ValueError("a bug")])
def test_without_an_answer_the_same_is_the_same_wish_and_another_is_not(failure: Exception) -> None:
    intents = Intents()
    first = begin(intents)
    intents.end(first, failure)
    other, again = begin(intents, 400), begin(intents)
    assert again is first
    assert other.command != first.command
    intents.end(again, None)
    intents.end(other, None)
    assert begin(intents).command != first.command


def test_what_nobody_answered_is_looked_up_once() -> None:
    intents = Intents()
    first = begin(intents)
    assert intents.to_look_up() == ()
    intents.end(first, Unavailable("gone"))
    assert [intents.to_look_up(), intents.to_look_up()] == [(first.command,), ()]


def test_only_a_step_can_be_wanted() -> None:
    with pytest.raises(TypeError, match="not marked as a step"):
        Intents().begin(jobs.get, (NUMBER,), {})
    assert Intents().begin(drafts.keep, ("counter", None), {}) is not None
