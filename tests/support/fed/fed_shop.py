"""An invented shop's records as the program would read them: fed to the pure shelves, without a database.

At each box that comes in the program is told what the shop could know by then, and no more: its settings, its
queue, minutes read off the decks, troubles counted, weeks gone by.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import replace
from math import inf

from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TapeCode, TvSystem
from core.model.own_shop.copying_minutes import USUAL_MINUTES
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.model.quote_records import QuotedTape
from core.model.ranges import Range
from core.model.repair_records import Verdict
from core.model.stations import Station
from core.playtime import learning
from core.playtime.explanations import Played
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import facts
from core.playtime.tape_minutes import belief
from core.promise.backlogs import ENOUGH, WEEKS, ShopWeek
from core.scheduling import event_rates
from core.scheduling.breakdowns import awaiting
from core.scheduling.capacity_bounds import Decks
from core.scheduling.deck_choice import suited
from core.scheduling.event_rates import Counted, RushMonth
from core.scheduling.plan_records import estimate
from core.scheduling.queued_tapes import QueuedTape
from core.scheduling.worktime.recorded_acts import TimedTask
from core.scheduling.worktime.work_learning import LearnedWork
from core.services.event_counts import NEWEST
from tests.support.fed.fed_work import learned_of, moment, number_of
from tests.support.shops import FRONT, PLAYS, deck, repaired
from tests.support.worlds.living_shop import LivingShop
from tests.support.worlds.people_at_work import DAY
from tests.support.worlds.shop_lives import Box, Tape, World

CONFIDENCE = 0.9
_LEAST_NEW = 10
_MOST_NEW = 120
"""Tapes played after which the program learns again, at least and at most; else a quarter of those known.
It would after every tape; to learn later saves time and can only make it worse."""
_WEEK = 7 * DAY
_PLAYED_AS = {"hi8": ("video8", "hi8", "digital8")}


def settings_of(world: World) -> ShopSettings:
    """What the owner would have entered: decks, hours, people; nothing of troubles."""
    decks = [
        deck(f"{n} {min(plays)}", *(each for name in plays for each in _PLAYED_AS.get(name, (name,))))
        for n, plays in enumerate(world.decks)
    ]
    openings = [
        OpeningHours(day, int(hours[0]), int(hours[1])) for day, hours in enumerate(world.hours) if hours
    ]
    front, late, people = replace(FRONT, timezone="UTC"), int(world.past_closing), len(world.people)
    return ShopSettings(
        front, tuple(decks), tuple(openings), None, None, frozenset(), late, people, CONFIDENCE
    )


class FedShop:
    """The records of one shop, brought up to date by `look` at each box that comes in."""

    def __init__(self, world: World) -> None:
        self._fitted = settings_of(world)
        self.habits: ShopHabits = STARTING
        """What the shop has learned of its customers' tapes."""
        self.copying_minutes = USUAL_MINUTES.stick if world.efforts.copies else 0.0
        """Minutes of a person's time that the copies of an order take, as the shop is planned with."""
        self._work, self._worked_at = LearnedWork(), -_WEEK
        self._known_at = 0
        self._read: list[Played] = []
        self._decks: dict[str, Decks] = {}
        self._of_boxes: dict[str, ShopHabits] = {}

    def look(self, shop: LivingShop) -> None:
        """Takes in what was played, and tells the shop the minutes its waiting tapes are planned with."""
        self._read += [_played(tape) for tape in shop.played[len(self._read) :] if not tape.new.told]
        new = len(self._read) - self._known_at
        if new >= min(max(_LEAST_NEW, self._known_at / 4), _MOST_NEW):
            self.habits, self._known_at = learning.learned(tuple(self._read)), len(self._read)
        self._of_boxes = self._habits_of_boxes(shop)
        if shop.now - self._worked_at >= max(_WEEK, self._worked_at / 4):
            self._worked_at = shop.now
            self._work = learned_of(shop, self._fitted)
        for tape in shop.waiting:
            self._estimate(tape)

    def tell(self, box: Box) -> list[QuotedTape]:
        """The tapes of a box on the counter, which then are planned with the minutes believed."""
        for tape in box.tapes:
            self._estimate(tape)
        return [
            QuotedTape(1, tape.n, line_of(tape), self._minutes(tape), _verdict(tape)) for tape in box.tapes
        ]

    def settings(self, shop: LivingShop) -> ShopSettings:
        """The shop with its decks as they are, and what it expects by what it has counted."""
        out = {each.deck for each in shop.outs if each.ends > shop.now}
        decks = tuple(replace(each, in_service=n not in out) for n, each in enumerate(self._fitted.decks))
        expected = event_rates.learned(counted(shop), self._fitted.expected, moment(shop.now).month)
        fitted = replace(self._fitted, decks=decks, expected=expected)
        return awaiting(self._work.reckoned(fitted), [each.name for each in decks])

    def queue(self, shop: LivingShop) -> list[QueuedTape]:
        """What is not ready yet."""
        playing = [tape for tape in shop.on if tape is not None]
        checked = [tape for tape in shop.to_check if tape.station == "being-checked"]
        found = [self._queued(tape) for tape in [*playing, *checked, *shop.waiting]]
        if self.copying_minutes:
            last = {tape.job: place for place, tape in enumerate(found) if tape.station.needs_the_bench}
            for place in last.values():
                found[place] = replace(found[place], copying_minutes=self.copying_minutes)
        return found

    def weeks(self, shop: LivingShop) -> tuple[ShopWeek, ...]:
        """The newest whole weeks since the first box, newest first, as `core.services.weekly` counts them."""
        count = min(WEEKS, int((shop.now - shop.boxes[0].came) // _WEEK)) if shop.boxes else 0
        if count < ENOUGH:
            return ()
        since = shop.now - count * _WEEK
        came: list[Counter[Decks]] = [Counter() for _ in range(count)]
        handling, played = [0.0] * count, [0.0] * count
        each = self._work.reckoned(self._fitted).handling
        for tape in (tape for box in reversed(shop.boxes) if box.came >= since for tape in box.tapes):
            week = min(int((shop.now - tape.box.came) // _WEEK), count - 1)
            came[week][self._decks_of(tape)] += self._mean(tape)
            handling[week] += (
                each.look_over + each.load + each.unload + each.check_of(self._mean(tape))
            ) + self._work.factor(TimedTask.REPAIR) * _verdict(tape).bench_minutes
        for tape in reversed(shop.played):
            if tape.ended < since:
                break
            played[min(int((shop.now - tape.ended) // _WEEK), count - 1)] += tape.new.minutes
        return tuple(ShopWeek(*each) for each in zip(came, handling, played, strict=True))

    def _decks_of(self, tape: Tape) -> Decks:
        found = self._decks.get(tape.new.format)
        if found is None:
            line = line_of(tape)
            found = suited(self._fitted.decks, line.format, None, line.tv, line.speed).decks
            self._decks[tape.new.format] = found
        return found

    def _mean(self, tape: Tape) -> float:
        """Minutes it played; else the mean of its range (Swanson's rule), as the program takes it."""
        if tape.ended < inf:
            return tape.new.minutes
        minutes = self._minutes(tape)
        return 0.3 * minutes.low + 0.4 * minutes.likely + 0.3 * minutes.high

    def _habits_of_boxes(self, shop: LivingShop) -> dict[str, ShopHabits]:
        """Of boxes in the shop of which a tape was played."""
        here = {number_of(tape.box) for tape in [*shop.on, *shop.waiting] if tape is not None}
        boxes: dict[str, list[Played]] = defaultdict(list)
        for tape in self._read[-learning.WINDOW :]:
            if tape.box in here:
                boxes[tape.box].append(tape)
        return {number: learning.of_box(tuple(tapes), self.habits) for number, tapes in boxes.items()}

    def _estimate(self, tape: Tape) -> None:
        minutes = self._minutes(tape)
        tape.estimate, tape.likely = estimate(minutes), minutes.likely

    def _minutes(self, tape: Tape) -> Range:
        if tape.new.told:
            return Range(*tape.new.told)
        return belief(line_of(tape), None, self._habits_of(tape)).range

    def _habits_of(self, tape: Tape) -> ShopHabits:
        return self._of_boxes.get(number_of(tape.box), self.habits)

    def _queued(self, tape: Tape) -> QueuedTape:
        line = line_of(tape)
        return QueuedTape(
            code=TapeCode(f"{number_of(tape.box)}{tape.n:03d}0"),
            format=line.format,
            recorded_as=None,
            tv=line.tv,
            speed=line.speed,
            minutes=self._minutes(tape),
            station=Station(tape.station),
            since=moment(tape.since),
            rush=tape.box.rush,
            bench_minutes=sum(each.minutes.likely for each in _verdict(tape).repairs),
            known=None if tape.new.told else facts(line),
            habits=self._habits_of(tape),
            deck=None if tape.deck is None else self._fitted.decks[tape.deck].name,
        )


def line_of(tape: Tape) -> TapeLine:
    """What was written down of it at the counter."""
    speed = Speed.SP if tape.new.told else None
    return TapeLine(1, FormatName(tape.new.format), tape.new.marking, tv=TvSystem.NTSC, speed=speed)


def counted(shop: LivingShop) -> Counted:
    """Troubles so far, as the shop counts them from its first day on."""
    today = int(shop.now // DAY)
    return Counted(
        failures=len(shop.outs),
        play_hours=sum(tape.new.minutes for tape in shop.played) / 60,
        repairs=sum(each.ends <= shop.now for each in shop.outs),
        repair_hours=sum(min(each.ends, shop.now) - each.began for each in shop.outs) / 60,
        shut_days=sum(day < today for day in shop.shut),
        opening_days=sum(shop.world.hours[day % 7] is not None for day in range(today)),
        rush=_rush(shop.boxes, today),
        brought=_brought(shop.boxes),
    )


def _brought(boxes: Sequence[Box]) -> tuple[tuple[FormatName, int], ...]:
    count: dict[str, int] = defaultdict(int)
    left = NEWEST
    for box in reversed(boxes):
        for tape in box.tapes[:left]:
            count[tape.new.format] += 1
        left -= len(box.tapes)
        if left <= 0:
            break
    return tuple((FormatName(name), tapes) for name, tapes in sorted(count.items()))


def _rush(boxes: Sequence[Box], today: int) -> tuple[RushMonth, ...]:
    days: dict[int, int] = defaultdict(int)
    for day in range(today):
        days[moment(day * DAY).month] += 1
    found: dict[int, list[Box]] = defaultdict(list)
    for box in boxes:
        if box.rush:
            found[moment(box.came).month].append(box)
    return tuple(
        RushMonth(month, len(found[month]), sum(len(box.tapes) for box in found[month]), count / 7)
        for month, count in sorted(days.items())
    )


def _verdict(tape: Tape) -> Verdict:
    return repaired("splice") if tape.new.splice else PLAYS


def _played(tape: Tape) -> Played:
    speed = None if tape.new.speed is None else Speed(tape.new.speed)
    system = None if tape.new.recorded_as is None else FormatName(tape.new.recorded_as)
    return Played(number_of(tape.box), facts(line_of(tape)), tape.new.minutes, speed, system)
