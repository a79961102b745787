"""A real shop on a real database, for tests: its clock stands still until it is moved."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from uuid import uuid4

import pytest

from core.model.agreement_records import Consent
from core.model.copies import copy_standing
from core.model.inventory import CustomerDraft, Delivery, Inventory, TapeLine
from core.model.job_records import Job, Pickup
from core.model.names import AnyFinding, CommandId, FormatName, JobNumber, Speed, TvSystem
from core.model.own_shop.setup_pages import SetupPage
from core.model.quote_records import Quote
from core.model.signatures import Signature
from core.model.stations import LINE, Station
from core.model.tape_records import TapeRecord
from core.pricing import price_book
from core.promise import turnaround
from core.services import deck_queue, jobs, pickups, promises, quoting, tapes
from core.services.agreement import agreements
from core.services.copies import copy_making
from core.services.own_shop import price_books, shop_document
from core.services.quoting import ShopSnapshot
from core.services.records_door import Shop
from core.store import current_prices, current_settings, history
from core.store.shop_files import erased_orders
from core.store.tables import EventRow
from core.store.unit import Unit
from tests.support.postgres import SERVER, by_files, database_url, named_server, tell

MORNING = datetime(2026, 3, 3, 14, 0, tzinfo=UTC)
"""A Tuesday, 9 o'clock in New York."""

SET_UP_AT = datetime(2025, 1, 1, 14, 0, tzinfo=UTC)
"""When the shops of the tests were set up."""
OWN_NAME = "The Test Reel"

KINDS = ("sqlite", pytest.param("postgres", marks=pytest.mark.postgres))
"""The databases of this run; a run of the whole suite may not go without PostgreSQL."""


@dataclass
class Clock:
    """Says the same until it is told to go on."""

    now: datetime = MORNING

    def __call__(self) -> datetime:
        return self.now

    def go_on(self, **by: float) -> None:
        self.now += timedelta(**by)


@dataclass
class Desk:
    """A shop at work and what a test wants of it."""

    shop: Shop
    clock: Clock
    where: str
    kind: str
    writes_copies: bool = True
    """Whether the copies are made and checked as soon as `bring_to` has brought the last tape to ready."""
    signature: Signature = field(
        default_factory=lambda: Signature("Ada Fenwick", (((0.1, 0.2), (0.5, 0.6)),))
    )

    def book(self, *lines: TapeLine, name: str = "Ada Fenwick", **changes: object) -> Job:
        quote = quoted(self.shop, *lines, name=name, **changes)
        return self.shop.once(command(), jobs.book, quote).answer

    def bring_to(self, tape: TapeRecord, station: Station, **last: object) -> TapeRecord:
        """Moves a tape that needs no repair along the line, station by station."""
        here = self.shop.ask(tapes.get, tape.code)
        way = [each for each in LINE if each is not Station.AT_THE_BENCH]
        for there in way[way.index(here.station) + 1 : way.index(station) + 1]:
            extra = dict(last) if there is station else {}
            if there is Station.READY and here.played_minutes is None:
                extra.setdefault("minutes", here.minutes.likely or 30.0)
            here = self.shop.run(tapes.move, tape.code, there, **extra)  # type: ignore[arg-type]
        if station is Station.READY and self.writes_copies:
            self.write_copies(here.code[:6])
        return here

    def write_copies(self, number: str) -> Job:
        """Makes and checks the copies of an order once all its tapes are settled, as the shop would."""
        job = self.shop.ask(jobs.get, JobNumber(number))
        if not copy_standing.are_being_written(job):
            return job
        for copy in copy_standing.unfinished(job):
            self.shop.run(copy_making.made, job.number, copy.id)
            job = self.shop.run(copy_making.checked, job.number, copy.id)
        return job

    def allow(self, job: Job, minor: int = 100_000) -> Job:
        """The owner says yes to so much, so that what is found does not stop the tapes."""
        said = Consent("Ada Fenwick")
        return self.shop.run(agreements.agree, job.number, "do what is needed", said, ceiling_minor=minor)

    def hand_back(self, job: Job, codes: Sequence[object] | None = None, **changes: object) -> Pickup:
        asked = {"copies": None, "signature": self.signature, "paid_minor": 0, "command": command()} | changes
        sent, number = CommandId(str(asked.pop("command"))), job.number
        return self.shop.once(sent, pickups.hand_back, number, codes=codes, **asked).answer  # type: ignore[arg-type]


def line(
    format: str = "vhs",
    count: int = 1,
    findings: Sequence[AnyFinding] = (),
    marking: str | None = "T-120",
    speed: Speed | None = Speed.SP,
) -> TapeLine:
    return TapeLine(count, FormatName(format), marking, speed=speed, findings=tuple(findings))


def inventory(
    *lines: TapeLine,
    name: str = "Ada Fenwick",
    phone: str | None = "(303) 555-0142",
    deliver: tuple[Delivery, ...] = (Delivery("files", "h264", "usb"),),
    tax_exempt: str = "",
) -> Inventory:
    return Inventory(
        lines=lines or (line(count=2),),
        tv=TvSystem.NTSC,
        customer=CustomerDraft(name, phone),
        deliver=deliver,
        tax_exempt=tax_exempt,
    )


def quoted(shop: Shop, *lines: TapeLine, **changes: object) -> Quote:
    """A real quote of a box against the queue of this moment."""
    return shop.ask(_quote, inventory(*lines, **changes))  # type: ignore[arg-type]


def events(shop: Shop, kind: str) -> list[EventRow]:
    """The lines of history of one kind, oldest first; read to the end while the records are open."""
    return shop.ask(_events, kind)


def command() -> CommandId:
    return CommandId(uuid4().hex)


def _events(unit: Unit, kind: str) -> list[EventRow]:
    return [event for event in history.lines(unit) if event.kind == kind]


def _quote(unit: Unit, box: Inventory) -> Quote:
    fitted, now = promises.reckoned(unit), current_settings.local(unit, unit.now)
    load = turnaround.load(fitted, deck_queue.waiting(unit), now)
    book, habits = current_prices.in_force(unit, now.date()), deck_queue.habits(unit)
    return quoting.quote(box, ShopSnapshot(fitted, book, load, now, habits))


def set_up(where: str | Path) -> None:
    """A shop with a name of its own and the example prices for its own; the rest as a new shop has it."""
    with Shop.open(where, clock=lambda: SET_UP_AT, who="owner") as shop:
        shop.run(shop_document.set_texts, [("front.name", OWN_NAME)])
        shop.run(_own_prices)
        shop.run(shop_document.confirm, [SetupPage.HOURS, SetupPage.DECKS])


def _own_prices(unit: Unit) -> None:
    """Every example book as the shop's own, so that each day has the figures it always had."""
    for book in (price_book.in_force(SET_UP_AT.date()), price_book.in_force(MORNING.date())):
        price_books.enter(unit, price_book.document(replace(book, invented=False)))


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop file that is set up and has no orders yet, made once and copied for each test."""
    path = tmp_path_factory.mktemp("empty") / "shop.sqlite"
    set_up(path)
    return path


@pytest.fixture(scope="session")
def empty_server() -> Iterator[str]:
    """The name of a database with a new shop in it, made once and copied for each test."""
    server = named_server()
    name = f"tapewright_new_{uuid4().hex}"
    tell(server, f'CREATE DATABASE "{name}"')
    try:
        set_up(database_url(server, name))
        yield name
    finally:
        tell(server, f'DROP DATABASE "{name}" WITH (FORCE)')
        # Clocks of tests stand still, so that orders of many shops were booked at one moment.
        (erased_orders.beside(database_url(server, name)) / erased_orders.NAME).unlink(missing_ok=True)


@pytest.fixture
def server_shop(empty_server: str) -> Iterator[str]:
    """The URL of a new shop on the server, dropped afterwards."""
    with server_copy(empty_server) as url:
        yield url


@contextmanager
def server_copy(template: str) -> Iterator[str]:
    """The URL of a copy of the database of a name that nobody has open, dropped afterwards."""
    server, name = os.environ[SERVER], f"tapewright_{uuid4().hex}"
    tell(server, f'CREATE DATABASE "{name}" TEMPLATE "{template}"{by_files(server)}')
    try:
        yield database_url(server, name)
    finally:
        tell(server, f'DROP DATABASE "{name}" WITH (FORCE)')
        # Clocks of tests stand still, so that orders of many shops were booked at one moment.
        (erased_orders.beside(database_url(server, name)) / erased_orders.NAME).unlink(missing_ok=True)


@pytest.fixture(scope="session")
def begun_file(empty_file: Path) -> Path:
    """What every test gets a copy of: a new shop, unless its file begins otherwise (see `beginnings`)."""
    return empty_file


@pytest.fixture(scope="session")
def begun_server(empty_server: str) -> str:
    """As `begun_file`, the name of a database."""
    return empty_server


@contextmanager
def opened(where: str, kind: str) -> Iterator[Desk]:
    """Kim at work in the shop of this place."""
    clock = Clock()
    with Shop.open(where, clock=clock, who="Kim") as shop:
        yield Desk(shop, clock, where, kind)


@contextmanager
def new_desk(request: pytest.FixtureRequest, kind: str, folder: Path) -> Iterator[Desk]:
    """A shop on one kind of database, for as long as the asking fixture lasts."""
    with ExitStack() as kept:
        if kind == "sqlite":
            where = str(shutil.copy(request.getfixturevalue("begun_file"), folder / "shop.sqlite"))
        else:
            where = kept.enter_context(server_copy(request.getfixturevalue("begun_server")))
        yield kept.enter_context(opened(where, kind))


@pytest.fixture(params=KINDS)
def desk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Desk]:
    """A new shop on each database of this run."""
    with new_desk(request, request.param, tmp_path) as made:
        yield made


@pytest.fixture
def file_desk(begun_file: Path, tmp_path: Path) -> Iterator[Desk]:
    """A new shop in a file, for what only files do."""
    with opened(str(shutil.copy(begun_file, tmp_path / "shop.sqlite")), "sqlite") as made:
        yield made
