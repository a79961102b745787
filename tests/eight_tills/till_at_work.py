"""One till: it sends example after example of every step, and what nobody answered again under its id."""

from __future__ import annotations

import os
import random
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path
from time import monotonic
from typing import Any

from sqlalchemy import select

from core.model.errors import TapewrightError, Unavailable
from core.model.inventory import TapeLine
from core.model.job_records import Job
from core.model.names import CommandId, JobNumber
from core.model.own_shop.setup_pages import NotSetUp, SetupPage
from core.services import jobs
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from core.store import steps
from core.store.commands import CarriedOut
from core.store.tables import JobRow
from core.store.unit import Unit
from core.wording.messages import say
from tests.eight_tills import guards_out
from tests.eight_tills.till_journal import Call, Intent, JournalReader, TillJournal
from tests.sent_again import step_scenes
from tests.sent_again.step_examples import EXAMPLES
from tests.support.booked import MORNING, Clock, Desk, command, quoted

AGAIN_S = 0.25
"""Between two attempts of a till."""
NEWEST = 4
"""So many of the newest orders are everybody's: who works on one of them seldom is alone."""
SHARED = 0.6
"""How often a till takes up one of those in place of booking another."""


@dataclass(frozen=True, slots=True)
class TillOrder:
    """What a till is told when it begins."""

    name: str
    where: str
    journal: str
    stop: str
    """A file; when it is there, the till ends once everything it sent was answered."""
    began: float
    """When the run began, by the steady clock: all tills go by one clock."""
    seed: int
    numbers_from: int
    patience_s: float | None = None
    """How long a silent server is waited for; None: as long as the program does."""
    without: str = ""
    leaves_settings: bool = False
    """Nothing is done to the settings: somebody at a window would be asked to sign in."""


class Abandoned(Exception):
    """What a till was about to do makes no sense any more."""


class RunningClock(Clock):
    """Goes on from the morning of the tests."""

    def __init__(self, began: float) -> None:
        super().__init__()
        self._began = began

    def __call__(self) -> datetime:
        return MORNING + timedelta(seconds=monotonic() - self._began)


class JournaledShop:
    """A shop whose steps all go by an id, are written down, and are sent again until they are answered."""

    def __init__(self, shop: Shop, journal: TillJournal, without: str = "") -> None:
        self.shop = shop
        self._journal = journal
        self._without = without

    def ask(self, query: Callable[..., Any], /, *args: Any, **named: Any) -> Any:
        """What only reads may be asked as often as one likes."""
        while True:
            begun = monotonic()
            try:
                with self._broken("asked"):
                    return self.shop.ask(query, *args, **named)
            except Unavailable:
                time.sleep(AGAIN_S)
            finally:
                if monotonic() - begun > 1.0:
                    self._journal.write("asked", waited=monotonic() - begun)

    def run(self, step: Callable[..., Any], /, *args: Any, **named: Any) -> Any:
        if steps.mark_of(step) is None:
            return self.shop.run(step, *args, **named)  # the scene's own doing: no id, so never again
        return self.once(command(), step, *args, **named).answer

    def once(self, sent: CommandId, step: Callable[..., Any], /, *args: Any, **named: Any) -> CarriedOut[Any]:
        call = steps._unwrapped(step, args, named)
        self._journal.send(sent, call)
        return self.again(sent, call)

    def again(self, sent: CommandId, call: Call, *, is_first: bool = True) -> CarriedOut[Any]:
        """Until it is answered; refusals are raised."""
        goes_by = sent
        while True:
            if not is_first:
                goes_by = command() if self._without == guards_out.IDS else sent
                self._journal.write("again", id=sent, goes_by=goes_by)
            try:
                return self._attempt(sent, goes_by, call)
            except Unavailable:
                is_first = False
                time.sleep(AGAIN_S)

    def _attempt(self, sent: CommandId, goes_by: CommandId, call: Call) -> CarriedOut[Any]:
        step, args, named = call
        try:
            with self._broken(sent):
                done = self.shop.once(goes_by, step, *args, **named)
        except Unavailable as failure:
            is_busy = failure.sentence in self._busy
            self._journal.write("busy" if is_busy else "unavailable", id=sent, said=failure.sentence)
            raise
        except TapewrightError as failure:
            self._journal.write("refused", id=sent, said=f"{type(failure).__name__}: {failure.sentence}")
            raise
        self._journal.write("acknowledged", id=sent, said=_number(done.answer))
        return done

    @property
    def _busy(self) -> tuple[str, ...]:
        return tuple(say("records", key, where=self.shop.where) for key in ("file_busy", "server_busy"))

    @contextmanager
    def _broken(self, sent: str) -> Iterator[None]:
        try:
            yield
        except TapewrightError:
            raise
        except Exception as bug:
            self._journal.write("broke", id=sent, said=traceback.format_exc())
            raise Abandoned from bug


@dataclass
class TillDesk(Desk):
    """Books a box, or takes up one that everybody works on."""

    dice: random.Random = field(default_factory=random.Random)
    quotes: dict[str, Any] = field(default_factory=dict)

    def book(self, *lines: TapeLine, name: str = "Ada Fenwick", **changes: object) -> Job:
        if self.dice.random() < SHARED:
            numbers = self.shop.ask(_newest)
            if numbers:
                found: Job = self.shop.ask(jobs.get, self.dice.choice(numbers))
                return found
        key = repr((lines, name, changes))
        if key not in self.quotes:
            self.quotes[key] = quoted(self.shop, *lines, name=name, **changes)
        booked: Job = self.shop.once(command(), jobs.book, self.quotes[key]).answer
        return booked


def live(order: TillOrder) -> None:
    """Works until it is told to stop, or is killed."""
    guards_out.leave_out(order.without)
    journal, begun_by = TillJournal(Path(order.journal)), os.getppid()
    journal.write("began", pid=os.getpid())
    clock, dice = RunningClock(order.began), random.Random(order.seed)
    for _ in range(order.numbers_from):
        next(step_scenes.NUMBERS)
    with _opened(order, clock) as shop:
        records = JournaledShop(shop, journal, order.without)
        desk = TillDesk(records, clock, order.where, "till", dice=dice)  # type: ignore[arg-type]
        _settle(records, _left_open(Path(order.journal)))
        for name in _kinds(dice, order.leaves_settings):
            if Path(order.stop).exists() or os.getppid() != begun_by:
                break
            _carry_out_one(desk, records, journal, name)
    journal.write("ended")


def _opened(order: TillOrder, clock: Clock) -> Shop:
    while True:
        try:
            shop = Shop.open(order.where, clock=clock, who="Kim", create=False)
            break
        except Unavailable:
            time.sleep(AGAIN_S)
    if order.patience_s is not None:
        shop.database.patience.seconds = order.patience_s
    return shop


def _left_open(journal: Path) -> list[Intent]:
    reader = JournalReader(journal)
    reader.read_on()
    return reader.unanswered


def _settle(records: JournaledShop, left: list[Intent]) -> None:
    """What this till sent before it was killed, and nobody knows the answer of."""
    for intent in left:
        try:
            records.again(CommandId(intent.command), intent.call, is_first=False)
        except (TapewrightError, Abandoned):
            """It was refused, and is written down."""


def _kinds(dice: random.Random, leaves_settings: bool) -> Iterator[Callable[..., Any]]:
    """Every registered step, again and again in another order."""
    while True:
        every = [each for each in EXAMPLES if not leaves_settings or ".own_shop." not in each.__module__]
        dice.shuffle(every)
        yield from every


def _carry_out_one(
    desk: TillDesk, records: JournaledShop, journal: TillJournal, name: Callable[..., Any]
) -> None:
    try:
        step, args, named = EXAMPLES[name](desk)
        records.once(command(), step, *args, **named)
    except NotSetUp:
        _confirm_prices(records)
    except (TapewrightError, Abandoned):
        """It was refused, and is written down."""
    except Exception as unfit:  # noqa: BLE001  # the scene's own: it found the shop otherwise than it thought
        journal.write("unfit", said=f"{steps.name_of(name)}: {unfit!r}")


def _confirm_prices(records: JournaledShop) -> None:
    """An example of prices nobody confirmed was left lying by a till that was killed."""
    try:
        records.once(command(), shop_document.confirm, [SetupPage.PRICES])
    except (TapewrightError, Abandoned):
        """Somebody else did."""


def _newest(unit: Unit) -> list[JobNumber]:
    return [JobNumber(each) for each in unit.session.scalars(_NEWEST)]


_NEWEST = select(JobRow.number).order_by(JobRow.id.desc()).limit(NEWEST)


def _number(answer: object) -> str:
    """The number of an order that was booked."""
    return answer.number if isinstance(answer, Job) else ""
