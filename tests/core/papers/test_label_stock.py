"""Labels by the shop’s own measures fit the sheet, have room for their codes, and lie where they should."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Printing
from core.papers.stickers import label_stock, label_test, labels
from core.papers.typesetting.paper_tokens import MM, SIZES
from tests.support import invented_job as records
from tests.support import pdf

OWN = Printing(
    label_stock="sheet",
    label_columns=2,
    label_rows=5,
    label_width_mm=90.0,
    label_height_mm=50.0,
    label_left_mm=12.0,
    label_top_mm=14.0,
    label_gap_across_mm=6.0,
    label_gap_down_mm=1.0,
    label_start=4,
)
FRONT = replace(records.FRONT, printing=OWN, paper="a4")
SINGLE = replace(
    FRONT, printing=replace(OWN, label_stock="single", label_width_mm=62.0, label_height_mm=29.0)
)


def test_labels_lie_where_the_measures_say() -> None:
    label_stock.check(FRONT, "papers")
    job = records.job(4)
    paper = labels.render(job, FRONT)
    assert len(pdf.pages(paper)) == 1
    height = SIZES["a4"][1]
    for place, tape in enumerate(job.tapes[:1], 3):  # three labels are gone already
        row, column = divmod(place, 2)
        left = (12 + column * 96) * MM
        top = height - (14 + row * 51) * MM
        words = [box for _, text, box in pdf.text_boxes(paper) if tape.code[6:9] in text]
        assert any(left <= box[0] and box[2] <= left + 90 * MM for box in words)
        assert any(top - 50 * MM <= box[1] and box[3] <= top for box in words)


def test_a_label_printer_gets_a_page_for_every_label() -> None:
    label_stock.check(SINGLE, "papers")
    job = records.job(3)
    paper = labels.render(job, SINGLE)
    assert pdf.size(paper) == pytest.approx((62 * MM, 29 * MM), abs=0.5)
    stickers = len(job.tapes) + sum(tape.not_for_reuse for tape in job.tapes)
    assert len(pdf.pages(paper)) == stickers


@pytest.mark.parametrize("front", [FRONT, SINGLE, replace(FRONT, printing=Printing())])
def test_every_code_can_be_scanned(front: object) -> None:
    job = records.job(3)
    read = Counter(text for _, text in pdf.scanned(labels.render(job, front)))  # type: ignore[arg-type]
    for tape in job.tapes:
        assert read[tape.code] == 2, tape.code  # bars and QR


def test_the_smallest_label_still_scans() -> None:
    small = replace(
        OWN,
        label_stock="single",
        label_width_mm=label_stock.NARROWEST,
        label_height_mm=label_stock.LOWEST,
    )
    front = replace(FRONT, printing=small)
    label_stock.check(front, "papers")
    job = records.job(2)
    read = {text for _, text in pdf.scanned(labels.render(job, front))}
    assert {tape.code for tape in job.tapes} <= read


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"label_columns": 3}, "papers, label_columns: found 3; labels that fit"),
        ({"label_rows": 6}, "papers, label_rows: found 6; labels that fit"),
        ({"label_width_mm": 44.0}, "papers, label_width_mm: found 44.0; at least 45 mm"),
        ({"label_height_mm": 23.0}, "papers, label_height_mm: found 23.0; at least 24 mm"),
        ({"label_start": 11}, "papers, label_start: found 11; a sheet has places 1 to 10"),
    ],
)
def test_labels_that_cannot_be_are_named(change: dict[str, object], told: str) -> None:
    with pytest.raises(WrongInput) as refused:
        label_stock.check(replace(FRONT, printing=replace(OWN, **change)), "papers")  # type: ignore[arg-type]
    assert told in refused.value.sentence


@settings(max_examples=30, deadline=None)
@given(
    st.integers(1, 6),
    st.integers(1, 12),
    st.floats(45, 120),
    st.floats(24, 80),
    st.floats(0, 20),
    st.floats(0, 20),
)
def test_what_is_accepted_lies_on_the_sheet(
    columns: int, rows: int, width: float, height: float, left: float, top: float
) -> None:
    own = replace(
        OWN,
        label_columns=columns,
        label_rows=rows,
        label_width_mm=width,
        label_height_mm=height,
        label_left_mm=left,
        label_top_mm=top,
        label_start=1,
    )
    front = replace(FRONT, printing=own)
    try:
        label_stock.check(front, "papers")
    except WrongInput:
        return
    grid, size = label_stock.of(front)
    assert grid.left + (columns - 1) * grid.pitch + grid.width <= size[0] + 0.51
    assert grid.top + (rows - 1) * grid.step_down + grid.height <= size[1] + 0.51


def test_the_test_print_numbers_every_label_that_is_left() -> None:
    said = pdf.words(label_test.render(FRONT))
    numbers = [word for word in said.split() if word.isdigit()]
    assert [str(n) for n in range(4, 11)] == sorted(numbers, key=int)
