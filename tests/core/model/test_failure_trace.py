"""What is kept of a failure names places and kinds, and nobody."""

from __future__ import annotations

import pytest
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from core.model.failure_trace import trace
from tests.support.booked import Desk

NAME, PHONE = "Ada Fenwick", "+13035550142"


def failed() -> BaseException:
    try:
        try:
            raise KeyError(NAME)
        except KeyError as first:
            first.add_note(PHONE)
            raise ValueError(f"no such customer: {NAME!r}") from first
    except ValueError as error:
        return error


def test_the_places_and_kinds_of_a_chain_are_told_the_first_failure_first() -> None:
    told = trace(failed())
    assert told.index("builtins.KeyError") < told.index("builtins.ValueError")
    assert "test_failure_trace.py" in told
    assert "raise KeyError(NAME)" in told


def test_no_message_and_no_note_is_told() -> None:
    assert NAME not in trace(failed())
    assert PHONE not in trace(failed())


def test_a_ring_of_causes_ends() -> None:
    one, other = ValueError(), KeyError()
    one.__cause__, other.__cause__ = other, one
    assert trace(one).count("ValueError") == 1


def test_a_database_never_quotes_what_it_was_given(file_desk: Desk) -> None:
    def fail(unit: object) -> None:
        unit.session.execute(text("SELECT :name FROM nowhere"), {"name": NAME})  # type: ignore[attr-defined]

    with pytest.raises(DBAPIError) as told:
        file_desk.shop.run(fail)
    assert NAME not in str(told.value)
    assert NAME not in trace(told.value)
