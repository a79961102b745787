"""What is said to a caller, in one breath: the same sentence whoever picks up the phone."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from core.model.names import Finding
from core.model.records import Job, Promise, TapeRecord
from core.model.stations import Station
from core.promise import chances

EVEN = 0.5
"""Below this chance the promised day is not repeated: the shop says that it may be later."""

_COUNTED = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
    "twenty",
)
_SAID = (
    ((Station.READY,), "is ready", "are ready"),
    ((Station.BEING_CHECKED,), "is being checked", "are being checked"),
    ((Station.PLAYING,), "is playing now", "are playing now"),
    ((Station.CLEARED_TO_PLAY,), "is waiting for a deck", "are waiting for a deck"),
    ((Station.AT_THE_BENCH,), "is at the bench", "are at the bench"),
    ((Station.BOOKED_IN, Station.LOOKED_OVER), "is waiting for its turn", "are waiting for their turn"),
    ((Station.ASKING_THE_CUSTOMER,), "waits for your answer", "wait for your answer"),
    ((Station.KEPT_APART,), "is kept apart", "are kept apart"),
    ((Station.CANNOT_BE_PLAYED,), "cannot be played", "cannot be played"),
    ((Station.HANDED_BACK,), "went home already", "went home already"),
)
_TOPICS = {
    Finding.SNAPPED: "a snapped tape",
    Finding.OFF_HUB: "a tape that came off its hub",
    Finding.CHEWED: "a chewed stretch",
    Finding.STRETCHED: "a stretched place",
    Finding.CREASED: "a crease",
    Finding.SCRATCHED: "a scratch",
    Finding.EDGE_DAMAGE: "a damaged edge",
    Finding.MOULD: "mould",
    Finding.STICKY: "a sticky tape",
    Finding.SHELL_BROKEN: "a broken shell",
    Finding.REEL_BROKEN: "a broken reel",
    Finding.LID_DAMAGED: "a damaged lid",
    Finding.SOUND_MISSING: "missing sound",
    Finding.CRUSHED: "a crushed cassette",
    Finding.COMMERCIAL_RECORDING: "the rights to a commercial recording",
}
"""What a caller is asked about, after “about” or “because of”."""

_STILL_COMING = frozenset(Station) - {Station.READY, Station.HANDED_BACK, Station.CANNOT_BE_PLAYED}

_UNSETTLED = (Station.ASKING_THE_CUSTOMER, Station.KEPT_APART)
"""Tapes that are in no promise: nobody knows yet whether they will be played."""


def answer(job: Job, today: date, chance: float | None) -> str:
    """One or two sentences about a job, with nothing in them but that job.

    ``chance`` is that of keeping the promised day as it looks now.
    """
    tapes = f"{_whose(job)} {_number(len(job.tapes))} tapes" if len(job.tapes) > 1 else f"{_whose(job)} tape"
    return f"{tapes}{_stations(job)}. {_day(job, today, chance)}".strip()


def day_words(day: date) -> str:
    """``Thursday 12 March``."""
    from babel.dates import format_date

    return format_date(day, "EEEE d MMMM", locale="en")


def _whose(job: Job) -> str:
    return f"{job.customer.name.split()[0]}'s"


def _number(count: int) -> str:
    return _COUNTED[count] if count < len(_COUNTED) else str(count)


def _stations(job: Job) -> str:
    groups = [
        (one, many, [tape for tape in job.tapes if tape.station in stations])
        for stations, one, many in _SAID
        if any(tape.station in stations for tape in job.tapes)
    ]
    if len(groups) == 1:
        one, many, tapes = groups[0]
        everyone = {1: "", 2: "both "}.get(len(tapes), "all ")
        return f" {one if len(tapes) == 1 else _with_all(many, everyone)}{_about(tapes)}"
    parts = [
        f"{_number(len(tapes))} {one if len(tapes) == 1 else many}{_about(tapes)}"
        for one, many, tapes in groups
    ]
    return f": {', '.join(parts)}"


def _with_all(words: str, everyone: str) -> str:
    """``are ready`` → ``are all ready``; ``cannot be played`` → ``all cannot be played``."""
    verb, _, rest = words.partition(" ")
    return f"are {everyone}{rest}" if verb == "are" else f"{everyone}{words}"


def _about(tapes: Sequence[TapeRecord]) -> str:
    asked = {Station.ASKING_THE_CUSTOMER: "about", Station.KEPT_APART: "because of"}.get(tapes[0].station)
    if asked is None:
        return ""
    topics = [_TOPICS[each] for tape in tapes for each in tape.findings] or [
        tape.note for tape in tapes if tape.note
    ]
    return f" {asked} {_listed(tuple(dict.fromkeys(topics)))}" if topics else ""


def _listed(topics: Sequence[str]) -> str:
    """``mould``, ``mould and a scratch``, ``mould, a scratch and a crease``."""
    return " and ".join((", ".join(topics[:-1]), topics[-1])) if len(topics) > 1 else topics[0]


def _day(job: Job, today: date, chance: float | None) -> str:
    if not job.is_open:
        return ""
    if not any(tape.station in _STILL_COMING for tape in job.tapes):
        return "Everything can be picked up whenever we are open."
    what = "Everything else" if any(tape.station in _UNSETTLED for tape in job.tapes) else "Everything"
    return _promised(job.promise, today, job.promise.stated if chance is None else chance, what)


def _promised(promise: Promise, today: date, chance: float, what: str) -> str:
    if promise.day is None:
        return "We have no date for it yet and will call you."
    day = day_words(promise.day)
    if promise.day < today:
        return f"We had promised {day} and are late; we will call you with a new day."
    if chance < EVEN:
        return f"We had promised {day}; as it looks now it may be later, and we will call you."
    return f"{what} by {day}, {chances.words(chance)}."
