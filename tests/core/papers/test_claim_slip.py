"""The claim slip: a number that is easy to read, to scan and to say, for the customer and for the box."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.job_records import Job
from core.papers.booking import claim_slip
from tests.support import invented_job as records
from tests.support import pdf


@pytest.fixture(scope="module")
def job() -> Job:
    return records.job()


def test_the_number_stands_on_both_parts_in_words_and_in_codes(job: Job) -> None:
    paper = claim_slip.render(job, records.FRONT)
    assert pdf.words(paper).count(job.number) == 2
    assert sorted(pdf.scanned(paper)) == [("Code128", job.number)] * 2 + [("QRCode", job.number)] * 2


def test_the_slip_says_who_what_when_and_how_much(job: Job) -> None:
    said = pdf.words(claim_slip.render(job, records.FRONT))
    for expected in (
        "Łucja Núñez-Brandt",
        "12 tapes",
        "6 VHS, 3 VHS-C, 1 Hi8, 1 MiniDV, 1 Video8",
        "Thursday, March 12",
        "19 chances in 20",
        "Deposit paid $100.00",
        "We won't go over $520.00 without asking you",
        "(202) 555-0142",
        "bring this slip",
    ):
        assert expected in said


def test_a_job_without_a_day_says_so(job: Job) -> None:
    undated = replace(job, promise=replace(job.promise, day=None, chances=()))
    said = pdf.words(claim_slip.render(undated, records.FRONT))
    assert "No day yet" in said
    assert "times in 20" not in said


def test_a_rush_job_is_marked_on_the_stub(job: Job) -> None:
    assert "RUSH" in pdf.words(claim_slip.render(replace(job, rush=True), records.FRONT))
    assert "RUSH" not in pdf.words(claim_slip.render(job, records.FRONT))


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_longest_names_stay_above_the_tear_line(job: Job, size: str) -> None:
    odd = replace(job.customer, name="Wolfeschlegelsteinhausen " * 60)
    tapes = tuple(replace(tape, format_words=f"Kind {n} " * 9) for n, tape in enumerate(job.tapes))
    front = replace(records.FRONT, name="Long Name " * 40, address=("Lane " * 60,))
    paper = claim_slip.render(replace(job, customer=odd, tapes=tapes, rush=True), front, paper=size)
    boxes = {text: box for _, text, box in pdf.text_boxes(paper)}
    (tear,) = [box for text, box in boxes.items() if text.startswith("tear")]
    (last,) = [box for text, box in boxes.items() if text.startswith("If we find")]
    assert last[1] > tear[3]
    assert min(box[1] for box in boxes.values()) > 24
    assert len(pdf.pages(paper)) == 1
