"""Names in any script are drawn with their own letters, and the same name gives the same bytes."""

from __future__ import annotations

import subprocess
import sys
import unicodedata
from dataclasses import replace
from pathlib import Path

import pytest

from core.papers.bench import job_sheet
from core.papers.booking import claim_slip
from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BODY
from tests.support import invented_job as records
from tests.support import pdf

NAMES = ("山田太郎", "さくら", "陈伟", "김철수", "अनीता", "שלום כהן", "محمد العربي", "Ελένη", "Иван")


@pytest.mark.parametrize("name", NAMES, ids=ascii)
def test_no_letter_of_a_name_is_replaced_by_a_box(name: str) -> None:
    """Seen red: Japanese, Korean, Chinese and Devanagari were printed as boxes."""
    assert lettering.cleaned(name) == unicodedata.normalize("NFC", name)
    job = replace(records.job(3), customer=replace(records.CUSTOMER, name=name))
    for paper in (claim_slip.render(job, records.FRONT), job_sheet.render(job, records.FRONT)):
        assert all(pdf.fonts(paper).values())
        assert "\ufffd" not in pdf.words(paper)


@pytest.mark.parametrize("name", NAMES[:5], ids=ascii)
def test_the_words_of_a_name_are_read_back(name: str) -> None:
    job = replace(records.job(3), customer=replace(records.CUSTOMER, name=name))
    said = unicodedata.normalize("NFC", pdf.words(claim_slip.render(job, records.FRONT)))
    assert name in said


def test_the_letters_of_devanagari_change_places_and_join() -> None:
    """The sign for a short i is written after its letter and drawn before it (The Unicode Standard, 12.1)."""
    placed = lettering.shaped("Lohit-Devanagari", "हि", 10)
    assert placed.index("\N{DEVANAGARI LETTER HA}") == 1
    joined = lettering.measured("क्ष", BODY)
    assert joined < lettering.measured("क", BODY) + lettering.measured("ष", BODY)


def test_a_name_gives_the_same_bytes_whatever_was_printed_before() -> None:
    """Seen red: glyphs without a sign of their own were numbered as they were met."""
    code = (
        "import hashlib, sys; from tests.core.papers.test_other_scripts import slip_of\n"
        "for name in sys.argv[1:]: made = slip_of(name)\n"
        "print(hashlib.sha256(made).hexdigest())"
    )
    orders = (["हिन्दी"], ["क्षत्रिय", "शर्मा", "हिन्दी"])
    digests = {
        subprocess.run(
            [sys.executable, "-c", code, *names],
            capture_output=True,
            text=True,
            check=True,
            cwd=Path(__file__).parents[3],
        ).stdout
        for names in orders
    }
    assert len(digests) == 1


def slip_of(name: str) -> bytes:
    """The claim slip of somebody of that name."""
    job = replace(records.job(1), customer=replace(records.CUSTOMER, name=name))
    return claim_slip.render(job, records.FRONT)
