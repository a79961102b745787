"""What a label says in words: whose tape it is, what is wrong with it, and whole words only."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.job_records import Job
from core.model.names import Finding
from core.model.own_shop.settings_records import ShopFront
from core.papers.stickers import labels
from core.papers.tape_words import surname
from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BODY
from tests.core.papers import found_tapes
from tests.support import invented_job as records
from tests.support import pdf

every_sheet = pytest.mark.parametrize("size", ["a4", "letter"])
SINGLE = replace(records.FRONT, printing=replace(records.FRONT.printing, label_stock="single"))
SMALLEST = replace(SINGLE, printing=replace(SINGLE.printing, label_width_mm=45, label_height_mm=24))


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Łucja Núñez-Brandt", "Núñez-Brandt"),
        ("Fenwick, Ada", "Fenwick"),
        ("Ada Fenwick, Jr.", "Fenwick"),
        ("Bo Fenwick III", "Fenwick"),
        ("山田太郎", "山田太郎"),
        ("Cher", "Cher"),
        ("", ""),
    ],
)
def test_a_box_is_looked_for_by_its_surname(name: str, said: str) -> None:
    assert surname(name) == said


def with_first(**changes: object) -> Job:
    job = found_tapes.pickup(1).job
    return replace(job, tapes=(replace(job.tapes[0], **changes),))  # type: ignore[arg-type]  # TapeRecord's


@every_sheet
def test_a_label_says_mold_and_snapped_in_words(size: str) -> None:
    """Seen red: a label said nothing of what was found, nor whose tape it was."""
    job = with_first(findings=(Finding.MOULD, Finding.SNAPPED))
    said = pdf.words(labels.render(job, records.FRONT, paper=size))
    assert "MOLD · SNAPPED" in said
    assert "Núñez-Brandt" in said


def test_the_smallest_label_has_the_warning_whole() -> None:
    job = with_first(findings=(Finding.MOULD, Finding.SNAPPED), label="Christmas " * 20)
    said = pdf.words(labels.render(job, SMALLEST))
    assert "MOLD" in said
    assert "SNAPPED" in said
    assert "000018 001 4" in said


def test_a_tape_that_was_spliced_is_not_called_snapped_any_more() -> None:
    job = with_first(findings=(Finding.SNAPPED,), splices=(records.splice(),), not_for_reuse=True)
    said = pdf.words(labels.render(job, records.FRONT))
    assert "SNAPPED" not in said
    assert "NOT FOR REUSE" in said


@every_sheet
def test_two_hundred_letters_end_with_a_whole_word(size: str) -> None:
    words = "Birthday party at the lake house with everybody from school and the neighbors " * 3
    said = pdf.words(labels.render(with_first(label=words), records.FRONT, paper=size))
    last = said.removesuffix("…").split()[-1]
    assert said.endswith("…")
    assert last in words.split()


def test_a_single_word_that_is_too_long_is_cut_with_an_ellipsis() -> None:
    cut = lettering.ended("Donaudampfschifffahrtsgesellschaft", BODY, 60)
    assert cut.endswith("…")
    assert lettering.measured(cut, BODY) <= 60


@pytest.mark.parametrize("dpi", [203, 300])
@pytest.mark.parametrize("front", [records.FRONT, SINGLE, SMALLEST], ids=["sheet", "single", "smallest"])
def test_every_code_of_every_label_is_read_as_printed(front: ShopFront, dpi: int) -> None:
    job = found_tapes.pickup(8).job
    read = pdf.scanned(labels.render(job, front), dpi)
    # The smallest label has no room for the QR code beside whole words.
    for kind in ("Code128",) if front is SMALLEST else ("Code128", "QRCode"):
        codes = [text for found, text in read if found.replace(" ", "") == kind]
        assert sorted(codes) == sorted(tape.code for tape in job.tapes)
