"""The refund slip: what was given back, why, what is paid after it, and a line for whoever took it."""

from __future__ import annotations

from core.model.job_records import Job, Payment
from core.model.own_shop.settings_records import ShopFront
from core.model.signatures import Signature
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.paper_tokens import LEAD, QUIET, TITLE, UNIT
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Story, sum_cell, text_cell
from core.papers.voice import Voice, voice

_WIDE = 300.0


def render(job: Job, payment: Payment, because: str, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The slip of one refund as a PDF on ``a4`` or ``letter``, dated by it; ``because`` if known."""
    speaker = voice(front)
    told = story(speaker, paper, short=True)
    head = speaker.say("refund-head", number=job.number, name=job.customer.name)
    told.say(head, LEAD, before=2 * UNIT)
    when = {"day": speaker.day_of(payment.at), "time": speaker.clock(payment.at)}
    told.say(speaker.say("refund-given", by=payment.by, **when), QUIET, before=0)
    _tell_sum(told, job, payment, because, speaker)
    told.say(speaker.say("refund-received"), before=2 * UNIT, with_next=True)
    told.add((Signed(Signature("", ()), min(told.width, _WIDE)),), before=UNIT / 2)
    told.say(speaker.say("agreement-sign", name=job.customer.name), QUIET, before=0)
    told.say(speaker.say("law"), QUIET, before=UNIT)
    return bound(told, Cover(speaker.say("refund-title"), job.number), speaker, paper)


def _tell_sum(told: Story, job: Job, payment: Payment, because: str, speaker: Voice) -> None:
    (width,) = told.panel_widths(1)
    currency = job.quote.price.currency
    cell = text_cell(speaker.say("refund-back"), width, QUIET)
    cell += text_cell(speaker.money(-payment.minor, currency), width, TITLE)
    cell += text_cell(speaker.say("refund-because", why=because), width) if because else ()
    told.panel((cell,), (width,))
    before = sum(each.minor for each in _until(job, payment)) - payment.minor
    for key, minor in (("refund-before", before), ("refund-after", before + payment.minor)):
        told.add(sum_cell(speaker.say(key), speaker.money(minor, currency), told.width), before=UNIT / 2)


def _until(job: Job, payment: Payment) -> tuple[Payment, ...]:
    """The payments up to this one; what was paid or given back later stands on other papers."""
    return job.payments[: job.payments.index(payment) + 1]
