"""What somebody signs at pickup, in words: the receipt prints it, the Customer side shows it beforehand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass

from core.model.job_records import Job
from core.model.names import FormatName, TapeCode
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Price
from core.model.tape_records import TapeRecord
from core.papers.tape_words import full_name, spliced
from core.papers.voice import Voice, voice


@dataclass(frozen=True, slots=True)
class ReturnedTape:
    """One tape that can go home now."""

    format: FormatName
    name: str
    band: str
    """The words of the not-for-reuse label; nothing where it may be used again."""
    is_counted: bool
    """Whether it lies on the counter, checked off."""


@dataclass(frozen=True, slots=True)
class PickupSheet:
    """What the customer is shown at pickup; every field is said as it stands."""

    number: str
    customer: str
    signer: str
    """Who signs."""
    tapes: tuple[ReturnedTape, ...]
    copies: tuple[str, ...]
    """What goes along besides the tapes, as far as it is checked off."""
    waiting: int
    """Tapes of the order that stay here for now."""
    told: tuple[str, ...]
    """What is said to the customer about their tapes."""
    amounts: tuple[tuple[str, str], ...]
    due_head: str
    due: str
    consent: str
    """What the signature says yes to; nothing while nothing is checked off."""
    is_done: bool = False
    """Whether all of it was handed back and signed for."""


def of_job(
    job: Job,
    open_codes: Collection[TapeCode],
    checked: Collection[TapeCode],
    copies: Sequence[str],
    price: Price,
    told: Sequence[str],
    front: ShopFront,
    signer: str,
) -> PickupSheet:
    """``open_codes``: the tapes that can go now; ``checked`` of them lie on the counter, as ``copies`` do."""
    speaker = voice(front)
    going = [tape for tape in job.tapes if tape.code in checked]
    due = price.due.likely - job.paid_minor
    return PickupSheet(
        number=job.number,
        customer=job.customer.name,
        signer=signer,
        tapes=tuple(_returned(tape, checked, speaker) for tape in job.tapes if tape.code in open_codes),
        copies=tuple(_counted(copies, speaker)),
        waiting=sum(tape.code not in open_codes and tape.station.is_in_the_shop for tape in job.tapes),
        told=tuple(told),
        amounts=(
            (speaker.say("receipt-price"), speaker.money(price.due.likely, price.currency)),
            (speaker.say("receipt-paid"), speaker.money(job.paid_minor, price.currency)),
        ),
        due_head=speaker.say("receipt-due" if due >= 0 else "receipt-owed"),
        due=speaker.money(abs(due), price.currency),
        consent=received(going, speaker) if going or copies else "",
        is_done=not open_codes and not any(tape.station.is_in_the_shop for tape in job.tapes),
    )


def received(tapes: Sequence[TapeRecord], speaker: Voice) -> str:
    """What the signature under a receipt for these tapes says."""
    back = [tape for tape in tapes if tape.is_returned]
    marked = spliced(back)
    if marked:
        return speaker.count("receipt-told_spliced", len(marked))
    return speaker.things("receipt-told_plain", [tape.format for tape in back])


def _returned(tape: TapeRecord, checked: Collection[TapeCode], speaker: Voice) -> ReturnedTape:
    is_marked = tape.not_for_reuse and tape.is_returned
    band = speaker.say("band-short") if is_marked else ""
    return ReturnedTape(tape.format, full_name(tape), band, tape.code in checked)


def _counted(copies: Iterable[str], speaker: Voice) -> Iterator[str]:
    for words, count in Counter(copies).items():
        yield speaker.say("quote-copy", count=speaker.number(count), words=words)
