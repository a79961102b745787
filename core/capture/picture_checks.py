"""The picture of a file against the tape: TV system, size, frame rate, shape.

Sizes are those of Rec. ITU-R BT.601: 720 samples a line, 576 lines at 25 frames a second (625-line systems:
PAL), 486 at 30000/1001 (525-line systems: NTSC), of which DV and DVD keep 480. Of the 720, 702 to 704 hold
the picture, which files keep alone at times; lines are halved in small files. HDV has 1280 × 720 and
1440 × 1080 (HDV specification, from memory), shown as 1920 × 1080.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from core.capture.check_records import FileCheck, FileFinding, Severity, TapeFacts, bad, fine
from core.capture.file_report import PictureFormat
from core.model.names import TvSystem
from core.wording.locale_figures import figure

NTSC, PAL = TvSystem.NTSC, TvSystem.PAL
LINES = {486: NTSC, 480: NTSC, 243: NTSC, 240: NTSC, 576: PAL, 288: PAL}
FULL_HEIGHTS = {NTSC: (480, 486), PAL: (576,)}
FULL_WIDTHS = (720, 704, 702)
HD_SIZES = ((1280, 720), (1440, 1080), (1920, 1080))
RATES = {NTSC: (Fraction(30000, 1001), Fraction(60000, 1001)), PAL: (Fraction(25), Fraction(50))}
"""Frames a second, and twice as many where each field was made a frame."""
ROUNDED = (Fraction(30), Fraction(60))
"""Written for 30000/1001: played so, sound and picture part by 3.6 seconds an hour (arithmetic)."""
FILM_RATE = Fraction(24000, 1001)
"""NTSC with the repeated fields taken out; HDV has it of its own."""
RATE_OFF = 0.0004
"""How far a measured rate may lie from the nominal one; 30 and 30000/1001 are 0.001 apart. (own choice)"""
SHAPES = {"4:3": 4 / 3, "16:9": 16 / 9}
SHAPE_OFF = 0.03
"""720 samples of which 702 hold the picture are 2.6 % wider than it. (derived)"""


def of_picture(picture: PictureFormat, tape: TapeFacts) -> Iterator[FileFinding]:
    """The four findings about the format of the picture."""
    found, mixed = _system_of(picture, tape.picture == "hd")
    system = found or tape.tv or NTSC
    yield _tv_system(picture, tape, found, mixed)
    yield _size(picture, tape, system)
    yield _rate(picture, tape, system)
    yield _shape(picture, tape)


def _system_of(picture: PictureFormat, is_hd: bool) -> tuple[TvSystem | None, bool]:
    """The TV system of a file, None where it is none or not known; whether lines and rate contradict."""
    rate = picture.frames_a_second
    by_lines = None if is_hd else LINES.get(picture.height)
    by_rate = None if rate is None else _of_rate(rate)
    mixed = by_lines is not None and by_rate is not None and by_lines is not by_rate
    return None if mixed else by_rate or by_lines, mixed


def _of_rate(rate: float) -> TvSystem | None:
    if any(_is(rate, each) for each in RATES[PAL]):
        return PAL
    return NTSC if any(_is(rate, each) for each in (*RATES[NTSC], *ROUNDED, FILM_RATE)) else None


def _tv_system(picture: PictureFormat, tape: TapeFacts, found: TvSystem | None, mixed: bool) -> FileFinding:
    check, told = FileCheck.TV_SYSTEM, {"lines": str(picture.height), "rate": _spelled(picture)}
    if mixed:
        return bad(Severity.STOP, check, "tv-mixed", **told)
    if found is None:
        return bad(Severity.LOOK, check, "tv-unknown" if told["rate"] else "tv-unknown-bare", **told)
    if tape.tv is None:
        return bad(Severity.LOOK, check, "tv-untold", file=found.name)
    if found is tape.tv:
        return fine(check, "tv-fine", file=found.name)
    severity, key = (Severity.STOP, "tv-wrong") if tape.tv_is_seen else (Severity.LOOK, "tv-doubtful")
    return bad(severity, check, key, file=found.name, tape=tape.tv.name)


def _size(picture: PictureFormat, tape: TapeFacts, system: TvSystem) -> FileFinding:
    size = {"width": str(picture.width), "height": str(picture.height)}
    if tape.picture == "hd":
        if (picture.width, picture.height) in HD_SIZES:
            return fine(FileCheck.SIZE, "size-fine", **size)
        return bad(Severity.LOOK, FileCheck.SIZE, "size-not-hd", **size)
    if picture.width in FULL_WIDTHS and picture.height in FULL_HEIGHTS[system]:
        return fine(FileCheck.SIZE, "size-fine", **size)
    usual = str(FULL_HEIGHTS[system][0])
    return bad(Severity.LOOK, FileCheck.SIZE, "size-odd", system=system.name, usual=usual, **size)


def _rate(picture: PictureFormat, tape: TapeFacts, system: TvSystem) -> FileFinding:
    rate, check = picture.frames_a_second, FileCheck.FRAME_RATE
    if rate is None:
        return bad(Severity.LOOK, check, "rate-untold")
    right = (*RATES[system], *((FILM_RATE,) if tape.picture == "hd" and system is NTSC else ()))
    if any(_is(rate, each) for each in right):
        return fine(check, "rate-fine", rate=_spelled(picture))
    key = "rate-rounded" if system is NTSC and any(_is(rate, each) for each in ROUNDED) else "rate-odd"
    usual = figure(round(float(RATES[system][0]), 2))
    return bad(Severity.LOOK, check, key, rate=_spelled(picture), system=system.name, usual=usual)


def _shape(picture: PictureFormat, tape: TapeFacts) -> FileFinding:
    names = ("16:9",) if tape.picture == "hd" else tuple(SHAPES)
    for name in names:
        if abs(picture.aspect / SHAPES[name] - 1) <= SHAPE_OFF:
            return fine(FileCheck.ASPECT, "aspect-fine", shape=name)
    shape = figure(picture.aspect, digits=2)
    return bad(Severity.LOOK, FileCheck.ASPECT, "aspect-odd", shape=shape)


def _is(rate: float, nominal: Fraction) -> bool:
    return abs(rate / float(nominal) - 1) <= RATE_OFF


def _spelled(picture: PictureFormat) -> str:
    rate = picture.frames_a_second
    return "" if rate is None else figure(round(rate, 2))
