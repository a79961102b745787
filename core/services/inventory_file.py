"""The inventory file: what lies on the counter, written as JSON, read so that nothing wrong gets in.

A refusal names the file, the place inside it, what was found and what is accepted. The names are
the catalogue's and the closed lists of `core.model.names`; nothing is guessed here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from core.catalogue import condition, formats
from core.catalogue.cassettes import Format
from core.model import json_reader
from core.model.errors import AsWritten, WrongInput
from core.model.inventory import LONGEST_EXEMPTION, MOST_FILL, MOST_TAPES, CustomerDraft, Inventory, TapeLine
from core.model.json_reader import Value
from core.model.names import AnyFinding, FillKnown, FormatName, Origin, Speed, TapeCode, TvSystem, finding_of
from core.model.numbers import read_tape_code
from core.model.price_ways import PriceWay
from core.services.copies import delivery_entries
from core.wording.messages import say

LONGEST_NAME = 120
LONGEST_LABEL = 200
LONGEST_EMAIL = 254
"""RFC 5321 §4.5.3.1.3 leaves 254 characters for an address between its angle brackets."""
LATEST_WISH_DAYS = 3 * 366
"""A wish further away than three years is a slip of the pen."""

_BOX = ("customer", "tv", "tapes", "deliver", "rush", "needed_by", "cold", "tax_exempt", "way")
_TAPE = (
    *("count", "format", "marking", "recorded_as", "speed", "tv"),
    *("fill", "fill_known", "fill_off", "findings", "label", "origin"),
)
_CUSTOMER = ("name", "phone", "email")

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class InventoryContext:
    """Where and when the file is read: the shop's ``today`` and the region of its phone numbers."""

    today: date
    region: str = "US"
    """ISO 3166 letters; numbers without + are read as a person there would dial them."""
    customer_needed: bool = False
    """Whether a job is to be booked, so that somebody must be named."""


def read(data: bytes, file: str, context: InventoryContext) -> Inventory:
    """The inventory in ``data``; ``file`` names it in complaints. Raises `WrongInput`, changes nothing."""
    return _inventory(json_reader.read(data, file), context, _TAPE)


def read_amended(
    data: bytes, file: str, context: InventoryContext
) -> tuple[Inventory, tuple[tuple[TapeCode, ...], ...]]:
    """As `read`, with the ``codes`` of the cassettes of its order that each line names, if any."""
    box, keys = json_reader.read(data, file), (*_TAPE, "codes")
    inventory = _inventory(box, context, keys)
    tapes = box.members(_BOX)["tapes"].items(say("readers", "accepted_list_tapes"))
    return inventory, tuple(_codes(tape.members(keys)) for tape in tapes)


def _codes(members: Mapping[str, Value]) -> tuple[TapeCode, ...]:
    found = _maybe(members, "codes", lambda value: value.items(say("readers", "accepted_list")))
    accepted = say("readers", "tape_code_ten_digits")
    return tuple(read_tape_code(item.text(40, accepted)) for item in found or ())


def _inventory(box: Value, context: InventoryContext, tape_keys: Sequence[str]) -> Inventory:
    members = box.members(_BOX)
    tv = _maybe(members, "tv", _tv)
    return Inventory(
        lines=_lines(box, members, tv, tape_keys),
        tv=tv,
        customer=_who(box, members, context),
        deliver=delivery_entries.read(members.get("deliver")),
        rush=_yes(members, "rush"),
        needed_by=_maybe(members, "needed_by", lambda value: _needed_by(value, context.today)),
        cold=_yes(members, "cold"),
        tax_exempt=_maybe(members, "tax_exempt", _exemption) or "",
        way=_maybe(members, "way", _way) or PriceWay.BY_PLAY,
    )


def _lines(
    box: Value, members: dict[str, Value], tv: TvSystem | None, keys: Sequence[str]
) -> tuple[TapeLine, ...]:
    if "tapes" not in members:
        box.missing("tapes", say("readers", "needed_list_least_one"))
    tapes = members["tapes"]
    lines = tuple(_line(item, tv, keys) for item in tapes.items(say("readers", "accepted_list_tapes")))
    if not lines:
        tapes.refuse(say("readers", "least_one_tape_needed"))
    total = sum(line.count for line in lines)
    if total > MOST_TAPES:
        accepted = say("readers", "most_one_job_book", most_tapes=MOST_TAPES)
        raise WrongInput(tapes.place, AsWritten(f"{total} tapes"), accepted)
    return lines


def _line(tape: Value, box_tv: TvSystem | None, keys: Sequence[str]) -> TapeLine:
    members = tape.members(keys)
    for needed in ("count", "format"):
        if needed not in members:
            tape.missing(needed, _needed(needed))
    return tape_line(members, box_tv)


def tape_line(members: Mapping[str, Value], box_tv: TvSystem | None = None) -> TapeLine:
    """One line from its members, of which ``count`` and ``format`` are there.

    ``box_tv`` is the TV system of a line that names none. Raises `WrongInput`.
    """
    shell = formats.catalogue().format(members["format"].one_of(_taken_in()))
    tv = _maybe(members, "tv", _tv)
    recorded_as = _maybe(members, "recorded_as", lambda value: FormatName(value.one_of(shell.systems)))
    system = shell if recorded_as is None else formats.catalogue().format(recorded_as)
    return TapeLine(
        count=members["count"].whole(1, MOST_TAPES),
        format=shell.name,
        marking=_maybe(members, "marking", lambda value: _marking(value, shell)),
        recorded_as=recorded_as,
        speed=_maybe(members, "speed", lambda value: _speed(value, system, tv or box_tv)),
        tv=tv,
        fill=_maybe(members, "fill", _fill),
        fill_known=_fill_known(members),
        fill_off=_maybe(members, "fill_off", lambda value: _fill_off(value, members)),
        findings=_maybe(members, "findings", _findings) or (),
        label=_maybe(members, "label", _label) or "",
        origin=_maybe(members, "origin", _origin),
    )


def _needed(key: str) -> str:
    if key == "format":
        return say("readers", "needed_one", names=", ".join(_taken_in()))
    return say("readers", "needed_how_many_tapes", most_tapes=MOST_TAPES)


def _marking(value: Value, shell: Format) -> str:
    text = value.text(40, say("readers", "marking_as_printed"))
    try:
        marking = shell.marking(text)
    except WrongInput as error:
        raise WrongInput(value.place, text, error.accepted) from error
    return text if marking is None else marking.name


def _taken_in() -> tuple[str, ...]:
    """Formats that are not retired."""
    return tuple(form.name for form in formats.catalogue().offered)


def _speed(value: Value, system: Format, tv: TvSystem | None) -> Speed | None:
    known = [speed.value for speed in system.speeds_in(tv)]
    name = value.one_of([*known, "unknown"])
    return None if name == "unknown" else Speed(name)


def _origin(value: Value) -> Origin:
    return Origin(value.one_of([origin.value for origin in Origin]))


def _exemption(value: Value) -> str:
    return value.text(LONGEST_EXEMPTION, say("readers", "why_exempt")).strip()


def _way(value: Value) -> PriceWay:
    return PriceWay(value.one_of([way.value for way in PriceWay]))


def _label(value: Value) -> str:
    return value.text(LONGEST_LABEL, say("readers", "text_or_null"))


def _tv(value: Value) -> TvSystem:
    return TvSystem(value.one_of([system.value for system in TvSystem]))


def _fill(value: Value) -> float:
    accepted = say("readers", "accepted_share_tape_recorded")
    share = value.number(0, MOST_FILL, accepted)
    if share == 0:
        value.refuse(accepted)
    return share


def _fill_known(members: Mapping[str, Value]) -> FillKnown:
    """How the share is known: told, unless the file says otherwise."""
    known = _maybe(members, "fill_known", lambda value: _of_fill(value, members))
    return known or FillKnown.TOLD


def _of_fill(value: Value, members: Mapping[str, Value]) -> FillKnown:
    known = FillKnown(value.one_of([known.value for known in FillKnown]))
    if _maybe(members, "fill", _fill) is None:
        value.refuse(say("readers", "says_how_fill_known"))
    return known


def _fill_off(value: Value, members: Mapping[str, Value]) -> float:
    accepted = say("readers", "accepted_how_far_fill")
    off = value.number(0, 1, accepted)
    if off == 0:
        value.refuse(accepted)
    if _maybe(members, "fill", _fill) is None:
        value.refuse(say("readers", "says_how_far_fill"))
    if _fill_known(members) is FillKnown.AT_LEAST:
        value.refuse(say("readers", "share_recorded_least_off"))
    return off


def _findings(value: Value) -> tuple[AnyFinding, ...]:
    names = [finding.value for finding in condition.offered()]
    findings: list[AnyFinding] = []
    for item in value.items(say("readers", "accepted_list_findings")):
        finding = finding_of(item.one_of(names))
        if finding in findings:
            item.refuse(say("readers", "each_finding_named_once"))
        findings.append(finding)
    return tuple(findings)


def _who(box: Value, members: dict[str, Value], context: InventoryContext) -> CustomerDraft | None:
    customer = _maybe(members, "customer", lambda value: _customer(value, context.region))
    if customer is None and context.customer_needed:
        box.missing("customer", say("readers", "needed_booking_object_name"))
    return customer


def _customer(value: Value, region: str) -> CustomerDraft:
    members = value.members(_CUSTOMER)
    if "name" not in members:
        value.missing("name", say("readers", "needed_customer_s_name"))
    name = members["name"].text(LONGEST_NAME, say("readers", "customers_name")).strip()
    if not name:
        members["name"].refuse(say("readers", "name_least_one_letter"))
    phone = _maybe(members, "phone", lambda found: _phone(found, region))
    return CustomerDraft(name, phone, _maybe(members, "email", _email))


def _phone(value: Value, region: str) -> str:
    """The number as it was given; one that cannot be dialled is refused, it would lose the customer."""
    import phonenumbers
    from phonenumbers import ValidationResult

    accepted = say("readers", "phone_number")
    text = value.text(40, accepted).strip()
    try:
        number = phonenumbers.parse(text, region)
    except phonenumbers.NumberParseException:
        value.refuse(accepted)
    possible = phonenumbers.is_possible_number_with_reason(number)
    if possible not in (ValidationResult.IS_POSSIBLE, ValidationResult.IS_POSSIBLE_LOCAL_ONLY):
        value.refuse(accepted)
    return text


def _email(value: Value) -> str:
    accepted = say("readers", "accepted_address_like_name")
    text = value.text(LONGEST_EMAIL, accepted).strip()
    before, at, after = text.rpartition("@")
    if not (before and at and after) or " " in text or "@" in before:
        value.refuse(accepted)
    return text


def _yes(members: dict[str, Value], key: str) -> bool:
    """Whether ``key`` is there and true."""
    return key in members and members[key].yes_or_no()


def _needed_by(value: Value, today: date) -> date:
    accepted = say("readers", "accepted_date_like_today", today=today.isoformat())
    text = value.text(40, accepted)
    try:
        wish = date.fromisoformat(text)
    except ValueError:
        value.refuse(accepted)
    if wish < today:
        value.refuse(say("readers", "today_day_passed", today=today.isoformat(), accepted=accepted))
    if (wish - today).days > LATEST_WISH_DAYS:
        value.refuse(say("readers", "day_within_three_years"))
    return wish


def _maybe(members: Mapping[str, Value], key: str, read_one: Callable[[Value], _T]) -> _T | None:
    """What ``read_one`` makes of the member ``key``; None when it is left out or null."""
    value = members.get(key)
    return None if value is None or value.is_null else read_one(value)
