"""``file-check``, ``sign-off``, ``undo-sign-off``: what was found in the files of a tape, who accepts it."""

from __future__ import annotations

from core.capture.check_records import FileFinding, TapeCheck
from core.capture.file_report import CapturedFile
from core.cli import json_quotes
from core.cli.invocation import Invocation, Reply
from core.model.names import TapeCode
from core.services.checking import file_checking, sign_offs
from core.wording.locale_figures import tape_code
from core.wording.messages import say


def check(call: Invocation) -> Reply:
    with call.open() as shop:
        return _told(shop.ask(file_checking.check, TapeCode(call.asked.code)))


def sign_off(call: Invocation) -> Reply:
    asked = call.asked
    accept = {name: why.strip() for name, _, why in (each.partition("=") for each in asked.accept)}
    with call.open() as shop:
        found = call.run(
            shop,
            sign_offs.sign_off,
            TapeCode(asked.code),
            name=asked.by,
            accept=accept,
        )
    return _told(found)


def undo(call: Invocation) -> Reply:
    with call.open() as shop:
        code, because = TapeCode(call.asked.code), call.asked.because
        found = call.run(shop, sign_offs.withdraw, code, because=because)
    return _told(found)


def _told(found: TapeCheck) -> Reply:
    signed = found.signed
    document = {
        "code": found.tape,
        "is_signed_off": found.is_signed_off,
        "signed_off": None
        if signed is None
        else {
            "by": signed.name,
            "at": json_quotes.time(signed.at),
            "signed_in": signed.by,
            "files": list(signed.files),
            "accepted": [
                {"finding": each.code, "severity": each.severity.value, "words": each.words, "why": each.note}
                for each in signed.accepted
            ],
        },
        "files": [_file(each) for each in found.files],
        "findings": [_finding(each) for each in found.findings],
        "open": [each.code for each in found.open],
    }
    return Reply(document, _plain(found))


def _file(each: CapturedFile) -> dict[str, object]:
    report, picture = each.report, each.report.picture
    rate = picture.frames_a_second if picture else None
    return {
        "name": report.name,
        "sha256": report.sha256,
        "seconds": report.seconds,
        "picture_seconds": report.picture_seconds,
        "sound_seconds": report.sound_seconds,
        "width": picture.width if picture else None,
        "height": picture.height if picture else None,
        "frames_a_second": None if rate is None else json_quotes.rounded(rate),
        "aspect": json_quotes.rounded(picture.aspect) if picture else None,
    }


def _finding(each: FileFinding) -> dict[str, object]:
    return {
        "finding": each.code,
        "severity": each.severity.value,
        "words": each.words,
        "to_do": each.to_do or None,
    }


def _plain(found: TapeCheck) -> str:
    lines = [
        say(
            "cli",
            "file_check_line" if each.is_fine else "file_check_line_to_do",
            severity=say("file_check", f"severity-{each.severity.value}"),
            finding=each.code,
            words=each.words,
            to_do=each.to_do,
        )
        for each in found.findings
    ]
    return "\n".join([_head(found), *lines])


def _head(found: TapeCheck) -> str:
    code = tape_code(found.tape)
    if not found.files:
        return say("file_check", "no-file", code=code)
    if found.is_signed_off and found.signed is not None:
        return say("file_check", "signed-already", code=code, name=found.signed.name)
    names = ", ".join(each.code for each in found.open)
    return say("cli", "file_check_open", code=code, n=len(found.open), names=names)
