"""The shape of a shop's settings as a TOML file; a key without a default is needed."""

from datetime import date

# Annotations are not put off here: msgspec would have to evaluate each text of them at the first start.
from typing import Annotated, Any, Literal, TypeAlias

from msgspec import Meta, Struct

from core.model.names import Outcome
from core.model.own_shop.settings_records import Duty, Permission, Skill

Words: TypeAlias = Annotated[str, Meta(min_length=1, max_length=200, pattern=r"\S", description="some-words")]
MaybeWords: TypeAlias = Annotated[str, Meta(max_length=400, description="maybe-words")]
ClockTime: TypeAlias = Annotated[
    str, Meta(pattern=r"^(([01]?\d|2[0-3]):[0-5]\d|24:00)$", description="clock-time")
]
MonthDay: TypeAlias = Annotated[
    str, Meta(pattern=r"^(|(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01]))$", description="month-day")
]
Weekday: TypeAlias = Literal["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"]
Day: TypeAlias = Annotated[date, Meta(description="a-day")]
Printed: TypeAlias = Literal["yes", "ask", "no"]
Length: TypeAlias = Annotated[float, Meta(ge=0, le=1000, description="length-mm")]
Caution: TypeAlias = Annotated[str, Meta(min_length=1, max_length=100, pattern=r"\S", description="caution")]
Folder: TypeAlias = Annotated[
    str, Meta(max_length=400, pattern=r"^(|/.*|[A-Za-z]:[\\/].*|\\\\.+)$", description="folder")
]

PIN_HASH = r"^(|\$argon2id\$v=19\$m=\d{1,7},t=\d{1,2},p=\d{1,2}\$[A-Za-z0-9+/]{11,64}\$[A-Za-z0-9+/]{16,90})$"
"""A PHC string of Argon2id, version 1.3 (RFC 9106), with bounded costs, or nothing."""


TOKEN_DIGEST = r"^sha256\$[0-9a-f]{32}\$[0-9a-f]{64}$"
"""A salt and SHA-256 over it and the token (`core.services.proving.access_tokens`)."""
SystemUserText: TypeAlias = Annotated[
    str, Meta(max_length=200, pattern=r"^[^/@\s][^/@]*/[^/@\s]+@[^/@\s]+$", description="system-user")
]


class FrontEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Who the shop is; printed at the head of every paper."""

    name: Words
    address: Annotated[tuple[Words, ...], Meta(max_length=6, description="address")]
    phone: Words
    currency: Annotated[str, Meta(pattern=r"^[A-Z]{3}$", description="currency")]
    timezone: Words
    language: Words = "en"
    email: MaybeWords = ""
    tax_number: MaybeWords = ""
    greeting: MaybeWords = ""
    closing: MaybeWords = ""
    welcome: MaybeWords = ""
    country: Annotated[str, Meta(pattern=r"^([A-Z]{2})?$", description="country")] = ""
    paper: Literal["", "letter", "a4"] = ""
    accent: MaybeWords = ""
    logo: Annotated[str, Meta(max_length=400_000, description="logo")] = ""
    extra_cautions: Annotated[tuple[Caution, ...], Meta(max_length=3, description="cautions")] = ()


class PapersEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What is printed when an order is booked, and on which labels; lengths in mm."""

    quote: Printed = "ask"
    claim_slip: Printed = "ask"
    labels: Printed = "ask"
    claim_slip_on: Literal["sheet", "roll"] = "sheet"
    roll_width_mm: Annotated[float, Meta(ge=58, le=112, description="roll-width")] = 80.0
    label_stock: Literal["usual", "sheet", "single"] = "usual"
    label_columns: Annotated[int, Meta(ge=1, le=20, description="from-1-to-20")] = 3
    label_rows: Annotated[int, Meta(ge=1, le=50, description="from-1-to-50")] = 8
    label_width_mm: Length = 70.0
    label_height_mm: Length = 35.0
    label_left_mm: Length = 0.0
    label_top_mm: Length = 8.5
    label_gap_across_mm: Length = 0.0
    label_gap_down_mm: Length = 0.0
    label_start: Annotated[int, Meta(ge=1, le=1000, description="from-1-to-1000")] = 1


class WorkEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """``confidence``: the chance at which a date is promised; ``file_for_ready``: none is ready without;
    ``proof_to_read``: the command line shows nothing to somebody who is not proven; ``scanner_prefix``: what
    the scanner types before each code."""

    people: Annotated[int, Meta(ge=1, le=100, description="from-1-to-100")]
    past_closing_minutes: Annotated[int, Meta(ge=0, le=1440, description="from-0-to-1440")]
    confidence: Annotated[float, Meta(ge=0.5, le=0.999, description="confidence")]
    lock_minutes: Annotated[int, Meta(ge=0, le=1440, description="from-0-to-1440")] = 0
    file_for_ready: bool = False
    proof_to_read: bool = False
    scanner_prefix: Annotated[str, Meta(pattern=r"^([!-/:-~][!-~]{0,7})?$", description="scanner-prefix")] = (
        ""
    )


class HolidayEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Country (ISO 3166) and region whose public holidays are kept, and further days closed."""

    country: str = ""
    region: str = ""
    closed: Annotated[tuple[Day, ...], Meta(description="days")] = ()


class ExpectedEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What happens though nobody can say when; 0: not expected."""

    hours_between_failures: Annotated[float, Meta(ge=0, le=1_000_000, description="from-0-to-1000000")] = 0.0
    hours_to_repair: Annotated[float, Meta(ge=0, le=10_000, description="number-to-10000")] = 0.0
    rush_boxes_a_week: Annotated[float, Meta(ge=0, le=1_000, description="number-to-1000")] = 0.0
    tapes_in_a_rush_box: Annotated[float, Meta(ge=0, le=500, description="number-to-500")] = 0.0
    unplanned_closures: Annotated[float, Meta(ge=0, le=0.5, description="number-to-half")] = 0.0


class OpeningEntry(
    Struct,
    frozen=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    rename={"start": "from", "end": "to"},
):
    """Open on these weekdays between two times of the shop's clock; in a part of the year if it names one."""

    days: Annotated[tuple[Weekday, ...], Meta(min_length=1, description="weekdays")]
    start: ClockTime
    end: ClockTime
    first: MonthDay = ""
    last: MonthDay = ""
    season: Annotated[str, Meta(max_length=40, description="season-name")] = ""


class DeckEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A playback machine; formats, TV systems and speeds by their names in the catalogue."""

    name: Annotated[str, Meta(min_length=1, max_length=40, pattern=r"\S", description="deck-name")]
    plays: tuple[str, ...]
    tv: tuple[str, ...]
    speeds: tuple[str, ...]
    in_service: bool = True
    retired: bool = False
    formerly: Annotated[tuple[Words, ...], Meta(description="list")] = ()


class TokenEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A token issued to a person: what it is for, its last day, and its digest, never the token."""

    name: Annotated[str, Meta(min_length=1, max_length=60, pattern=r"\S", description="token-name")]
    until: Day
    digest: Annotated[str, Meta(pattern=TOKEN_DIGEST, description="token-digest")]


class PersonEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Somebody who works here; ``pin`` is the hash of a PIN, never the PIN."""

    name: Annotated[str, Meta(min_length=1, max_length=60, pattern=r"\S", description="person-name")]
    may: tuple[Permission, ...] = ()
    does: tuple[Duty, ...] = tuple(Duty)
    pin: Annotated[str, Meta(pattern=PIN_HASH, description="pin-hash")] = ""
    hours: tuple[OpeningEntry, ...] = ()
    retired: bool = False
    can: tuple[Skill, ...] = tuple(Skill)
    system_users: Annotated[tuple[SystemUserText, ...], Meta(max_length=20, description="list")] = ()
    tokens: Annotated[tuple[TokenEntry, ...], Meta(max_length=50, description="list")] = ()


class PartnerEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Somebody outside who copies what no deck here plays: formats, their price in words, their days."""

    name: Words
    formats: Annotated[tuple[str, ...], Meta(min_length=1, description="some-formats")]
    price: MaybeWords = ""
    days: Annotated[int, Meta(ge=1, le=365, description="from-1-to-365")] = 14


class OutageEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A deck out of service by plan, from the first day to the last."""

    deck: str
    begins: Day
    ends: Day


Sentence: TypeAlias = Annotated[
    str, Meta(min_length=1, max_length=2000, pattern=r"\S", description="own-sentence")
]


Key: TypeAlias = Annotated[
    str, Meta(max_length=40, pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", description="short-key")
]
ShortWords: TypeAlias = Annotated[
    str, Meta(min_length=1, max_length=40, pattern=r"\S", description="short-words")
]
BenchMinutes: TypeAlias = Annotated[float, Meta(ge=0, le=600, description="bench-minutes")]


class OwnFindingEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A finding of the shop's own: what it is called, what is told, and what comes of it."""

    name: Key
    words: ShortWords
    told: Annotated[str, Meta(min_length=1, max_length=200, pattern=r"\S", description="some-words")]
    outcome: Outcome = Outcome.PLAYS
    repairs: Annotated[tuple[str, ...], Meta(max_length=10, description="list")] = ()
    caution: Annotated[str, Meta(max_length=100, description="maybe-caution")] = ""
    retired: bool = False


class OwnRepairEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A repair of the shop's own; its price stands in the price book under its name."""

    name: Key
    words: ShortWords
    minutes: Annotated[tuple[BenchMinutes, BenchMinutes, BenchMinutes], Meta(description="bench-minutes")]
    retired: bool = False


class OwnMediumEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """A stick or a disc of the shop's own; one of the two capacities is 0."""

    name: Key
    words: ShortWords
    gigabytes: Annotated[float, Meta(ge=0, le=100_000, description="number-to-100000")] = 0.0
    minutes: Annotated[float, Meta(ge=0, le=6000, description="number-to-6000")] = 0.0
    retired: bool = False


class BackupEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Two folders for copies of the records, how often they are made, and how many are kept in each."""

    first: Folder = ""
    second: Folder = ""
    every_hours: Annotated[int, Meta(ge=1, le=720, description="from-1-to-720")] = 24
    told_after_hours: Annotated[int, Meta(ge=1, le=8760, description="from-1-to-8760")] = 72
    keep: Annotated[int, Meta(ge=2, le=1000, description="from-2-to-1000")] = 30
    keep_days: Annotated[int, Meta(ge=0, le=1000, description="from-0-to-1000")] = 14
    keep_weeks: Annotated[int, Meta(ge=0, le=1000, description="from-0-to-1000")] = 8
    keep_years: Annotated[int, Meta(ge=0, le=1000, description="from-0-to-1000")] = 10
    lock: Annotated[str, Meta(pattern="^(age1[0-9a-z]+)?$", max_length=120, description="public-key")] = ""


class CallsEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What a caller is asked before anything is said, and the days after which who was told is reminded."""

    check: Literal["no", "digits", "pass-phrase"] = "no"
    reminders: Annotated[
        tuple[Annotated[int, Meta(ge=1, le=730, description="reminder-days")], ...],
        Meta(max_length=12, description="reminder-days"),
    ] = (7, 21, 45)


MinutesEach: TypeAlias = Annotated[float, Meta(ge=0, le=600, description="minutes-to-600")]


class CopyingEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Minutes that a person is busy with one stick, disc, drive or download."""

    stick: MinutesEach = 10.0
    disc: MinutesEach = 10.0
    drive: MinutesEach = 10.0
    download: MinutesEach = 10.0


class HandlingEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """Minutes a person is busy with one tape; ``whole_check``: every copy is watched from start to end."""

    look_over: MinutesEach = 5.0
    load: MinutesEach = 3.0
    unload: MinutesEach = 2.0
    check: MinutesEach = 8.0
    further_hour: MinutesEach = 3.0
    whole_check: bool = False


class SettingsFile(Struct, frozen=True, forbid_unknown_fields=True):
    """Everything the shop has settled but its prices."""

    front: FrontEntry
    work: WorkEntry
    holidays: HolidayEntry = HolidayEntry()
    expected: ExpectedEntry = ExpectedEntry()
    papers: PapersEntry = PapersEntry()
    opening: tuple[OpeningEntry, ...] = ()
    deck: tuple[DeckEntry, ...] = ()
    outage: tuple[OutageEntry, ...] = ()
    partner: tuple[PartnerEntry, ...] = ()
    person: tuple[PersonEntry, ...] = ()
    backup: BackupEntry = BackupEntry()
    calls: CallsEntry = CallsEntry()
    copying: CopyingEntry = CopyingEntry()
    handling: HandlingEntry = HandlingEntry()
    words: dict[str, Sentence] = {}
    format: Annotated[tuple[dict[str, Any], ...], Meta(description="own-formats")] = ()
    """Formats of the shop's own: ``name``, ``retired``, and what a format's file holds."""
    finding: Annotated[tuple[OwnFindingEntry, ...], Meta(max_length=100, description="list")] = ()
    repair: Annotated[tuple[OwnRepairEntry, ...], Meta(max_length=100, description="list")] = ()
    medium: Annotated[tuple[OwnMediumEntry, ...], Meta(max_length=100, description="list")] = ()
