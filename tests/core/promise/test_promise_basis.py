"""What has changed in the shop since a date was promised: people's hours and skills, named one by one."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from core.model import serialization
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person
from core.model.promise_records import Promise, PromiseBasis
from core.promise import promise_basis
from core.wording.messages import say
from tests.support.shops import fittings

MORNINGS = tuple(OpeningHours(day, 8 * 60, 12 * 60) for day in range(5))
AFTERNOONS = tuple(OpeningHours(day, 13 * 60, 16 * 60) for day in range(5))
LONGER = tuple(OpeningHours(day, 8 * 60, 14 * 60) for day in range(5))
ADA = Person("Ada")
FEWER = say("dates", "person_fewer_hours", who="Ada", now=15.0, then=45.0)
OTHER = say("dates", "person_other_hours", who="Ada")
GONE = say("dates", "person_gone", who="Ada")
NO_SPLICE, NO_CHECK = (say("dates", "person_cannot", who="Ada", work=work) for work in ("splice", "check"))


def basis(*staff: Person, **changes: object) -> PromiseBasis:
    return promise_basis.of(fittings(staff=staff, **changes), 3)


@pytest.mark.parametrize(
    ("then", "now", "told"),
    [
        (ADA, ADA, ()),
        (ADA, replace(ADA, hours=MORNINGS), (FEWER,)),  # 8 to 12 while open from 9
        (replace(ADA, hours=MORNINGS), ADA, ()),
        (replace(ADA, hours=MORNINGS), replace(ADA, hours=AFTERNOONS), (OTHER,)),
        (replace(ADA, hours=MORNINGS), replace(ADA, hours=LONGER), ()),
        (ADA, replace(ADA, can=frozenset({"load"})), (NO_SPLICE, NO_CHECK)),
        (replace(ADA, can=frozenset({"load"})), ADA, ()),
        (ADA, replace(ADA, retired=True), (GONE,)),
        (ADA, replace(ADA, does=frozenset({"counter"})), (GONE,)),
        (replace(ADA, does=frozenset({"counter"})), ADA, ()),
        (ADA, Person("Ben", hours=MORNINGS), (GONE,)),
        (ADA, Person("Ben"), ()),  # somebody as good is there instead, or the name was changed
    ],
)
def test_changes_of_people_are_named_where_they_make_it_harder(
    then: Person, now: Person, told: tuple[str, ...]
) -> None:
    assert promise_basis.changes(basis(then), basis(now)) == told


def test_the_shops_own_hours_are_not_told_again_for_everybody() -> None:
    shorter = tuple(OpeningHours(day, 9 * 60, 17 * 60) for day in range(5))
    told = promise_basis.changes(basis(ADA), basis(ADA, openings=shorter))
    assert told == (say("dates", "fewer_hours", now=40.0, then=45.0),)


def test_a_promise_made_before_people_were_kept_tells_nothing_of_them() -> None:
    now = basis(replace(ADA, hours=MORNINGS))
    made = Promise(None, 0.0, None, None, (), (), datetime(2026, 3, 2, 9, tzinfo=UTC), now)
    text = serialization.dumps(made)
    assert serialization.loads(Promise, text) == made
    older = replace(now, staff=None)
    assert promise_basis.changes(older, now) == ()
    kept = json.loads(text)
    del kept["footing"]["staff"]
    assert serialization.loads(Promise, json.dumps(kept)).basis == older
