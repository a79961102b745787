"""Sound and lengths of a file: whether both end together, whether all of the tape is in it, what is blank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from core.capture import thresholds as at
from core.capture.check_records import FileCheck, FileFinding, Severity, TapeFacts, bad, fine
from core.capture.file_report import Report, Sound, StretchKind
from core.wording.locale_figures import figure, listed

SOUND_EARLY, SOUND_LATE = 0.090, 0.185
"""Seconds by which sound may run ahead of the picture or behind it (Rec. ITU-R BT.1359-1, acceptability). A
sound that ends before its picture has run ahead of it by as much where the two part evenly."""
SOUND_PARTED = 1.0
"""Seconds from which nobody would hand the file over. (common practice, no source)"""
MINUTES_SHORT, SHARE_SHORT = 1.0, 0.01
"""How much shorter a file may be than what was read off a deck, whose counter is read by a person in whole
minutes: the greater of the two. (common practice, no source)"""


def of_whole(report: Report) -> FileFinding:
    """Whether the file could be read to its end."""
    if report.breaks_off:
        return bad(Severity.STOP, FileCheck.WHOLE, "whole-breaks-off")
    if report.unread:
        return bad(Severity.LOOK, FileCheck.WHOLE, "whole-unread", spots=figure(report.unread))
    return fine(FileCheck.WHOLE, "whole-fine")


def of_sound(report: Report, tape: TapeFacts) -> Iterator[FileFinding]:
    """Whether there is sound, and whether it ends with the picture."""
    if report.sound is Sound.MISSING:
        key, severity = (
            ("sound-known", Severity.LOOK) if tape.has_no_sound else ("sound-missing", Severity.STOP)
        )
        yield bad(severity, FileCheck.SOUND, key)
        return
    if report.sound is Sound.PARTLY:
        yield bad(Severity.LOOK, FileCheck.SOUND, "sound-partly")
    elif report.dead_channels:
        yield bad(Severity.LOOK, FileCheck.SOUND, "sound-one-side", n=figure(report.dead_channels))
    else:
        yield fine(FileCheck.SOUND, "sound-fine")
    if report.picture_seconds is not None and report.sound_seconds is not None:
        yield _together(report.sound_seconds - report.picture_seconds)


def _together(longer: float) -> FileFinding:
    """``longer``: seconds by which the sound outlasts the picture."""
    if -SOUND_EARLY <= longer <= SOUND_LATE:
        return fine(FileCheck.SOUND_LENGTH, "together-fine")
    severity = Severity.STOP if abs(longer) > SOUND_PARTED else Severity.LOOK
    key = "together-shorter" if longer < 0 else "together-longer"
    return bad(severity, FileCheck.SOUND_LENGTH, key, seconds=figure(round(abs(longer), 2)))


def of_stretches(report: Report, has_picture: bool) -> Iterator[FileFinding]:
    """What is blank or frozen between the trims; a file that is blank all through."""
    if not report.keep_to:
        yield bad(Severity.STOP, FileCheck.BLANK, "blank-all")
        return
    if not has_picture:
        return
    blank = _within(report, (StretchKind.BLACK, StretchKind.BLUE), at.INNER_BLANK_SECONDS)
    if blank:
        yield bad(Severity.LOOK, FileCheck.BLANK, "blank-inside", places=listed(blank, "unit"))
    else:
        yield fine(FileCheck.BLANK, "blank-fine")
    if frozen := _within(report, (StretchKind.FROZEN,), at.LEAST_SECONDS["frozen"]):
        yield bad(Severity.LOOK, FileCheck.FROZEN, "frozen-inside", places=listed(frozen, "unit"))


def of_length(reports: Sequence[Report], tape: TapeFacts) -> Iterator[FileFinding]:
    """All files of a tape together against the minutes that a deck counted."""
    if tape.deck_minutes is None or not reports:
        return
    minutes = sum(each.seconds for each in reports) / 60
    missing = tape.deck_minutes - minutes
    told = {"file": figure(minutes, digits=1), "deck": figure(tape.deck_minutes, digits=1)}
    if missing > max(MINUTES_SHORT, SHARE_SHORT * tape.deck_minutes):
        lost = figure(missing, digits=1)
        yield bad(Severity.STOP, FileCheck.LENGTH, "length-short", missing=lost, **told)
    else:
        yield fine(FileCheck.LENGTH, "length-fine", **told)


def _within(report: Report, kinds: tuple[StretchKind, ...], least: float) -> list[str]:
    """Stretches inside the recording; blank ends are trimmed and told apart."""
    return [
        each.words
        for each in report.stretches
        if each.kind in kinds
        and each.seconds >= least
        and each.start >= report.keep_from
        and each.end <= report.keep_to
    ]
