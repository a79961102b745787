"""What would help: the question read from the records in a moment, its answer worked out without them.

The answer takes a plan of the whole queue for each line, seconds for a long one; whoever waits for the
records in the meantime, a caller perhaps, must not wait for that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from core.catalogue import acclimatisation
from core.model.inventory import Inventory
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.model.promise_records import Promise, PushedPromise
from core.model.quote_records import QuotedTape
from core.playtime.habits import ShopHabits
from core.pricing import copy_minutes
from core.promise import rush_effects, what_ifs
from core.promise.what_ifs import Relief, WhatIf
from core.scheduling.queued_tapes import QueuedTape
from core.services import deck_queue, promises, quoting
from core.store import current_settings
from core.store.tables import JobRow
from core.store.unit import Unit

MOST = 3


@dataclass(frozen=True, slots=True, eq=False)
class AboutBox:
    """What would bring the date of one box forward?"""

    settings: ShopSettings
    queue: tuple[QueuedTape, ...]
    now: datetime
    tapes: tuple[QuotedTape, ...]
    rush: bool
    habits: ShopHabits
    rests_hours: float = 0.0
    """How long a box that came in cold rests first."""
    copying_minutes: float = 0.0
    """How long a person is busy with its copies."""

    def answer(self) -> tuple[WhatIf, ...]:
        """The three changes that would do most; none that would not."""
        found = what_ifs.helps(
            self.settings,
            self.queue,
            self.now,
            self.tapes,
            rush=self.rush,
            shop=self.habits,
            rests_hours=self.rests_hours,
            copying_minutes=self.copying_minutes,
        )
        useful = (one for one in found if one.day and (one.days_gained is None or one.days_gained > 0))
        return tuple(useful)[:MOST]


@dataclass(frozen=True, slots=True, eq=False)
class AboutQueue:
    """What would help the boxes in the shop?"""

    settings: ShopSettings
    queue: tuple[QueuedTape, ...]
    now: datetime
    endangered: Mapping[JobNumber, Promise]

    def answer(self) -> tuple[Relief, ...]:
        """The three changes that would do most."""
        return what_ifs.reliefs(self.settings, self.queue, self.now, self.endangered)


@dataclass(frozen=True, slots=True, eq=False)
class AboutRush:
    """Whose promises would a rush box on the counter push?"""

    settings: ShopSettings
    queue: tuple[QueuedTape, ...]
    now: datetime
    tapes: tuple[QuotedTape, ...]
    promised: Mapping[JobNumber, Promise]
    habits: ShopHabits

    def answer(self) -> tuple[PushedPromise, ...]:
        """The promises it would make less likely than they were stated; none where it pushes nobody."""
        return rush_effects.pushed(
            self.settings, self.queue, self.now, self.tapes, self.promised, self.habits
        )


def about_rush(unit: Unit, box: Inventory) -> AboutRush:
    """The question about a rush box on the counter, with the promises that stand."""
    question = about_box(unit, box)
    numbers = {tape.job for tape in question.queue}
    rows = unit.session.execute(
        select(JobRow.number, JobRow.promise).where(JobRow.number.in_(numbers)).order_by(JobRow.id)
    )
    promised = {JobNumber(number): promise for number, promise in rows}
    return AboutRush(
        question.settings, question.queue, question.now, question.tapes, promised, question.habits
    )


def about_box(unit: Unit, box: Inventory) -> AboutBox:
    """The question about a box on the counter, against the shop of this moment."""
    habits = deck_queue.habits(unit)
    settings, (_, storage) = promises.reckoned(unit), quoting.tapes_and_copies(box, habits)
    return AboutBox(
        settings=settings,
        queue=deck_queue.waiting(unit),
        now=current_settings.local(unit, unit.now),
        tapes=quoting.quoted_tapes(box, habits, current_settings.read(unit)),
        rush=box.rush,
        habits=habits,
        rests_hours=acclimatisation.hours_to_rest(box.cold),
        copying_minutes=copy_minutes.of_order(settings.copying, box.deliver, storage),
    )


def about_queue(unit: Unit) -> AboutQueue:
    """The question about all boxes in the shop, with the dates that are endangered."""
    looked = promises.load(unit)
    kept = promises.under_review(unit, looked)
    endangered = {each.job.number: each.promise for each in kept if each.is_at_risk}
    return AboutQueue(looked.settings, deck_queue.waiting(unit), looked.made_at, endangered)
