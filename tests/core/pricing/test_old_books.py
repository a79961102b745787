"""A book that says nothing of the newer rules charges what it always did, to the letter."""

from __future__ import annotations

import json

import pytest

from core.model import serialization
from core.model.money import NOTHING
from core.model.quote_records import Price
from core.pricing import price_book
from core.pricing.price_book import PriceBook
from core.pricing.price_rules import Rounding
from tests.core.pricing import old_boxes

KEPT = old_boxes.kept()


def test_every_old_price_is_made_again_to_the_letter() -> None:
    """Field by field as they were written down: charges with reasons and amounts, taxes, ceiling, deposit."""
    made = {name: json.loads(serialization.dumps(price)) for name, price in old_boxes.prices()}
    assert made.keys() == KEPT.keys()
    for name, was in KEPT.items():
        now = {key: value for key, value in made[name].items() if key in was}
        now["charges"] = [{key: each[key] for key in was["charges"][0]} for each in now["charges"]]
        assert json.dumps(now, sort_keys=True) == json.dumps(was, sort_keys=True), name


def test_an_old_price_is_read_and_owes_its_total() -> None:
    for was in KEPT.values():
        read = serialization.record_of(Price, was)
        assert read.due == read.gross
        assert (read.taxes, read.rounding, read.exempt) == ((), NOTHING, "")
        assert (read.inspection_fee, read.storage_fee) == (None, None)


@pytest.mark.parametrize("book", list(old_boxes.books()), ids=lambda book: str(book.name))
def test_an_old_book_has_one_tax_on_everything_no_fee_and_no_rounding(book: PriceBook) -> None:
    assert [rate.on for rate in book.taxes] == [book.tax.on]
    assert book.rounding == Rounding()
    assert not book.inspection_fee.minor + book.storage_fee.minor
    assert not any(rate.minimum for rate in book.capture.values())
    assert price_book.of_document(price_book.document(book), book.name) == book
