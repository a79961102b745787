"""The delivery list as whoever keeps the copies reads it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.stations import Station
from core.papers.handover import delivery_list
from core.papers.typesetting.paper_tokens import MARGIN
from core.papers.voice import voice
from tests.support import invented_job as records
from tests.support import pdf

FILES = records.captured()


@pytest.fixture(scope="module")
def paper() -> bytes:
    return delivery_list.render(records.job(), FILES, records.FRONT)


def test_every_file_stands_there_with_name_length_size_and_checksum(paper: bytes) -> None:
    said = pdf.words(paper)

    for each in FILES:
        report = each.report
        assert report.name in said
        assert f"{report.sha256[:32]} {report.sha256[32:]}" in said
        assert f"{report.size_bytes:,} bytes" in said
        assert voice(records.FRONT).length(report.seconds / 60) in said


def test_files_stand_tape_by_tape_in_the_order_of_the_box() -> None:
    mixed = tuple(reversed(FILES))
    said = pdf.words(delivery_list.render(records.job(), mixed, records.FRONT))
    places = [said.index(each.report.name) for each in delivery_list.in_order(mixed)]

    assert places == sorted(places)
    assert [each.tape for each in delivery_list.in_order(mixed)] == sorted(each.tape for each in FILES)


def test_it_adds_up_and_says_what_to_do_with_it(paper: bytes) -> None:
    said = pdf.words(paper)
    minutes = sum(each.report.seconds for each in FILES) / 60

    assert f"{len(FILES)} files, {voice(records.FRONT).length(minutes)} altogether" in said
    assert "Keep this list with your copies." in said
    for command in ("certutil -hashfile FILE SHA256", "shasum -a 256 FILE", "sha256sum FILE"):
        assert command in said


def test_a_tape_without_a_file_is_named(paper: bytes) -> None:
    assert "One tape has no file" in pdf.words(paper)


def test_a_job_without_files_still_makes_a_paper() -> None:
    said = pdf.words(delivery_list.render(records.job(), (), records.FRONT))

    assert "0 files" in said
    assert "12 tapes have no file" in said


def test_sixty_files_go_on_over_pages_within_the_margins() -> None:
    long = delivery_list.render(records.job(60), records.captured(60), records.FRONT)
    width, _ = pdf.size(long)

    assert len(pdf.pages(long)) > 4
    for _, text, (left, _, right, _) in pdf.text_boxes(long):
        assert left >= MARGIN - 1, text
        assert right <= width - MARGIN + 1, text


@pytest.mark.parametrize("name", ["x" * 180 + ".mkv", "Łódź 1994 – été.mp4", "שלום.mov"])
def test_no_file_name_breaks_the_margins(name: str) -> None:
    odd = (replace(FILES[0], report=replace(FILES[0].report, name=name)),)
    paper = delivery_list.render(records.job(), odd, records.FRONT)
    width, _ = pdf.size(paper)

    for _, text, (_, _, right, _) in pdf.text_boxes(paper):
        assert right <= width - MARGIN + 1, text


@pytest.mark.parametrize(
    ("size", "words"), [(12_960_000_000, "12.96 GB"), (480_000_000, "480 MB"), (5_250_000, "5.2 MB")]
)
def test_sizes_are_decimal(size: int, words: str) -> None:
    assert delivery_list.spelled(size, voice(records.FRONT)) == words


def test_it_says_who_checked_a_file_and_what_is_known_of_it() -> None:
    job, first = records.job(), FILES[0]
    signed = tuple(
        replace(each, signed_off_by="Kim" if each.code == first.tape else None, station=Station.READY)
        for each in job.tapes
    )
    known = (replace(first, known=("The sound ends 0.4 seconds before the picture.",)), *FILES[1:])
    said = pdf.words(delivery_list.render(replace(job, tapes=signed), known, records.FRONT))
    ours = [each for each in FILES if each.tape == first.tape]
    assert said.count("Checked and signed off by Kim.") == len(ours)
    assert "Please note: The sound ends 0.4 seconds before the picture." in said
    assert "Not checked yet" not in said


def test_a_file_that_nobody_has_checked_says_so_until_the_tape_is_ready() -> None:
    job = records.job()
    here = tuple(replace(each, station=Station.BEING_CHECKED) for each in job.tapes)
    said = pdf.words(delivery_list.render(replace(job, tapes=here), FILES, records.FRONT))
    assert said.count("Not checked yet.") == len(FILES)
