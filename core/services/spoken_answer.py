"""What is said to a caller, in one breath: the same sentence whoever picks up the phone."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from core.catalogue import containers
from core.model.job_records import Job
from core.model.promise_records import Promise
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.promise import chances
from core.wording import locale_figures
from core.wording.messages import say

EVEN = 0.5
"""Below this chance the promised day is not repeated: the shop says that it may be later."""

_GROUPS = (
    ("ready", (Station.READY,)),
    ("being-checked", (Station.BEING_CHECKED,)),
    ("playing", (Station.PLAYING,)),
    ("cleared-to-play", (Station.CLEARED_TO_PLAY,)),
    ("at-the-bench", (Station.AT_THE_BENCH,)),
    ("waiting", (Station.BOOKED_IN, Station.LOOKED_OVER)),
    ("asking-the-customer", (Station.ASKING_THE_CUSTOMER,)),
    ("kept-apart", (Station.KEPT_APART,)),
    ("cannot-be-played", (Station.CANNOT_BE_PLAYED,)),
    ("handed-back", (Station.HANDED_BACK,)),
)
"""What tapes are told together as, in the order they are told."""


def answer(job: Job, today: date, chance: float | None) -> str:
    """One or two sentences about a job, with nothing in them but that job.

    ``chance`` is that of keeping the promised day as it looks now.
    """
    told = _day(job, today, chance)
    kind = containers.together(tape.format for tape in job.tapes)
    whose = containers.sentence("spoken", "whose-tapes", kind)
    tapes = _told(whose, len(job.tapes), name=job.customer.name.split()[0])
    groups = [
        (name, [tape for tape in job.tapes if tape.station in stations])
        for name, stations in _GROUPS
        if any(tape.station in stations for tape in job.tapes)
    ]
    if len(groups) == 1:
        group = _group("all", *groups[0], tapes=tapes)
        return say("spoken", "one-group", group=group, day=told).strip()
    listed = locale_figures.listed([_group("some", *group) for group in groups], "unit")
    return say("spoken", "several-groups", tapes=tapes, groups=listed, day=told).strip()


def _told(sentence: str, count: int, /, **blanks: str) -> str:
    return say("spoken", sentence, count=count, number=say("spoken", "number", count=count), **blanks)


def _group(how: str, group: str, among: Sequence[TapeRecord], /, **blanks: str) -> str:
    topics = _topics(among) if among[0].station.is_unsettled else []
    if not topics:
        return _told(f"{how}-{group}", len(among), **blanks)
    return _told(f"{how}-{group}-about", len(among), topics=locale_figures.listed(topics), **blanks)


def _topics(tapes: Sequence[TapeRecord]) -> list[str]:
    """What the customer is asked about: the findings, else the notes that are for them."""
    found = [say("spoken", f"topic-{each.value}") for tape in tapes for each in tape.findings]
    return list(dict.fromkeys(found or [tape.told_note for tape in tapes if tape.told_note]))


def _day(job: Job, today: date, chance: float | None) -> str:
    if not job.is_open:
        return ""
    if not any(tape.station.is_unsettled or not tape.station.is_done for tape in job.tapes):
        return say("spoken", "pick-up")
    what = "everything-else" if any(tape.station.is_unsettled for tape in job.tapes) else "everything"
    return _promised(job.promise, today, job.promise.stated if chance is None else chance, what)


def _promised(promise: Promise, today: date, chance: float, what: str) -> str:
    if promise.day is None:
        return say("spoken", "day-none")
    day = locale_figures.day(promise.day)
    if promise.day < today:
        return say("spoken", "day-late", day=day)
    if chance < EVEN:
        return say("spoken", "day-doubtful", day=day)
    return say("spoken", f"day-{what}", day=day, chance=chances.words(chance))
