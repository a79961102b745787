"""What a receipt says was done to a tape: every splice with what it cost, then other repairs."""

from __future__ import annotations

from core.model.names import Look, Measure
from core.model.ranges import Range
from core.model.repair_records import RepairAttempt, Splice
from core.model.tape_records import TapeRecord
from core.papers.typesetting.paper_tokens import BODY, QUIET
from core.papers.typesetting.story import Cell, text_cell
from core.papers.voice import Voice
from core.playtime import cuts


def splice_cell(tape: TapeRecord, width: float, speaker: Voice) -> Cell:
    """Every join of a tape, and whether its label is on it. Nothing for a tape that was not spliced."""
    if not tape.not_for_reuse:
        return ()
    told = [joined(tape, splice, speaker) for splice in tape.joints]
    return text_cell(" ".join((*told, _marked(tape, speaker))), width)


def joined(tape: TapeRecord, splice: Splice, speaker: Voice) -> str:
    """Where, how, how much was cut away, and what that did to the recording; whether it was redone."""
    told = _joined(tape, splice, speaker)
    return speaker.say("splice-redone", what=told) if splice.redone else told


def _joined(tape: TapeRecord, splice: Splice, speaker: Voice) -> str:
    how = speaker.say(f"join-{splice.joined_with.value}")
    if splice.in_leader:
        return speaker.say("splice-leader_end" if splice.at_minutes > 1 else "splice-leader_start", how=how)
    key = "splice-cut" if splice.cut_cm else "splice-uncut"
    return speaker.say(
        key if cuts.is_disturbed_known(tape.draft) else f"{key}-unknown",
        where=_where(splice, speaker),
        how=how,
        cm=speaker.number(splice.cut_cm, 1),
        removed=_seconds(splice.seconds_removed, splice.removed, speaker),
        disturbed=_seconds(splice.seconds_disturbed, splice.disturbed, speaker),
    )


def _where(splice: Splice, speaker: Voice) -> str:
    """As it was measured; metres with the minutes they are believed to be."""
    if splice.measured is Measure.MINUTES or splice.at_metres is None:
        return speaker.play_time(splice.at_minutes)
    minutes = speaker.play_time(splice.at_minutes)
    if splice.reckoned is not None:
        low, high = map(speaker.play_time, (splice.reckoned.low, splice.reckoned.high))
        minutes = speaker.say("figures-between", low=low, high=high)
    return speaker.say("splice-at_metres", metres=speaker.number(splice.at_metres, 1), minutes=minutes)


def _seconds(likely: float, believed: Range | None, speaker: Voice) -> str:
    if believed is None:
        return speaker.number(likely, 1)
    low, high = speaker.number(believed.low, 1), speaker.number(believed.high, 1)
    return speaker.say("figures-between", low=low, high=high)


def tried_cell(tape: TapeRecord, width: float, speaker: Voice) -> Cell:
    """What else was tried on a tape, and whether it held."""
    cell: Cell = ()
    for tried in tape.tried:
        cell += text_cell(_trial(tried, speaker), width, BODY)
    look = tape.after_repair
    if look is not None and look.look is Look.OK and look.at is not None:
        cell += text_cell(speaker.say("repair-looked", day=speaker.day_of(look.at)), width, QUIET)
    return cell


def _trial(tried: RepairAttempt, speaker: Voice) -> str:
    what = tried.words
    if tried.part is not None:
        name = "repair-part_from" if tried.came_from else "repair-part"
        part = speaker.say(f"part-{tried.part.value}")
        what = speaker.say(name, what=what, part=part, where=tried.came_from)
    return speaker.say("repair-done" if tried.succeeded else "repair-failed", what=what)


def _marked(tape: TapeRecord, speaker: Voice) -> str:
    if tape.marked_at is None:
        return speaker.say("splice-unmarked")
    return speaker.say("splice-marked", day=speaker.short_day(speaker.local(tape.marked_at).date()))
