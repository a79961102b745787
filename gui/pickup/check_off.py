"""The check-off list of one pickup: which tapes and copies of a job lie on the counter now."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.errors import Refused, TapewrightError, WrongInput
from core.model.job_records import Job
from core.model.names import TapeCode
from core.model.stations import HANDED_BACK_FROM, Station
from core.model.tape_records import TapeRecord
from core.wording.locale_figures import listed
from gui.toolkit.text import say
from gui.widgets import tray_rows


@dataclass(frozen=True, slots=True)
class Checkoff:
    """A job in hand and the keys checked off so far."""

    job: Job
    keys: frozenset[str] = frozenset()

    @property
    def open_keys(self) -> tuple[str, ...]:
        """Everything that can go home now: tapes, then copies."""
        tapes = [tape.code for tape in self.job.tapes if tape.station in HANDED_BACK_FROM]
        copies = [tray_rows.copy_key(copy) for copy in self.job.copies if copy.handed_back_at is None]
        return (*tapes, *copies)

    @property
    def has_gone(self) -> bool:
        """Whether something of the job went home before."""
        tapes = any(tape.station is Station.HANDED_BACK for tape in self.job.tapes)
        return tapes or any(copy.handed_back_at is not None for copy in self.job.copies)

    @property
    def tapes(self) -> tuple[TapeRecord, ...]:
        """The tapes checked off."""
        return tuple(tape for tape in self.job.tapes if tape.code in self.keys)

    @property
    def to_tell(self) -> tuple[TapeRecord, ...]:
        """The tapes to speak of: those checked off, else those that can go, else those that have gone."""
        can_go = tuple(tape for tape in self.job.tapes if self.is_open(tape.code))
        gone = tuple(tape for tape in self.job.tapes if tape.station is Station.HANDED_BACK)
        return self.tapes or can_go or gone

    @property
    def codes(self) -> tuple[TapeCode, ...]:
        return tuple(tape.code for tape in self.tapes)

    @property
    def copies(self) -> tuple[int, ...]:
        """Numbers of the copies checked off."""
        return tuple(copy.id for copy in self.job.copies if tray_rows.copy_key(copy) in self.keys)

    @property
    def words(self) -> str:
        """``3 tapes and 1 copy``; nothing when nothing is checked off."""
        tapes, copies = _count("tapes", len(self.codes)), _count("copies", len(self.copies))
        return listed([each for each in (tapes, copies) if each])

    def is_open(self, key: str) -> bool:
        """Whether this piece can go home now."""
        return key in self.open_keys

    def checked(self, key: str) -> bool | None:
        """Whether a piece is checked off; None when it cannot go home now."""
        return key in self.keys if self.is_open(key) else None

    def toggle(self, key: str) -> Checkoff:
        """The other way round for one piece; no change for a piece that stays."""
        return replace(self, keys=self.keys ^ {key}) if self.is_open(key) else self

    def scan(self, code: str) -> Checkoff:
        """One tape laid on the counter. WrongInput or Refused says what is wrong with it."""
        tape = next((tape for tape in self.job.tapes if tape.code == code), None)
        if tape is None:
            raise self._stranger(code)
        if not self.is_open(code):
            title, station = tray_rows.tape_title(tape), tape.station.words
            raise Refused(say("pickup", "not_ready", title=title, station=station))
        return replace(self, keys=self.keys | {code})

    def renewed(self, job: Job) -> Checkoff:
        """The same list after the job was read again; what cannot go any more is no longer checked off."""
        fresh = replace(self, job=job)
        return replace(fresh, keys=self.keys & frozenset(fresh.open_keys))

    def _stranger(self, code: str) -> TapewrightError:
        number, other = self.job.number, code[:6]
        if other == number:
            return WrongInput(say("pickup", "tape_code"), code, say("pickup", "not_in_job", job=number))
        told = say("pickup", "other_job", code=tray_rows.spaced(code), other=other, job=number)
        return Refused(f"{told}; {say('pickup', 'other_job_accepted', job=number)}.")


def _count(what: str, count: int) -> str:
    if not count:
        return ""
    return say("pickup", f"{what}_many", count=count)
