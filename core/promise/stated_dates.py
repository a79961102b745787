"""From finish times in many scenarios to a date at a stated chance, and the sentences about what holds it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

import numpy as np

from core.model.promise_records import Chance, Promise, Recalibrated
from core.promise import chances
from core.scheduling.capacity_bounds import binding
from core.scheduling.opening_calendar import Calendar, Minutes
from core.scheduling.opening_hours import HORIZON_DAYS
from core.scheduling.plan_records import Done
from core.scheduling.simulated_shop import Decks
from core.wording import locale_figures
from core.wording.messages import say

CURVE_DAYS = 40
"""Open days a curve shows at most (our choice: two months of working days)."""
CURVE_ENDS_AT = 0.999
"""Where a curve ends: one of a thousand scenarios (derived)."""
_NEARLY_ALWAYS = 0.95
"""Share of the scenarios above which it is not said how often something is so (an assumption)."""
_MOSTLY = 0.5
"""More often than not, by definition."""
DUST = 1e-6
"""Minutes by which arithmetic may miss a closing (our choice)."""


@dataclass(frozen=True, slots=True, eq=False)
class Finish:
    """When a box is done in each scenario, and what was last there."""

    at: Minutes
    last: tuple[tuple[Done, float], ...]
    """The tapes that are last in some scenario with their share, the greatest first."""
    overlong: int = 0
    """Tapes that fit no opening."""
    left_out: tuple[str, ...] = ()
    """Why some tapes are not in ``at``, one sentence each."""
    nothing_plays: bool = False
    """No tape of the box can be planned at all."""
    tapes: int = 0
    """Those of ``at``."""
    rush: bool = False
    recalibrated: Recalibrated | None = None
    """How ``at`` was moved from the plan's; None: it was not."""


@dataclass(frozen=True, slots=True)
class Before:
    """What waits with a box, by the decks it may play on."""

    waiting: Mapping[tuple[int, ...], int]
    """Tapes before it."""
    work: Mapping[tuple[int, ...], float]
    """Likely minutes of deck time, its own included."""


@dataclass(frozen=True, slots=True)
class DateQuery:
    """What a date is worked out against."""

    calendar: Calendar
    now: float
    made_at: datetime
    confidence: float
    needed_by: date | None = None
    away: Mapping[int, str] = field(default_factory=dict)
    """What is to be said of decks that broke and are to come back, by their place."""


def finish_of(done: Sequence[Done], left_out: tuple[str, ...] = (), rush: bool = False) -> Finish:
    """The last of these tapes in each scenario."""
    if not done:
        return Finish(np.empty(0), (), left_out=left_out, nothing_plays=True)
    times = np.stack([one.at for one in done])
    shares = Counter(times.argmax(axis=0).tolist())
    last = tuple((done[row], count / times.shape[1]) for row, count in shares.most_common())
    overlong, tapes = (sum(getattr(one, name) for one in done) for name in ("overlong", "count"))
    return Finish(times.max(axis=0), last, overlong, left_out, tapes=tapes, rush=rush)


def not_yet(made_at: datetime) -> Promise:
    """A promise that is still to be worked out: no day, and no reason why there is none."""
    return Promise(None, 0.0, None, None, (), (), made_at)


def promise_of(finish: Finish, query: DateQuery, before: Before | None = None) -> Promise:
    """The first day by whose closing the box is done with the shop's confidence; None when there is none."""
    calendar = query.calendar
    first = int(np.searchsorted(calendar.day_ends, query.now, side="left"))
    by = chances_by(finish.at, calendar.day_ends[first:])
    days = calendar.days[first:]
    place = _first_at(by, query.confidence)
    day = days[place] if place is not None else None
    held_by = _why_no_date(finish, query) if day is None else _held_by(finish, query, day, before)
    return Promise(
        day=day,
        stated=float(by[place]) if place is not None else 0.0,
        p50=_day_at(by, days, 0.5),
        p90=_day_at(by, days, 0.9),
        held_by=(*finish.left_out, *held_by),
        chances=_curve(by, days, place, query.needed_by),
        made_at=query.made_at,
    )


def chances_by(at: Minutes, moments: Minutes) -> Minutes:
    """Share of the scenarios that are done by each moment."""
    if not len(at):
        return np.zeros(len(moments))
    return np.searchsorted(np.sort(at), moments + DUST, side="right") / len(at)


def chance_by(promise: Promise, day: date) -> float:
    """The chance that everything is ready by the close of ``day``, as far as the curve tells."""
    told = [chance.by for chance in promise.chances if chance.day <= day]
    return told[-1] if told else 0.0


def _first_at(by: Minutes, confidence: float) -> int | None:
    place = int(np.searchsorted(by, confidence - 1e-12, side="left"))
    return place if place < len(by) else None


def _day_at(by: Minutes, days: Sequence[date], share: float) -> date | None:
    place = _first_at(by, share)
    return days[place] if place is not None else None


def _curve(
    by: Minutes, days: Sequence[date], place: int | None, needed_by: date | None
) -> tuple[Chance, ...]:
    """Opening days from today, or from just before the first chance when that is far, until it is certain.

    At most 40 of them with the promised day among them. A day the customer needs that lies before
    them comes first, by itself.
    """
    certain = _first_at(by, CURVE_ENDS_AT)
    end = len(by) if certain is None else certain + 1
    shown = place if place is not None else end
    begin = 0
    if shown >= CURVE_DAYS:
        before_any_chance = max(0, int(np.searchsorted(by, 0.0, side="right")) - 1)
        begin = max(before_any_chance, shown + 1 - CURVE_DAYS)
    curve = [Chance(day, float(by[n])) for n, day in enumerate(days[:end][begin : begin + CURVE_DAYS], begin)]
    needed = bisect_right(days, needed_by) - 1 if needed_by is not None else -1
    if 0 <= needed < begin:
        curve.insert(0, Chance(days[needed], float(by[needed])))
    return tuple(curve)


def _why_no_date(finish: Finish, query: DateQuery) -> tuple[str, ...]:
    if finish.nothing_plays:
        return ()
    if not query.calendar.days:
        return (say("dates", "no_hours", days=HORIZON_DAYS),)
    sure = float(np.mean(np.isfinite(finish.at))) if len(finish.at) else 0.0
    no_date = say("dates", "no_date", days=HORIZON_DAYS, chance=chances.words(sure))
    return (no_date, *_queue(finish, None))


def _held_by(finish: Finish, query: DateQuery, day: date, before: Before | None) -> tuple[str, ...]:
    return (
        *_queue(finish, before),
        *_work(finish, query, day, before),
        *_nights(finish),
        *_overlong(finish),
        *_away(finish, query),
        *_shut(query, day),
    )


def _queue(finish: Finish, before: Before | None) -> tuple[str, ...]:
    """What the last tape waits for: the decks of its kind with what waits there, or the bench."""
    groups: dict[Decks, float] = {}
    first: dict[Decks, Done] = {}
    for done, share in finish.last:
        decks = () if done.benched > _MOSTLY else done.step.suited.decks
        groups[decks] = groups.get(decks, 0.0) + share
        first.setdefault(decks, done)
    decks, share = max(groups.items(), key=lambda group: group[1])
    ahead = before.waiting.get(decks, 0) if before else 0
    waiting = (say("dates", "already_waiting", n=ahead),) if decks and ahead else ()
    return (_last_tape(first[decks], decks, share), *waiting)


def _last_tape(done: Done, decks: Decks, share: float) -> str:
    """Where the last tape finishes, and how often, unless it is nearly always so."""
    what, often = done.step.suited.words, chances.often(share)
    if share > _NEARLY_ALWAYS:
        return say("dates", "decks", decks=len(decks), what=what) if decks else say("dates", "bench")
    if decks:
        return say("dates", "decks_often", decks=len(decks), what=what, often=often)
    return say("dates", "bench_often", often=often)


def _work(finish: Finish, query: DateQuery, day: date, before: Before | None) -> tuple[str, ...]:
    """How much work is bound to the decks that hold the box, beside the openings it is promised in."""
    decks = finish.last[0][0].step.suited.decks if finish.last else ()
    bound = binding(before.work, decks) if before and decks else None
    calendar = query.calendar
    if bound is None or finish.last[0][0].benched > _MOSTLY:
        return ()
    begin = float(calendar.worked(np.array([query.now]))[0])
    end = float(calendar.when_worked(np.array([begin + bound.each]))[0])
    first = bisect_left(calendar.day_ends, query.now)
    least, planned = bisect_left(calendar.day_ends, end), bisect_left(calendar.days, day)
    if planned == first or np.isinf(end):
        return ()
    sentence = say(
        "dates",
        "confined_work",
        play=say("dates", "hours_of_tape", n=max(1, round(bound.minutes / 60))),
        decks=say("dates", "these_decks", n=len(bound.decks)),
        least=least - first + 1,
        allowed=planned - first + 1,
    )
    return (sentence,)


def _nights(finish: Finish) -> tuple[str, ...]:
    share = sum(share * done.overnight for done, share in finish.last)
    if share < 0.25:
        return ()
    return (say("dates", "overnight", often=chances.often(share)),)


def _overlong(finish: Finish) -> tuple[str, ...]:
    return (say("dates", "overlong", n=finish.overlong),) if finish.overlong else ()


def _away(finish: Finish, query: DateQuery) -> tuple[str, ...]:
    decks = {deck for done, _ in finish.last for deck in done.step.suited.decks}
    return tuple(words for place, words in query.away.items() if place in decks)


def _shut(query: DateQuery, day: date) -> tuple[str, ...]:
    today = query.calendar.day_of(query.now)
    shut = [
        say("dates", "closed_day", day=locale_figures.day(one), why=why)
        for one, why in query.calendar.shut.items()
        if today <= one <= day
    ]
    if len(shut) > 4:
        shut = [*shut[:3], say("dates", "more_days", n=len(shut) - 3)]
    return (say("dates", "closed_on", days=locale_figures.listed(shut)),) if shut else ()
