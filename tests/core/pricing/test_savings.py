"""Cheaper ways to hand over the same recordings."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model.inventory import Delivery
from core.model.ranges import ZERO, Range, exactly
from core.pricing import charges, copy_sizes, price_book, savings
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode


@pytest.fixture(scope="module")
def book() -> PriceBook:
    return price_book.in_force(date(2026, 3, 1))


def told(book: PriceBook, tapes: list[Range], *deliver: Delivery) -> tuple[str, ...]:
    return savings.cheaper(sum(tapes, ZERO), tapes, deliver, book)


def test_one_stick_is_cheaper_than_ten_discs(book: PriceBook) -> None:
    (sentence,) = told(book, [exactly(60)] * 10, Delivery("files", "h264", "dvd-r"))

    assert sentence == ("1 × USB stick, 32 GB instead of 10 × DVD-R disc would save about $35.00, before tax")


def test_a_disk_is_cheaper_than_three_large_sticks(book: PriceBook) -> None:
    (sentence,) = told(book, [exactly(60)] * 100, Delivery("files", "dv", "usb"))

    assert "1 × hard disk, 2 TB instead of 3 × USB stick, 512 GB" in sentence
    assert "$100.00" in sentence


def test_short_tapes_may_share_a_dvd(book: PriceBook) -> None:
    (sentence,) = told(book, [Range(19, 28, 31)] * 7, Delivery("dvd"))

    assert "several short tapes on one disc, 2 × DVD-R disc instead of 7 × DVD-R disc" in sentence


def test_files_instead_of_dvds_say_what_is_given_up(book: PriceBook) -> None:
    (sentence,) = told(book, [exactly(120)] * 8, Delivery("dvd"))

    assert "not a DVD player" in sentence


def test_files_are_not_offered_twice(book: PriceBook) -> None:
    wanted = (Delivery("dvd"), Delivery("files", "h264", "usb"))

    assert not any("instead of 8 × DVD-R" in each for each in told(book, [exactly(120)] * 8, *wanted))


def test_discs_of_two_layers_for_long_tapes(book: PriceBook) -> None:
    wanted = (Delivery("dvd"), Delivery("files", "h264", "usb"))
    (sentence,) = told(book, [exactly(240)] * 3, *wanted)

    assert "3 × DVD-R DL disc instead of 6 × DVD-R disc" in sentence


def test_the_cheapest_order_is_left_alone(book: PriceBook) -> None:
    assert told(book, [exactly(60)] * 10) == ()
    assert told(book, [exactly(60)], Delivery("dvd")) == ()
    assert told(book, [ZERO], Delivery("dvd"), Delivery("files", "dv", "usb")) == ()
    assert told(book, [exactly(60)] * 10, Delivery("files", "h264", "download")) == ()


def test_what_is_only_cheaper_when_the_tapes_are_short_is_not_said(book: PriceBook) -> None:
    sure, unsure = [exactly(60)] * 4, [Range(20, 60, 360)] * 4
    wanted = Delivery("files", "h264", "dvd-r")

    assert told(book, [exactly(60)] * 5, wanted)
    assert told(book, sure, Delivery("files", "dv", "dvd-r"))
    assert not told(book, unsure, replace(wanted, carrier="usb"))


def test_a_book_without_a_price_for_the_pieces_offers_nothing(book: PriceBook) -> None:
    only_discs = replace(book, media={"dvd-r": book.media["dvd-r"]})

    assert told(only_discs, [exactly(60)] * 10, Delivery("files", "h264", "dvd-r")) == ()
    assert told(replace(book, media={}), [exactly(60)] * 10, Delivery("files", "h264", "dvd-r")) == ()


def test_prices_with_tax_inside_are_told_as_they_are(book: PriceBook) -> None:
    inside = replace(book, tax=replace(book.tax, mode=TaxMode.INSIDE))
    (sentence,) = told(inside, [exactly(60)] * 10, Delivery("files", "h264", "dvd-r"))

    assert sentence.endswith("$35.00")


minutes = st.lists(st.floats(0, 400), min_size=3, max_size=3).map(lambda found: Range(*sorted(found)))


@settings(max_examples=60)
@given(
    st.lists(minutes, min_size=1, max_size=12),
    st.sampled_from(copy_sizes.CODECS),
    st.sampled_from(("usb", "disk", "dvd-r", "bd-r")),
)
def test_a_saving_is_what_the_likely_order_costs_less_the_named_pieces(
    tapes: list[Range], codec: str, carrier: str
) -> None:
    book = price_book.in_force(date(2026, 3, 1))
    order = Delivery("files", codec, carrier)
    for sentence in told(book, tapes, order):
        offered, _ = sentence.split(" instead of ")
        price = sum(
            _price(book, int(n), words) for n, words in re.findall(r"(\d) × ([^×]+?)(?: and|$)", offered)
        )
        now = charges.copies(copy_sizes.made(order, sum(tapes, ZERO), tapes), book)
        cost = sum(charge.amount.likely for charge in now)
        assert f"save about {book.spelled(cost - price)}" in sentence
        assert cost - price >= savings.LEAST_SHARE * cost


def _price(book: PriceBook, count: int, words: str) -> int:
    (rate,) = [rate for rate in book.media.values() if rate.words == words.strip()]
    return count * int(rate.minor)
