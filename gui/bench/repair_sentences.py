"""What the bench says of a repair: one line a joint, a try, a look."""

from __future__ import annotations

from core.model.names import Look, Measure
from core.model.ranges import Range
from core.model.repair_records import RepairAttempt, Splice, StruckSplice
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.playtime import cuts
from core.playtime.places import Place
from gui.toolkit.text import moment, say


def seconds(value: float) -> str:
    """A length of recording as it is told: two figures below ten seconds."""
    return f"{value:.2f}" if value < 1 else f"{value:.1f}" if value < 10 else f"{value:.0f}"


def lost(likely: float, believed: Range | None) -> str:
    """Seconds, from and to where the speed is not known."""
    if believed is None or seconds(believed.low) == seconds(believed.high):
        return seconds(likely)
    return say("repair", "from_to", low=seconds(believed.low), high=seconds(believed.high))


def splice_words(tape: TapeRecord, splice: Splice, timezone: str) -> str:
    """One joint in one line, with whether it was made again."""
    told = _splice_words(tape, splice, timezone)
    return say("repair", "redone_line", splice=told) if splice.redone else told


def _splice_words(tape: TapeRecord, splice: Splice, timezone: str) -> str:
    key = "splice_line" if cuts.is_disturbed_known(tape.draft) else "splice_line_unknown"
    return say(
        "repair",
        "leader_line" if splice.in_leader else key,
        at=at(splice),
        cm=f"{splice.cut_cm:g}",
        joined=spoken(splice.joined_with),
        removed=lost(splice.seconds_removed, splice.removed),
        disturbed=lost(splice.seconds_disturbed, splice.disturbed),
        by=splice.by,
        when=moment(splice.at, timezone),
    )


def at(splice: Splice) -> str:
    """Where a joint lies, as it was measured."""
    if splice.measured is Measure.METRES and splice.at_metres is not None:
        minutes = splice.reckoned or Range(*3 * (splice.at_minutes,))
        return say("repair", "in_metres", metres=f"{splice.at_metres:g}", minutes=_figure(minutes))
    return say("repair", "in_minutes", minutes=f"{splice.at_minutes:g}")


def other_figure(place: Place) -> str:
    """The figure of a place that was not measured."""
    if place.measured is Measure.METRES:
        return f"{_figure(place.minutes)} min"
    return f"{_figure(place.metres)} m"


def joints(tape: TapeRecord, timezone: str) -> tuple[str, ...]:
    """The joints from the head of the tape, and what several cost together."""
    lines = [splice_words(tape, each, timezone) for each in tape.joints]
    if len(lines) > 1:
        removed = cuts.total(tape.splices).removed
        lines.append(say("repair", "all_joints", count=len(lines), removed=lost(removed.likely, removed)))
    return tuple(lines)


def struck_words(struck: StruckSplice, timezone: str) -> str:
    """Who said that a joint was none, and why."""
    return say(
        "repair",
        "struck_line",
        by=struck.by or say("repair", "somebody"),
        when=moment(struck.at, timezone),
        because=struck.because,
    )


def tried_words(tried: RepairAttempt, timezone: str) -> str:
    """One repair in one line."""
    key = "done_line" if tried.succeeded else "failed_line"
    return say("repair", key, what=tried_what(tried), by=tried.by, when=moment(tried.at, timezone))


def tried_what(tried: RepairAttempt) -> str:
    """A repair with its part and its note."""
    what = tried.words[:1].upper() + tried.words[1:]
    if tried.part is not None:
        key = "part_from" if tried.came_from else "part_words"
        what = say("repair", key, what=what, part=tried.part.value, where=tried.came_from)
    return say("repair", "note_words", what=what, note=tried.note) if tried.note else what


def look_words(tape: TapeRecord, timezone: str) -> tuple[str, ...]:
    """What the look after the last repair told, or that it is due; nothing without a repair."""
    after = tape.after_repair
    if after is None:
        return ()
    if after.look is None or after.at is None:
        return (say("repair", "look_due"),)
    key = "look_ok" if after.look is Look.OK else "look_again"
    return (say("repair", key, by=after.by, when=moment(after.at, timezone)),)


def _figure(value: Range) -> str:
    low, high = (f"{each:.0f}" if each >= 10 else f"{each:.2g}" for each in (value.low, value.high))
    return low if low == high else say("repair", "from_to", low=low, high=high)
