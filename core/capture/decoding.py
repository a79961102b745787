"""The only room that imports PyAV: a file's pictures and sounds, one after the other, never all at once.

PyAV comes with the optional extra ``capture``; it is imported when a file is opened.
"""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO, NoReturn

import numpy as np
from numpy.typing import NDArray

from core.capture import thresholds as at
from core.capture.file_report import PictureFormat
from core.capture.pictures import Luma, Picture, Small
from core.capture.sounds import Samples
from core.model.errors import AsWritten, Unavailable, WrongInput
from core.wording.messages import say

if TYPE_CHECKING:
    from av.audio.frame import AudioFrame
    from av.container import InputContainer
    from av.packet import Packet
    from av.video.frame import VideoFrame
    from av.video.reformatter import VideoReformatter
    from av.video.stream import VideoStream

CONTAINERS = (
    "mov,mp4,matroska,webm,avi,dv,mpeg,mpegts,mpegvideo,mxf,gxf,asf,flv,nut,h264,hevc,"
    "wav,w64,flac,ogg,mp3,aac,ac3,aiff,caf"
)
"""Names FFmpeg gives to what holds its pictures and sounds itself; play-lists and picture series are none."""

_BUFFER = 256 * 1024

_USUAL_FRAME = 1 / 25
"""Seconds of a picture when the file does not say."""


@dataclass(frozen=True, slots=True)
class Heard:
    """A piece of sound and when it starts, in seconds."""

    start: float
    rate: int
    samples: Samples


@dataclass(slots=True)
class RecordedFile:
    """An open file. ``unread`` counts the places that could not be decoded."""

    container: InputContainer
    size: int
    has_picture: bool
    claims_seconds: float | None
    """The length the file gives itself."""
    picture: PictureFormat | None = None
    unread: int = 0
    ended_badly: bool = False
    done: float = 0.0
    """Share of the file that was read, 0 to 1; never falls."""
    _start: float = 0.0
    _last: dict[str, float] = field(default_factory=dict)

    def pieces(self) -> Iterator[Picture | Heard | None]:
        """Everything in the file in order; None after each packet, so that one can stop between any two."""
        looks = _Looks()
        for packet in self._packets():
            for frame in self._decoded(packet):
                if packet.stream.type == "video":
                    yield self._picture(frame, packet, looks)
                else:
                    yield self._heard(frame)
            if packet.pos is not None and self.size:
                self.done = max(self.done, min(packet.pos / self.size, 1.0))
            yield None

    def _packets(self) -> Iterator[Packet[Any]]:
        import av

        streams = self.container.streams
        wanted = [*streams.video[:1], *streams.audio[:1]]
        packets = self.container.demux(wanted)
        while True:
            try:
                packet = next(packets, None)
            except (av.error.FFmpegError, ValueError):
                self.ended_badly = True
                return
            if packet is None:
                return
            yield packet

    def _decoded(self, packet: Packet[Any]) -> list[Any]:
        import av

        try:
            return list(packet.decode())
        except av.error.EOFError:
            return []
        except (av.error.FFmpegError, ValueError):
            self.unread += 1
            return []

    def _picture(self, frame: VideoFrame, packet: Packet[Any], looks: _Looks) -> Picture:
        long = _frame_seconds(frame, packet)
        start = self._when("video", frame.time, long)
        self.unread += frame.is_corrupt
        return Picture(start, start + long, lambda: looks.small(frame), lambda: looks.luma(frame))

    def _heard(self, frame: AudioFrame) -> Heard:
        long = frame.samples / frame.sample_rate
        return Heard(self._when("audio", frame.time, long), frame.sample_rate, _samples(frame))

    def _when(self, kind: str, told: float | None, long: float) -> float:
        """Seconds from the beginning; where the file's own clock is missing or jumps back, time goes on."""
        due = self._last.get(kind)
        when = due or 0.0 if told is None else told - self._start
        if due is not None and when < due - long:
            when = due
        if due is not None and when - due > at.GAP_SECONDS:
            self.unread += 1
        when = max(when, 0.0)
        self._last[kind] = when + long
        return when


@contextmanager
def opened(path: Path) -> Iterator[RecordedFile]:
    """A recorded file, open for reading. Unavailable without PyAV or permission, WrongInput for others.

    Only a regular file of this computer is read, and only the one that is named: neither an address nor a
    play-list, and what a file refers to is never opened.
    """
    av = _library()
    with _regular(path) as file, _container(path, file) as container:
        video, audio = container.streams.video[:1], container.streams.audio[:1]
        if not video and not audio:
            raise not_recorded(path)
        for stream in (*video, *audio):
            stream.thread_type = "AUTO"
        micro, start = container.duration, container.start_time
        yield RecordedFile(
            container,
            path.stat().st_size,
            bool(video),
            None if micro is None else micro / av.time_base,
            _picture_format(video[0]) if video else None,
            _start=0.0 if start is None else start / av.time_base,
        )


def _regular(path: Path) -> BinaryIO:
    """The bytes of a file on a disk; a pipe or device is refused instead of waited for."""
    try:
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    except (OSError, ValueError) as error:
        raise _refusal(path, error) from error
    if not stat.S_ISREG(os.fstat(handle).st_mode):
        os.close(handle)
        raise not_recorded(path)
    return open(handle, "rb", buffering=0)


def _container(path: Path, file: BinaryIO) -> Any:
    av = _library()
    allowed = {"format_whitelist": CONTAINERS, "protocol_whitelist": "none"}
    try:
        return av.open(file, mode="r", container_options=allowed, buffer_size=_BUFFER, io_open=_open_nothing)
    except (av.error.FFmpegError, ValueError, OSError) as error:
        raise _refusal(path, error) from error


def _open_nothing(url: str, flags: int, options: dict[str, str]) -> NoReturn:
    """What a recording refers to is not read."""
    raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))


def _library() -> Any:
    try:
        import av
        import av.error
    except ImportError as error:
        raise Unavailable(say("capture", "no-library")) from error
    return av


def _refusal(path: Path, error: Exception) -> Unavailable | WrongInput:
    if isinstance(error, PermissionError):
        return Unavailable(say("capture", "not-allowed", path=path))
    if isinstance(error, FileNotFoundError):
        return WrongInput(str(path), AsWritten(say("capture", "nothing-there")), say("capture", "name_it"))
    return not_recorded(path)


def not_recorded(path: Path) -> WrongInput:
    """The complaint about a file without anything to see or hear."""
    return WrongInput(str(path), AsWritten(say("capture", "no-recording")), say("capture", "finished-file"))


def _frame_seconds(frame: VideoFrame, packet: Packet[Any]) -> float:
    if frame.duration and frame.time_base:
        return float(frame.duration * frame.time_base)
    rate: Fraction | None = getattr(packet.stream, "average_rate", None)
    return float(1 / rate) if rate else _USUAL_FRAME


def _picture_format(stream: VideoStream) -> PictureFormat:
    """As the stream tells it; a ratio of 0 means that it does not."""
    rate, pixel = stream.average_rate or stream.guessed_rate, stream.sample_aspect_ratio
    return PictureFormat(
        stream.width,
        stream.height,
        (rate.numerator, rate.denominator) if rate else None,
        (pixel.numerator, pixel.denominator) if pixel else None,
    )


class _Looks:
    """The two ways to look at a picture; each keeps the scaler it has set up."""

    def __init__(self) -> None:
        from av.video.reformatter import VideoReformatter

        self._scale: VideoReformatter = VideoReformatter()
        self._grey: VideoReformatter = VideoReformatter()

    def small(self, frame: VideoFrame) -> Small:
        """The frame scaled down by averaging, for a first look."""
        small = self._scale.reformat(
            frame, at.SMALL_WIDTH, at.SMALL_HEIGHT, format="rgb24", interpolation="AREA"
        ).to_ndarray()
        return small.astype(np.float32)

    def luma(self, frame: VideoFrame) -> Luma:
        """The brightness of the frame at full size."""
        return self._grey.reformat(frame, format="gray").to_ndarray().astype(np.uint8)


def _samples(frame: AudioFrame) -> Samples:
    """All channels as floats; whole numbers are scaled by their width."""
    found: NDArray[Any] = frame.to_ndarray()
    if not frame.format.is_planar:
        found = found.reshape(-1, len(frame.layout.channels)).T
    if found.dtype == np.uint8:
        found = found.astype(np.int16) - 128
    full = {1: 2**7, 2: 2**15, 4: 2**31}[frame.format.bytes] if found.dtype.kind == "i" else 1
    samples: Samples = (found.astype(np.float32) / full).astype(np.float32)
    return samples
