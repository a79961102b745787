"""Every text that a shop keeps has an answer to what becomes of it when a customer is erased.

A column, or a text inside a record kept as JSON, that nobody has answered for makes a test red: whoever adds
one empties it in `personal_columns`, or says here why it never tells of a customer.
"""

from __future__ import annotations

import dataclasses
import json
import re
import types
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal
from enum import Enum
from typing import Any, Union, get_args, get_origin, get_type_hints

from sqlalchemy import Column, String, Text

from core.store import personal_columns
from core.store.columns import ByValue, Serialized, UtcMoment
from core.store.tables import StoredTable

MARK = "(erased)"

OF_STAFF = "who of the shop did it"
NUMBER = "a number or code the program gives"
SETTLED = "one of a few words the program knows"
OWN = "about the shop itself: its settings, decks, days, and shelf; `shop_notes` takes a whole name out"
DIGEST = "a digest of a file, or of a line"
MADE_UP = "a sentence the program made from the order and its catalog; nothing typed freely goes into it"
SALTED = "salt, or a digest with one; the salt goes, and of a line with it what the line says"
THROWN = "the whole row goes, or all that could be compared with it (`emptied_records`)"

COLUMNS = {
    "*.shop": "the name the shop has on its server",
    **dict.fromkeys(("*.by", "jobs.booked_by", "drafts.kept_by", "tapes.looked_by"), OF_STAFF),
    **dict.fromkeys(("*.struck_by", "tapes.signed_off_by", "sign_offs.name", "pin_tries.person"), OF_STAFF),
    **dict.fromkeys(("*.command", "*.code", "jobs.number", "events.job", "events.tape"), NUMBER),
    **dict.fromkeys(("counters.name", "change_numbers.kind", "payments.kind", "events.kind"), SETTLED),
    **dict.fromkeys(("payments.method", "drawer_counts.day"), SETTLED),
    **dict.fromkeys(("deck_events.kind", "day_events.kind", "handover_wishes.kind"), SETTLED),
    **dict.fromkeys(("captures.recorded_as", "donors.format", "settings_versions.part"), SETTLED),
    **dict.fromkeys(("commands.step", "day_events.day", "settings_versions.valid_from"), SETTLED),
    **dict.fromkeys(("tapes.deck", "deck_events.deck", "deck_events.words", "day_events.words"), OWN),
    **dict.fromkeys(("settings_versions.value", "settings_versions.words", "donors.came_from"), OWN),
    **dict.fromkeys(("box_orders.words", "shop_moves.place", "drawer_counts.note"), OWN),
    **dict.fromkeys(("recordings.sha256", "events.previous", "events.digest"), DIGEST),
    "copies.words": MADE_UP,
    **dict.fromkeys(("agreement_versions.codes", "box_orders.numbers"), NUMBER),
    "sign_offs.files": DIGEST,
    **dict.fromkeys(("customers.salt", "jobs.salt", "commands.salt"), SALTED),
    **dict.fromkeys(("events.sealed", "events.salt", "events.words", "events.payload"), SALTED),
    **dict.fromkeys(("drafts.name", "drafts.inventory", "commands.content"), THROWN),
    **dict.fromkeys(("command_answers.answer", "command_answers.salt"), THROWN),
}
"""By table and column (``*``: in every table) that an erasure leaves as it is: why."""

CHECKED = "one of those of the catalog or the price book, or refused when it is entered"
PARTNER = "of a shop that copies what this one cannot, as the settings name it"
EXEMPT = "made by the program; of an order without tax it quotes the reason, which is taken out of it"

RECORDS = {
    **dict.fromkeys(
        (
            *("AfterRepair.by", "Agreement.by", "CopyStep.by", "Job.booked_by", "Payment.by", "Pickup.by"),
            *("RepairAttempt.by", "Splice.by", "StruckSplice.by", "TapeRecord.signed_off_by"),
            *("PersonBasis.name", "PersonBasis.can"),
        ),
        OF_STAFF,
    ),
    **dict.fromkeys(
        (
            *("Answer.means", "Answer.words", "Charge.because", "Charge.quantity", "Charge.text"),
            *("Copy.words", "CopyRecord.words", "Elsewhere.why", "Promise.held_by", "Question.text"),
            *("Quote.warnings", "Repair.words", "RepairAttempt.words", "Report.remarks", "Storage.notes"),
            *("TapeRecord.format_words", "Verdict.cautions", "Verdict.told"),
        ),
        MADE_UP,
    ),
    **dict.fromkeys(
        (
            *("Charge.code", "Copy.code", "CopyRecord.code", "Delivery.carrier", "Delivery.codec"),
            *("Delivery.kind", "Quote.book", "QuotedTape.redone", "Repair.code", "RepairAttempt.code"),
            *("Shown.recorded_as", "TapeLine.format", "TapeLine.marking", "TapeLine.recorded_as"),
            *("TapeRecord.format", "TapeRecord.marking", "Price.currency", "TaxAmount.percent"),
            *(
                "TaxAmount.words",
                "InvoicedTax.words",
                "InvoicedTax.percent",
                "InvoicedLine.code",
                "InvoicedSums.currency",
                "FlatRisk.margin_percent",
            ),
        ),
        CHECKED,
    ),
    **dict.fromkeys(("Elsewhere.partner", "Elsewhere.price"), PARTNER),
    **dict.fromkeys(("Job.number", "TapeRecord.code", "CopiedFile.tape", "CopyContents.tapes"), NUMBER),
    **dict.fromkeys(("CopiedFile.sha256", "Report.sha256", "Pickup.head"), DIGEST),
    **dict.fromkeys(("OpeningHours.first", "OpeningHours.last", "OpeningHours.season"), OWN),
    **dict.fromkeys(("PromiseBasis.decks", "TapeRecord.deck"), OWN),
    **dict.fromkeys(("Payment.kind", "Payment.method"), SETTLED),
    "Price.tax_words": EXEMPT,
}
"""By record and field of the texts that are left inside records kept as JSON: why."""


def answer(table: str, column: str) -> str | None:
    return COLUMNS.get(f"{table}.{column}") or COLUMNS.get(f"*.{column}")


def columns() -> Iterator[tuple[str, Column[Any]]]:
    """Every column that holds text of some kind, but members of an enum and moments."""
    for table in StoredTable.metadata.sorted_tables:
        for column in table.columns:
            kind = column.type
            if isinstance(kind, Serialized) or type(kind) in (String, Text):
                yield table.name, column
            else:
                assert isinstance(kind, (ByValue, UtcMoment)) or kind.python_type in (int, float, bool), (
                    column
                )


def named(kind: Any, place: str) -> Any:
    """A record of a type as plain data; each text in it says where it stands."""
    if kind is Decimal:
        return "1"
    if kind in (date, datetime):
        return "2026-03-03"
    if kind in (int, float, bool):
        return 1
    if hasattr(kind, "__supertype__") or kind is str:
        return f"Zebedee at {place}!"
    if isinstance(kind, type) and issubclass(kind, Enum):
        return next(iter(kind)).value
    if dataclasses.is_dataclass(kind):
        return {
            str(field.metadata.get("key", field.name)): named(hints, f"{kind.__name__}.{field.name}")
            for field, hints in _fields(kind)
        }
    return _of_many(kind, place)


def _fields(kind: Any) -> list[tuple[dataclasses.Field[Any], Any]]:
    hints = get_type_hints(kind)
    return [(field, hints[field.name]) for field in dataclasses.fields(kind)]


def _of_many(kind: Any, place: str) -> Any:
    origin, inner = get_origin(kind), [each for each in get_args(kind) if each not in (type(None), ...)]
    if origin in (Union, types.UnionType):
        return named(next((each for each in inner if hasattr(each, "__supertype__")), inner[0]), place)
    if origin in (tuple, frozenset):
        return [named(each, place) for each in inner]
    raise AssertionError(f"{place}: how is {kind} filled?")


def left_in(table: str, column: Column[Any]) -> set[str]:
    """The places of texts that an erasure leaves in a column: ``table.column``, or ``Record.field``."""
    row: dict[str, Any] = {each.name: None for each in StoredTable.metadata.tables[table].columns}
    place = f"{table}.{column.name}"
    is_record = isinstance(column.type, Serialized)
    held = named(column.type.kind if is_record else str, place)  # type: ignore[attr-defined]  # a Serialized
    row[column.name] = json.dumps(held) if is_record else held
    after = {**row, **personal_columns.without_person(table, row, MARK)}[column.name]
    return set(re.findall(r"Zebedee at ([\w.]+)!", str(after or "")))


def test_every_column_is_emptied_or_says_why_it_never_tells_of_a_customer() -> None:
    left = {
        place
        for table, each in columns()
        for place in left_in(table, each)
        if place == f"{table}.{each.name}"
    }
    assert not [each for each in sorted(left) if answer(*each.split(".")) is None]


def test_every_text_inside_a_record_is_emptied_or_says_why() -> None:
    left = {
        place
        for table, each in columns()
        for place in left_in(table, each)
        if place != f"{table}.{each.name}"
    }
    assert sorted(left - RECORDS.keys()) == []


def test_no_answer_is_given_for_what_is_emptied_or_not_there() -> None:
    left = {place for table, each in columns() for place in left_in(table, each)}
    plain = {f"*.{each.split('.')[1]}" for each in left} | left
    assert sorted(COLUMNS.keys() - plain) == []
    assert sorted(RECORDS.keys() - left) == []


def test_a_column_without_an_answer_is_found() -> None:
    """What the tests above rest on: a text nobody has answered for is left, and has no answer."""
    table = StoredTable.metadata.tables["incidents"]
    assert left_in("incidents", table.c.words) == set()
    assert left_in("told", StoredTable.metadata.tables["told"].c.by) == {"told.by"}
    assert answer("told", "note") is None
