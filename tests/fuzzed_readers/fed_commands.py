"""Command lines carried out in this process on a throwaway shop, and what must hold of each answer."""

from __future__ import annotations

import io
import json
import os
import sys
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from core.cli import entry
from core.wording import messages
from tests.fuzzed_readers import fault_found
from tests.fuzzed_readers.fault_found import FaultFound
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop

CODES = (0, 2, 3, 4)
_TELL_PROBLEMS = {"verify", "--line"}
"""Subcommands and options whose answer is what they found wrong, with a code for it."""
_LINE_ENDS = "\r\n\t"


@dataclass(frozen=True, slots=True)
class CommandLine:
    """What is typed, what stands in the environment, and what comes in by standard input."""

    words: tuple[str, ...]
    environment: Mapping[str, str]
    standard_input: bytes = b""

    def __repr__(self) -> str:
        return f"{self.environment or ''}{list(self.words)} < {self.standard_input[:80]!r}"


@dataclass(frozen=True, slots=True)
class CommandAnswer:
    """What one command line left behind."""

    code: int
    out: str
    err: str


class _Broken(BaseException):
    """Carries an exception out past the border that would tell a person of it in one sentence."""


@contextmanager
def seen_through() -> Iterator[None]:
    """A bug leaves the program as it is; the parser, which takes longer than a command, is built once."""
    told, made = entry._report, entry.parser
    parser = cache(made)

    def carry_out(error: Exception) -> str:
        raise _Broken from error

    entry._report, entry.parser = carry_out, lambda: parser()
    try:
        yield
    finally:
        entry._report, entry.parser = told, made


def carried_out(line: CommandLine) -> CommandAnswer:
    """The answer; `FaultFound` for an exception nobody named."""
    kept, streams = dict(os.environ), (sys.stdin, sys.stdout, sys.stderr)
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding="utf-8", newline="") for _ in range(2))
    os.environ |= line.environment
    sys.stdin = io.TextIOWrapper(io.BytesIO(line.standard_input))
    sys.stdout, sys.stderr = out, err
    try:
        code = entry.run(line.words)
    except _Broken as broken:
        raise fault_found.of_exception(broken.__cause__ or broken, line) from None
    finally:
        sys.stdin, sys.stdout, sys.stderr = streams
        os.environ.clear()
        os.environ |= kept
        messages.use(messages.BASE)
    return CommandAnswer(code, _bytes(out).decode(), _bytes(err).decode())


def judged(line: CommandLine, answer: CommandAnswer) -> str:
    """The code as a word; `FaultFound` where the answer is not one that a person can use."""
    if answer.code not in CODES:
        raise FaultFound(f"exit code {answer.code}", repr(line))
    if "Traceback" in answer.err + answer.out:
        raise FaultFound("a traceback is printed", f"{line!r} {answer.err[-600:]}")
    if answer.code and "tapewright: " not in answer.err:
        raise FaultFound(f"no sentence with code {answer.code}", f"{line!r} {answer.err[:200]!r}")
    if answer.code and answer.out and not _TELL_PROBLEMS & set(line.words):
        raise FaultFound(f"an answer with code {answer.code}", f"{line!r} {answer.out[:200]!r}")
    if odd := _signs(answer.err + answer.out):
        raise FaultFound("a sign that a terminal obeys", f"{line!r} {odd!r}")
    if not answer.code and "--json" in line.words and not _asks_for_words(line.words):
        _read(line, answer.out)
    return str(answer.code)


def fed(shop: ThrowawayShop, line: CommandLine) -> str:
    """Carries it out and judges it; what was refused left nothing behind, what was done is thrown away."""
    before = shop.standing()
    try:
        answer = carried_out(line)
        code = judged(line, answer)
        news = shop.standing().told_against(before)
    except BaseException:
        shop.renew()
        raise
    if news:
        shop.renew()
        if answer.code:
            raise FaultFound(
                f"changed with code {answer.code}: {_roughly(news)}", f"{line!r} {news} {answer.err[:300]}"
            )
    return code


def _roughly(news: str) -> str:
    """The same for files that differ in their numbers."""
    return "".join("9" if each.isdigit() else each for each in news)[:80]


def _asks_for_words(words: Sequence[str]) -> bool:
    """Help, the version and the script of a shell are words whoever asks."""
    return bool({"-h", "--help", "--version"} & set(words))


def _read(line: CommandLine, out: str) -> None:
    try:
        json.loads(out, parse_constant=_refuse)
    except ValueError as error:
        raise FaultFound("no JSON document", f"{line!r} {error}: {out[:200]!r}") from None


def _refuse(name: str) -> None:
    raise ValueError(f"{name} is no JSON")


def _signs(text: str) -> str:
    """Control signs and those that turn writing around: categories Cc and Cf but for the joiners."""
    shown = (each for each in text if each not in _LINE_ENDS and each not in "\u200c\u200d")
    return "".join(each for each in shown if unicodedata.category(each) in ("Cc", "Cf", "Cs"))


def _bytes(stream: io.TextIOWrapper) -> bytes:
    stream.flush()
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue()


def put(file: Path, data: bytes) -> None:
    """An input file, also where something that is no file lies."""
    from tests.fuzzed_readers import hostile_files

    hostile_files.clear(file)
    file.write_bytes(data)
