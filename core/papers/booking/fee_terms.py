"""Fees as sentences of the terms: for looking over, and for keeping what nobody picks up."""

from __future__ import annotations

from core.model.quote_records import Price
from core.papers.voice import Voice


def fee_sentences(price: Price, speaker: Voice) -> tuple[str, ...]:
    """The fees that the price book of this price names; none where it names none."""
    return (*_inspection(price, speaker), *storage_sentences(price, speaker))


def storage_sentences(price: Price, speaker: Voice) -> tuple[str, ...]:
    """The storage fee with its days, deferring to the law; nothing where the shop charges none."""
    fee = price.storage_fee
    if fee is None:
        return ()
    money = speaker.money(fee.minor, price.currency)
    return (speaker.say(f"fee-storage-{fee.per.value}", days=fee.after_days, money=money),)


def _inspection(price: Price, speaker: Voice) -> tuple[str, ...]:
    fee = price.inspection_fee
    if fee is None:
        return ()
    money = speaker.money(fee.minor, price.currency)
    return (speaker.say(f"fee-inspection-{fee.way.value}", money=money),)
