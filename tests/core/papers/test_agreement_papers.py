"""The drop-off agreement and “What has changed”: what they say, read back from the PDF."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.agreement_records import AgreedHow, Consent
from core.model.money import flat
from core.model.price_ways import FlatOffer, PriceWay, WaysToAgree
from core.papers.booking import drop_off_agreement, what_has_changed
from core.papers.typesetting.paper_tokens import MARGIN
from core.wording import locale_figures
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf


def test_the_agreement_names_every_tape_the_limit_and_what_was_told() -> None:
    told = ("the film may tear again", "a splice stays on the tape")
    job = replace(records.job(), told=told, agreed_ceiling_minor=52_000)
    front = replace(records.FRONT, extra_cautions=("Keep cash apart.",))
    said = pdf.words(drop_off_agreement.render(job, front))
    for tape in job.tapes:
        assert tape_code(tape.code) in said
    for words in ("$520.00", "The film may tear again.", "A splice stays on the tape.", "Robin told you"):
        assert words in said
    assert "Keep cash apart." in said
    assert "one stays with us" in said


def test_an_order_agreed_flat_is_signed_as_one_sum() -> None:
    """Until more was agreed since: then the limit is told, and no longer that the sum is all."""
    quote = records.job().quote
    ways = WaysToAgree(quote.price.due, quote.price.ceiling_minor, FlatOffer(quote.price.ceiling_minor))
    quote = replace(quote, inventory=replace(quote.inventory, way=PriceWay.FLAT), ways=ways)
    job = replace(records.job(), quote=quote, agreements=(), agreed_ceiling_minor=None)
    limit = locale_figures.money(quote.price.ceiling_minor, quote.price.currency)
    said = pdf.words(drop_off_agreement.render(job, records.FRONT))
    assert say("paper", "agreed-flat") in said
    assert limit not in said
    raised = replace(job, agreed_ceiling_minor=quote.price.ceiling_minor + 5_000)
    said = pdf.words(drop_off_agreement.render(raised, records.FRONT))
    assert say("paper", "agreed-flat") not in said


def test_what_has_changed_tells_what_is_owed_rounding_in_it() -> None:
    job, version, differences = records.change(2)
    price = version.quote.price
    rounded = replace(version, quote=replace(version.quote, price=replace(price, rounding=flat(3))))
    said = pdf.words(what_has_changed.render(job, rounded, differences, records.FRONT))
    owed = price.gross + flat(3)
    for minor in (owed.low, owed.high):
        assert locale_figures.money(minor, price.currency) in said


def test_who_pays_no_tax_signs_a_price_and_not_one_with_tax() -> None:
    job = records.job()
    exempt = replace(job.quote, price=replace(job.quote.price, exempt="certificate 12"))
    plain, with_tax = (
        pdf.words(drop_off_agreement.render(replace(job, quote=quote), records.FRONT))
        for quote in (exempt, job.quote)
    )
    assert say("paper", "slip-cost") in with_tax
    assert say("paper", "slip-cost") not in plain


SIGNED = Consent("Ada Fenwick", AgreedHow.SIGNATURE, records.signature().strokes)


def _told() -> tuple[str, ...]:
    return tuple(dict.fromkeys(told for tape in records.quote().tapes for told in tape.verdict.told))


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("few", [slice(0, 1), slice(0, 6), slice(6, 12), slice(0, 8)], ids=str)
def test_up_to_eight_tapes_are_signed_for_on_the_page_they_stand_on(few: slice, size: str) -> None:
    """Equal tapes as well as six unlike ones, with all that is told of them."""
    job = replace(records.job(), consent=SIGNED, told=_told())
    job = replace(job, tapes=job.tapes[few])
    paper = drop_off_agreement.render(job, records.FRONT, paper=size)
    (page,) = pdf.pages(paper)
    for words in (*_told(), say("paper", "agreement-yes"), "Ada Fenwick signed on"):
        assert words in page
    assert all(tape_code(tape.code) in page for tape in job.tapes)


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("tapes", [12, 30, 90])
@pytest.mark.parametrize("cautions", [0, 12])
def test_nobody_signs_a_page_without_tapes(tapes: int, size: str, cautions: int) -> None:
    front = replace(records.FRONT, extra_cautions=("Do not leave tapes in a hot car; " * 3,) * cautions)
    job = replace(records.job(tapes), consent=SIGNED, told=_told())
    paper = drop_off_agreement.render(job, front, paper=size)
    last = pdf.pages(paper)[-1]
    assert "Ada Fenwick signed on" in last
    assert tape_code(job.tapes[-1].code) in last
    every = pdf.words(paper)
    assert all(tape_code(tape.code) in every for tape in job.tapes)
    _, high = pdf.size(paper)
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        assert MARGIN - 1 <= left < right <= pdf.size(paper)[0] - MARGIN + 1, text
        assert MARGIN - 24 <= bottom < top <= high - MARGIN / 2, text


@pytest.mark.parametrize("how", AgreedHow)
def test_the_agreement_says_how_somebody_agreed(how: AgreedHow) -> None:
    strokes = records.signature().strokes if how is AgreedHow.SIGNATURE else ()
    job = replace(records.job(), consent=Consent("Ada Fenwick", how, strokes))
    paper = drop_off_agreement.render(job, records.FRONT)
    assert "Ada Fenwick" in pdf.words(paper)
    bare = drop_off_agreement.render(replace(job, consent=None), records.FRONT)
    assert "Signature of Łucja" in pdf.words(bare)
    drawn = [len(pdf.path_boxes(each, len(pdf.pages(each)) - 1)) for each in (paper, bare)]
    assert (drawn[0] > drawn[1]) is (how is AgreedHow.SIGNATURE)


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("tapes", [2, 12, 60])
def test_what_has_changed_is_one_page_within_its_margins(size: str, tapes: int) -> None:
    job, version, differences = records.change(tapes)
    paper = what_has_changed.render(job, version, differences, records.FRONT, paper=size)
    assert len(pdf.pages(paper)) == 1
    width, _ = pdf.size(paper)
    for _, text, (left, bottom, right, _) in pdf.text_boxes(paper):
        assert left >= MARGIN - 1, text
        assert right <= width - MARGIN + 1, text
        assert bottom >= MARGIN - 24, text
    said = pdf.words(paper)
    for words in ("the other half was in the attic", "$650.00", "$400.00", "Total, most likely"):
        assert words in said
    assert ("more line" in said) is (tapes == 60)
