"""The files of a tape held against what is known of it: every check with its sentence, fine or not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from core.capture.check_records import FileCheck, FileFinding, Severity, TapeFacts, bad
from core.capture.file_report import Report
from core.capture.length_checks import of_length, of_sound, of_stretches, of_whole
from core.capture.picture_checks import of_picture


def findings(reports: Sequence[Report], tape: TapeFacts) -> tuple[FileFinding, ...]:
    """File by file what was checked, then what concerns all of them together.

    Where there are several files a finding is called by its check and the number of the file: ``aspect-2``.
    """
    several = len(reports) > 1
    found = [
        replace(each, code=f"{each.check.value}-{number}" if several else each.check.value)
        for number, report in enumerate(reports, 1)
        for each in _of_file(report, tape)
    ]
    together = (replace(each, code=each.check.value) for each in of_length(reports, tape))
    return (*found, *together)


def _of_file(report: Report, tape: TapeFacts) -> Iterator[FileFinding]:
    has_picture = tape.picture in ("sd", "hd")
    yield of_whole(report)
    if not report.is_measured:
        yield bad(Severity.LOOK, FileCheck.MEASURED, "not-measured")
    if has_picture and not report.has_picture:
        yield bad(Severity.STOP, FileCheck.PICTURE, "picture-missing")
    elif has_picture and report.picture is not None:
        yield from of_picture(report.picture, tape)
    if tape.picture != "any":
        yield from of_sound(report, tape)
    yield from of_stretches(report, has_picture and report.has_picture)
