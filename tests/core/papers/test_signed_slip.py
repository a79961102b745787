"""The claim slip with the agreement on it: one page, or none where they need a page each."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.agreement_records import AgreedHow, Consent
from core.model.job_records import Job
from core.papers.booking import signed_slip
from core.papers.booking.claim_slip import STUB
from core.papers.typesetting.paper_tokens import NARROW
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf


@pytest.fixture(scope="module")
def job() -> Job:
    consent = Consent(records.CUSTOMER.name, AgreedHow.SIGNATURE, records.signature().strokes)
    return replace(records.job(6), told=("the tapes are old",), consent=consent)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_six_tapes_are_claimed_and_agreed_on_one_page(job: Job, size: str) -> None:
    paper = signed_slip.render(job, records.FRONT, paper=size)
    assert paper is not None
    (said,) = pdf.pages(paper)
    for tape in job.tapes:
        assert tape_code(tape.code) in said.replace("\N{NO-BREAK SPACE}", " ")
    for key in ("agreement-yes", "slip-bring", "slip-stub", "law"):
        assert say("paper", key) in said
    assert "The tapes are old." in said
    width, height = pdf.size(paper)
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        assert NARROW - 1 <= left <= right <= width - NARROW + 1, text
        assert bottom > STUB or top < STUB + 8, text
        assert NARROW <= bottom <= top <= height - NARROW + 8, text


@pytest.mark.parametrize("dpi", [203, 300])
def test_both_numbers_are_read_above_and_below_the_cut(job: Job, dpi: int) -> None:
    paper = signed_slip.render(job, records.FRONT)
    assert paper is not None
    read = pdf.scanned(paper, dpi)
    assert [text for _, text in read] == [job.number] * 4


def test_the_same_order_gives_the_same_bytes(job: Job) -> None:
    assert signed_slip.render(job, records.FRONT) == signed_slip.render(job, records.FRONT)


def test_what_does_not_fit_is_no_paper_at_all() -> None:
    long = replace(records.job(60), told=tuple(f"sentence {number}" for number in range(40)))
    assert signed_slip.render(long, records.FRONT) is None
