"""What was agreed comes back exactly as it was written down."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model import serialization
from core.model.inventory import Inventory, TapeLine
from core.model.job_records import Job, Pickup
from core.model.names import FillKnown, Finding, FormatName, TapeCode
from core.model.own_shop.settings_records import Deck, Rate, ShopSettings
from core.model.promise_records import Promise, PromiseBasis
from core.model.quote_records import Price, Question, QuotedTape
from core.model.ranges import exactly
from core.model.signatures import Signature
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from tests.support.booked import Desk, line

FINITE = st.floats(allow_nan=False, allow_infinity=False)
st.register_type_strategy(float, FINITE)
st.register_type_strategy(str, st.text(max_size=8))
st.register_type_strategy(
    datetime, st.datetimes(timezones=st.just(UTC) | st.just(timezone(timedelta(hours=-5))))
)
st.register_type_strategy(Decimal, st.decimals(allow_nan=False, allow_infinity=False))


@pytest.mark.parametrize(
    "kind", [Inventory, QuotedTape, Price, Promise, TapeRecord, ShopSettings, Rate, Question, Signature]
)
def test_every_record_comes_back_equal(kind: type[Any]) -> None:
    @given(st.from_type(kind))
    def check(record: Any) -> None:
        text = serialization.dumps(record)
        assert serialization.loads(kind, text) == record
        assert serialization.dumps(serialization.loads(kind, text)) == text

    check()


def test_a_real_job_comes_back_equal(desk: Desk) -> None:
    job = desk.book(line(count=3), line(findings=[Finding.SNAPPED, Finding.MOULD]))
    assert serialization.loads(Job, serialization.dumps(job)) == job
    pickup = desk.hand_back(job, [desk.bring_to(job.tapes[0], Station.READY).code])
    assert serialization.loads(Pickup, serialization.dumps(pickup)) == pickup


def test_the_text_is_the_same_however_a_set_was_built() -> None:
    names = ["sp", "lp", "ep", "b1"]
    one = Deck("A", frozenset(), frozenset(), frozenset(names))
    other = Deck("A", frozenset(), frozenset(), frozenset(reversed(names)))
    assert serialization.dumps(one) == serialization.dumps(other)


def test_letters_are_kept_as_letters() -> None:
    assert serialization.dumps(TapeCode("Łódź")) == '"Łódź"'


def test_a_key_added_later_takes_its_default() -> None:
    assert serialization.loads(Inventory, '{"lines": []}') == Inventory(lines=())


def test_the_basis_of_a_promise_is_kept_under_the_name_it_has_always_had() -> None:
    basis = PromiseBasis(3, ("VHS 1",), 2, 45.0)
    made = Promise(None, 0.0, None, None, (), (), datetime(2026, 3, 2, 9, tzinfo=UTC), basis)
    text = serialization.dumps(made)
    assert json.loads(text)["footing"]["people"] == 2
    assert serialization.loads(Promise, text) == made


def test_a_share_kept_before_anybody_said_how_it_was_known_was_told() -> None:
    older = serialization.loads(TapeLine, '{"count": 1, "fill": 0.5, "format": "vhs"}')
    assert older == TapeLine(1, FormatName("vhs"), fill=0.5, fill_known=FillKnown.TOLD)
    with pytest.raises(ValueError, match="guessed"):
        serialization.loads(TapeLine, '{"count": 1, "fill": 0.5, "fill_known": "guessed", "format": "vhs"}')


@dataclass(frozen=True)
class Sample:
    count: int
    day: date | None
    findings: tuple[Finding, ...] = ()


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ('{"count": 1, "day": null, "colour": 2}', "colour"),
        ('{"count": 1}', "day"),
        ('{"count": "1", "day": null}', "int"),
        ('{"count": true, "day": null}', "int"),
        ('{"count": 1.5, "day": null}', "int"),
        ('{"count": 1, "day": "soon"}', "soon"),
        ('{"count": 1, "day": null, "findings": ["rusty"]}', "rusty"),
        ('{"count": 1, "day": null, "findings": "mould"}', "mould"),
        ("[]", "Sample"),
        ("{", "Expecting"),
    ],
)
def test_a_text_that_is_no_such_record_is_refused(text: str, what: str) -> None:
    with pytest.raises(ValueError, match=what):
        serialization.loads(Sample, text)


def test_what_json_cannot_say_is_not_written() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        serialization.dumps(exactly(float("nan")))
    with pytest.raises(TypeError, match="object"):
        serialization.dumps(object())


def test_the_text_is_json(desk: Desk) -> None:
    assert json.loads(serialization.dumps(desk.book()))["number"] == "000018"
