"""The next right step for a tape in hand: what the leading button of the bench does, and is never refused."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import Enum

from core.catalogue import condition, findings, moves
from core.model.names import Join, Look, Outcome
from core.model.repair_records import Hold, Repair
from core.model.stations import Station
from core.model.tape_records import TapeRecord


class Doing(Enum):
    """What a step is, besides going to a station."""

    MOVE = "move"
    GOOD_AFTER_REPAIR = "good-after-repair"
    SPLICE = "splice"
    REPAIR = "repair"
    SIGN_OFF = "sign-off"
    READ_FILE = "read-file"
    SETTLE = "settle"
    CALL = "call"
    LABEL_ON = "label-on"
    LABEL_OFF = "label-off"


@dataclass(frozen=True, slots=True)
class NextStep:
    """One step; ``station`` of a move alone."""

    doing: Doing
    station: Station | None = None


@dataclass(frozen=True, slots=True)
class Around:
    """What the next step depends on besides the tape. None: nobody has said yet."""

    now: datetime
    files: int | None = None
    """How many recorded files of it stand."""
    is_over: bool | None = None
    """Whether its order costs more than its owner agreed to."""
    wants_file: bool = False
    """Whether the shop calls no tape ready without a file."""


def next_step(tape: TapeRecord, around: Around) -> NextStep | None:
    """What is to be done next; None where the tape waits for its owner, for warmth, or for an answer here."""
    if tape.left_out_in is not None or tape.station is Station.HANDED_BACK:
        return None
    if tape.is_settled:
        return _settled(tape)
    if tape.station is Station.READY:
        return _label(tape)
    aside = _aside(tape)
    return aside if aside is not None else _IN_LINE[tape.station](tape, around)


def still_to_do(tape: TapeRecord) -> tuple[Repair, ...]:
    """The repairs that lie before a tape: those that were done are gone, one that did not hold is back."""
    if tape.is_settled or tape.station in (Station.READY, Station.HANDED_BACK):
        return ()
    done = _done(tape)
    if done and tape.after_repair is not None and tape.after_repair.look is Look.AGAIN:
        again: tuple[Repair, ...] = (condition.repair(done[-1], tape.format),)
    else:
        again = ()
    judged = condition.verdict(tape.open_findings, tape.format, tape.verdict.elsewhere)
    left = (each for each in judged.repairs if not {each.code, findings.covered_by(each.code)} & {*done})
    return again + tuple(each for each in left if each not in again)


def _done(tape: TapeRecord) -> list[str]:
    """The repairs that were done, the last one last; a splice to the leader anchors it again."""
    ends = {Join.LEADER: condition.RE_ANCHOR}
    done = [(each.at, ends.get(each.joined_with, condition.SPLICE)) for each in tape.splices]
    done += [(each.at, each.code) for each in tape.tried if each.succeeded]
    return [code for _, code in sorted(done)]


def _settled(tape: TapeRecord) -> NextStep | None:
    """What became of it is said: what happened to one lost or damaged is written, a label put on."""
    return NextStep(Doing.SETTLE) if tape.is_to_talk_about else _label(tape)


def _label(tape: TapeRecord) -> NextStep | None:
    if tape.label_astray:
        return NextStep(Doing.LABEL_OFF)
    return NextStep(Doing.LABEL_ON) if tape.not_for_reuse and tape.marked_at is None else None


def _aside(tape: TapeRecord) -> NextStep | None:
    """Where a tape goes that steps out of the line by what was found."""
    is_harmful = any(findings.of(each).kept_apart for each in tape.open_findings)
    if is_harmful and tape.station is not Station.CANNOT_BE_PLAYED:
        is_there = tape.station is Station.KEPT_APART
        return NextStep(Doing.SETTLE) if is_there else _to(Station.KEPT_APART)
    return None


def _booked_in(tape: TapeRecord, around: Around) -> NextStep | None:
    return _to(Station.LOOKED_OVER)


def _looked_over(tape: TapeRecord, around: Around) -> NextStep | None:
    return _held(tape) or _mended(tape) or _to(Station.CLEARED_TO_PLAY)


def _at_the_bench(tape: TapeRecord, around: Around) -> NextStep | None:
    """Clearing a tape at the bench says that its repairs are done, but for a splice and a look due."""
    return _held(tape) or _repair(tape) or _to(Station.CLEARED_TO_PLAY)


def _cleared(tape: TapeRecord, around: Around) -> NextStep | None:
    if tape.rests_until is not None and tape.rests_until > around.now:
        return None
    return _held(tape) or _mended(tape) or _to(Station.PLAYING)


def _playing(tape: TapeRecord, around: Around) -> NextStep | None:
    return _to(Station.BEING_CHECKED)


def _being_checked(tape: TapeRecord, around: Around) -> NextStep | None:
    if around.files is None:
        return None
    if around.files and tape.signed_off_by is None:
        return NextStep(Doing.SIGN_OFF)
    is_recorded = tape.played_minutes is not None or tape.is_counted
    if not around.files and (not is_recorded or (around.wants_file and not tape.is_counted)):
        return NextStep(Doing.READ_FILE)
    return _to(Station.READY) if is_recorded else NextStep(Doing.SETTLE)


def _asking(tape: TapeRecord, around: Around) -> NextStep | None:
    if around.is_over is None:
        return None
    if around.is_over:
        return NextStep(Doing.CALL)
    return None if _held(tape) is not None else _to(Station.LOOKED_OVER)


def _kept_apart(tape: TapeRecord, around: Around) -> NextStep | None:
    return _to(Station.LOOKED_OVER)


def _cannot_be_played(tape: TapeRecord, around: Around) -> NextStep | None:
    return _label(tape)


def _held(tape: TapeRecord) -> NextStep | None:
    """What stands in the way of any repair: nobody here can play it, or its owner is to be asked."""
    judged = condition.verdict(tape.open_findings, tape.format, tape.verdict.elsewhere)
    if judged.elsewhere is not None:
        return NextStep(Doing.SETTLE)
    if judged.outcome is Outcome.CANNOT:
        return _to(Station.CANNOT_BE_PLAYED)
    return _to(Station.ASKING_THE_CUSTOMER) if isinstance(judged.hold, Hold) else None


def _mended(tape: TapeRecord) -> NextStep | None:
    """A tape away from the bench that has to go there, or only to be looked at after its repair."""
    is_bad = tape.after_repair is not None and tape.after_repair.look is Look.AGAIN
    if is_bad or moves.needing_repair(tape.open_findings, tape.format):
        return _to(Station.AT_THE_BENCH)
    return NextStep(Doing.GOOD_AFTER_REPAIR) if tape.look_due else None


def _repair(tape: TapeRecord) -> NextStep | None:
    """What is to be done at the bench before the tape may be cleared."""
    to_do = still_to_do(tape)
    if moves.needing_splice(tape.open_findings):
        return NextStep(Doing.SPLICE)
    if not tape.look_due:
        return None
    if to_do:
        joins = {condition.SPLICE, condition.RE_ANCHOR}
        return NextStep(Doing.SPLICE if to_do[0].code in joins else Doing.REPAIR)
    return NextStep(Doing.GOOD_AFTER_REPAIR)


def _to(station: Station) -> NextStep:
    return NextStep(Doing.MOVE, station)


_IN_LINE = {
    Station.BOOKED_IN: _booked_in,
    Station.LOOKED_OVER: _looked_over,
    Station.AT_THE_BENCH: _at_the_bench,
    Station.CLEARED_TO_PLAY: _cleared,
    Station.PLAYING: _playing,
    Station.BEING_CHECKED: _being_checked,
    Station.ASKING_THE_CUSTOMER: _asking,
    Station.KEPT_APART: _kept_apart,
    Station.CANNOT_BE_PLAYED: _cannot_be_played,
}
