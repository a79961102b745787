"""A file copied from a tape, as its report tells it: one that is fine in everything, some that are not."""

from __future__ import annotations

from dataclasses import replace

from core.capture.check_records import TapeCheck
from core.capture.file_report import PictureFormat, Report, Sound
from core.model.deck_showing import Shown
from core.model.names import TapeCode, TvSystem
from core.model.stations import Station
from core.services import recordings, tapes
from core.services.checking import sign_offs
from tests.support.booked import Desk, line

GOOD = Report(
    name="tape.avi",
    size_bytes=10**9,
    sha256="ab" * 32,
    seconds=3600.0,
    has_picture=True,
    sound=Sound.PRESENT,
    stretches=(),
    keep_from=0.0,
    keep_to=3600.0,
    billable_minutes=60.0,
    picture=PictureFormat(720, 480, (30000, 1001), (8, 9)),
    picture_seconds=3600.0,
    sound_seconds=3600.0,
)
FILE = replace(
    GOOD, seconds=6000.0, keep_to=6000.0, picture_seconds=6000.0, sound_seconds=6000.0, billable_minutes=100.0
)
"""Of a tape of 100 minutes."""
SQUEEZED = replace(FILE, sha256="cd" * 32, picture=PictureFormat(720, 480, (30000, 1001)))
PAL_FILE = replace(FILE, sha256="ef" * 32, picture=PictureFormat(720, 576, (25, 1), (16, 15)))


def played(desk: Desk) -> TapeCode:
    """A tape that has played 100 minutes of NTSC, as the deck showed, and is being checked."""
    tape = desk.bring_to(desk.book(line()).tapes[0], Station.PLAYING)
    shown = Shown(tv=TvSystem.NTSC)
    desk.shop.run(tapes.move, tape.code, Station.BEING_CHECKED, minutes=100.0, shown=shown)
    return tape.code


def attach(desk: Desk, code: TapeCode, report: Report = FILE) -> None:
    desk.shop.run(recordings.attach, code, report)


def sign(desk: Desk, code: TapeCode, name: str = "Kim", **accept: str) -> TapeCheck:
    """Signed off with what is accepted, by the code of the finding with ``_`` for ``-``."""
    notes = {each.replace("_", "-"): why for each, why in accept.items()}
    return desk.shop.run(sign_offs.sign_off, code, name=name, accept=notes)
