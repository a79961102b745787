"""Labels: what a scanner reads from them is the code of the tape, and each spliced tape gets its mark."""

from __future__ import annotations

from collections import Counter

import pytest

from core.model.errors import WrongInput
from core.model.job_records import Job
from core.papers.stickers import label_stock, labels
from tests.support import invented_job as records
from tests.support import pdf


@pytest.fixture(scope="module")
def job() -> Job:
    return records.job()


@pytest.mark.parametrize("size", ["a4", "letter"])
@pytest.mark.parametrize("dpi", [203, 300])
def test_both_codes_of_every_tape_read_back_as_its_code(job: Job, size: str, dpi: int) -> None:
    read = Counter(pdf.scanned(labels.render(job, records.FRONT, paper=size), dpi))
    codes = [tape.code for tape in job.tapes]
    assert read == Counter({("Code128", code): 1 for code in codes} | {("QRCode", code): 1 for code in codes})


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_each_spliced_tape_has_a_mark_besides_its_label(job: Job, size: str) -> None:
    said = pdf.words(labels.render(job, records.FRONT, paper=size))
    assert said.count("SPLICED — NOT FOR REUSE") == 2
    assert said.count("Do not play or record on this cassette again.") == 2
    assert said.count("000018 009 8") == 2
    assert said.count("000018 001 4") == 1


def test_marks_alone_are_printed_for_the_bench(job: Job) -> None:
    said = pdf.words(labels.render(job, records.FRONT, only_marks=True))
    assert said.count("NOT FOR REUSE") == 2
    assert "000018 001 4" not in said


@pytest.mark.parametrize(("size", "places"), [("a4", 24), ("letter", 30)])
def test_a_partly_used_sheet_is_begun_where_it_is_unused(job: Job, size: str, places: int) -> None:
    whole = labels.render(job, records.FRONT, True, paper=size)
    rest = labels.render(job, records.FRONT, True, paper=size, start_at=places)
    assert len(pdf.pages(whole)) == 1
    first, second = pdf.pages(rest)
    assert "009 8" in first
    assert "010 2" in second
    lowest = min(box[1] for number, _, box in pdf.text_boxes(rest) if number == 0)
    assert lowest < 100


@pytest.mark.parametrize("place", [0, 25])
def test_a_place_that_is_not_on_the_sheet_is_refused(job: Job, place: int) -> None:
    with pytest.raises(WrongInput, match="1 to 24"):
        labels.render(job, records.FRONT, paper="a4", start_at=place)


@pytest.mark.parametrize("size", ["a4", "letter"])
def test_nothing_on_a_sticker_crosses_its_edge(job: Job, size: str) -> None:
    grid = label_stock.USUAL[size]
    paper = labels.render(job, records.FRONT, paper=size)
    height = pdf.size(paper)[1]
    for _, text, (left, bottom, right, top) in pdf.text_boxes(paper):
        column = int((left - grid.left) // grid.pitch)
        row = int((height - top - grid.top) // grid.height)
        assert grid.left + column * grid.pitch <= left, text
        assert right <= grid.left + column * grid.pitch + grid.width, text
        assert height - bottom <= grid.top + (row + 1) * grid.height, text
