"""Which pieces hold a box's files for less: against counting them out one by one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import product

import pytest

from core.model.copies.copy_records import FileSystem, OwnDrive
from core.model.inventory import Delivery
from core.model.ranges import Range, exactly
from core.pricing import bitrates, copy_fit, discs, price_book, savings, sticks
from core.pricing.price_book import PriceBook

MOST = 6
"""Nobody wants more pieces than this (our choice)."""


def counted_out(size: int, longest: int, one: int, other: int) -> Iterator[tuple[int, int]]:
    """Pieces of two kinds, one more at a time, until they hold ``size`` whatever the order of the files.

    Files are put on one after the other (next fit), so each piece but the last may stay empty by nearly the
    longest file: of one kind by itself n × one − (n − 1) × longest is sure to be taken, of two kinds
    n × (one − longest) + m × (other − longest).
    """
    for n in range(1, MOST + 1):
        if n * one - (n - 1) * longest >= size:
            yield n, 0
            return
        for m in range(1, MOST - n + 1):
            if n * (one - longest) + m * (other - longest) >= size and other > longest:
                yield n, m
                break


@pytest.mark.parametrize("longest", [0, 1, 3, 5])
def test_two_kinds_of_pieces_are_counted_until_they_hold_all(longest: int) -> None:
    for size, one, other in product(range(longest, 33), (6, 7, 12), (2, 5, 6, 16)):
        if size and longest <= min(one, other):
            found = list(savings._counts(size, longest, one, other))
            assert found == list(counted_out(size, longest, one, other)), (size, longest, one, other)


@pytest.fixture(scope="module")
def book() -> PriceBook:
    return price_book.in_force(date(2026, 3, 1))


def priced(book: PriceBook, **minor: int) -> PriceBook:
    """The book with these pieces only, at so many minor units each."""
    rate = book.media["dvd-r"]
    media = {
        code: replace(rate, minor=Decimal(price), words=code)
        for code, price in ((name.replace("_", "-"), price) for name, price in minor.items())
    }
    return replace(book, media=media)


def offered(book: PriceBook, gigabytes: float, longest: float, tapes: int) -> str:
    """What is offered in place of Blu-ray discs for DV files of so many gigabytes together."""
    minute = 0.0075 * 28.8  # GB of DV in a minute: 28.8 Mb/s (IEC 61834, with sound and subcode, from memory)
    each = [exactly(longest / minute)] * tapes
    told = savings.cheaper(exactly(gigabytes / minute), each, [Delivery("files", "dv", "bd-r")], book)
    return told[0].split(" instead of ")[0] if told else ""


def test_a_file_must_go_onto_every_piece_that_is_offered(book: PriceBook) -> None:
    some = priced(book, bd_r=9000, usb_32=100, usb_64=4000)

    assert offered(some, 40, 12, 4) == "2 × usb-32"
    assert offered(some, 40, 40, 1) == "1 × usb-64"


@pytest.mark.parametrize(("dearer", "is_told"), [(7900, True), (8000, True), (8100, False), (8300, False)])
def test_a_fifth_is_the_least_saving_worth_a_sentence(book: PriceBook, dearer: int, is_told: bool) -> None:
    """One Blu-ray disc at 100.00; a stick at 80.00 saves exactly the fifth."""
    assert bool(offered(priced(book, bd_r=10000, usb_64=dearer), 20, 20, 1)) is is_told


def test_the_dearest_saving_is_told_first(book: PriceBook) -> None:
    some = priced(book, bd_r=10000, dvd_r=3000, usb_64=1000)
    wanted = [Delivery("files", "h264", "dvd-r"), Delivery("files", "h264", "bd-r")]

    told = savings.cheaper(exactly(120), [exactly(120)], wanted, some)

    assert [sentence.split(" instead of ")[1].split(" would")[0] for sentence in told] == [
        "1 × bd-r",
        "2 × dvd-r",
    ]


def test_a_disc_of_two_layers_is_counted_only_for_tapes_that_need_two_of_one() -> None:
    """DVD-Video of 4 Mb/s at least: 4.7 GB of one layer hold 156 min, 8.5 GB of two some 280."""
    one, two = discs.dvd_minutes(), discs.dvd_minutes(layers=2)
    tapes = (exactly(one), exactly(one * 1.01), exactly(two), exactly(two * 1.01))

    assert dict(savings._layered_dvds(tapes)) == {"dvd-r": 1, "dvd-r-dl": 1 + 1 + 2}


def test_a_file_is_cut_where_it_is_longer_than_a_disc() -> None:
    """2,298,496 sectors of 2,048 bytes (lead-out reported by drives), less 2 MB for the file system."""
    holds = (2_298_496 * 2_048 - 2_000_000) / 1e9
    sizes = [exactly(holds / 2), exactly(holds * 1.5)]

    whole, cut = (
        discs.of_files(Range(1, 1, 1).times(holds * 2), each, "dvd-r", "DV files")
        for each in (sizes[:1], sizes)
    )

    assert not whole.notes
    assert "DVD-R" in cut.notes[0]
    assert "DVD-R" in cut.copies[0].words
    assert f"{holds:.2f}" in cut.notes[0]
    assert f"{holds * 1.5:.2f}" in cut.notes[0]
    assert not discs.of_files(exactly(holds), [exactly(holds)], "dvd-r", "DV files").notes
    assert not discs.of_files(exactly(0), [], "dvd-r", "DV files").notes


def test_a_stick_is_nearly_full_above_nine_tenths_and_full_at_what_formatting_leaves() -> None:
    """Of 64 GB nine tenths are 57.6, and 62.08 what formatting leaves (common practice, no source)."""
    assert [sticks.onto_stick(gb, 64).is_near_full for gb in (57.6, 57.7)] == [False, True]
    assert [sticks.onto_stick(gb, 64).fits for gb in (62.08, 62.09)] == [True, False]
    assert sticks.onto_stick(62, 64).needs_gib == pytest.approx(62e9 / 2**30)
    assert sticks.onto_stick(62, 64).holds_gib == pytest.approx(64e9 / 2**30)


def test_a_customers_drive_is_sold_in_decimal_gigabytes() -> None:
    """64,000,000,000 bytes are 64 GB by definition; 97 in 100 are left (common practice, no source)."""
    assert copy_fit.drive_room(OwnDrive(64 * 10**9, FileSystem.EXFAT)) == pytest.approx(62.08)


def test_the_longest_file_decides_though_the_others_are_short(book: PriceBook) -> None:
    """40 and 10 GB: two sticks of 31 GB would hold them together, and the longer one fits on neither."""
    minute = 0.0075 * 28.8
    some, tapes = priced(book, bd_r=9000, usb_32=100, usb_64=4000), [exactly(gb / minute) for gb in (10, 40)]

    (told,) = savings.cheaper(exactly(50 / minute), tapes, [Delivery("files", "dv", "bd-r")], some)

    assert told.startswith("1 × usb-64")


def test_whoever_brings_a_drive_wants_it_used(book: PriceBook) -> None:
    some = priced(book, own_drive=9000, usb_64=100)

    assert not savings.cheaper(exactly(60), [exactly(60)], [Delivery("files", "h264", "own-drive")], some)


def test_a_set_without_a_price_is_left_alone_even_where_another_costs_nothing(book: PriceBook) -> None:
    assert not offered(priced(book, usb_64=0), 20, 20, 1)


def test_pieces_of_which_the_book_knows_only_some_are_not_offered(book: PriceBook) -> None:
    """Discs of two layers for the long tape, of one for the short: the book sells the one only."""
    told = savings.cheaper(
        exactly(300), [exactly(60), exactly(240)], [Delivery("dvd")], priced(book, dvd_r=3000)
    )

    assert not any("dvd-r-dl" in sentence for sentence in told)


def test_video_dvds_hold_what_an_encoder_uses_and_no_more_than_they_can() -> None:
    """An encoder uses 8 Mb/s at most: 1.8 GB in half an hour, 3.6 in one (Mb/s × minutes × 0.0075). 37.6 Gbit
    of one layer are 4.7 GB (÷ 8), which two hours and a half fill at a lower rate."""
    page = bitrates.page()["dvd_video"]
    usual, full = float(page["usual_mb_s"]), float(page["dvd_5_gbit"]) / 8

    found = discs.video_dvds([Range(30, 60, 150)])

    assert full == pytest.approx(4.7, rel=0.02)
    assert found.gigabytes.low == pytest.approx(usual * 30 * 0.0075)
    assert found.gigabytes.likely == pytest.approx(min(full, usual * 60 * 0.0075))
    assert found.gigabytes.high == pytest.approx(full)
    assert discs.video_dvds([exactly(400)]).gigabytes.likely == pytest.approx(3 * full)


@pytest.mark.parametrize(("minutes", "count"), [(60, 1), (417, 1), (418, 2)])
def test_video_blurays_are_counted_by_their_bytes(minutes: float, count: int) -> None:
    """8 Mb/s are 0.06 GB a minute; 12,219,392 sectors of 2,048 bytes are 25.025 GB (public drive tests)."""
    found = discs.video_blurays(exactly(minutes))

    assert found.gigabytes.likely == pytest.approx(minutes * 0.06)
    assert found.discs == exactly(count)


def test_sticks_are_named_in_gigabytes_and_disks_in_terabytes() -> None:
    assert [sticks.stick_words(*each) for each in (("usb", 64), ("disk", 2000))] == [
        "USB stick, 64 GB",
        "hard disk, 2 TB",
    ]
