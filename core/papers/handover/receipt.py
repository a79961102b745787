"""The receipt: what to do with the tapes first, then what was done to them, what it cost, who signed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from core.model.job_records import Pickup
from core.model.names import Finding, FormatName
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.model.tape_records import TapeRecord
from core.papers import price_table
from core.papers.handover import copies_told
from core.papers.handover.spliced_tapes import tell_repaired, tell_spliced
from core.papers.tape_words import became, full_name, short_code, spliced, standing
from core.papers.typesetting import signature_strokes
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import BODY, LINE, MUTED, QUIET, STRONG, TITLE, UNIT, Style
from core.papers.typesetting.story import Cell, Gap, PaperTable, Story, TableColumn, even_cell, text_cell
from core.papers.voice import Voice, voice
from core.wording.record_heads import short_head

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_PAD_HEIGHT = 9 * UNIT
AT_HOME = (Finding.MOULD, Finding.NITRATE, Finding.STICKY, Finding.VINEGAR)
"""Findings that can hurt somebody who takes the tape home."""


def render(pickup: Pickup, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The receipt as a PDF on ``a4`` or ``letter`` (the usual one of the shop's currency by default)."""
    speaker = voice(front)
    told = story(speaker, paper)
    _tell_title(told, pickup, speaker)
    _tell_what_to_do(told, pickup, speaker)
    tell_spliced(told, spliced(pickup.returned), speaker)
    tell_repaired(told, pickup.returned, speaker)
    _tell_at_home(told, pickup, speaker)
    _tell_tapes(told, pickup, speaker)
    _tell_not_returned(told, pickup, speaker)
    _tell_still_here(told, pickup, speaker)
    _tell_copies(told, pickup, speaker)
    _tell_price(told, pickup, speaker)
    _tell_signature(told, pickup, speaker)
    _tell_head(told, pickup, speaker)
    return bound(told, Cover(speaker.say("receipt-title"), pickup.job.number), speaker, paper)


def _tell_title(told: Story, pickup: Pickup, speaker: Voice) -> None:
    told.say(
        speaker.say("receipt-head", number=pickup.job.number, name=pickup.job.customer.name),
        STRONG,
        before=3 * UNIT,
    )
    told.say(
        speaker.say(
            "receipt-handed", day=speaker.day_of(pickup.at), time=speaker.clock(pickup.at), by=pickup.by
        ),
        QUIET,
        before=0,
    )


def _tell_what_to_do(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """The one thing that matters first, on a ground of its own; nothing when no tape goes home."""
    if not pickup.returned and pickup.not_returned:
        return
    (width,) = told.panel_widths(1)
    marked = spliced(pickup.returned)
    if marked:
        cell = even_cell(speaker.count("receipt-do_spliced", len(marked)), width, TITLE)
        cell += (Gap(UNIT), band(speaker.count("band-full", len(marked)), width), Gap(UNIT))
        cell += text_cell(speaker.count("receipt-do_spliced_more", len(marked)), width)
    else:
        cell = even_cell(speaker.things("receipt-do_plain", _formats(pickup.returned)), width, TITLE)
        cell += (Gap(UNIT / 2), *text_cell(speaker.say("receipt-do_plain_more"), width))
    if pickup.copies or any(tape.is_copied for tape in pickup.returned):
        cell += (Gap(UNIT / 2), *text_cell(speaker.say("receipt-two_places"), width))
    told.panel((cell,), (width,))


def _tell_at_home(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """What can hurt somebody at home, and whose rules go first, by the tapes that go back with it."""
    found = [(each, [tape for tape in pickup.returned if each in tape.findings]) for each in AT_HOME]
    if not any(tapes for _, tapes in found):
        return
    told.head(speaker.say("receipt-at_home"))
    for finding, tapes in found:
        if tapes:
            told.say(" · ".join(map(short_code, tapes)), STRONG, before=UNIT, with_next=True)
            told.say(speaker.say(f"home-{finding.value}"), before=0)


def _formats(tapes: Iterable[TapeRecord]) -> list[FormatName]:
    return [tape.format for tape in tapes]


def _tell_tapes(told: Story, pickup: Pickup, speaker: Voice) -> None:
    if not pickup.returned and pickup.not_returned:
        return
    back = pickup.returned
    told.head(speaker.things("receipt-tapes", _formats(back), n=len(back)))
    table = _table(told, speaker.say("receipt-became"), speaker)
    told.table(table, [_tape_row(table, tape, became(tape, speaker), speaker) for tape in pickup.returned])


def _tell_not_returned(told: Story, pickup: Pickup, speaker: Voice) -> None:
    if not pickup.not_returned:
        return
    gone = pickup.not_returned
    told.head(speaker.things("receipt-not_returned", _formats(gone), n=len(gone)))
    table = _table(told, speaker.say("receipt-became"), speaker)
    told.table(
        table, [_tape_row(table, tape, became(tape, speaker), speaker) for tape in pickup.not_returned]
    )
    told.say(speaker.say("receipt-not_returned_says"), before=UNIT)


def _table(told: Story, last: str, speaker: Voice) -> PaperTable:
    columns = (
        TableColumn(speaker.say("receipt-code"), 80),
        TableColumn(speaker.say("receipt-tape")),
        TableColumn(last, 170),
    )
    return PaperTable(columns, told.width)


def _tape_row(table: PaperTable, tape: TapeRecord, now: str, speaker: Voice) -> tuple[Cell, ...]:
    checked = tape.signed_off_by if tape.is_copied else None
    by = speaker.say("became-checked", name=checked) if checked else ""
    last = table.cell(2, now, (by, QUIET), (tape.told_note, QUIET))
    if tape.not_for_reuse and tape.is_returned:
        last += (Gap(UNIT / 4), band(speaker.say("band-short"), table.widths[2]))
    return table.cell(0, short_code(tape)), table.cell(1, full_name(tape)), last


def _tell_still_here(told: Story, pickup: Pickup, speaker: Voice) -> None:
    if not pickup.still_here:
        return
    here = pickup.still_here
    told.head(speaker.things("receipt-still_here", _formats(here), n=len(here)))
    table = _table(told, speaker.say("receipt-where"), speaker)
    told.table(
        table, [_tape_row(table, tape, standing(tape, speaker), speaker) for tape in pickup.still_here]
    )


def _tell_copies(told: Story, pickup: Pickup, speaker: Voice) -> None:
    if not pickup.copies:
        return
    told.head(speaker.say("receipt-copies"))
    older = Counter(copy.words for copy in pickup.copies if not copy.is_followed)
    for words, count in older.items():
        told.say(speaker.say("quote-copy", count=speaker.number(count), words=words), before=UNIT / 4)
    copies_told.tell(told, pickup.job, [copy for copy in pickup.copies if copy.is_followed], speaker)


def _tell_price(told: Story, pickup: Pickup, speaker: Voice) -> None:
    told.head(speaker.say("receipt-price"))
    price_table.tell(told, pickup.final, speaker)
    sums: list[tuple[str, int, Style]] = [
        (
            speaker.say(f"payment-{payment.kind}", day=speaker.day_of(payment.at)),
            payment.minor,
            QUIET,
        )
        for payment in pickup.job.payments
    ]
    sums.append((speaker.say("receipt-paid"), pickup.job.paid_minor, BODY))
    due = "receipt-due" if pickup.due_minor >= 0 else "receipt-owed"
    sums.append((speaker.say(due), abs(pickup.due_minor), STRONG))
    for words, minor, style in sums:
        _tell_sum(told, words, speaker.money(minor, pickup.final.currency), style)
    told.say(speaker.say("law"), QUIET, before=UNIT)


def _tell_sum(told: Story, words: str, money: str, style: Style) -> None:
    widths = (told.width - 100, 88.0)
    cells = (text_cell(words, widths[0], style), text_cell(money, widths[1], style, align="right"))
    told.beside(cells, widths, before=UNIT / 4)


def _tell_signature(told: Story, pickup: Pickup, speaker: Voice) -> None:
    signature = pickup.signature
    told.head(speaker.say("receipt-signed_head"))
    marked = spliced(pickup.returned)
    plain = speaker.things("receipt-told_plain", _formats(pickup.returned))
    said = speaker.count("receipt-told_spliced", len(marked)) if marked else plain
    told.say(said, with_next=True)
    width = min(told.width, 300.0)
    signed = speaker.say(
        "receipt-signed" if signature.strokes else "receipt-signed_name",
        name=signature.name,
        day=speaker.day_of(pickup.at),
        time=speaker.clock(pickup.at),
    )
    told.add((Signed(signature, width), *text_cell(signed, told.width)), before=UNIT)
    for words in _by_what_right(pickup, speaker):
        told.say(words, before=UNIT / 2)


def _tell_head(told: Story, pickup: Pickup, speaker: Voice) -> None:
    """The check number of all records up to here: on paper it is out of reach of whoever alters them."""
    if pickup.head:
        told.say(speaker.say("receipt-check-number", head=short_head(pickup.head)), QUIET, before=UNIT)


def _by_what_right(pickup: Pickup, speaker: Voice) -> Iterator[str]:
    """Who was named beforehand and what was shown, where somebody else than the customer collected."""
    customer, named = pickup.job.customer.name, pickup.named
    if named is not None:
        day = speaker.day_of(named.at)
        yield speaker.say("receipt-named", who=named.words, said_by=named.said_by, day=day, by=named.by)
    if pickup.shown:
        yield speaker.say("receipt-shown", name=pickup.signature.name, customer=customer, what=pickup.shown)


class Signed:
    """The place of the signature, with the strokes on it."""

    height = _PAD_HEIGHT + UNIT / 2

    def __init__(self, signature: Signature, width: float) -> None:
        self.signature = signature
        self.width = width

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        box = (x, y, self.width, _PAD_HEIGHT)
        pen.box(box, line=LINE, round_by=3)
        pen.rule(x + UNIT, y + _PAD_HEIGHT - 1.5 * UNIT, self.width - 2 * UNIT, MUTED, dashed=True)
        inner = (x + UNIT, y + UNIT / 2, self.width - 2 * UNIT, _PAD_HEIGHT - UNIT)
        signature_strokes.draw(pen, inner, self.signature)
