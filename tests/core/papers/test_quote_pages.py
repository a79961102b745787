"""A quote of an ordinary box is one page with a line to sign; how the price adds up is another, if asked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.money import MoneyRange
from core.model.price_ways import FlatOffer, LookFirstOffer, PriceWay, WaysToAgree
from core.model.quote_records import Quote
from core.papers.booking import quote_paper
from core.papers.typesetting.paper_tokens import NARROW
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf

every_sheet = pytest.mark.parametrize("size", ["a4", "letter"])


@pytest.fixture(scope="module")
def quote() -> Quote:
    """Twelve tapes in six lines, all three ways offered."""
    quote = records.quote()
    first = LookFirstOffer(3500, MoneyRange(3500, 37671, 46439))
    return replace(quote, ways=WaysToAgree(quote.price.due, 52000, FlatOffer(42000), first))


@every_sheet
def test_an_ordinary_box_is_quoted_on_one_page_with_its_line_to_sign(quote: Quote, size: str) -> None:
    (page,) = pdf.pages(quote_paper.render(quote, records.FRONT, paper=size))
    assert page.index("$376.71") < page.index("$520.00") < page.index("Your tapes")
    assert f"Signature of {records.CUSTOMER.name}, date" in page
    assert "How the price adds up" not in page


@every_sheet
def test_how_the_price_adds_up_is_on_a_second_page_where_somebody_asks(quote: Quote, size: str) -> None:
    first, second = pdf.pages(quote_paper.render(quote, records.FRONT, paper=size, detail=True))
    assert "Signature of" in first
    assert "How the price adds up" in second
    assert say("paper", "quote-ask_detail") not in first


def test_the_three_ways_to_agree_stand_side_by_side(quote: Quote) -> None:
    said = pdf.words(quote_paper.render(quote, records.FRONT))
    for part in ("$328.00 to $464.39, never over", "$420.00 for everything", "$35.00 if you pick none"):
        assert part in said


def test_the_way_that_was_chosen_is_ticked(quote: Quote) -> None:
    at = [_ticked_at(replace(quote, inventory=replace(quote.inventory, way=way))) for way in PriceWay]
    assert at == sorted(at)
    assert len(set(at)) == len(PriceWay)


def _ticked_at(quote: Quote) -> float:
    """How far from the left the two strokes of the tick stand."""
    boxes = pdf.path_boxes(quote_paper.render(quote, records.FRONT), 0)
    small = [box for box in boxes if 4 < box[2] - box[0] < 10 and 4 < box[3] - box[1] < 10]
    strokes = [box for box in small if small.count(box) == 2]  # dots of the day are single
    assert len(strokes) == 2
    return round(strokes[0][0])


def test_where_one_way_is_offered_nothing_is_to_be_ticked() -> None:
    said = pdf.words(quote_paper.render(records.quote(), records.FRONT))
    assert say("paper", "ways-head") not in said
    assert say("paper", "quote-sign") in said


@every_sheet
def test_a_box_of_forty_kinds_goes_on_within_its_margins(quote: Quote, size: str) -> None:
    tapes = tuple(
        replace(tape, line=number, draft=replace(tape.draft, label=f"box {number}"))
        for number, tape in enumerate((*quote.tapes, *quote.tapes, *quote.tapes, *quote.tapes), 1)
    )
    paper = quote_paper.render(replace(quote, tapes=tapes), records.FRONT, paper=size)
    assert len(pdf.pages(paper)) <= 4
    width, _ = pdf.size(paper)
    for _, text, (left, _, right, _) in pdf.text_boxes(paper):
        assert NARROW - 1 <= left <= right <= width - NARROW + 1, text
