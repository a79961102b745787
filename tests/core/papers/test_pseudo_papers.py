"""Every paper of the invented shop in the pseudo-language: no word was left in code, none is cut off."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from core.model import resource_files
from core.papers.booking import claim_slip, quote_paper
from core.papers.handover import receipt
from core.papers.tape_words import surname
from core.papers.typesetting.paper_tokens import MARGIN, NARROW
from tests.support import invented_job as records
from tests.support import pdf
from tests.support.unspoken import Data, unspoken

_KINDS = {"quote", "claim-slip", "agreement", "labels", "receipt", "files"}


@pytest.fixture(scope="module")
def papers(pseudo_demonstration: Path) -> dict[str, bytes]:
    return {file.stem: file.read_bytes() for file in sorted(pseudo_demonstration.glob("papers/*.pdf"))}


def test_there_are_papers_of_every_kind(papers: dict[str, bytes]) -> None:
    assert {stem.rstrip("0123456789-") for stem in papers} == _KINDS


def test_every_word_comes_from_a_wording_file_or_is_data(papers: dict[str, bytes]) -> None:
    data = Data("Tapewright", "Robin", "Sam", *_surnames())
    left = {stem: words for stem, paper in papers.items() if (words := unspoken(pdf.words(paper), data))}
    assert left == {}


def _surnames() -> list[str]:
    """Of the invented customers: labels say them alone."""
    day = resource_files.path("demo", "day.toml").read_text(encoding="utf-8")
    return [surname(name) for name in re.findall(r'"?name"? ?= ?"([^"]+)"', day)]


def test_every_letter_is_in_the_fonts(papers: dict[str, bytes]) -> None:
    assert [stem for stem, paper in papers.items() if "\ufffd" in pdf.words(paper)] == []


def test_longer_sentences_stay_within_the_margins() -> None:
    """On a real shop's papers: the stamp of a practice shop lies over the whole page on purpose."""
    front = replace(records.FRONT, language="xx")
    long_papers = {
        "quote": quote_paper.render(records.quote(), front),
        "claim slip": claim_slip.render(records.job(), front),
        "receipt": receipt.render(records.pickup(60), front),
    }
    outside = {}
    for name, paper in long_papers.items():
        width, height = pdf.size(paper)
        for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
            margin = NARROW if name == "quote" else MARGIN  # one page, so that it may be set tight
            if (
                left < margin - 1
                or right > width - margin + 1
                or bottom < margin - 24
                or top > height - margin + 24
            ):
                outside[name] = text
    assert outside == {}


def test_an_english_word_on_a_pseudo_paper_is_found() -> None:
    """A charge whose text was not said by a wording file stands for any literal of a paper."""
    front = replace(records.FRONT, language="xx")
    quote = records.quote()
    charge = replace(quote.price.charges[0], text="planted literal")
    planted = replace(quote, price=replace(quote.price, charges=(charge,)))
    assert {"planted", "literal"} <= set(
        unspoken(pdf.words(quote_paper.render(planted, front, detail=True)), Data())
    )
