"""The claim slip on roll paper: all of it within the roll, and nothing of the sheet's left out."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from core.model.own_shop.settings_records import ShopFront
from core.papers.booking import claim_slip, roll_slip
from core.papers.typesetting.paper_tokens import MM
from core.services import paper_files
from tests.support import invented_job as records
from tests.support import pdf

WIDTHS = (58, 80, 112)
"""Millimeters; 58 and 80 are the common rolls, 112 the widest (common practice, no source)."""


def front(width: float) -> ShopFront:
    printing = replace(records.FRONT.printing, claim_slip_on="roll", roll_width_mm=width)
    return replace(records.FRONT, printing=printing)


@pytest.mark.parametrize("width", WIDTHS)
def test_everything_lies_within_the_roll(width: int) -> None:
    odd = replace(records.job().customer, name="Wilhelmina Featherstonehaugh-Montgomery " * 3)
    paper = roll_slip.render(replace(records.job(), customer=odd, rush=True), front(width))
    assert pdf.size(paper)[0] == pytest.approx(width * MM)
    assert len(pdf.pages(paper)) == 1
    edge, high = roll_slip.EDGE - 1, pdf.size(paper)[1]
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        assert left >= edge, text
        assert right <= width * MM - edge, text
        assert bottom >= edge - 4, text
        assert top <= high - edge + 4, text


@pytest.mark.parametrize("width", WIDTHS)
def test_it_says_all_that_the_sheet_says(width: int) -> None:
    on_sheet = pdf.words(claim_slip.render(records.job(), records.FRONT)).split()
    on_roll = pdf.words(roll_slip.render(records.job(), front(width))).split()
    assert sorted(set(on_sheet) - set(on_roll) - {"·"}) == []


def test_the_same_order_gives_the_same_bytes_with_every_font_inside() -> None:
    paper = roll_slip.render(records.job(), front(80))
    assert paper == roll_slip.render(records.job(), front(80))
    assert all(pdf.fonts(paper).values())


def test_the_shop_prints_on_what_it_chose(tmp_path: Path) -> None:
    roll = paper_files.one_of_booking("claim_slip", records.job(), front(58), tmp_path).read_bytes()
    assert pdf.size(roll)[0] == pytest.approx(58 * MM)
    sheet = paper_files.one_of_booking("claim_slip", records.job(), records.FRONT, tmp_path).read_bytes()
    assert pdf.size(sheet) == (612, 792)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_test_print_is_as_wide_as_the_roll_and_within_its_frame(width: int) -> None:
    paper = roll_slip.render_test(front(width))
    assert pdf.size(paper)[0] == pytest.approx(width * MM)
    assert f"On a roll {width} mm wide" in pdf.words(paper)
    for _, text, (left, _, right, _) in pdf.text_boxes(paper):
        assert 2 * roll_slip.EDGE - 1 <= left < right <= width * MM - 2 * roll_slip.EDGE + 1, text
