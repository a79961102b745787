"""What the owner says of the shop stands on every paper: logo, greeting, closing sentence, number, color."""

from __future__ import annotations

import base64
import io
from dataclasses import replace

import pikepdf
import pytest
from PIL import Image

from core.model import accents
from core.papers.booking import claim_slip, quote_paper
from core.papers.handover import delivery_list, receipt
from core.papers.typesetting.paper_tokens import SIZES
from tests.support import invented_job as records
from tests.support import pdf


def picture(width: int, height: int, kind: str = "PNG") -> str:
    drawn = io.BytesIO()
    Image.new("RGBA" if kind == "PNG" else "RGB", (width, height), "#14585A").save(drawn, kind)
    return base64.b64encode(drawn.getvalue()).decode()


FRONT = replace(
    records.FRONT,
    email="hello@reel.example",
    tax_number="12-3456789",
    greeting="We treat every tape as if it were our own.",
    closing="Thank you for trusting us.",
    logo=picture(300, 100),
    accent="teal",
)
PAPERS = {
    "quote": lambda front: quote_paper.render(records.quote(), front),
    "slip": lambda front: claim_slip.render(records.job(), front),
    "delivery list": lambda front: delivery_list.render(records.job(), records.captured(), front),
    "receipt": lambda front: receipt.render(records.pickup(), front),
}
every = pytest.mark.parametrize("name", PAPERS)


@every
def test_what_the_owner_says_stands_on_the_paper(name: str) -> None:
    said = pdf.words(PAPERS[name](FRONT))
    for part in (FRONT.name, FRONT.phone, FRONT.email, FRONT.greeting, FRONT.closing, *FRONT.address):
        assert part in said
    assert "Tax number 12-3456789" in said


@every
def test_nothing_stands_for_what_the_owner_left_out(name: str) -> None:
    assert "Tax number" not in pdf.words(PAPERS[name](records.FRONT))


@every
@pytest.mark.parametrize("kind", ["PNG", "JPEG"])
def test_the_logo_is_drawn_once_at_its_own_proportions(name: str, kind: str) -> None:
    paper = PAPERS[name](replace(FRONT, logo=picture(300, 100, kind)))
    pictures = pdf.pictures(paper)
    assert len(pictures) == 1
    left, bottom, right, top = pictures[0]
    assert (right - left) / (top - bottom) == pytest.approx(3, abs=0.01)
    assert not pdf.pictures(PAPERS[name](records.FRONT))


@every
def test_the_same_front_gives_the_same_bytes(name: str) -> None:
    assert PAPERS[name](FRONT) == PAPERS[name](FRONT)


@every
@pytest.mark.parametrize("size", ["a4", "letter"])
def test_the_shop_chooses_its_paper(name: str, size: str) -> None:
    found = pdf.size(PAPERS[name](replace(FRONT, paper=size)))
    assert found == pytest.approx(SIZES[size], abs=0.5)


@every
def test_the_name_wears_the_accent(name: str) -> None:
    with pikepdf.open(io.BytesIO(PAPERS[name](FRONT))) as opened:
        drawn = b"".join(page.Contents.read_bytes() for page in opened.pages)
    red, green = (int(accents.of("teal").light[n : n + 2], 16) / 255 for n in (1, 3))
    wanted = f"{red:.6f}".rstrip("0").lstrip("0") + " " + f"{green:.6f}".rstrip("0").lstrip("0")
    assert wanted.encode() in drawn


def test_a_slip_with_the_longest_head_still_ends_above_its_stub() -> None:
    long = "a sentence that goes on and on " * 12
    front = replace(FRONT, greeting=long, closing=long, logo=picture(100, 400), address=("A" * 90,) * 6)
    front = replace(front, name="Long Name " * 40)
    job = records.job()
    odd = replace(job.customer, name="Wolfeschlegelsteinhausen " * 60)
    tapes = tuple(replace(tape, format_words=f"Kind {n} " * 9) for n, tape in enumerate(job.tapes))
    for size in SIZES:
        paper = claim_slip.render(replace(job, customer=odd, tapes=tapes, rush=True), front, paper=size)
        assert len(pdf.pages(paper)) == 1
        stub = 80 * 72 / 25.4
        boxes = [(words, box) for _, words, box in pdf.text_boxes(paper)]
        above = [box for words, box in boxes if "goes on and on" in words or words.startswith("If we find")]
        assert len(above) >= 2
        assert min(bottom for _, bottom, _, _ in above) > stub
