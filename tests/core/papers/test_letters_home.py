"""Refund slip, reminder, the statement of what could not be saved, and the receipt on a roll."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model.dispositions import Disposition
from core.model.job_records import Payment
from core.papers.handover import not_saved, refund_slip, reminder, roll_receipt
from core.papers.typesetting.paper_tokens import MM
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from tests.core.papers import found_tapes
from tests.support import invented_job as records
from tests.support import pdf

every_sheet = pytest.mark.parametrize("size", ["a4", "letter"])
BACK = Payment("refund", -2500, records.PICKED_UP_AT, "Ada")


@every_sheet
def test_a_refund_slip_says_what_was_given_back_why_and_what_is_paid_after_it(size: str) -> None:
    job = records.job()
    later = replace(BACK, minor=-500, by="Kim")
    paid = replace(job, payments=(*job.payments, BACK, later))
    (said,) = pdf.pages(refund_slip.render(paid, BACK, "one tape was lost", records.FRONT, paper=size))
    assert "Money back $25.00 Why: one tape was lost" in said
    assert "Paid before $100.00 Paid now $75.00" in said
    assert "by Ada" in said


@every_sheet
def test_a_reminder_is_one_page_with_what_is_owed_and_whose_law_goes_first(size: str) -> None:
    waiting = reminder.Waiting(date(2026, 4, 20), date(2026, 3, 12), 26697, 450)
    paper = reminder.render(records.job(), waiting, records.FRONT, paper=size)
    (said,) = pdf.pages(paper)
    assert "Still to pay $266.97" in said or "Still to pay Storage so far $266.97 $4.50" in said
    assert "unclaimed goods allows; that law comes first" in said
    assert ("QRCode", records.NUMBER) in [(kind.replace(" ", ""), text) for kind, text in pdf.scanned(paper)]


def test_a_reminder_without_storage_speaks_of_none() -> None:
    waiting = reminder.Waiting(date(2026, 4, 20), None, 0, 0)
    said = pdf.words(reminder.render(records.job(), waiting, records.FRONT))
    assert "Storage so far" not in said
    assert "We told you so" not in said
    assert "$0.00" in said


@every_sheet
def test_what_could_not_be_saved_is_told_with_its_reason(size: str) -> None:
    job = found_tapes.pickup(8).job
    said = pdf.words(not_saved.render(job, (), records.FRONT, paper=size))
    assert "Of 6 tapes out of 8, all or some could not be saved." in said
    for tape in job.tapes:
        is_told = tape_code(tape.code) in said
        whole = tape.disposition is Disposition.COPIED and not tape.findings
        assert is_told is not (whole or tape.disposition is Disposition.NOTHING_ON_IT)
    assert say("paper", "why-mould") in said
    assert say("paper", "home-mould") in said
    assert "0.8 s were cut away at splices" in said


def test_an_incident_here_is_told_as_it_was_written_down() -> None:
    job = records.job()
    incident = records.incident()
    tapes = tuple(
        replace(tape, disposition=Disposition.DAMAGED if tape.code == incident.tape else Disposition.COPIED)
        for tape in job.tapes
    )
    said = pdf.words(not_saved.render(replace(job, tapes=tapes), (incident,), records.FRONT))
    assert "On Thursday, March 5, 2026 in our shop: Chewed by deck 2 at the end of the reel" in said


def test_a_box_of_which_all_was_saved_has_nothing_to_list() -> None:
    job = records.job(3)
    tapes = tuple(replace(tape, disposition=Disposition.COPIED) for tape in job.tapes)
    said = pdf.words(not_saved.render(replace(job, tapes=tapes), (), records.FRONT))
    assert "could be copied" in said
    assert not_saved.losses(replace(job, tapes=tapes)) == ()


@pytest.mark.parametrize("tapes", [1, 8, 40])
def test_a_receipt_on_a_roll_is_one_long_page_with_all_that_is_on_a_sheet(tapes: int) -> None:
    paper = roll_receipt.render(found_tapes.pickup(tapes), records.FRONT)
    (said,) = pdf.pages(paper)
    width, _ = pdf.size(paper)
    assert width == pytest.approx(80 * MM, abs=0.1)
    for place in range(1, tapes + 1):
        assert tape_code(found_tapes.tape(place).code) in said
    assert "Signed by" in said
    assert "Total $366.97" in said
    if tapes > 1:
        assert said.index("NOT FOR REUSE") < said.index("you get back")
        assert say("paper", "home-mould") in said
    for _, text, (left, _, right, _) in pdf.text_boxes(paper):
        assert 4 * MM - 1 <= left <= right <= width - 4 * MM + 1, text
