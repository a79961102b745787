"""What a caller hears besides where their tapes are: what is owed, and when the shop is open."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from core.model import box_standing
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopSettings
from core.model.quote_records import Price
from core.services import spoken_answer
from core.services.after_ready import opening_words
from core.wording import locale_figures
from core.wording.messages import say


def told(job: Job, price: Price, settings: ShopSettings, now: datetime) -> tuple[str, ...]:
    """Whole sentences; none for an order that is home and paid. ``now`` on the shop's own clock."""
    return tuple(filter(None, _sentences(job, price, settings, now)))


def _sentences(job: Job, price: Price, settings: ShopSettings, now: datetime) -> Iterator[str]:
    yield _held_up(job, now)
    yield _owed(job, price)
    if job.is_open and (job.promise.day is not None or any(map(box_standing.may_leave, job.tapes))):
        yield opening_words.next_opening(settings, now)


def _held_up(job: Job, now: datetime) -> str:
    """Why it takes so long, where the day that was promised is not repeated."""
    day, reasons = job.promise.day, job.promise.held_by
    is_sure = day is not None and day >= now.date() and job.promise.stated >= spoken_answer.EVEN
    if not job.is_open or box_standing.waits_for_owner(job) or is_sure or not reasons:
        return ""
    return say("telling", "held_up", why=reasons[0])


def _owed(job: Job, price: Price) -> str:
    owed = price.due.likely - job.paid_minor
    money = locale_figures.money(abs(owed), price.currency)
    if owed < 0:
        return say("telling", "owed_back", money=money) if not job.is_open else ""
    if not owed:
        return say("telling", "paid") if job.is_open else ""
    is_final = box_standing.may_be_collected(job) or not job.is_open
    return say("telling", "owed" if is_final else "owed_so_far", money=money)
