"""A receipt takes the pages that it deserves, and whoever signs it signs among the tapes."""

from __future__ import annotations

import re

import pytest

from core.papers.handover import receipt
from core.papers.typesetting.paper_tokens import NARROW
from core.wording import locale_figures
from core.wording.messages import say
from tests.core.papers import found_tapes
from tests.support import invented_job as records
from tests.support import pdf

PAGES = {1: 1, 6: 1, 8: 1, 9: 2, 30: 2, 40: 4, 400: 29}
"""At most, by tapes; up to 8 on one page and up to 30 on two are asked for."""

every_sheet = pytest.mark.parametrize("size", ["a4", "letter"])


@every_sheet
@pytest.mark.parametrize("tapes", PAGES)
def test_a_receipt_takes_no_more_pages_than_its_tapes_deserve(tapes: int, size: str) -> None:
    """Seen red for six tapes: three pages, the signature alone on the last."""
    pages = pdf.pages(receipt.render(found_tapes.pickup(tapes), records.FRONT, paper=size))
    assert len(pages) <= PAGES[tapes]
    (signed,) = [said for said in pages if "Signed by" in said]
    assert re.search(r"000018 \d{3} \d", signed)


@every_sheet
def test_a_part_of_a_large_box_is_signed_among_its_tapes(size: str) -> None:
    pages = pdf.pages(receipt.render(found_tapes.pickup(8, still_here=60), records.FRONT, paper=size))
    assert len(pages) <= 2
    (signed,) = [said for said in pages if "Signed by" in said]
    assert re.search(r"000018 \d{3} \d", signed)
    assert "60 tapes are still here" in " ".join(pages)


@pytest.fixture(scope="module")
def said() -> str:
    return pdf.words(receipt.render(found_tapes.pickup(8), records.FRONT))


def test_spliced_tapes_come_first(said: str) -> None:
    codes = re.findall(r"000018 \d{3} \d", said[said.index("you get back") :])
    assert [code[7:10] for code in codes] == ["002", "003", "001", "004", "005", "006", "007", "008"]


@pytest.mark.parametrize(
    "key",
    [
        "home-mould",
        "know-scratched",
        "know-repair-declined",
        "know-nothing-on-it",
        "know-copied-in-part",
        "receipt-not_returned_says",
        "splice-why",
    ],
)
def test_whatever_was_found_has_its_sentence_and_its_caution(said: str, key: str) -> None:
    assert say("paper", key) in said


def test_what_was_agreed_since_booking_is_told_with_who_agreed(said: str) -> None:
    assert "Feb 26: splice the wedding tape, $25.00 (Łucja Núñez-Brandt to Ada)" in said


def test_times_are_told_to_the_second(said: str) -> None:
    assert "Copied: 1:39:21" in said
    assert "Spliced 14:06 from the start" in said
    assert not re.search(r"\d (h|min)\b(?! at)", said)


def test_a_copy_of_some_seconds_is_not_called_no_minutes() -> None:
    assert [locale_figures.play_time(minutes) for minutes in (0.2, 59.999, 61.5)] == [
        "0:12",
        "1:00:00",
        "1:01:30",
    ]


@every_sheet
@pytest.mark.parametrize("tapes", [8, 30])
def test_a_tight_receipt_stays_within_its_margins(tapes: int, size: str) -> None:
    paper = receipt.render(found_tapes.pickup(tapes), records.FRONT, paper=size)
    width, height = pdf.size(paper)
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        assert NARROW - 1 <= left <= right <= width - NARROW + 1, text
        assert NARROW - 24 <= bottom <= top <= height - NARROW + 24, text
