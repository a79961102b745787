"""The reminder: an order that is ready and waits, what is still to pay, and what keeping it may cost."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.papers.booking.fee_terms import storage_sentences
from core.papers.tape_words import full_name, short_code
from core.papers.typesetting import printed_codes
from core.papers.typesetting.binding import Cover, bound, fitted, story
from core.papers.typesetting.paper_tokens import BODY, LEAD, MM, QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.story import GUTTER, Story, text_cell
from core.papers.voice import Voice, voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_QR = 26 * MM
_NAMED = 12
"""Tapes that are named; of more only how many."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """How an order waits for its owner on the day of the letter."""

    day: date
    told_on: date | None
    """None: nobody has heard yet that it is ready."""
    due_minor: int
    storage_minor: int
    """What the price book charges for keeping it so far; 0: nothing."""


@dataclass(frozen=True, slots=True)
class _NumberCode:
    number: str
    height: float = _QR

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x + width - _QR, y, _QR, self.number)


def render(job: Job, waiting: Waiting, front: ShopFront, *, paper: str | None = None) -> bytes:
    """One page as a PDF on ``a4`` or ``letter``."""
    speaker = voice(front)
    told = fitted(lambda margin: _told(job, waiting, speaker, paper, margin), 1, speaker, paper)
    return bound(told, Cover(speaker.say("reminder-title"), job.number), speaker, paper)


def _told(job: Job, waiting: Waiting, speaker: Voice, paper: str | None, margin: float) -> Story:
    told = story(speaker, paper, margin=margin)
    _tell_head(told, job, waiting, speaker)
    _tell_money(told, job, waiting, speaker)
    told.say(speaker.say("reminder-bring"), before=2 * UNIT)
    told.say(speaker.say("reminder-call", phone=speaker.front.phone))
    for sentence in storage_sentences(job.quote.price, speaker):
        told.say(sentence)
    _tell_tapes(told, job, speaker)
    told.say(speaker.say("law"), QUIET, before=UNIT)
    return told


def _tell_head(told: Story, job: Job, waiting: Waiting, speaker: Voice) -> None:
    widths = (told.width - _QR - GUTTER, _QR)
    cell = text_cell(speaker.full_day(waiting.day), widths[0], QUIET)
    cell += text_cell(job.customer.name, widths[0], STRONG)
    formats = [tape.format for tape in job.tapes]
    cell += text_cell(speaker.things("reminder-ready", formats), widths[0], TITLE)
    cell += text_cell(speaker.say("reminder-order", number=job.number), widths[0], LEAD)
    if waiting.told_on is not None:
        told_on = speaker.say("reminder-told", day=speaker.full_day(waiting.told_on))
        cell += text_cell(told_on, widths[0], BODY)
    told.beside((cell, (_NumberCode(job.number),)), widths, before=3 * UNIT)


def _tell_money(told: Story, job: Job, waiting: Waiting, speaker: Voice) -> None:
    widths = told.panel_widths(1, 1)
    currency = job.quote.price.currency
    due = text_cell(speaker.say("receipt-due"), widths[0], QUIET)
    due += text_cell(speaker.money(max(0, waiting.due_minor), currency), widths[0], TITLE)
    kept = text_cell(speaker.say("reminder-storage"), widths[1], QUIET)
    kept += text_cell(speaker.money(waiting.storage_minor, currency), widths[1], TITLE)
    kept += text_cell(speaker.say("reminder-storage_says"), widths[1])
    told.panel((due, kept if waiting.storage_minor else ()), widths)


def _tell_tapes(told: Story, job: Job, speaker: Voice) -> None:
    here = [tape for tape in job.tapes if tape.station.is_in_the_shop]
    told.head(speaker.things("slip-tapes", [tape.format for tape in here], n=len(here)))
    for tape in here[:_NAMED] if len(here) <= _NAMED else ():
        told.say(f"{short_code(tape)} · {full_name(tape)}", before=0)
