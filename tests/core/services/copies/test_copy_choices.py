"""What is played no longer fits what was ordered: told when it is known, priced, the answer kept."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.agreement_records import AgreementKind, Consent
from core.model.copies.copy_questions import CopyChoice, MisfitReason
from core.model.copies.copy_records import CopiedFile, FileSystem
from core.model.errors import Refused, WrongInput
from core.model.inventory import Delivery
from core.model.job_records import Job
from core.model.names import Speed
from core.model.stations import Station
from core.pricing import copy_fit
from core.services import jobs
from core.services.agreement import agreement_versions, ceiling_watch
from core.services.copies import copy_choices, copy_making, own_drives
from tests.support.booked import Desk, command, line

ADA = Consent("Ada Fenwick")
OWN = Delivery("files", "h264", "own-drive")
DV_OWN = Delivery("files", "dv", "own-drive")


@pytest.fixture
def working(desk: Desk) -> Desk:
    return replace(desk, writes_copies=False)


def _played(desk: Desk, minutes: list[float], count: int = 3, **changes: object) -> Job:
    """An order of T-120 at SP whose first tapes played so long; the owner has allowed what it costs."""
    job = desk.book(line(count=count, speed=Speed.SP), **changes)
    desk.allow(job)
    for tape, each in zip(job.tapes, minutes, strict=False):
        desk.bring_to(tape, Station.READY, minutes=each)
    return desk.shop.ask(jobs.get, job.number)


def test_eighteen_hours_do_not_stay_on_a_stick_of_16_gb(working: Desk) -> None:
    """18 h at 5.256 Mb/s: 1080 min × 5.256 × 0.0075 = 42.6 GB (the handbook's arithmetic, Dalhousie)."""
    job = _played(working, [360, 360, 360])
    (misfit,) = copy_fit.misfits(job)
    assert misfit.reason is MisfitReason.SIZE
    assert misfit.needs == pytest.approx(1080 * 5.256 * 0.0075)
    assert misfit.holds == pytest.approx(16 * 0.97)
    assert "holds 15.5 GB" in copy_fit.sentence(misfit)
    (waiting,) = working.shop.ask(ceiling_watch.to_call)
    assert (waiting.number, waiting.tapes_asking) == (job.number, 0)
    assert waiting.misfits == ((job.copies[0].id, copy_fit.sentence(misfit)),)


def test_it_is_told_when_it_is_known_and_not_before(working: Desk) -> None:
    """360 minutes are 14.2 GB, which a stick of 16 GB holds; the least of the other two makes it too much."""
    job = _played(working, [])
    assert copy_fit.misfits(job) == ()
    job = _played(working, [360])
    assert [each.reason for each in copy_fit.misfits(job)] == [MisfitReason.SIZE]
    job = _played(working, [300], count=1)
    assert copy_fit.misfits(job) == ()


def test_every_choice_has_a_price_and_the_answer_is_a_version(working: Desk) -> None:
    job = _played(working, [360, 360, 360])
    asked = working.shop.ask(copy_choices.question, job.number)
    offered = {each.choice: each for each in asked.choices}
    assert set(offered) == {CopyChoice.LARGER, CopyChoice.MORE, CopyChoice.DOWNLOAD}
    assert offered[CopyChoice.LARGER].becomes.code == "usb-64"
    assert (offered[CopyChoice.MORE].becomes.code, offered[CopyChoice.MORE].becomes.pieces) == ("usb-16", 3)
    assert offered[CopyChoice.LARGER].more_minor > 0 > offered[CopyChoice.DOWNLOAD].more_minor
    done = working.shop.run(copy_choices.answer, job.number, job.copies[0].id, CopyChoice.LARGER, ADA)
    assert [copy.code for copy in done.copies] == ["usb-64"]
    assert copy_fit.misfits(done) == ()
    assert working.shop.ask(jobs.reprice, job.number).due.likely == offered[CopyChoice.LARGER].price_minor
    version = working.shop.ask(agreement_versions.versions, job.number)[-1]
    assert (version.kind, version.agreed_by) == (AgreementKind.REVISED, "Ada Fenwick")
    assert version.ceiling_minor == offered[CopyChoice.LARGER].ceiling_minor
    assert version.quote.storage.copies[0].code == "usb-64"
    assert working.shop.ask(ceiling_watch.to_call) == ()
    assert working.shop.verify() == ()


@pytest.mark.parametrize("choice", [CopyChoice.MORE, CopyChoice.DOWNLOAD])
def test_each_answer_solves_it(working: Desk, choice: CopyChoice) -> None:
    job = _played(working, [360, 360, 360])
    done = working.shop.run(copy_choices.answer, job.number, job.copies[0].id, choice, ADA)
    assert copy_fit.misfits(done) == ()
    with pytest.raises(Refused, match="can be made as it was ordered"):
        working.shop.run(copy_choices.answer, job.number, job.copies[0].id, choice, ADA)


def test_the_same_answer_sent_twice_is_kept_once(working: Desk) -> None:
    job = _played(working, [360, 360, 360])
    item, sent = job.copies[0].id, command()
    working.shop.once(sent, copy_choices.answer, job.number, item, CopyChoice.LARGER, ADA)
    working.shop.once(sent, copy_choices.answer, job.number, item, CopyChoice.LARGER, ADA)
    assert len(working.shop.ask(agreement_versions.versions, job.number)) == 3
    with pytest.raises(Refused, match="used for something else"):
        working.shop.once(sent, copy_choices.answer, job.number, item, CopyChoice.MORE, ADA)


def test_smaller_files_are_offered_where_they_fit(working: Desk) -> None:
    job = _played(working, [120, 120, 120], deliver=(Delivery("files", "h264-8", "usb"),))
    ordered = working.shop.ask(jobs.get, job.number).copies[0]
    assert ordered.code == "usb-32"
    job = _played(working, [240, 240, 240], deliver=(Delivery("files", "h264-8", "usb"),))
    offered = {each.choice: each for each in working.shop.ask(copy_choices.question, job.number).choices}
    assert offered[CopyChoice.SMALLER].becomes.delivery.codec == "h264"
    done = working.shop.run(copy_choices.answer, job.number, job.copies[0].id, CopyChoice.SMALLER, ADA)
    assert done.copies[0].delivery == Delivery("files", "h264", "usb")
    assert copy_fit.misfits(done) == ()


def test_more_discs_are_asked_about_as_well(working: Desk) -> None:
    job = _played(working, [360], count=1, deliver=(Delivery("dvd"),))
    (misfit,) = copy_fit.misfits(job)
    assert (misfit.reason, misfit.needs, misfit.holds) == (MisfitReason.PIECES, 3, 1)
    done = working.shop.run(copy_choices.answer, job.number, job.copies[0].id, CopyChoice.MORE, ADA)
    assert done.copies[0].pieces == 3


# --- the customer's own drive ------------------------------------------------------------


def test_an_own_drive_too_small_is_told_at_once(working: Desk) -> None:
    job = _played(working, [360, 360, 360], deliver=(OWN,))
    item = job.copies[0].id
    assert copy_fit.misfits(job) == ()
    with pytest.raises(Refused, match="how large the customer"):
        working.shop.run(copy_making.made, job.number, item)
    described = working.shop.run(
        own_drives.describe, job.number, item, gigabytes=16, file_system=FileSystem.EXFAT
    )
    (misfit,) = copy_fit.misfits(described)
    assert misfit.reason is MisfitReason.SIZE
    offered = {each.choice: each for each in working.shop.ask(copy_choices.question, job.number).choices}
    assert set(offered) == {CopyChoice.STICK, CopyChoice.DOWNLOAD}
    assert offered[CopyChoice.STICK].becomes.code == "usb-64"
    larger = working.shop.run(
        own_drives.describe, job.number, item, gigabytes=64, file_system=FileSystem.EXFAT
    )
    assert copy_fit.misfits(larger) == ()
    working.shop.run(copy_making.made, job.number, item)


@pytest.mark.parametrize("choice", [CopyChoice.SPLIT, CopyChoice.REFORMAT, CopyChoice.STICK])
def test_a_file_too_long_for_fat32_is_told_with_the_ways_out(working: Desk, choice: CopyChoice) -> None:
    """FAT32 ends a file at 4 GiB − 1 byte; 120 minutes of H.264 take 4.73 GB."""
    job = _played(working, [120, 60], count=2, deliver=(OWN,))
    item = job.copies[0].id
    drive = working.shop.run(
        own_drives.describe, job.number, item, gigabytes=500, file_system=FileSystem.FAT32
    )
    (misfit,) = copy_fit.misfits(drive)
    assert (misfit.reason, misfit.longest) == (MisfitReason.FILE_SIZE, job.tapes[0].code)
    assert misfit.holds == pytest.approx((2**32 - 1) / 1e9)
    done = working.shop.run(copy_choices.answer, job.number, item, choice, ADA)
    assert copy_fit.misfits(done) == ()
    assert working.shop.verify() == ()


def test_the_files_themselves_have_the_last_word(working: Desk) -> None:
    job = _played(working, [30], count=1, deliver=(OWN,))
    item = job.copies[0].id
    working.shop.run(own_drives.describe, job.number, item, gigabytes=8, file_system=FileSystem.FAT32)
    for size, named in ((9_000_000_000, "holds 7.76 GB"), (2**32, "too long for the file system")):
        files = [CopiedFile("one.mp4", size, "a" * 64)]
        with pytest.raises(Refused, match=named):
            working.shop.run(copy_making.made, job.number, item, files=files)
    working.shop.run(copy_making.made, job.number, item, files=[CopiedFile("one.mp4", 2**32 - 1, "a" * 64)])


def test_only_an_own_drive_is_described(working: Desk) -> None:
    job = _played(working, [60])
    with pytest.raises(Refused, match="customer’s own drive"):
        working.shop.run(
            own_drives.describe, job.number, job.copies[0].id, gigabytes=64, file_system=FileSystem.NTFS
        )
    own = _played(working, [60], deliver=(OWN,))
    with pytest.raises(WrongInput, match="gigabytes"):
        working.shop.run(
            own_drives.describe, own.number, own.copies[0].id, gigabytes=0, file_system=FileSystem.NTFS
        )
