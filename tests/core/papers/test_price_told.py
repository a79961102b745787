"""What is taxed, rounded, exempt or charged besides the work is told on every paper with a price."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from core.model.money import MoneyRange, flat
from core.model.price_terms import InspectionFee, InspectionWay, StorageFee, StoragePeriod, TaxAmount
from core.model.quote_records import Price
from core.papers.booking import claim_slip, quote_paper
from core.papers.booking.fee_terms import fee_sentences
from core.papers.handover import receipt
from core.papers.voice import voice
from tests.support import invented_job as records
from tests.support import pdf

BEFORE = records.quote().price


def on_quote(price: Price) -> str:
    return pdf.words(quote_paper.render(replace(records.quote(), price=price), records.FRONT, detail=True))


def on_slip(price: Price) -> str:
    job = records.job()
    return pdf.words(claim_slip.render(replace(job, quote=replace(job.quote, price=price)), records.FRONT))


def on_receipt(price: Price) -> str:
    return pdf.words(receipt.render(replace(records.pickup(), final=price), records.FRONT))


def test_each_tax_has_a_line_of_its_own_and_says_on_what_it_is_charged() -> None:
    taxes = (
        TaxAmount("state tax 6.25%, added", "6.25", BEFORE.net, MoneyRange(1894, 2175, 2681)),
        TaxAmount("city tax 2%, added", "2", MoneyRange(1000, 1500, 2000), MoneyRange(20, 30, 40)),
    )
    price = replace(BEFORE, taxes=taxes)
    for said in (on_quote(price), on_receipt(price)):
        assert "State tax 6.25%, added $18.94 $21.75 $26.81" in said
        assert "City tax 2%, added on $10.00 to $20.00 $0.20 $0.30 $0.40" in said
        assert "Sales tax" not in said


def test_a_rounding_stands_between_the_total_and_what_is_to_be_paid() -> None:
    price = replace(BEFORE, rounding=MoneyRange(0, -1, 1))
    for said in (on_quote(price), on_receipt(price)):
        assert (
            "Total $328.00 $376.71 $464.39 Rounding $0.00 −$0.01 $0.01 To pay $328.00 $376.70 $464.40" in said
        )
    assert on_quote(price).index("$376.70") < on_quote(price).index("Your tapes")
    assert "$328.00 to $464.40" in on_slip(price)
    assert "Rounding" not in on_quote(BEFORE) + on_receipt(BEFORE)


@pytest.mark.parametrize("paper", [on_quote, on_receipt])
def test_an_exempt_customer_reads_why_there_is_no_tax(paper: Callable[[Price], str]) -> None:
    told = "no tax, exempt: certificate 12-345"
    exempt = replace(BEFORE, tax=flat(0), gross=BEFORE.net, tax_words=told, exempt="certificate 12-345")
    assert "Before tax $303.00 $348.00 $429.00 No tax, exempt: certificate 12-345 $0.00 $0.00 $0.00" in paper(
        exempt
    )
    assert "Price with tax" not in on_slip(exempt)


@pytest.mark.parametrize("paper", [on_quote, on_receipt])
def test_where_no_tax_is_charged_none_is_mentioned(paper: Callable[[Price], str]) -> None:
    said = paper(replace(BEFORE, tax=flat(0), gross=BEFORE.net, tax_words=""))
    assert "Before tax" not in said
    assert "ales tax" not in said
    assert "Total $303.00 $348.00 $429.00" in said


def test_fees_are_told_in_the_terms_and_the_storage_fee_on_the_slip_and_the_law_comes_first() -> None:
    price = replace(
        BEFORE,
        inspection_fee=InspectionFee(1200, InspectionWay.PER_TAPE),
        storage_fee=StorageFee(150, StoragePeriod.WEEK, 60),
    )
    said = on_quote(price)
    assert "A tape we look over and don't copy costs $12.00 for the inspection." in said
    storage = "within 60 days of hearing it's ready. After that, storage is $1.50 for each week begun"
    assert storage in said
    assert storage in on_slip(price)
    assert "as far as local law on unclaimed goods allows; that law comes first" in on_slip(price)
    assert "storage is" not in on_quote(BEFORE) + on_slip(BEFORE)


@pytest.mark.parametrize("way", InspectionWay)
@pytest.mark.parametrize("per", StoragePeriod)
def test_every_fee_has_its_sentence(way: InspectionWay, per: StoragePeriod) -> None:
    price = replace(BEFORE, inspection_fee=InspectionFee(1, way), storage_fee=StorageFee(1, per, 1))
    assert len(fee_sentences(price, voice(records.FRONT))) == 2
