"""What the walkthrough shows: the box it books, a recorded file, and the tapes it takes in hand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from itertools import pairwise
from pathlib import Path

from core.capture import file_checks
from core.capture.check_records import TapeCheck, TapeFacts
from core.capture.file_report import CapturedFile, PictureFormat, Report, Sound, Stretch, StretchKind
from core.model import resource_files
from core.model.names import TapeCode, TvSystem
from core.model.typed_draft import TypedBox
from core.services import inventory_file, jobs, recordings
from core.services.inventory_file import InventoryContext
from core.services.records_door import Shop
from gui.counter import typed_box
from gui.widgets.tray import TrayItem

COLLECTED = "000075"
"""The job of the invented shop that has tapes to give back and others still at the bench."""
NO_CODE = "000075 001 0"
"""A tape code with a wrong check digit."""
FILE = Report(
    name="000042 0119 family.mp4",
    size_bytes=4_690_980_000,
    sha256="9f86d081884c7d65" * 4,
    seconds=6105.2,
    has_picture=True,
    sound=Sound.PARTLY,
    stretches=(
        Stretch(StretchKind.BLUE, 0.0, 312.4),
        Stretch(StretchKind.SILENT, 0.0, 312.4),
        Stretch(StretchKind.FROZEN, 2400.0, 2460.0),
        Stretch(StretchKind.SILENT, 3000.0, 3420.0),
        Stretch(StretchKind.BLACK, 5800.0, 6105.2),
    ),
    keep_from=311.4,
    keep_to=5801.0,
    billable_minutes=91.49,
    picture=PictureFormat(720, 576, (25, 1)),
    picture_seconds=6105.2,
    sound_seconds=6104.9,
)
"""What the reading of an invented file would say: no recording is made for a picture."""


def box(now: datetime) -> TypedBox:
    """The box that is booked on the way, typed in the language of now."""
    file = resource_files.path("demo", "walkthrough.json")
    inventory = inventory_file.read(file.read_bytes(), file.name, InventoryContext(now.date()))
    return typed_box.box_of(inventory)


def one_of_each_station(pieces: Sequence[TrayItem]) -> list[str]:
    """The code of the first tape under each heading."""
    return [piece.key for heading, piece in pairwise(pieces) if piece.key and not heading.key]


def check() -> TapeCheck:
    """What the check of that file would say of a tape that the deck showed to be NTSC."""
    code = TapeCode("0000750019")
    file = CapturedFile(code, FILE, datetime(2026, 3, 3, 14, tzinfo=UTC), "Sam")
    facts = TapeFacts(tv=TvSystem.NTSC, tv_is_seen=True, deck_minutes=102.0)
    return TapeCheck(code, (file,), file_checks.findings((FILE,), facts))


def recorded(shop: Path) -> list[str]:
    """The code of a tape with a file; none where none was made up."""
    with Shop.open(shop, create=False) as records:
        open_jobs = records.ask(jobs.open_jobs)
        files = [file for job in open_jobs for file in records.ask(recordings.of_job, job.number)]
        return [file.tape for file in files[:1]]
