"""The end of a receipt: what it cost at the left, who received it at the right, with the last tapes."""

from __future__ import annotations

from collections.abc import Iterator

from core.model.job_records import Pickup
from core.model.quote_records import Charge
from core.papers import price_table
from core.papers.handover.pickup_sheet import received
from core.papers.typesetting.paper_tokens import BODY, LEAD, QUIET, STRONG, UNIT, Style
from core.papers.typesetting.signature_box import Signed
from core.papers.typesetting.story import Cell, Gap, Story, ruled_gap, sum_cell, text_cell
from core.papers.voice import Voice
from core.wording.record_heads import short_head

_PAD = 7 * UNIT
_SHARES = (54, 46)


def tell(told: Story, pickup: Pickup, speaker: Voice, *, with_reasons: bool) -> None:
    """Both side by side. ``with_reasons``: below each charge stands why it is there.

    A price that is not known yet, while tapes are still here, stands above them with its ranges.
    """
    widths = told.beside_widths(*_SHARES)
    if price_table.is_known(pickup.final):
        left = price_cell(pickup, widths[0], speaker, with_reasons=with_reasons)
    else:
        told.head(speaker.say("receipt-price"))
        price_table.tell(told, pickup.final, speaker)
        left = ()
    left += paid_cell(pickup, widths[0], speaker)
    told.beside((left, signature_cell(pickup, widths[1], speaker)), widths, before=2 * UNIT)


def price_cell(pickup: Pickup, width: float, speaker: Voice, *, with_reasons: bool) -> Cell:
    """Each charge on a line, then the sums. ``with_reasons``: below each stands why it is there."""
    price = pickup.final
    cell = text_cell(speaker.say("receipt-price"), width, LEAD)
    for charge in price.charges:
        money = speaker.money(charge.amount.likely, price.currency)
        cell += sum_cell(_charge_words(charge, price.currency, speaker), money, width)
        # What costs nothing is told with its reason wherever there is one: why a tape is not charged.
        if charge.because and (with_reasons or not charge.amount.likely):
            cell += text_cell(speaker.capital(charge.because), width - 6 * UNIT, QUIET)
    cell += ruled_gap()
    for words, base, amount, style in price_table.sums(price, speaker):
        told = speaker.say("price-tax-base", money=speaker.money_range(base, price.currency)) if base else ""
        named = " ".join(filter(None, (words, told)))
        cell += sum_cell(named, speaker.money(amount.likely, price.currency), width, style)
    return (*cell, Gap(UNIT / 2))


def paid_cell(pickup: Pickup, width: float, speaker: Voice) -> Cell:
    """Every payment, then what is paid and what is owed."""
    cell: Cell = ()
    for words, minor, style in _payments(pickup, speaker):
        cell += sum_cell(words, speaker.money(minor, pickup.final.currency), width, style)
    return cell


def _charge_words(charge: Charge, currency: str, speaker: Voice) -> str:
    """``Copying, per tape: 11 tapes at $20.00``."""
    if not charge.quantity:
        return charge.text
    each = price_table.each(charge, currency, speaker)
    return speaker.say(
        "receipt-charge", what=charge.text, quantity=charge.quantity, each=each, known=len(each)
    )


def _payments(pickup: Pickup, speaker: Voice) -> Iterator[tuple[str, int, Style]]:
    for payment in pickup.job.payments:
        day = speaker.day_of(payment.at)
        yield speaker.say(f"payment-{payment.kind}", day=day), payment.minor, QUIET
    yield speaker.say("receipt-paid"), pickup.job.paid_minor, BODY
    due = "receipt-due" if pickup.due_minor >= 0 else "receipt-owed"
    yield speaker.say(due), abs(pickup.due_minor), STRONG


def signature_cell(pickup: Pickup, width: float, speaker: Voice) -> Cell:
    """What was said yes to, the signature, who signed and by what right."""
    signature, said = pickup.signature, received(pickup.returned, speaker)
    signed = speaker.say(
        "receipt-signed" if signature.strokes else "receipt-signed_name",
        name=signature.name,
        day=speaker.day_of(pickup.at),
        time=speaker.clock(pickup.at),
    )
    cell = text_cell(speaker.say("receipt-signed_head"), width, LEAD) + text_cell(said, width)
    cell += (Gap(UNIT / 2), Signed(signature, width, _PAD), *text_cell(signed, width))
    for words in _by_what_right(pickup, speaker):
        cell += (Gap(UNIT / 4), *text_cell(words, width))
    cell += (Gap(UNIT / 2), *text_cell(speaker.say("law"), width, QUIET))
    if pickup.head:
        # Of all records up to here: on paper it is out of reach of whoever alters them.
        cell += text_cell(speaker.say("receipt-check-number", head=short_head(pickup.head)), width, QUIET)
    return cell


def _by_what_right(pickup: Pickup, speaker: Voice) -> Iterator[str]:
    """Who was named beforehand and what was shown, where somebody else than the customer collected."""
    customer, named = pickup.job.customer.name, pickup.named
    if named is not None:
        day = speaker.day_of(named.at)
        yield speaker.say("receipt-named", who=named.words, said_by=named.said_by, day=day, by=named.by)
    if pickup.shown:
        yield speaker.say("receipt-shown", name=pickup.signature.name, customer=customer, what=pickup.shown)
