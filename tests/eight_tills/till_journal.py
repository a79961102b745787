"""What a till writes down: each step before it is sent, and what came of it. It outlives the till.

One line is one write, so that a till that is killed leaves whole lines; a last one that is torn does not
count. Moments are those of the machine's steady clock, which all its processes share.
"""

from __future__ import annotations

import base64
import json
import os
import pickle
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic
from typing import Any

from core.store import steps

Call = tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any]]


@dataclass
class Attempt:
    """A step was sent, or sent again."""

    at: float
    ended: float | None = None
    outcome: str = ""
    """``acknowledged``, ``refused``, ``unavailable``, ``busy``, ``broke``; nothing: the till was killed."""
    said: str = ""


@dataclass
class Intent:
    """One step that a till wanted stored, by its command id."""

    till: str
    command: str
    step: str
    call: Call
    attempts: list[Attempt] = field(default_factory=list)
    ids: list[str] = field(default_factory=list)
    """By what it went: one id, unless a guard is out."""

    @property
    def outcome(self) -> str:
        """What the till knows at last; nothing while nobody answered."""
        last = self.attempts[-1].outcome
        return last if last in ("acknowledged", "refused", "broke") else ""

    @property
    def said(self) -> str:
        return self.attempts[-1].said

    @property
    def leaves_the_same(self) -> bool:
        """Of these the records keep no command id."""
        mark = steps.mark_of(self.call[0])
        return mark is not None and mark.replaces

    def argument(self, name: str) -> Any:
        """What it was called with under this name, or the default."""
        function, args, named = self.call
        return steps._bound(function, args, named).get(name)


class TillJournal:
    """The file of one till, written by whichever process is this till at the moment."""

    def __init__(self, file: Path) -> None:
        self._file = os.open(file, os.O_RDWR | os.O_CREAT | os.O_APPEND, 0o600)
        size = os.fstat(self._file).st_size
        if size and os.pread(self._file, 1, size - 1) != b"\n":
            os.write(self._file, b"\n")  # the line that was torn ends here

    def write(self, what: str, **more: object) -> None:
        line = json.dumps({"what": what, "at": monotonic(), **more}) + "\n"
        os.write(self._file, line.encode())

    def send(self, command: str, call: Call) -> None:
        written = base64.b64encode(pickle.dumps(call)).decode()
        self.write("sent", id=command, step=steps.name_of(call[0]), call=written)


class JournalReader:
    """Reads on where it stopped reading."""

    def __init__(self, file: Path) -> None:
        self._file = file
        self._till = file.stem
        self._read = 0
        self.intents: dict[str, Intent] = {}
        self.unfit: list[str] = []
        """Scenes that found the shop otherwise than they thought."""
        self.broke: list[str] = []
        """What is a bug, with its trace."""
        self.slowest_question = 0.0
        self.has_ended = False

    def read_on(self) -> None:
        if not self._file.exists():
            return
        with self._file.open("rb") as opened:
            opened.seek(self._read)
            for line in opened:
                if not line.endswith(b"\n"):
                    break
                self._read += len(line)
                self._take(line)

    @property
    def unanswered(self) -> list[Intent]:
        return [each for each in self.intents.values() if not each.outcome]

    def _take(self, line: bytes) -> None:
        try:
            said: Mapping[str, Any] = json.loads(line)
        except ValueError:
            return  # torn
        what = said["what"]
        if what == "sent":
            call, key = pickle.loads(base64.b64decode(said["call"])), said["id"]
            self.intents[key] = Intent(self._till, key, said["step"], call, [Attempt(said["at"])], [key])
        elif what == "again":
            self.intents[said["id"]].attempts.append(Attempt(said["at"]))
            self.intents[said["id"]].ids.append(said["goes_by"])
        elif what in ("began", "ended"):
            self.has_ended = what == "ended"
        elif what == "unfit":
            self.unfit.append(said["said"])
        elif what == "asked":
            self.slowest_question = max(self.slowest_question, said["waited"])
        else:
            self._end_attempt(what, said)

    def _end_attempt(self, what: str, said: Mapping[str, Any]) -> None:
        if what == "broke":
            self.broke.append(said["said"])
        if said["id"] in self.intents:
            attempt = self.intents[said["id"]].attempts[-1]
            attempt.ended, attempt.outcome, attempt.said = said["at"], what, said.get("said", "")
