"""The delivery list: which file came from which tape, and the checksum that tells an unchanged copy."""

from __future__ import annotations

from collections.abc import Sequence

from core.capture.file_report import CapturedFile
from core.model.job_records import Job
from core.model.names import TapeCode
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.papers.handover import copies_told
from core.papers.tape_words import full_name, short_code
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.paper_tokens import QUIET, STRONG, TITLE, UNIT, Style
from core.papers.typesetting.story import Cell, PaperTable, Story, TableColumn, text_cell
from core.papers.voice import Voice, voice

_HALF = 32
"""Digits of a checksum on a line; both halves are copied as one word each."""


def render(job: Job, files: Sequence[CapturedFile], front: ShopFront, *, paper: str | None = None) -> bytes:
    """The list of a job's files as a PDF on ``a4`` or ``letter``, tape by tape. Dated by its newest file."""
    speaker = voice(front)
    told = story(speaker, paper)
    _tell_title(told, job, files, speaker)
    _tell_files(told, job, files, speaker)
    _tell_without(told, job, files, speaker)
    _tell_copies(told, job, files, speaker)
    _tell_check(told, speaker)
    return bound(told, Cover(speaker.say("files-title"), job.number), speaker, paper)


def _tell_title(told: Story, job: Job, files: Sequence[CapturedFile], speaker: Voice) -> None:
    head = speaker.say("files-head", number=job.number, name=job.customer.name)
    told.say(head, STRONG, before=3 * UNIT)
    if files:
        newest = max(each.at for each in files)
        told.say(speaker.say("files-made", day=speaker.day_of(newest)), QUIET, before=0)
    (width,) = told.panel_widths(1)
    minutes = sum(each.report.seconds for each in files) / 60
    size = sum(each.report.size_bytes for each in files)
    summed = speaker.count(
        "files-sum", len(files), length=speaker.length(minutes), size=spelled(size, speaker)
    )
    cell = text_cell(summed, width, TITLE) + text_cell(speaker.say("files-keep"), width)
    told.panel((cell,), (width,))


def _tell_files(told: Story, job: Job, files: Sequence[CapturedFile], speaker: Voice) -> None:
    if not files:
        return
    table = PaperTable(
        (
            TableColumn(speaker.say("files-tape"), 150),
            TableColumn(speaker.say("files-file")),
            TableColumn(speaker.say("files-length"), 56, "right"),
            TableColumn(speaker.say("files-size"), 60, "right"),
        ),
        told.width,
    )
    tapes = {tape.code: tape for tape in job.tapes}
    told.table(table, [_row(table, tapes.get(each.tape), each, speaker) for each in in_order(files)])


def _row(table: PaperTable, tape: TapeRecord | None, each: CapturedFile, speaker: Voice) -> tuple[Cell, ...]:
    report = each.report
    name, code = (full_name(tape), short_code(tape)) if tape else (each.tape, "")
    sha = (report.sha256[:_HALF], report.sha256[_HALF:])
    size = speaker.say("files-bytes", n=speaker.number(report.size_bytes))
    return (
        table.cell(0, name, (code, QUIET)),
        table.cell(
            1,
            (report.name, STRONG),
            *((half, QUIET) for half in sha),
            (size, QUIET),
            *(_checked(tape, speaker) if tape else ()),
            *((speaker.say("files-known", what=words), QUIET) for words in each.known),
        ),
        table.cell(2, speaker.length(report.seconds / 60)),
        table.cell(3, spelled(report.size_bytes, speaker)),
    )


def _checked(tape: TapeRecord, speaker: Voice) -> tuple[tuple[str, Style], ...]:
    """Who checked the file; that nobody has, while the tape is not ready. Older orders say neither."""
    if tape.signed_off_by:
        return ((speaker.say("files-signed", name=tape.signed_off_by), QUIET),)
    return ((speaker.say("files-unchecked"), STRONG),) if tape.station.is_unfinished else ()


def _tell_without(told: Story, job: Job, files: Sequence[CapturedFile], speaker: Voice) -> None:
    """Tapes of the job from which no file is listed, so that nobody looks for one."""
    listed = {each.tape for each in files}
    missing = [tape for tape in job.tapes if tape.code not in listed]
    if not missing:
        return
    told.head(speaker.count("files-without", len(missing)))
    for tape in missing:
        told.say(f"{short_code(tape)} · {full_name(tape)}", before=UNIT / 4)


def _tell_copies(told: Story, job: Job, files: Sequence[CapturedFile], speaker: Voice) -> None:
    """What is on each copy that was made, with the files that are not listed above."""
    made = [copy for copy in job.copies if copy.made is not None]
    if made:
        told.head(speaker.say("copies-head"))
        copies_told.tell(told, job, made, speaker, {each.report.sha256 for each in files})


def _tell_check(told: Story, speaker: Voice) -> None:
    told.head(speaker.say("files-check_head"))
    told.say(speaker.say("files-check"), with_next=True)
    for system in ("windows", "macos", "linux"):
        told.say(speaker.say(f"files-check_{system}"), before=UNIT / 4)


def in_order(files: Sequence[CapturedFile]) -> list[CapturedFile]:
    """Tape by tape, the files of one tape as they were made."""
    return sorted(files, key=_place)


def _place(each: CapturedFile) -> tuple[TapeCode, float, str]:
    return each.tape, each.at.timestamp(), each.report.name


def spelled(size_bytes: int, speaker: Voice) -> str:
    """``12.96 GB`` or ``480 MB``; decimal, as discs and sticks count."""
    if size_bytes >= 10**9:
        return speaker.say("files-gigabytes", n=speaker.number(size_bytes / 1e9, 2))
    return speaker.say("files-megabytes", n=speaker.number(size_bytes / 1e6, 1 if size_bytes < 10**8 else 0))
