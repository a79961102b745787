"""What is said to a caller, in one breath: the same sentence whoever picks up the phone."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date
from functools import partial

from core.catalogue import containers
from core.model import box_standing
from core.model.copies import copy_standing
from core.model.dispositions import Disposition
from core.model.job_records import Job
from core.model.names import AnyFinding, Finding, TapeCode
from core.model.promise_records import Promise
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.promise import chances
from core.wording import locale_figures
from core.wording.messages import say

EVEN = 0.5
"""Below this chance the promised day is not repeated: the shop says that it may be later."""

_GROUPS = (
    ("ready", (Station.READY,)),
    ("needs-label", ()),
    ("being-written", ()),
    ("being-checked", (Station.BEING_CHECKED,)),
    ("playing", (Station.PLAYING,)),
    ("cleared-to-play", (Station.CLEARED_TO_PLAY,)),
    ("at-the-bench", (Station.AT_THE_BENCH,)),
    ("waiting", (Station.BOOKED_IN, Station.LOOKED_OVER)),
    ("resting", ()),
    ("not-here", ()),
    ("asking-the-customer", (Station.ASKING_THE_CUSTOMER,)),
    ("kept-apart", (Station.KEPT_APART,)),
    ("cannot-be-played", (Station.CANNOT_BE_PLAYED,)),
    ("handed-back", (Station.HANDED_BACK,)),
)
"""What tapes are told together as, in the order they are told."""

_SETTLED = (
    ("in-part", (Disposition.COPIED_IN_PART,)),
    ("blank", (Disposition.NOTHING_ON_IT,)),
    ("not-wanted", (Disposition.NOT_WANTED,)),
    ("declined", (Disposition.REPAIR_DECLINED,)),
    ("elsewhere", (Disposition.SENT_ELSEWHERE,)),
    ("cannot-be-played", (Disposition.CANNOT_BE_PLAYED,)),
    ("talk-about", (Disposition.LOST, Disposition.DAMAGED)),
)
"""What settled tapes are told as instead. One that was lost or damaged is talked about and never read out."""
_FIRST = ("ready", "in-part", "blank", "not-wanted", "declined", "elsewhere")
_LAST = ("talk-about", "talked-about", "handed-back")
_ORDER = tuple(dict.fromkeys((*_FIRST, *(name for name, _ in _GROUPS if name not in _LAST), *_LAST)))


_IN_LINE = (Station.BOOKED_IN, Station.LOOKED_OVER, Station.CLEARED_TO_PLAY)


def answer(job: Job, today: date, chance: float | None, resting: Collection[TapeCode] = frozenset()) -> str:
    """A few sentences about a job, with nothing in them but that job.

    ``chance`` is that of keeping the promised day as it looks now; ``resting`` are tapes that came in cold
    and do not play before they are warm.
    """
    told = _with_notes(job, _day(job, today, chance))
    kind = containers.together(tape.format for tape in job.tapes)
    whose = containers.sentence("spoken", "whose-tapes", kind)
    tapes = _told(whose, len(job.tapes), name=job.customer.name.split()[0])
    found: dict[str, list[TapeRecord]] = {}
    group_of = partial(_group_of, resting=resting, writing=copy_standing.are_being_written(job))
    for tape in sorted(job.tapes, key=lambda tape: _ORDER.index(group_of(tape))):
        found.setdefault(group_of(tape), []).append(tape)
    groups = list(found.items())
    if len(groups) == 1:
        group = _group("all", *groups[0], tapes=tapes)
        return say("spoken", "one-group", group=group, day=told).strip()
    listed = locale_figures.listed([_group("some", *group) for group in groups], "unit")
    return say("spoken", "several-groups", tapes=tapes, groups=listed, day=told).strip()


def _told(sentence: str, count: int, /, **blanks: str) -> str:
    return say("spoken", sentence, count=count, number=say("spoken", "number", count=count), **blanks)


def _with_notes(job: Job, day: str) -> str:
    """What the shop has to say of settled tapes that are still here, then the day."""
    told = [tape for tape in job.tapes if tape.told_note and tape.is_settled and tape.station.is_in_the_shop]
    notes = " ".join(dict.fromkeys(map(_note, told)))
    return say("spoken", "notes-then-day", notes=notes, day=day).strip()


def _note(tape: TapeRecord) -> str:
    note = tape.told_note
    name = tape.label or " ".join(filter(None, (tape.format_words, tape.marking)))
    return say("spoken", "note", tape=name, note=note, ends="yes" if note.endswith((".", "!", "?")) else "no")


def _group_of(tape: TapeRecord, *, resting: Collection[TapeCode], writing: bool) -> str:
    """What a tape is told as: what became of it before where it is, home before all but a loss.

    One whose label is missing is not ready, whatever became of it; nor is one whose copies are being written.
    """
    if tape.station is Station.HANDED_BACK:
        return "handed-back" if tape.is_returned else "talked-about"
    if tape.station is Station.READY and box_standing.lacks_label(tape):
        return "needs-label"
    if tape.station is Station.READY and tape.disposition is Disposition.COPIED and writing:
        return "being-written"
    for name, dispositions in _SETTLED:
        if tape.disposition in dispositions:
            return name
    if tape.station in _IN_LINE and tape.verdict.elsewhere is not None:
        return "not-here"
    if tape.station in _IN_LINE and tape.code in resting:
        return "resting"
    return next(name for name, stations in _GROUPS if tape.station in stations)


def _group(how: str, group: str, among: Sequence[TapeRecord], /, **blanks: str) -> str:
    topics = _topics(among) if among[0].is_unsettled else []
    if not topics:
        return _told(f"{how}-{group}", len(among), **blanks)
    return _told(f"{how}-{group}-about", len(among), topics=locale_figures.listed(topics), **blanks)


def _topics(tapes: Sequence[TapeRecord]) -> list[str]:
    """What the customer is asked about: the findings, and the notes that are for them."""
    found = [_topic(each) for tape in tapes for each in tape.findings]
    return list(dict.fromkeys([*found, *(tape.told_note for tape in tapes if tape.told_note)]))


def _topic(finding: AnyFinding) -> str:
    """What a finding is called to its owner; one of the shop's own by its words."""
    return say("spoken", f"topic-{finding.value}") if isinstance(finding, Finding) else spoken(finding)


def _day(job: Job, today: date, chance: float | None) -> str:
    if not job.is_open:
        return ""
    if box_standing.waits_for_owner(job):
        if box_standing.may_be_collected(job):
            return say("spoken", "pick-up")
        return say("spoken", "pick-up-else") if any(map(box_standing.may_leave, job.tapes)) else ""
    is_open = any(_is_left_open(tape) for tape in job.tapes)
    what = "everything-else" if is_open else "everything"
    return _promised(job.promise, today, job.promise.stated if chance is None else chance, what)


def _is_left_open(tape: TapeRecord) -> bool:
    """Whether the day is not a promise about this tape."""
    is_not_here = tape.station in _IN_LINE and tape.verdict.elsewhere is not None
    return tape.is_unsettled or tape.is_to_talk_about or is_not_here


def _promised(promise: Promise, today: date, chance: float, what: str) -> str:
    if promise.day is None:
        return say("spoken", "day-none")
    day = locale_figures.day(promise.day)
    if promise.day < today:
        return say("spoken", "day-late", day=day)
    if chance < EVEN:
        return say("spoken", "day-doubtful", day=day)
    return say("spoken", f"day-{what}", day=day, chance=chances.words(chance))
