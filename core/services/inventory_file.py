"""The inventory file: what lies on the counter, written as JSON, read so that nothing wrong gets in.

A refusal names the file, the place inside it, what was found and what is accepted. The names are
the catalogue's and the closed lists of `core.model.names`; nothing is guessed here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from core.catalogue import formats
from core.catalogue.cassettes import Format
from core.model import json_reader
from core.model.errors import WrongInput
from core.model.inventory import MOST_TAPES, CustomerDraft, Delivery, Inventory, TapeLine
from core.model.json_reader import AsWritten, Value
from core.model.names import FillKnown, Finding, FormatName, Origin, Speed, TvSystem
from core.pricing import copy_sizes

LONGEST_NAME = 120
LONGEST_LABEL = 200
LONGEST_EMAIL = 254
"""RFC 5321 §4.5.3.1.3 leaves 254 characters for an address between its angle brackets."""
LATEST_WISH_DAYS = 3 * 366
"""A wish further away than three years is a slip of the pen."""

_BOX = ("customer", "tv", "tapes", "deliver", "rush", "needed_by", "cold")
_TAPE = (
    *("count", "format", "marking", "recorded_as", "speed", "tv"),
    *("fill", "fill_known", "fill_off", "findings", "label", "origin"),
)
_CUSTOMER = ("name", "phone", "email")
_DELIVERY = ("as", "codec", "on")
_PHONE = "accepted: a phone number with its area code, or with + and the country's code"

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class InventoryReading:
    """Where and when the file is read: the shop's ``today`` and the region of its phone numbers."""

    today: date
    region: str = "US"
    """ISO 3166 letters; numbers without + are read as a person there would dial them."""
    customer_needed: bool = False
    """Whether a job is to be booked, so that somebody must be named."""


def read(data: bytes, file: str, reading: InventoryReading) -> Inventory:
    """The inventory in ``data``; ``file`` names it in complaints. Raises `WrongInput`, changes nothing."""
    box = json_reader.read(data, file)
    members = box.members(_BOX)
    tv = _maybe(members, "tv", _tv)
    return Inventory(
        lines=_lines(box, members, tv),
        tv=tv,
        customer=_who(box, members, reading),
        deliver=_deliveries(members),
        rush=_yes(members, "rush"),
        needed_by=_maybe(members, "needed_by", lambda value: _needed_by(value, reading.today)),
        cold=_yes(members, "cold"),
    )


def _lines(box: Value, members: dict[str, Value], tv: TvSystem | None) -> tuple[TapeLine, ...]:
    if "tapes" not in members:
        box.missing("tapes", "needed: a list with at least one tape")
    tapes = members["tapes"]
    lines = tuple(_line(item, tv) for item in tapes.items("accepted: a list of tapes"))
    if not lines:
        tapes.refuse("at least one tape is needed")
    total = sum(line.count for line in lines)
    if total > MOST_TAPES:
        accepted = f"at most {MOST_TAPES} in one job; book a larger box as several jobs"
        raise WrongInput(tapes.place, AsWritten(f"{total} tapes"), accepted)
    return lines


def _line(tape: Value, box_tv: TvSystem | None) -> TapeLine:
    members = tape.members(_TAPE)
    for needed in ("count", "format"):
        if needed not in members:
            tape.missing(needed, _needed(needed))
    return tape_line(members, box_tv)


def tape_line(members: Mapping[str, Value], box_tv: TvSystem | None = None) -> TapeLine:
    """One line from its members, of which ``count`` and ``format`` are there.

    ``box_tv`` is the TV system of a line that names none. Raises `WrongInput`.
    """
    shell = formats.catalogue().format(members["format"].one_of(formats.catalogue().names))
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
        return f"needed: one of {', '.join(formats.catalogue().names)}"
    return f"needed: how many tapes alike, a whole number from 1 to {MOST_TAPES}"


def _marking(value: Value, shell: Format) -> str:
    text = value.text(40, "accepted: the marking as printed on the cassette, or null")
    try:
        marking = shell.marking(text)
    except WrongInput as error:
        raise WrongInput(value.place, text, f"accepted for {shell.name}: {_names(shell)}") from error
    return text if marking is None else marking.name


def _names(shell: Format) -> str:
    return ", ".join(marking.name for marking in shell.markings)


def _speed(value: Value, system: Format, tv: TvSystem | None) -> Speed | None:
    known = [speed.value for speed in system.speeds_in(tv)]
    name = value.one_of([*known, "unknown"])
    return None if name == "unknown" else Speed(name)


def _origin(value: Value) -> Origin:
    return Origin(value.one_of([origin.value for origin in Origin]))


def _label(value: Value) -> str:
    return value.text(LONGEST_LABEL, "accepted: text or null")


def _tv(value: Value) -> TvSystem:
    return TvSystem(value.one_of([system.value for system in TvSystem]))


def _fill(value: Value) -> float:
    accepted = "accepted: the share of the tape that is recorded, above 0 and up to 1, or null"
    share = value.number(0, 1, accepted)
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
        value.refuse("it says how fill is known, so fill is needed beside it")
    return known


def _fill_off(value: Value, members: Mapping[str, Value]) -> float:
    accepted = "accepted: how far fill may lie off either way, above 0 and up to 1, or null"
    off = value.number(0, 1, accepted)
    if off == 0:
        value.refuse(accepted)
    if _maybe(members, "fill", _fill) is None:
        value.refuse("it says how far fill may lie off, so fill is needed beside it")
    if _fill_known(members) is FillKnown.AT_LEAST:
        value.refuse("a share that is recorded at least is off by nothing; only told and read shares are")
    return off


def _findings(value: Value) -> tuple[Finding, ...]:
    names = [finding.value for finding in Finding]
    findings: list[Finding] = []
    for item in value.items("accepted: a list of findings"):
        finding = Finding(item.one_of(names))
        if finding in findings:
            item.refuse("each finding is named once")
        findings.append(finding)
    return tuple(findings)


def _who(box: Value, members: dict[str, Value], reading: InventoryReading) -> CustomerDraft | None:
    customer = _maybe(members, "customer", lambda value: _customer(value, reading.region))
    if customer is None and reading.customer_needed:
        box.missing("customer", "needed for a booking: an object with name, phone, email")
    return customer


def _customer(value: Value, region: str) -> CustomerDraft:
    members = value.members(_CUSTOMER)
    if "name" not in members:
        value.missing("name", "needed: the customer's name")
    name = members["name"].text(LONGEST_NAME, "accepted: the customer's name").strip()
    if not name:
        members["name"].refuse("a name of at least one letter is needed")
    phone = _maybe(members, "phone", lambda found: _phone(found, region))
    return CustomerDraft(name, phone, _maybe(members, "email", _email))


def _phone(value: Value, region: str) -> str:
    """The number as it was given; one that cannot be dialled is refused, it would lose the customer."""
    import phonenumbers
    from phonenumbers import ValidationResult

    text = value.text(40, _PHONE).strip()
    try:
        number = phonenumbers.parse(text, region)
    except phonenumbers.NumberParseException:
        value.refuse(_PHONE)
    possible = phonenumbers.is_possible_number_with_reason(number)
    if possible not in (ValidationResult.IS_POSSIBLE, ValidationResult.IS_POSSIBLE_LOCAL_ONLY):
        value.refuse(_PHONE)
    return text


def _email(value: Value) -> str:
    accepted = "accepted: an address like name@example.org, or null"
    text = value.text(LONGEST_EMAIL, accepted).strip()
    before, at, after = text.rpartition("@")
    if not (before and at and after) or " " in text or "@" in before:
        value.refuse(accepted)
    return text


def _deliveries(members: dict[str, Value]) -> tuple[Delivery, ...]:
    wanted = _maybe(members, "deliver", lambda value: tuple(map(_delivery, value.items("accepted: a list"))))
    return wanted or ()


def _delivery(value: Value) -> Delivery:
    members = value.members(_DELIVERY)
    if "as" not in members:
        value.missing("as", f"needed: one of {', '.join(copy_sizes.KINDS)}")
    kind = members["as"].one_of(copy_sizes.KINDS)
    if kind != "files":
        _refuse_file_details(members, kind)
        return Delivery(kind)
    return Delivery(
        kind,
        codec=_maybe(members, "codec", lambda found: found.one_of(copy_sizes.CODECS)),
        carrier=_maybe(members, "on", lambda found: found.one_of(copy_sizes.CARRIERS)),
    )


def _refuse_file_details(members: dict[str, Value], kind: str) -> None:
    for key in ("codec", "on"):
        if key in members and not members[key].is_null:
            members[key].refuse(f"{kind} takes none; only files have a codec and a carrier")


def _yes(members: dict[str, Value], key: str) -> bool:
    """Whether ``key`` is there and true."""
    return key in members and members[key].yes_or_no()


def _needed_by(value: Value, today: date) -> date:
    accepted = f"accepted: a date like {today.isoformat()}, today or later, or null"
    text = value.text(40, accepted)
    try:
        wish = date.fromisoformat(text)
    except ValueError:
        value.refuse(accepted)
    if wish < today:
        value.refuse(f"today is {today.isoformat()}, so the day has passed; {accepted}")
    if (wish - today).days > LATEST_WISH_DAYS:
        value.refuse("a day within three years is accepted")
    return wish


def _maybe(members: Mapping[str, Value], key: str, read_one: Callable[[Value], _T]) -> _T | None:
    """What ``read_one`` makes of the member ``key``; None when it is left out or null."""
    value = members.get(key)
    return None if value is None or value.is_null else read_one(value)
