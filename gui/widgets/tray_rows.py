"""Records as pieces in a tray: the words that stand on each row."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime
from typing import TYPE_CHECKING

from core.model.agreement_records import WaitingAnswer
from core.model.copies.copy_records import CopyRecord
from core.model.job_records import CallerMatch
from core.model.names import FormatName
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.wording.locale_figures import tape_code
from gui.toolkit.text import money, phone, say, sentence_case, short_day, since
from gui.widgets.tray import TrayItem

if TYPE_CHECKING:
    from core.services.promises import Kept

_BENCH_ORDER = (
    Station.BEING_CHECKED,
    Station.PLAYING,
    Station.AT_THE_BENCH,
    Station.CLEARED_TO_PLAY,
    Station.LOOKED_OVER,
    Station.BOOKED_IN,
    Station.ASKING_THE_CUSTOMER,
    Station.KEPT_APART,
    Station.CANNOT_BE_PLAYED,
)
"""What to take next: finish what was begun before beginning more."""


def tape_title(tape: TapeRecord) -> str:
    """``VHS T-120 — Christmas 1994``."""
    return f"{shell_words(tape)} — {tape.label}" if tape.label else shell_words(tape)


def shell_words(tape: TapeRecord) -> str:
    """``VHS T-120``."""
    return f"{tape.format_words} {tape.marking}" if tape.marking else tape.format_words


def band_words(tape: TapeRecord) -> str:
    """The words of the band, or nothing when the tape may be used again."""
    if not tape.not_for_reuse:
        return ""
    return say("bench", "band_on" if tape.marked_at else "band_missing")


def shell_of(tape: TapeRecord) -> FormatName:
    """The format whose shell is drawn: the one on the counter, whatever was recorded on it."""
    return tape.format


def tape_piece(tape: TapeRecord, now: datetime, checked: bool | None = None) -> TrayItem:
    """One cassette."""
    parts = [spaced(tape.code), since(tape.since, now)]
    if tape.station is Station.HANDED_BACK:
        parts[1] = say("bench", "gone_home")
    if tape.disposition is not None and spoken(tape.disposition) != spoken(tape.station):
        parts.append(spoken(tape.disposition))
    parts += [spoken(finding) for finding in tape.open_findings]
    return TrayItem(
        key=tape.code,
        title=tape_title(tape),
        small=" · ".join(parts),
        place=spoken(tape.station) if tape.is_returned else "",
        format=shell_of(tape),
        band=band_words(tape),
        checked=checked,
    )


def tape_pieces(tapes: Iterable[TapeRecord], now: datetime) -> list[TrayItem]:
    """The cassettes of a job in their order."""
    return [tape_piece(tape, now) for tape in tapes]


def copy_key(copy: CopyRecord) -> str:
    """The key of a copy in a tray."""
    return f"copy {copy.id}"


def found_piece(found: CallerMatch) -> TrayItem:
    """One job it could be."""
    job = found.job
    small = say("bench", "found_job", number=job.number, count=len(job.tapes), matched=matched_words(found))
    return TrayItem(job.number, job.customer.name, small, "" if job.is_open else say("bench", "handed_back"))


def matched_words(found: CallerMatch) -> str:
    """By what the order was found: ``name``."""
    return say("names", f"matched-{found.matched}")


def to_call_piece(kept: Kept) -> TrayItem:
    """A box whose promise is slipping."""
    job, promised = kept.job, kept.promise.day
    day_words = short_day(promised) if promised is not None else ""
    return TrayItem(job.number, job.customer.name, phone(job.customer.phone or ""), day_words)


def waiting_piece(one: WaitingAnswer) -> TrayItem:
    """A customer whose answer is waited for, with how the price stands."""
    standing = one.standing
    key = "to_call" if one.asking else "to_call_other" if one.tapes_asking else "to_call_copy"
    why = say(
        "agreeing",
        key,
        stands=money(standing.stands_minor, standing.currency),
        ceiling=money(standing.ceiling_minor, standing.currency),
    )
    small = " · ".join(filter(None, (phone(one.phone or ""), why)))
    return TrayItem(one.number, one.customer, small, spoken(Station.ASKING_THE_CUSTOMER))


def spaced(code: str) -> str:
    """A code as it is read: ``000013 001 7`` — the order, the tape, the check digit."""
    return tape_code(code)


def by_station(tapes: Iterable[TapeRecord], now: datetime) -> list[TrayItem]:
    """The tapes at work under the words of their stations, nearest to done first."""
    laid: list[TrayItem] = []
    found = list(tapes)
    for station in _BENCH_ORDER:
        here = [tape for tape in found if tape.station is station]
        if here:
            laid.append(TrayItem("", sentence_case(spoken(station)), place=str(len(here))))
            laid += [replace(tape_piece(tape, now), place="") for tape in here]
    return laid
