"""What to say to a customer who collects: which tapes were spliced, why they are keepsakes now."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.model.stations import Station
from core.model.tape_records import TapeRecord
from gui.toolkit.text import say
from gui.widgets.tray_rows import tape_title


def sentences(tapes: Sequence[TapeRecord]) -> tuple[str, ...]:
    """The sentences for these tapes, in the order they are best said."""
    if not tapes:
        return (say("pickup", "tell_none"),)
    spliced = [tape for tape in tapes if tape.not_for_reuse]
    told = [_about_splice(tape) for tape in spliced]
    if spliced:
        told.append(say("pickup", "tell_why" if len(spliced) == 1 else "tell_why_many"))
    told += _about_unplayed(tapes)
    return tuple(told) or (say("pickup", "tell_nothing"),)


def unmarked(tapes: Iterable[TapeRecord]) -> tuple[TapeRecord, ...]:
    """Tapes whose not-for-reuse label nobody has confirmed yet."""
    return tuple(tape for tape in tapes if tape.not_for_reuse and tape.marked_at is None)


def astray(tapes: Iterable[TapeRecord]) -> tuple[TapeRecord, ...]:
    """Tapes that carry a not-for-reuse label which no longer belongs on them."""
    return tuple(tape for tape in tapes if tape.label_astray)


def _about_splice(tape: TapeRecord) -> str:
    title = tape_title(tape)
    if not tape.splices:
        return say("pickup", "tell_repaired", title=title)
    if all(splice.in_leader for splice in tape.splices):
        return say("pickup", "tell_leader", title=title)
    lost = f"{sum(splice.seconds_removed for splice in tape.splices):.1f}"
    if len(tape.splices) == 1:
        at = f"{tape.splices[0].at_minutes:.3g}"
        return say("pickup", "tell_spliced", title=title, at=at, seconds=lost)
    return say("pickup", "tell_spliced_many", title=title, count=len(tape.splices), seconds=lost)


def _about_unplayed(tapes: Iterable[TapeRecord]) -> list[str]:
    words = {Station.CANNOT_BE_PLAYED: "tell_cannot", Station.KEPT_APART: "tell_apart"}
    return [
        say("pickup", words[tape.station], title=tape_title(tape)) for tape in tapes if tape.station in words
    ]
