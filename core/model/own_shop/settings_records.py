"""What the shop works with: its front, decks, hours, people, and what it expects."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from typing import Any

from core.model.names import FormatName
from core.model.own_shop.access_records import AccessToken
from core.model.own_shop.copying_minutes import USUAL_MINUTES, CopyingMinutes
from core.model.own_shop.handling_minutes import USUAL_HANDLING, HandlingMinutes
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.shop_additions import NOTHING_ADDED, Additions
from core.model.own_shop.work_habits import NO_HABITS, WorkHabits
from core.model.promise_records import AS_PLANNED, Recalibration


@dataclass(frozen=True, slots=True)
class Printing:
    """Which papers are printed when an order is booked, and on which labels. Lengths in mm."""

    quote: str = "ask"
    """``yes``: at once; ``ask``: when somebody asks for it; ``no``: not at all. So for the next two."""
    claim_slip: str = "ask"
    labels: str = "ask"
    claim_slip_on: str = "sheet"
    """``sheet``: the paper of the shop; ``roll``: a printer of roll paper, as wide as below."""
    roll_width_mm: float = 80.0
    label_stock: str = "usual"
    """``usual``: the common sheet of the paper size; ``sheet``: as measured below; ``single``: a printer
    that prints one label after the other, each as wide and high as below."""
    label_columns: int = 3
    label_rows: int = 8
    label_width_mm: float = 70.0
    label_height_mm: float = 35.0
    label_left_mm: float = 0.0
    """From the edge of the sheet to the first label."""
    label_top_mm: float = 8.5
    label_gap_across_mm: float = 0.0
    """Between two labels side by side."""
    label_gap_down_mm: float = 0.0
    label_start: int = 1
    """The first label of the sheet that is still there, counted along the rows."""


@dataclass(frozen=True, slots=True)
class ShopFront:
    """Who the shop is, and how its papers look."""

    name: str
    address: tuple[str, ...]
    phone: str
    currency: str
    timezone: str
    """IANA name."""
    language: str = "en"
    email: str = ""
    tax_number: str = ""
    greeting: str = ""
    """The shop's own sentence at the head of a paper."""
    closing: str = ""
    """The shop's own sentence at the end of a paper."""
    welcome: str = ""
    """The shop's own greeting on the Customer side; nothing: that of its papers, or the usual one."""
    country: str = ""
    """ISO 3166; where phone numbers without a country code belong."""
    paper: str = ""
    """``letter`` (ANSI A) or ``a4`` (ISO 216); empty: the one usual where the currency is money."""
    accent: str = ""
    """The name of an accent color of the list, or nothing for the usual one."""
    logo: str = ""
    """A PNG or JPEG picture in base64 (RFC 4648), or nothing."""
    extra_cautions: tuple[str, ...] = ()
    """The shop's own cautions, printed on the quote and the claim slip after the built-in ones."""
    words: tuple[tuple[str, str], ...] = ()
    """The shop's own sentences by ``room/key``, in alphabetical order (see `core.wording.own_words`)."""
    practice: bool = False
    """An invented shop to practise in; set when it is made and never changed."""
    printing: Printing = Printing()
    format_names: tuple[tuple[str, str, str], ...] = ()
    """Key, words and container of the shop's own formats: a reprint says what was printed."""
    finding_names: tuple[tuple[str, str], ...] = ()
    """Key and words of the shop's own findings, for the same."""


@dataclass(frozen=True, slots=True)
class OwnFormat:
    """Something people bring that the program does not know: a format of the shop's own."""

    name: str
    """The key under which it is kept; never changed once something was booked under it."""
    content: str
    """The tables of its file as JSON (`core.catalogue.format_file`), with ``like`` if it has one."""
    retired: bool = False
    """Not taken in any more; what was booked under it keeps its name and its minutes."""

    @property
    def tables(self) -> dict[str, Any]:
        """The tables of its file."""
        found: dict[str, Any] = json.loads(self.content)
        return found

    @property
    def words(self) -> str:
        """What the shop calls it; its key where it has no name."""
        return str(self.tables.get("words", {}).get("name", self.name))


def own_format(name: str, tables: Mapping[str, Any], *, retired: bool = False) -> OwnFormat:
    """A format of the shop's own from the tables of its file."""
    return OwnFormat(name, json.dumps(tables, ensure_ascii=False), retired)


@dataclass(frozen=True, slots=True)
class Deck:
    """A playback machine: which recordings it plays, in which TV systems, at which speeds."""

    name: str
    plays: frozenset[FormatName]
    tv: frozenset[str]
    speeds: frozenset[str]
    in_service: bool = True
    retired: bool = False
    """Gone for good: out of service, in no plan and no list, and kept for what it played."""
    formerly: tuple[str, ...] = ()
    """Names it had before; what was written down under them belongs to it."""


@dataclass(frozen=True, slots=True)
class Partner:
    """Somebody outside who copies what no deck of the shop can play."""

    name: str
    formats: frozenset[FormatName]
    price: str
    """Their price, in words."""
    days: int


@dataclass(frozen=True, slots=True)
class Outage:
    """A deck that is out of service by plan, from the first day to the last."""

    deck: str
    begins: date
    ends: date


@dataclass(frozen=True, slots=True)
class Expected:
    """What happens to a shop though nobody can say when. Zero: not reckoned with."""

    hours_between_failures: float = 0.0
    """Playing hours of one deck, on average."""
    hours_to_repair: float = 0.0
    """Real hours until a failed deck is back, on average."""
    rush_boxes_a_week: float = 0.0
    tapes_in_a_rush_box: float = 0.0
    """On average."""
    unplanned_closures: float = 0.0
    """Share of the opening days on which the shop stays shut after all."""
    recalibration: Recalibration = AS_PLANNED
    """How dates are moved because of how promises turned out; learned, never stated."""
    awaited: frozenset[str] = frozenset()
    """Decks that broke down and are to come back; seen, never stated (see `core.scheduling.breakdowns`)."""
    brought: tuple[tuple[FormatName, int], ...] = ()
    """Tapes of each format among those that came in last; counted, never stated (see `initial_state`)."""


class Permission(Enum):
    """What only some of the people may do."""

    SETTINGS = "settings"
    """Change settings, and with them who may do what: so prices, and which records hold, as well."""
    PRICES = "prices"
    REFUND = "refund"
    """Give money back."""
    OVERRIDE = "override"
    """Decide otherwise than the program: a day before that of the plan, a tape played before it is warm."""
    RESTORE = "restore"
    """Put a backup in the place of the records."""
    ERASE = "erase"
    """Take a customer out of the records for good, or give out all that is kept of one."""
    REPORTS = "reports"
    """See how the promises turned out."""


ASKED = tuple(Permission)
"""The permissions some step asks for; one that none asks for is kept as it is and offered nowhere."""
_WITH_SETTINGS = frozenset({Permission.PRICES.value, Permission.RESTORE.value})


class Duty(Enum):
    """Where a person works."""

    COUNTER = "counter"
    BENCH = "bench"


class Skill(Enum):
    """What a person who works at the bench can do there; looking cassettes over everybody there can."""

    SPLICE = "splice"
    """Open cassettes, splice and repair."""
    LOAD = "load"
    """Load and unload decks."""
    CHECK = "check"
    """Check copies."""


Work = Skill | None
"""A kind of work at the bench; None: looking a cassette over."""


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who works here and signs in by name."""

    name: str
    may: frozenset[str] = frozenset()
    """Values of `Permission`."""
    does: frozenset[str] = frozenset(duty.value for duty in Duty)
    """Values of `Duty`."""
    pin: str = ""
    """The Argon2id hash of the PIN (RFC 9106) as a PHC string; nothing: picked by name alone."""
    hours: tuple[OpeningHours, ...] = ()
    """When the person is here, which counts while the shop is open; nothing: whenever it is open."""
    retired: bool = False
    """Works here no more; the name stays on what was done."""
    can: frozenset[str] = frozenset(skill.value for skill in Skill)
    """Values of `Skill`."""
    system_users: tuple[str, ...] = ()
    """Users of computers who are this person, each as `SystemUser.text`."""
    tokens: tuple[AccessToken, ...] = ()

    @property
    def can_be_proven(self) -> bool:
        """Whether anything but the name tells that it is this person."""
        return bool(self.pin or self.system_users or self.tokens)

    @property
    def rights(self) -> frozenset[str]:
        """Values of `Permission`, with those that come with the settings."""
        return self.may | _WITH_SETTINGS if Permission.SETTINGS.value in self.may else self.may

    @property
    def is_particular(self) -> bool:
        """Whether plans must know this person from others: own hours, or not all of the bench's work."""
        return bool(self.hours) or Duty.BENCH.value not in self.does or len(self.can) < len(Skill)


@dataclass(frozen=True, slots=True)
class BackupPlan:
    """Where copies of the records go, how often, and when the owner is told that there are none."""

    first: str = ""
    """An absolute path of a folder that is there, or nothing."""
    second: str = ""
    every_hours: int = 24
    told_after_hours: int = 72
    """The owner is told when the last good backup is older than this."""
    keep: int = 30
    """The newest so many are kept in each place; beside them the last of each day, week and year."""
    keep_days: int = 14
    keep_weeks: int = 8
    keep_years: int = 10
    lock: str = ""
    """The public key that backups are locked with, or nothing; the key itself is kept nowhere."""

    @property
    def places(self) -> tuple[str, ...]:
        """The folders that are set, first to last."""
        return tuple(place for place in (self.first, self.second) if place)


@dataclass(frozen=True, slots=True)
class CallRules:
    """What is asked of a caller, and when a customer who was told is reminded."""

    check: str = "no"
    """``no``: the answer is there at once; ``digits``: the last digits of the phone number are asked first;
    ``pass-phrase``: the pass-phrase, or the digits where none was agreed."""
    reminders: tuple[int, ...] = (7, 21, 45)
    """Days after the customer was told, rising; after the last the order counts as unclaimed."""


@dataclass(frozen=True, slots=True)
class ShopSettings:
    """What the shop works with: decks, hours and the people at the bench."""

    front: ShopFront
    decks: tuple[Deck, ...]
    openings: tuple[OpeningHours, ...]
    holiday_country: str | None
    holiday_region: str | None
    closed_days: frozenset[date]
    past_closing_minutes: int
    """How long a tape may go on playing after the door is shut."""
    people: int
    confidence: float
    """The chance at which a date is promised, e.g. 0.9."""
    outages: tuple[Outage, ...] = ()
    expected: Expected = Expected()
    confirmed: frozenset[str] = frozenset()
    """Pages of the set-up (`core.model.own_shop.setup_pages`) somebody has filled in or confirmed."""
    partners: tuple[Partner, ...] = ()
    """Who copies what no deck here can play; the first that takes a format is named."""
    staff: tuple[Person, ...] = ()
    """The people by name; nobody entered: whoever is here may do everything."""
    lock_minutes: int = 0
    """After so many minutes without a key the screens lock themselves; 0: never."""
    backup: BackupPlan = BackupPlan()
    formats: tuple[OwnFormat, ...] = ()
    """What people bring besides the formats of the program."""
    additions: Additions = NOTHING_ADDED
    """Findings, repairs and media besides those of the program."""
    calls: CallRules = CallRules()
    copying: CopyingMinutes = USUAL_MINUTES
    file_for_ready: bool = False
    """A tape is ready only with a file of it; else the minutes read off the deck are enough."""
    proof_to_read: bool = False
    """Whether the command line shows nothing, either, to somebody who is not proven."""
    scanner_prefix: str = ""
    """What the scanner types before each code, so that it is told from a hand however slow it is."""
    handling: HandlingMinutes = USUAL_HANDLING
    worked: WorkHabits = NO_HABITS
    """Counted, never stated (see `core.services.shop_work`)."""

    def permits(self, name: str, permission: Permission) -> bool:
        """Whether somebody may do this; where nobody works by name, everybody may do everything."""
        return not self.working_staff or name in self.permitted(permission)

    def permitted(self, permission: Permission) -> tuple[str, ...]:
        """The names of those who may; once proof is asked for, of those only who can be proven."""
        return tuple(
            each.name
            for each in self.working_staff
            if permission.value in each.rights and (each.can_be_proven or not self.asks_proof)
        )

    @property
    def asks_proof(self) -> bool:
        """Whether a name alone is not enough: somebody who may change the settings has a PIN."""
        return any(each.pin and Permission.SETTINGS.value in each.may for each in self.working_staff)

    @property
    def working_decks(self) -> tuple[Deck, ...]:
        """The decks that are not retired, in service or not."""
        return tuple(deck for deck in self.decks if not deck.retired)

    @property
    def working_staff(self) -> tuple[Person, ...]:
        """The people who work here now."""
        return tuple(person for person in self.staff if not person.retired)

    @property
    def country(self) -> str:
        """ISO 3166; where a phone number without a country code belongs."""
        return self.front.country or self.holiday_country or "US"


@dataclass(frozen=True, slots=True)
class Rate:
    """One price of the price book, in minor units before rounding."""

    code: str
    words: str
    minor: Decimal
