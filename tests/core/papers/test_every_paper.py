"""What holds for every paper: same record same bytes, all fonts inside, nothing outside the margins."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from core.model.errors import WrongInput
from core.model.job_records import Job, Payment
from core.model.own_shop.settings_records import ShopFront
from core.papers import incident_report, key_paper, token_paper
from core.papers.bench import job_sheet
from core.papers.booking import claim_slip, drop_off_agreement, quote_paper, what_has_changed
from core.papers.handover import delivery_list, not_saved, receipt, refund_slip, reminder, roll_receipt
from core.papers.stickers import labels
from core.papers.typesetting.paper_tokens import MARGIN, NARROW
from core.wording.messages import say
from tests.core.papers import found_tapes
from tests.support import invented_job as records
from tests.support import pdf

Paper = Callable[[ShopFront, str], bytes]


def _abroad(front: ShopFront) -> ShopFront:
    """For a paper without a customer."""
    return replace(front, address=(*front.address, "Łódź"))


def _refunded() -> tuple[Job, Payment, str]:
    back = Payment("refund", -2500, records.PICKED_UP_AT, "Ada")
    job = records.job()
    return replace(job, payments=(*job.payments, back)), back, "one tape was lost"


PAPERS: dict[str, Paper] = {
    "quote": lambda front, size: quote_paper.render(records.quote(), front, paper=size),
    "slip": lambda front, size: claim_slip.render(records.job(), front, paper=size),
    "labels": lambda front, size: labels.render(records.job(), front, paper=size),
    "delivery list": lambda front, size: delivery_list.render(
        records.job(), records.captured(), front, paper=size
    ),
    "receipt": lambda front, size: receipt.render(records.pickup(), front, paper=size),
    "incident report": lambda front, size: incident_report.render(
        records.job(), records.incident(), front, paper=size
    ),
    "agreement": lambda front, size: drop_off_agreement.render(records.job(), front, paper=size),
    "key of the backups": lambda front, size: key_paper.render(
        "AGE-SECRET-KEY-1" + "Q" * 58, "age1" + "q" * 58, date(2026, 3, 12), _abroad(front), paper=size
    ),
    "token of a person": lambda front, size: token_paper.render(
        "twt_" + "Wm" * 21 + "9",
        "nightly backup",
        "Łucja Núñez",
        date(2026, 6, 12),
        _abroad(front),
        paper=size,
    ),
    "job sheet": lambda front, size: job_sheet.render(records.job(), front, paper=size),
    "refund slip": lambda front, size: refund_slip.render(*_refunded(), front, paper=size),
    "reminder": lambda front, size: reminder.render(
        records.job(),
        reminder.Waiting(date(2026, 4, 20), date(2026, 3, 12), 26697, 450),
        front,
        paper=size,
    ),
    "not saved": lambda front, size: not_saved.render(
        found_tapes.pickup(8).job, (records.incident(),), front, paper=size
    ),
    "roll receipt": lambda front, size: roll_receipt.render(records.pickup(), front),
    "what has changed": lambda front, size: what_has_changed.render(*records.change(), front, paper=size),
}
EDGE = MARGIN - 24
"""The page number and the short head of later pages stand this far out."""

ODD_NAMES = (
    "שלום כהן (Tel Aviv) 12",
    "محمد العربي",
    "Zoë 🎞️ 山田太郎",
    "अनीता शर्मा हिन्दी",
    "김철수 陈伟",
    "A" * 300,
    "Ana " * 80,
    "tab\tnew\nline\x00\x07",
    "x " * 4000,
)

every_paper = pytest.mark.parametrize("make", PAPERS.values(), ids=PAPERS)


@every_paper
def test_the_same_record_gives_the_same_bytes(make: Paper) -> None:
    assert make(records.FRONT, "a4") == make(records.FRONT, "a4")


def test_another_process_with_another_hash_seed_gives_the_same_bytes() -> None:
    here = {
        name.replace(" ", "-"): hashlib.sha256(make(records.FRONT, "letter")).hexdigest()
        for name, make in PAPERS.items()
    }
    program = (
        "import hashlib; from tests.core.papers.test_every_paper import PAPERS, records\n"
        "for name, make in PAPERS.items():\n"
        "    print(name.replace(' ', '-'), hashlib.sha256(make(records.FRONT, 'letter')).hexdigest())"
    )
    root = Path(__file__).parents[3]
    environment = os.environ | {"PYTHONHASHSEED": "4711", "TZ": "Asia/Tokyo"}
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=root, env=environment, capture_output=True, text=True, check=True
    )
    assert dict(line.split() for line in done.stdout.splitlines()) == here


@every_paper
def test_every_font_is_inside_the_file(make: Paper) -> None:
    found = pdf.fonts(make(records.FRONT, "a4"))
    assert found
    assert all(found.values()), found


@every_paper
def test_the_file_says_what_it_is_whose_it_is_and_in_which_language(make: Paper) -> None:
    said = pdf.about(make(records.FRONT, "a4"))
    assert said["title"]
    assert said["author"] == records.FRONT.name
    assert said["language"] == "en"
    assert said["shows title"].lower().strip("/") == "true"


@every_paper
def test_letters_beyond_english_are_real_letters(make: Paper) -> None:
    said = pdf.words(make(records.FRONT, "a4"))
    assert "Łódź" in said or "Łucja Núñez-Brandt" in said
    assert "\ufffd" not in said


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_a_long_receipt_goes_on_over_pages_within_its_margins(size: str) -> None:
    paper = receipt.render(records.pickup(60), records.FRONT, paper=size)
    width, height = pdf.size(paper)
    pages = pdf.pages(paper)
    assert len(pages) > 3
    for number, said in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}" in said
        assert records.FRONT.name in said
    for tape in records.pickup(60).handed_back:
        assert f"{tape.code[:6]} {tape.code[6:9]} {tape.code[9]}" in " ".join(pages)
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        assert left >= MARGIN - 1, text
        assert right <= width - MARGIN + 1, text
        assert bottom >= EDGE, text
        assert top <= height - EDGE, text


def test_a_table_that_goes_on_repeats_its_heading() -> None:
    pages = pdf.pages(receipt.render(records.pickup(60), records.FRONT))
    with_rows = [said for said in pages if "Copied:" in said]
    assert len(with_rows) > 2
    assert all("What we did" in said for said in with_rows)


@pytest.mark.parametrize("name", ODD_NAMES, ids=lambda name: ascii(name[:12]))
def test_no_name_or_label_breaks_a_paper_or_leaves_its_margins(name: str) -> None:
    pickup = records.pickup()
    tapes = tuple(replace(tape, label=name) for tape in pickup.handed_back)
    odd = replace(
        pickup,
        handed_back=tapes,
        job=replace(pickup.job, customer=replace(pickup.job.customer, name=name), tapes=tapes),
        signature=replace(pickup.signature, name=name),
    )
    paper = receipt.render(odd, records.FRONT)
    width, _ = pdf.size(paper)
    for _, text, (left, bottom, right, _) in pdf.text_boxes(paper):
        assert left >= NARROW - 1, text
        assert right <= width - NARROW + 1, text
        assert bottom >= EDGE - (MARGIN - NARROW), text
    claim_slip.render(odd.job, records.FRONT)
    labels.render(odd.job, records.FRONT)


def test_a_sign_that_no_font_has_is_replaced_where_everyone_can_see_it() -> None:
    job = replace(records.job(), customer=replace(records.CUSTOMER, name="Zoë \N{FILM FRAMES}"))
    assert "Zoë \ufffd" in pdf.words(claim_slip.render(job, records.FRONT))


def test_the_sheet_is_the_usual_one_of_the_shops_money() -> None:
    job = records.job()
    assert pdf.size(claim_slip.render(job, records.FRONT)) == (612, 792)
    euro = replace(records.FRONT, currency="EUR")
    assert pdf.size(claim_slip.render(job, euro)) == pytest.approx((595.3, 841.9), abs=0.1)


def test_an_unknown_sheet_is_refused_by_name() -> None:
    with pytest.raises(WrongInput, match="'a3'; accepted: a4, letter"):
        claim_slip.render(records.job(), records.FRONT, paper="a3")


def test_days_and_money_follow_the_language_of_the_shop() -> None:
    german = replace(records.FRONT, language="de", currency="EUR", timezone="Europe/Berlin")
    said = pdf.words(quote_paper.render(records.quote(), german))
    assert "Donnerstag, 12. März" in said
    assert "376,71 $" in said


@every_paper
def test_every_page_of_a_practice_shop_says_so_all_over_and_no_other_page_does(make: Paper) -> None:
    mark = say("paper", "practice")
    for said in pdf.pages(make(replace(records.FRONT, practice=True), "a4")):
        assert said.count(mark) > 20
    assert mark not in pdf.words(make(records.FRONT, "a4"))


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_codes_are_read_through_the_marks_of_practice(size: str) -> None:
    real = labels.render(records.job(), records.FRONT, paper=size)
    practice = labels.render(records.job(), replace(records.FRONT, practice=True), paper=size)
    assert sorted(pdf.scanned(practice)) == sorted(pdf.scanned(real)) != []
