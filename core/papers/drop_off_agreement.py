"""The drop-off agreement: the tapes, what was found and told, the price agreed and its limit, terms,
signature."""

from __future__ import annotations

from core.model.agreement_records import Consent
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.model.tape_records import TapeRecord
from core.papers import price_and_day, signing_sheet
from core.papers.binding import Cover, bound, story
from core.papers.paper_tokens import QUIET, STRONG, TITLE, UNIT
from core.papers.receipt import Signed
from core.papers.story import Cell, PaperTable, Story, TableColumn, text_cell
from core.papers.tape_words import expected, full_name, short_code
from core.papers.voice import Voice, voice


def render(job: Job, front: ShopFront, *, paper: str | None = None) -> bytes:
    """As a PDF on ``a4`` or ``letter``, to be printed twice: one for the customer, one stays."""
    speaker = voice(front)
    told = story(speaker, paper)
    _tell_title(told, job, speaker)
    heading = price_and_day.price_head(job.quote.price, speaker)
    price_and_day.tell(told, job.quote, job.promise, job.ceiling_minor, heading, speaker)
    _tell_tapes(told, job, speaker)
    _tell_told(told, job, speaker)
    _tell_terms(told, speaker)
    _tell_signature(told, job, speaker)
    return bound(told, Cover(speaker.say("agreement-title"), job.number), speaker, paper)


def _tell_title(told: Story, job: Job, speaker: Voice) -> None:
    told.say(speaker.say("agreement-title"), TITLE, before=3 * UNIT)
    told.say(speaker.say("agreement-head", number=job.number, name=job.customer.name), STRONG)
    when = {"day": speaker.day_of(job.booked_at), "time": speaker.clock(job.booked_at)}
    told.say(speaker.say("agreement-taken", by=job.booked_by, **when), QUIET, before=0)


def _tell_tapes(told: Story, job: Job, speaker: Voice) -> None:
    told.head(speaker.count("slip-tapes", len(job.tapes)))
    table = PaperTable(
        (
            TableColumn(speaker.say("receipt-code"), 80),
            TableColumn(speaker.say("receipt-tape")),
            TableColumn(speaker.say("quote-expected"), 210),
        ),
        told.width,
    )
    told.table(table, [_row(table, tape, speaker) for tape in job.tapes])


def _row(table: PaperTable, tape: TapeRecord, speaker: Voice) -> tuple[Cell, ...]:
    found = expected(tape.draft, tape.verdict, speaker)
    return table.cell(0, short_code(tape)), table.cell(1, full_name(tape)), table.cell(2, found)


def _tell_told(told: Story, job: Job, speaker: Voice) -> None:
    """What the customer was told before, by whom and when."""
    if not job.told:
        return
    told.head(speaker.say("agreement-told", by=job.booked_by))
    for sentence in job.told:
        told.say(speaker.sentence(sentence), before=UNIT / 4)


def _tell_terms(told: Story, speaker: Voice) -> None:
    """The shop's own words among them: each of these sentences may be its own."""
    told.head(speaker.say("quote-terms"))
    for sentence in signing_sheet.terms(speaker):
        told.say(sentence, before=UNIT / 4)
    told.say(speaker.say("law"), QUIET, before=UNIT / 2)


def _tell_signature(told: Story, job: Job, speaker: Voice) -> None:
    consent = job.consent
    told.say(speaker.say("agreement-yes"), before=2 * UNIT, with_next=True)
    strokes = consent.strokes if consent else ()
    signed = Signed(Signature(consent.who if consent else "", strokes), min(told.width, 300.0))
    line = _signed_line(job, consent, speaker)
    told.add((signed, *text_cell(line, told.width, QUIET)), before=UNIT)
    told.say(speaker.say("agreement-copies"), QUIET, before=UNIT)


def _signed_line(job: Job, consent: Consent | None, speaker: Voice) -> str:
    if consent is None:
        return speaker.say("agreement-sign", name=job.customer.name)
    how, day = consent.how.value, speaker.day_of(job.booked_at)
    return speaker.say("agreement-signed", name=consent.who, how=how, day=day, by=job.booked_by)
