"""Every paper of an order has a door at the command line, and is refused where there is nothing to print."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import pdf
from tests.support.typed import Typist


@pytest.mark.parametrize("paper", ["job-sheet", "labels", "claim-slip", "not-saved"])
def test_a_paper_of_a_booked_order_is_written_and_named(
    typed: Typist, codes: list[str], tmp_path: Path, paper: str
) -> None:
    number = codes[0][:6]
    answer = typed(paper, number, "--paper", tmp_path / "papers").document
    (path,) = answer["papers"]
    assert Path(path).read_bytes().startswith(b"%PDF")
    assert Path(path).name == f"{paper}-{number}.pdf"
    again = typed(paper, number, "--paper", tmp_path / "papers").document
    assert again["papers"] == answer["papers"]  # the same bytes need no second file


@pytest.mark.parametrize("paper", ["receipt", "refund-slip", "reminder"])
def test_a_paper_of_what_has_not_happened_is_refused(
    typed: Typist, codes: list[str], tmp_path: Path, paper: str
) -> None:
    number = codes[0][:6]
    printed = typed(paper, number, "--paper", tmp_path / "papers")
    assert printed.code == 3
    assert number in printed.err
    assert not list((tmp_path / "papers").glob("*.pdf"))


def test_an_order_nobody_knows_and_a_tape_of_another_are_wrong_input(
    typed: Typist, codes: list[str], tmp_path: Path
) -> None:
    number = codes[0][:6]
    assert typed("job-sheet", "000099", "--paper", tmp_path).code == 2
    assert typed("labels", number, "--tape", "0000260014", "--paper", tmp_path).code == 2
    assert typed("labels", number, "--start", "99", "--paper", tmp_path).code == 2


def test_labels_are_printed_one_by_one_or_from_the_first_free_place(
    typed: Typist, codes: list[str], tmp_path: Path
) -> None:
    number = codes[0][:6]
    (single,) = typed("labels", number, "--single", "--paper", tmp_path / "a").document["papers"]
    assert len(pdf.pages(Path(single).read_bytes())) == len(codes)
    (one,) = typed("labels", number, "--tape", codes[0], "--start", "2", "--paper", tmp_path / "b").document[
        "papers"
    ]
    assert {text for _, text in pdf.scanned(Path(one).read_bytes())} == {codes[0]}


def test_money_back_comes_with_its_slip(typed: Typist, box: Path, tmp_path: Path) -> None:
    number = typed("book", box, "--deposit-minor", "1000").document["number"]
    given = typed("refund", number, "--minor", "400", "--because", "went away", "--paper", tmp_path).document
    (path,) = given["papers"]
    said = pdf.words(Path(path).read_bytes())
    assert "Why: went away" in said
    assert typed("refund-slip", number, "--paper", tmp_path / "again").document["refund_minor"] == 400


def test_a_quote_is_written_without_being_booked(typed: Typist, box: Path, tmp_path: Path) -> None:
    (short,) = typed("quote", box, "--paper", tmp_path / "a").document["papers"]
    (long,) = typed("quote", box, "--detail", "--paper", tmp_path / "b").document["papers"]
    pages = [pdf.pages(Path(path).read_bytes()) for path in (short, long)]
    assert [len(each) for each in pages] == [1, 2]
    assert "papers" not in typed("quote", box).document


def test_slip_and_agreement_share_a_page_where_both_fit(
    typed: Typist, codes: list[str], tmp_path: Path
) -> None:
    number = codes[0][:6]
    papers = typed("claim-slip", number, "--agreement", "--paper", tmp_path).document["papers"]
    said = " ".join(pdf.words(Path(path).read_bytes()) for path in papers)
    assert "For the box" in said
    assert "I have read this and agree to it" in said
