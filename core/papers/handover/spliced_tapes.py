"""The part of the receipt about what was done to tapes: joints first, why they matter, then other repairs."""

from __future__ import annotations

from collections.abc import Sequence

from core.model.names import Look, Measure
from core.model.ranges import Range
from core.model.repair_records import RepairAttempt, Splice
from core.model.tape_records import TapeRecord
from core.papers.tape_words import full_name, short_code
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import BODY, QUIET, STRONG, UNIT
from core.papers.typesetting.story import Cell, Gap, Story, text_cell
from core.papers.voice import Voice
from core.playtime import cuts


def tell_spliced(told: Story, tapes: Sequence[TapeRecord], speaker: Voice) -> None:
    """Every tape with its band and its joins, then the reason in kind words. Silent without such tapes."""
    if not tapes:
        return
    told.head(speaker.count("splice-head", len(tapes)))
    for tape in tapes:
        told.add(_tape(tape, told.width, speaker), before=UNIT)
    told.head(speaker.say("splice-why_head"))
    told.say(speaker.say("splice-why"))


def tell_repaired(told: Story, tapes: Sequence[TapeRecord], speaker: Voice) -> None:
    """What was tried on tapes that were not joined. Silent without such tapes."""
    repaired = [tape for tape in tapes if tape.tried and not tape.not_for_reuse]
    if not repaired:
        return
    told.head(speaker.count("repair-head", len(repaired)))
    for tape in repaired:
        name = f"{short_code(tape)} · {full_name(tape)}"
        told.add(text_cell(name, told.width, STRONG) + _tried(tape, told.width, speaker), before=UNIT)


def _tape(tape: TapeRecord, width: float, speaker: Voice) -> Cell:
    name = f"{short_code(tape)} · {full_name(tape)}"
    cell: Cell = (band(speaker.say("band-short"), width), Gap(UNIT / 2), *text_cell(name, width, STRONG))
    for splice in tape.joints:
        cell += text_cell(joined(tape, splice, speaker), width, BODY)
    cell += _tried(tape, width, speaker)
    return cell + text_cell(_marked(tape, speaker), width, QUIET) + (Gap(UNIT / 2),)


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
        return speaker.length(splice.at_minutes)
    minutes = speaker.length(splice.at_minutes)
    if splice.reckoned is not None:
        minutes = speaker.minutes_range(splice.reckoned)
    return speaker.say("splice-at_metres", metres=speaker.number(splice.at_metres, 1), minutes=minutes)


def _seconds(likely: float, believed: Range | None, speaker: Voice) -> str:
    if believed is None:
        return speaker.number(likely, 1)
    low, high = speaker.number(believed.low, 1), speaker.number(believed.high, 1)
    return speaker.say("figures-between", low=low, high=high)


def _tried(tape: TapeRecord, width: float, speaker: Voice) -> Cell:
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
    return speaker.say("splice-marked", day=speaker.day_of(tape.marked_at))
