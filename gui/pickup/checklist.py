"""The checklist of one pickup: which tapes and copies of an order lie on the counter now."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.copies import copy_standing
from core.model.copies.copy_records import CopyRecord
from core.model.errors import Refused, TapewrightError, WrongInput
from core.model.job_records import Job
from core.model.names import TapeCode
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.wording.locale_figures import listed, tape_code
from gui.toolkit.text import say
from gui.widgets import tray_rows


@dataclass(frozen=True, slots=True)
class Checklist:
    """A job and the keys checked off so far: tape codes, and keys of copies as `tray_rows.copy_key`."""

    job: Job
    keys: frozenset[str] = frozenset()

    @property
    def open_keys(self) -> tuple[str, ...]:
        """Keys of everything that can be handed back now: tapes, then copies."""
        tapes = [tape.code for tape in self.job.tapes if tape.station.may_go_home]
        return (*tapes, *self.open_copies)

    @property
    def open_copies(self) -> tuple[str, ...]:
        """Keys of the copies that can be handed back now."""
        return tuple(tray_rows.copy_key(copy) for copy in self.job.copies if _may_be_taken(copy))

    @property
    def partial_copies(self) -> tuple[CopyRecord, ...]:
        """The copies checked off that do not hold all that was copied, or will be."""
        going, taken = set(self.codes), set(self.copies)
        tapes = (
            replace(each, station=Station.HANDED_BACK) if each.code in going else each
            for each in self.job.tapes
        )
        job = replace(self.job, tapes=tuple(tapes))
        gone = (each for each in job.copies if each.id in taken)
        return tuple(each for each in gone if not copy_standing.is_whole(job, each))

    @property
    def has_gone(self) -> bool:
        """Whether a part of the job was handed back before."""
        tapes = any(tape.station is Station.HANDED_BACK for tape in self.job.tapes)
        return tapes or any(copy.handed_back_at is not None for copy in self.job.copies)

    @property
    def tapes(self) -> tuple[TapeRecord, ...]:
        """The tapes checked off."""
        return tuple(tape for tape in self.job.tapes if tape.code in self.keys)

    @property
    def tapes_to_mention(self) -> tuple[TapeRecord, ...]:
        """The tapes to tell about: those checked off, else those that can go, else those gone."""
        can_go = tuple(tape for tape in self.job.tapes if self.is_open(tape.code))
        gone = tuple(tape for tape in self.job.tapes if tape.station is Station.HANDED_BACK)
        return self.tapes or can_go or gone

    @property
    def codes(self) -> tuple[TapeCode, ...]:
        """Codes of the tapes checked off."""
        return tuple(tape.code for tape in self.tapes)

    @property
    def copies(self) -> tuple[int, ...]:
        """Numbers of the copies checked off."""
        return tuple(copy.id for copy in self.job.copies if tray_rows.copy_key(copy) in self.keys)

    @property
    def summary(self) -> str:
        """``3 tapes and 1 copy``; empty when nothing is checked off."""
        counts = (("tapes_many", len(self.codes)), ("copies_many", len(self.copies)))
        return listed([say("pickup", key, count=count) for key, count in counts if count])

    def is_open(self, key: str) -> bool:
        """Whether this tape or copy can be handed back now."""
        return key in self.open_keys

    def checked(self, key: str) -> bool | None:
        """Whether a tape or copy is checked off; None when it cannot be handed back now."""
        return key in self.keys if self.is_open(key) else None

    def toggle(self, key: str) -> Checklist:
        """The checklist with one key checked off or no longer; unchanged for one that cannot go now."""
        return replace(self, keys=self.keys ^ {key}) if self.is_open(key) else self

    def scan(self, code: str) -> Checklist:
        """The checklist with a scanned tape checked off.

        WrongInput: the job has no such tape. Refused: it belongs to another job, or is not ready.
        """
        tape = next((tape for tape in self.job.tapes if tape.code == code), None)
        if tape is None:
            raise self._not_of_this_job(code)
        if not self.is_open(code):
            title, station = tray_rows.tape_title(tape), spoken(tape.station)
            raise Refused(say("pickup", "not_ready", title=title, station=station))
        return replace(self, keys=self.keys | {code})

    def renewed(self, job: Job) -> Checklist:
        """The same checklist on the job as read again; what cannot go any more is no longer checked off."""
        return replace(self, job=job).with_keys(self.keys)

    def with_keys(self, keys: frozenset[str]) -> Checklist:
        """The checklist with these keys checked off, as far as they can go home now."""
        return replace(self, keys=keys & frozenset(self.open_keys))

    def label_to_check(self, current: str = "") -> TapeRecord | None:
        """The tape whose not-for-reuse label is to be seen to next: ``current`` if it is one, else the first.

        A missing label comes first, because nothing leaves without it; a stray one only has to come off.
        """
        going = [tape for tape in self.job.tapes if self.is_open(tape.code)]
        unlabeled = [tape for tape in going if tape.not_for_reuse and tape.marked_at is None]
        due = unlabeled or [tape for tape in going if tape.label_astray]
        here = [tape for tape in due if tape.code == current]
        return next(iter((*here, *due)), None)

    def _not_of_this_job(self, code: str) -> TapewrightError:
        number, other = self.job.number, code[:6]
        if other == number:
            return WrongInput(say("pickup", "tape_code"), code, say("pickup", "not_in_job", job=number))
        return Refused(say("pickup", "other_job", code=tape_code(code), other=other, job=number))


def _may_be_taken(copy: CopyRecord) -> bool:
    """Whether a copy exists and was not handed over; a download is never taken along."""
    is_there = not copy.is_followed or copy.checked is not None
    return is_there and copy.handed_back_at is None and not copy.is_download
