"""The drop-off agreement: the tapes, what was found and told, the price agreed and its limit, terms,
signature."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from core.model.agreement_records import Consent
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.model.tape_records import TapeRecord
from core.papers.booking import price_and_day, signing_sheet
from core.papers.tape_words import expected, full_name, short_code
from core.papers.typesetting.binding import Cover, bound, page_count, story
from core.papers.typesetting.paper_tokens import LEAD, QUIET, STRONG, TITLE, UNIT
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Cell, Gap, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice

_TERMS = 0.55
"""The share of the page that the terms take beside the signature."""
_MOST_CODES = 30
"""Of equal tapes in one row."""


def render(job: Job, front: ShopFront, *, paper: str | None = None) -> bytes:
    """As a PDF on ``a4`` or ``letter``, to be printed twice: one for the customer, one stays.

    What is longer than a page ends with the last tapes above the signature: nobody signs an empty page.
    """
    speaker = voice(front)
    told = _told(job, speaker, paper, tapes_first=True)
    if page_count(told, speaker, paper) > 1:
        told.tighten()
    if page_count(told, speaker, paper) > 1:
        told = _told(job, speaker, paper, tapes_first=False)
    return bound(told, Cover(speaker.say("agreement-title"), job.number), speaker, paper)


def _told(job: Job, speaker: Voice, paper: str | None, *, tapes_first: bool) -> Story:
    told = story(speaker, paper)
    _tell_title(told, job, speaker)
    heading = price_and_day.price_head(job.quote.price, speaker)
    price_and_day.tell(told, job.quote, job.promise, job.ceiling_minor, heading, speaker)
    parts = (tell_tapes, tell_told) if tapes_first else (tell_told, tell_tapes)
    for tell in parts:
        tell(told, job, speaker)
    if not tapes_first:
        told.keep_last()
    tell_agreed(told, job, speaker)
    return told


def _tell_title(told: Story, job: Job, speaker: Voice) -> None:
    """The title, beside it whose order it is and who took it in."""
    widths = told.beside_widths(2, 3)
    when = {"day": speaker.day_of(job.booked_at), "time": speaker.clock(job.booked_at)}
    order = text_cell(
        speaker.say("agreement-head", number=job.number, name=job.customer.name), widths[1], STRONG
    )
    order += text_cell(speaker.say("agreement-taken", by=job.booked_by, **when), widths[1], QUIET)
    told.beside((text_cell(speaker.say("agreement-title"), widths[0], TITLE), order), widths, before=2 * UNIT)


def tell_tapes(told: Story, job: Job, speaker: Voice) -> None:
    """What was brought and what was found of it; equal tapes in one row."""
    told.head(speaker.things("slip-tapes", [tape.format for tape in job.tapes], n=len(job.tapes)))
    table = PaperTable(
        (
            TableColumn(speaker.say("receipt-code"), 80),
            TableColumn(speaker.say("receipt-tape")),
            TableColumn(speaker.say("quote-expected"), 170),
        ),
        told.width,
    )
    told.table(table, [_row(table, equal, speaker) for equal in _equal(job.tapes)])


def _equal(tapes: Iterable[TapeRecord]) -> Iterator[Sequence[TapeRecord]]:
    """Tapes that nothing but the code tells apart, a few at a time, so that a page holds a whole row."""
    for _, alike in groupby(tapes, key=lambda tape: (full_name(tape), tape.draft.findings, tape.verdict)):
        group = tuple(alike)
        yield from (group[first : first + _MOST_CODES] for first in range(0, len(group), _MOST_CODES))


def _row(table: PaperTable, tapes: Sequence[TapeRecord], speaker: Voice) -> tuple[Cell, ...]:
    """One tape by its code; equal ones by their number, with their codes below what they are."""
    tape, codes = tapes[0], [short_code(each).replace(" ", "\u00a0") for each in tapes]
    found = table.cell(2, expected(tape.draft, tape.verdict, speaker))
    if len(codes) == 1:
        return table.cell(0, codes[0]), table.cell(1, full_name(tape)), found
    names = table.cell(1, full_name(tape), (", ".join(codes), QUIET))
    return table.cell(0, speaker.things("slip-tapes", [tape.format], n=len(codes))), names, found


def tell_told(told: Story, job: Job, speaker: Voice) -> None:
    """What the customer was told before, by whom and when."""
    if not job.told:
        return
    told.head(speaker.say("agreement-told", by=job.booked_by))
    for sentence in job.told:
        told.say(speaker.sentence(sentence), before=UNIT / 4)


def tell_agreed(told: Story, job: Job, speaker: Voice) -> None:
    """The terms, and beside them who agreed to them."""
    widths = told.beside_widths(_TERMS, 1 - _TERMS)
    told.beside((_terms(widths[0], speaker), _signature(widths[1], job, speaker)), widths, before=2 * UNIT)


def _terms(width: float, speaker: Voice) -> Cell:
    """The shop's own words among them: each of these sentences may be its own."""
    cell = text_cell(speaker.say("quote-terms"), width, LEAD)
    for sentence in signing_sheet.terms(speaker):
        cell += (Gap(UNIT / 4), *text_cell(sentence, width))
    return (*cell, Gap(UNIT / 2), *text_cell(speaker.say("law"), width, QUIET))


def _signature(width: float, job: Job, speaker: Voice) -> Cell:
    consent = job.consent
    strokes = consent.strokes if consent else ()
    signed = Signed(Signature(consent.who if consent else "", strokes), width)
    cell = (*text_cell(speaker.say("agreement-yes"), width), Gap(UNIT / 2), signed)
    cell += text_cell(_signed_line(job, consent, speaker), width, QUIET)
    return (*cell, Gap(UNIT / 2), *text_cell(speaker.say("agreement-copies"), width, QUIET))


def _signed_line(job: Job, consent: Consent | None, speaker: Voice) -> str:
    if consent is None:
        return speaker.say("agreement-sign", name=job.customer.name)
    how, day = consent.how.value, speaker.day_of(job.booked_at)
    return speaker.say("agreement-signed", name=consent.who, how=how, day=day, by=job.booked_by)
