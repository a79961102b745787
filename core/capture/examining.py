"""Reads a captured file from start to end and reports what it holds; can be followed and stopped."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from core.capture import checksums, decoding, trims
from core.capture import thresholds as at
from core.capture.decoding import Heard, RecordedFile
from core.capture.file_report import Report, Sound, clock
from core.capture.pictures import Picture, PictureWatch
from core.capture.sounds import SoundWatch
from core.capture.time_spans import longer
from core.capture.trims import RawSpans
from core.model import regular_files
from core.model.errors import AsWritten, TapewrightError, WrongInput
from core.wording.locale_figures import listed
from core.wording.messages import say

_HASHING = 0.1
"""Share of the progress that the checksum takes; the rest is decoding. (own choice)"""
_SIDES = ("left", "right")
_STEP = 0.002
"""Progress is told in steps of at least this."""

Told = Callable[[float], None]
Stop = Callable[[], bool]


class Stopped(TapewrightError):
    """Somebody stopped the reading; nothing was kept."""

    exit_code = 3


def examine(path: Path, *, told: Told = lambda share: None, stop: Stop = lambda: False) -> Report:
    """What the file at ``path`` holds. ``told`` gets the share done, rising from 0 to 1.

    Raises Stopped soon after ``stop`` says so, WrongInput for a file that holds no recording or is still
    being written, Unavailable when it cannot be read or PyAV is not installed.
    """
    regular_files.check(path, str(path), say("capture", "finished-file"))
    progress = _Progress(told, stop)
    with decoding.opened(path) as recording:
        before = _stamp(path)
        digest = checksums.sha256(path, lambda read: progress.reach(_HASHING * read / max(before[0], 1)))
        watch = _Watch()
        for piece in recording.pieces():
            watch.take(piece)
            progress.reach(_HASHING + (1 - _HASHING) * recording.done)
        watch.finish()
    if _stamp(path) != before:
        raise WrongInput(path.name, AsWritten(say("capture", "still-written")), say("capture", "close-first"))
    if not watch.end:
        raise decoding.not_recorded(path)
    progress.reach(1.0)
    return _report(path.name, before[0], digest, recording, watch)


class _Progress:
    """Tells how far it is, never backwards, and gives way to whoever wants to stop."""

    def __init__(self, told: Told, stop: Stop) -> None:
        self._told = told
        self._stop = stop
        self._last = -1.0

    def reach(self, share: float) -> None:
        if self._stop():
            raise Stopped(say("capture", "stopped"))
        if share >= self._last + _STEP or (share >= 1.0 and self._last < 1.0):
            self._last = share
            self._told(share)


@dataclass(slots=True)
class _Watch:
    """Both watches side by side."""

    pictures: PictureWatch = field(default_factory=PictureWatch)
    sounds: SoundWatch | None = None
    heard_to: float | None = None
    """Where the last sound ends, to the sample."""

    def take(self, piece: Picture | Heard | None) -> None:
        if isinstance(piece, Picture):
            self.pictures.show(piece)
        elif piece is not None:
            if self.sounds is None:
                self.sounds = SoundWatch(piece.rate, piece.samples.shape[0], piece.start)
            self.sounds.hear(piece.samples)
            self.heard_to = piece.start + piece.samples.shape[1] / piece.rate

    def finish(self) -> None:
        self.pictures.finish()
        if self.sounds is not None:
            self.sounds.finish()

    @property
    def end(self) -> float:
        return max(self.pictures.end, self.sounds.end if self.sounds else 0.0)

    def seen(self) -> RawSpans:
        pictures, sounds, end = self.pictures, self.sounds, self.end
        return RawSpans(
            seconds=end,
            pictures=pictures.end > 0,
            sounds=sounds is not None,
            black=tuple(pictures.black),
            blue=tuple(pictures.blue),
            frozen=tuple(pictures.frozen),
            silent=() if sounds is None else (*sounds.before, *sounds.silent, *sounds.after(end)),
        )


def _report(name: str, size: int, digest: str, recording: RecordedFile, watch: _Watch) -> Report:
    seen = watch.seen()
    keep_from, keep_to = trims.trims(seen)
    return Report(
        name=name,
        size_bytes=size,
        sha256=digest,
        seconds=round(seen.seconds, 3),
        has_picture=seen.pictures,
        sound=trims.sound(seen),
        stretches=trims.stretches(seen),
        keep_from=round(keep_from, 3),
        keep_to=round(keep_to, 3),
        billable_minutes=round(trims.billable_minutes(seen), 3),
        remarks=tuple(_remarks(seen, recording, watch)),
        picture=recording.picture if seen.pictures else None,
        picture_seconds=round(watch.pictures.end, 3) if seen.pictures else None,
        sound_seconds=None if watch.heard_to is None else round(watch.heard_to, 3),
        unread=recording.unread,
        breaks_off=_breaks_off(seen, recording),
        dead_channels=len(watch.sounds.dead_channels) if watch.sounds else 0,
    )


def _breaks_off(seen: RawSpans, recording: RecordedFile) -> bool:
    claims = recording.claims_seconds
    ends_early = bool(claims and claims - seen.seconds > at.ENDS_EARLY_SECONDS)
    return recording.ended_badly or ends_early


def _remarks(seen: RawSpans, recording: RecordedFile, watch: _Watch) -> Iterator[str]:
    """What a person at the bench must hear of, the gravest first."""
    claims = recording.claims_seconds
    if _breaks_off(seen, recording):
        key = "breaks-off-early" if claims and claims > seen.seconds else "breaks-off"
        yield say("capture", key, at=clock(seen.seconds), claimed=clock(claims or 0.0))
    if recording.unread:
        yield say("capture", "unread", n=recording.unread)
    if not seen.pictures:
        yield say("capture", "no-picture")
    yield from _about_sound(seen)
    yield from _about_channels(watch.sounds.dead_channels if watch.sounds else ())


def _about_sound(seen: RawSpans) -> Iterator[str]:
    sound = trims.sound(seen)
    if sound is Sound.MISSING:
        yield say("capture", "all-silent" if seen.sounds else "no-sound")
    elif sound is Sound.PARTLY:
        silent = longer(trims.mute(seen), at.SOUND_PARTLY_SECONDS)
        places = [say("capture", "silent-place", start=clock(start), end=clock(end)) for start, end in silent]
        yield say("capture", "partly-silent", places=listed(places, "unit"))


def _about_channels(dead: Sequence[int]) -> Iterator[str]:
    """The channels nothing was recorded on, counted from 0: left, right, then by number."""
    if len(dead) == 1 and dead[0] < len(_SIDES):
        yield say("capture", f"dead-{_SIDES[dead[0]]}")
    elif dead:
        names = [
            say("capture", f"channel-{_SIDES[channel]}") if channel < len(_SIDES) else str(channel + 1)
            for channel in dead
        ]
        yield say("capture", "dead-channels", channels=listed(names))


def _stamp(path: Path) -> tuple[int, int]:
    found = os.stat(path)
    return found.st_size, found.st_mtime_ns
