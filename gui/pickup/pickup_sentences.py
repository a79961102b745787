"""What the clerk says to the customer at a pickup: which tapes were spliced, and never to play them again."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from core.model.copies import copy_standing
from core.model.dispositions import Disposition
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.wording.locale_figures import figure, listed
from gui.copying import copy_rows
from gui.pickup.checklist import Checklist
from gui.toolkit.text import say
from gui.widgets.tray_rows import tape_title


def sentences(tapes: Sequence[TapeRecord], copies: Sequence[str] = ()) -> tuple[str, ...]:
    """The sentences for these tapes, in the order they are best said, then those about ``copies``; never
    empty."""
    if not tapes:
        return (say("pickup", "tell_none"), *copies)
    spliced = [tape for tape in tapes if tape.not_for_reuse and tape.is_returned]
    told = [_about_splice(tape) for tape in spliced]
    if spliced:
        told.append(say("pickup", "tell_why", count=len(spliced)))
    told += _about_settled(tapes)
    return (*(told or [say("pickup", "tell_nothing")]), *copies)


def about_copies(checklist: Checklist) -> tuple[str, ...]:
    """What is on each copy that goes with only some of the tapes, and which copies are not there yet."""
    titles = {tape.code: tape_title(tape) for tape in checklist.job.tapes}
    told = [
        say(
            "copying",
            "partly",
            copy=copy_rows.title(copy),
            tapes=listed([titles[code] for code in copy.contents.tapes if code in titles]),
        )
        for copy in checklist.partial_copies
    ]
    job = checklist.job
    waiting = copy_standing.unfinished(job) if copy_standing.copied(job) else ()
    missing = [copy_rows.title(each) for each in waiting if each.id not in checklist.copies]
    if missing:
        told.append(say("copying", "not-there", copies=listed(missing), n=len(missing)))
    return tuple(told)


def _about_splice(tape: TapeRecord) -> str:
    title = tape_title(tape)
    if not tape.splices:
        return say("pickup", "tell_repaired", title=title)
    if all(splice.in_leader for splice in tape.splices):
        return say("pickup", "tell_leader", title=title)
    lost = figure(sum(splice.seconds_removed for splice in tape.splices), digits=1)
    if len(tape.splices) == 1:
        at = figure(float(f"{tape.splices[0].at_minutes:.3g}"))
        return say("pickup", "tell_spliced", title=title, at=at, seconds=lost)
    return say("pickup", "tell_spliced_many", title=title, count=len(tape.splices), seconds=lost)


def _about_settled(tapes: Iterable[TapeRecord]) -> Iterator[str]:
    """What became of each tape that was not simply copied, then the notes that are for the customer."""
    for tape in tapes:
        title = tape_title(tape)
        if tape.disposition not in (None, Disposition.COPIED):
            yield say("pickup", f"tell_{tape.disposition.value}", title=title)
        if tape.station is Station.KEPT_APART:
            yield say("pickup", "tell_apart", title=title)
        if tape.told_note:
            yield say("pickup", "tell_note", title=title, note=tape.told_note)
