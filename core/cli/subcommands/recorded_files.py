"""Captured files: what one holds, which tape it came from, and the list that goes with a job's files."""

from __future__ import annotations

import sys
from pathlib import Path

from core.capture import examining
from core.capture.file_report import CapturedFile, Report, clock
from core.cli.invocation import Invocation, Reply
from core.cli.subcommands import paper_folder
from core.model import serialization
from core.model.names import JobNumber, TapeCode
from core.services import decks, paper_files
from core.wording.messages import say


def tell_capture(call: Invocation) -> Reply:
    """``capture FILE``: reads it and, with ``--tape``, attaches it in the same go."""
    code = call.asked.tape
    if code is not None:
        _find_tape(call, code)
    report = examining.examine(Path(call.asked.file), told=_told_on_screen)
    document: dict[str, object] = {"report": _plain(report)}
    if code is not None:
        document["tape"] = _attach(call, code, report)
    return Reply(document, in_words(report))


def strike_file(call: Invocation) -> Reply:
    """``undo-capture CODE``."""
    from core.services import recordings

    with call.open() as shop:
        left = call.run(shop, recordings.strike, TapeCode(call.asked.code), because=call.asked.because)
    return Reply({"files": [_listed(each) for each in left]}, _lines(left) or say("cli", "file_left_tape"))


def list_files(call: Invocation) -> Reply:
    """``files NUMBER``: the files of a job; ``--paper`` writes the delivery list."""
    from core.services import jobs, recordings

    place = paper_folder.folder(call)
    with call.open() as shop:
        job = shop.ask(jobs.get, JobNumber(call.asked.number))
        files = shop.ask(recordings.of_job, job.number)
        newest = max((each.at for each in files), default=shop.clock())
        front = shop.ask(decks.settings_then, newest).front
        done = say("cli", "job_read", number=job.number)
        place = paper_folder.remembered(call, shop, place, job.number, done)
    written, note = paper_folder.after(
        done, place, lambda folder: paper_files.of_files(job, files, front, folder)
    )
    document = {
        "number": job.number,
        "files": [_listed(each) for each in files],
        "papers": [str(path) for path in written],
    }
    words = _lines(files) or say("cli", "file_attached_tape_job")
    return Reply(document, "\n".join([words, *map(str, written)]), note=note)


def in_words(report: Report) -> str:
    """The report as the few lines a person reads."""
    lines = [
        f"{report.name}: {clock(report.seconds)} long, {report.size_bytes / 1e9:.2f} GB",
        f"  SHA-256 {report.sha256}",
        *(f"  {stretch.words}" for stretch in report.stretches),
    ]
    if report.is_trimmed:
        lines.append(
            say("cli", "keep_ends_blank", clock=clock(report.keep_from), clock_2=clock(report.keep_to))
        )
    lines.append(
        say(
            "cli",
            "minutes_charged_sound",
            billable_minutes=f"{report.billable_minutes:.1f}",
            value=report.sound.value,
        )
    )
    return "\n".join([*lines, *(f"! {remark}" for remark in report.remarks)])


def _find_tape(call: Invocation, code: str) -> None:
    """Finds a mistyped code before a long file is read, not after."""
    from core.services import tapes

    with call.open() as shop:
        shop.ask(tapes.get, TapeCode(code))


def _attach(call: Invocation, code: str, report: Report) -> str:
    from core.services import recordings

    with call.open() as shop:
        return call.run(shop, recordings.attach, TapeCode(code), report, sure=call.asked.sure).tape


def _plain(report: Report) -> dict[str, object]:
    plain: dict[str, object] = serialization.plain(report)
    return plain


def _listed(each: CapturedFile) -> dict[str, object]:
    report = each.report
    return {
        "tape": each.tape,
        "name": report.name,
        "seconds": report.seconds,
        "size_bytes": report.size_bytes,
        "sha256": report.sha256,
        "billable_minutes": report.billable_minutes,
        "sound": report.sound.value,
        "known": list(each.known),
    }


def _lines(files: tuple[CapturedFile, ...]) -> str:
    return "\n".join(
        f"{each.tape}  {each.report.name}  {clock(each.report.seconds)}  {each.report.sha256}"
        for each in files
    )


def _told_on_screen(share: float) -> None:
    """A line that counts up, where somebody is looking."""
    if sys.stderr.isatty():
        end = "\n" if share >= 1 else ""
        print(f"\rreading {share:4.0%}", end=end, file=sys.stderr, flush=True)
