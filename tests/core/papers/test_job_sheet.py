"""The job sheet says at the bench what was found, what to do and what to be careful of, and scans."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.job_records import Job
from core.papers.bench import job_sheet
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from tests.core.papers import found_tapes
from tests.support import invented_job as records
from tests.support import pdf


@pytest.fixture(scope="module")
def job() -> Job:
    return found_tapes.pickup(8).job


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("dpi", [203, 300])
def test_a_scanner_reads_the_bars_of_each_tape_and_the_code_of_the_order(
    job: Job, size: str, dpi: int
) -> None:
    """203 and 300 dpi: what printers of labels and of offices have."""
    read = pdf.scanned(job_sheet.render(job, records.FRONT, paper=size), dpi)
    assert sorted(text for kind, text in read if kind == "Code128") == sorted(each.code for each in job.tapes)
    assert [text for kind, text in read if kind != "Code128"] == [job.number]


def test_each_tape_has_what_was_found_what_to_do_and_three_lines_to_write_on(job: Job) -> None:
    said = pdf.words(job_sheet.render(job, records.FRONT))
    for tape in job.tapes:
        assert tape_code(tape.code) in said
        assert tape.label in said
        assert all(repair.words.lower() in said.lower() for repair in tape.verdict.repairs)
    for name in ("played", "found", "by"):
        assert said.count(say("paper", f"bench-write_{name}")) >= len(job.tapes)


def test_each_hazard_is_told_once_over_the_work(job: Job) -> None:
    said = pdf.words(job_sheet.render(job, records.FRONT))
    cautions = {caution for tape in job.tapes for caution in tape.verdict.cautions}
    assert cautions
    for caution in cautions:
        assert said.count(caution) == 1
    assert said.index(say("paper", "bench-cautions")) < said.index(say("paper", "bench-to_do"))


def test_sound_tapes_bring_no_panel_of_cautions(job: Job) -> None:
    sound = replace(job, tapes=job.tapes[:1])
    assert say("paper", "bench-cautions") not in pdf.words(job_sheet.render(sound, records.FRONT))


def test_a_rush_order_says_so(job: Job) -> None:
    assert say("paper", "slip-rush") in pdf.words(job_sheet.render(replace(job, rush=True), records.FRONT))
    assert say("paper", "slip-rush") not in pdf.words(job_sheet.render(job, records.FRONT))
