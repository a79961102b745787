"""Recorded files of known content, made for tests: a script of scenes becomes a small clip.

Pictures are 160 × 120 with the noise of an analogue tape added before encoding, drawn anew for every picture
but those of a held one; sounds are tones over hiss.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray

from core.capture.file_report import StretchKind
from core.capture.time_spans import Span, merged

WIDTH, HEIGHT, RATE = 160, 120, 25
SOUND_RATE = 48000
HISS = 10 ** (-58 / 20)
"""Of an empty track after capture, RMS of full level: quieter than any recording, louder than no plug."""

Frame = NDArray[np.uint8]
Colours = NDArray[np.float64]

_FAST = {"libx264": {"preset": "veryfast"}}
"""How the encoder is told not to look for the smallest file."""
_SHOWN_AS = {
    StretchKind.BLACK: ("black",),
    StretchKind.BLUE: ("blue", "lettered"),
    StretchKind.FROZEN: ("frozen",),
}


@dataclass(frozen=True, slots=True)
class Scene:
    """``shows`` is a name below; ``left`` and ``right`` say who is heard, ``volume`` how loud (1: full).

    black, blue, lettered (blue with the deck's words), frozen (the last picture held, with its very noise);
    and pictures that are none of these but could be taken for it: bars, noise, still (a tripod in an empty
    room), talk (hardly moves), candle (nearly black), sky (nearly a deck's blue).
    """

    shows: str
    seconds: float
    left: bool = True
    right: bool = True
    volume: float = 0.1

    @property
    def is_silent(self) -> bool:
        return not (self.left or self.right)


@dataclass(frozen=True, slots=True)
class Clip:
    """A file and what is known to be in it."""

    path: Path
    scenes: tuple[Scene, ...]

    @property
    def seconds(self) -> float:
        return sum(scene.seconds for scene in self.scenes)

    def spans(self, kind: StretchKind) -> list[Span]:
        """Where the script puts a kind of stretch."""
        return merged(
            (start, start + scene.seconds)
            for start, scene in _timed(self.scenes)
            if (scene.is_silent if kind is StretchKind.SILENT else scene.shows in _SHOWN_AS[kind])
        )


def made(
    path: Path,
    scenes: Sequence[Scene],
    *,
    codec: str = "mpeg4",
    sound: str | None = "pcm_s16le",
    noise: float = 5.0,
    seed: int = 1,
    size: tuple[int, int] = (WIDTH, HEIGHT),
    mb_s: float = 4.0,
) -> Clip:
    """Write the clip; ``sound`` None leaves the track out, ``noise`` is its spread in levels of 255.

    DV, whose rate is fixed, wants 720 × 576.
    """
    rng = np.random.default_rng(seed)
    with av.open(str(path), "w") as file:
        video = file.add_stream(codec, rate=RATE, options=_FAST.get(codec))
        video.width, video.height, video.pix_fmt = *size, "yuv420p"
        video.bit_rate = round(mb_s * 1e6)
        audio = file.add_stream(sound, rate=SOUND_RATE, layout="stereo") if sound else None
        fit = av.AudioResampler(audio.format.name, audio.layout.name, SOUND_RATE) if audio else None
        for number, (picture, pieces) in enumerate(_moments(scenes, rng, noise, size)):
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24")
            frame.pts = number
            file.mux(video.encode(frame))
            if audio is not None and fit is not None:
                heard = av.AudioFrame.from_ndarray(pieces, format="flt", layout="stereo")
                heard.sample_rate, heard.pts = SOUND_RATE, number * SOUND_RATE // RATE
                for piece in fit.resample(heard):
                    file.mux(audio.encode(piece))
        file.mux(video.encode(None))
        if audio is not None and fit is not None:
            for piece in fit.resample(None):
                file.mux(audio.encode(piece))
            file.mux(audio.encode(None))
    return Clip(path, tuple(scenes))


def _timed(scenes: Sequence[Scene]) -> Iterator[tuple[float, Scene]]:
    start = 0.0
    for scene in scenes:
        yield start, scene
        start += scene.seconds


def _moments(
    scenes: Sequence[Scene], rng: np.random.Generator, noise: float, size: tuple[int, int]
) -> Iterator[tuple[Frame, NDArray[np.float32]]]:
    """For each picture of the clip the picture and the sound that goes with it."""
    number, last = 0, _grainy(_talk(0, size), rng, noise)
    for scene in scenes:
        for _ in range(round(scene.seconds * RATE)):
            if scene.shows != "frozen":
                last = _grainy(_drawn(scene.shows, number, rng, size), rng, noise)
            yield last, _sounding(scene, number, rng)
            number += 1


def _grainy(picture: Colours, rng: np.random.Generator, noise: float) -> Frame:
    grain = rng.normal(0, noise, picture.shape[:2])[..., None]
    return np.clip(picture + grain, 0, 255).astype(np.uint8)


def _drawn(shows: str, number: int, rng: np.random.Generator, size: tuple[int, int]) -> Colours:
    if shows == "noise":
        return rng.uniform(0, 255, (size[1], size[0], 1)).repeat(3, axis=2)
    if shows in _PLAIN:
        return np.full((size[1], size[0], 3), _PLAIN[shows])
    return _MOVING[shows](number, size)


_PLAIN = {"black": (14.0, 14.0, 14.0), "blue": (18.0, 22.0, 190.0)}


def _bars(number: int, size: tuple[int, int]) -> Colours:
    """Colour bars that wander to the right."""
    colours = np.array(
        [(180, 180, 180), (180, 180, 16), (16, 180, 180), (16, 180, 16), (180, 16, 180), (180, 16, 16)], float
    )
    columns = (np.arange(size[0]) + 2 * number) * 6 // size[0] % 6
    return np.broadcast_to(colours[columns], (size[1], size[0], 3)).astype(float)


def _talk(number: int, size: tuple[int, int]) -> Colours:
    """A dim room in which little moves: a head nods a few points up and down."""
    width, height = size
    picture = np.full((height, width, 3), (70.0, 62.0, 50.0))
    picture[height * 3 // 4 :] = (46, 38, 30)
    top = round(height * (0.35 + 0.03 * np.sin(number / 5)))
    picture[top : top + height // 4, width * 2 // 5 : width * 3 // 5] = (190, 150, 130)
    return picture


def _still(number: int, size: tuple[int, int]) -> Colours:
    """The same room with nobody in it, and a window."""
    picture = _talk(0, size)
    picture[size[1] // 8 : size[1] // 3, size[0] // 10 : size[0] // 4] = (150, 165, 180)
    return picture


def _lettered(number: int, size: tuple[int, int]) -> Colours:
    """A deck's blue with its words in a corner, which blink."""
    picture = np.full((size[1], size[0], 3), _PLAIN["blue"])
    if number // RATE % 2:
        picture[size[1] // 10 : size[1] // 5, size[0] // 12 : size[0] // 3 : 2] = 235
    return picture


def _candle(number: int, size: tuple[int, int]) -> Colours:
    """A dark room with one flame that flickers."""
    picture = np.full((size[1], size[0], 3), (14.0, 12.0, 10.0))
    bright = 200 + 40 * np.sin(number / 3)
    picture[size[1] // 2 : size[1] * 3 // 4, size[0] // 2 : size[0] * 5 // 8] = (bright, bright * 0.7, 60)
    return picture


def _sky(number: int, size: tuple[int, int]) -> Colours:
    """A clear evening sky that pales downwards; a bird crosses it."""
    fade = np.linspace(0, 1, size[1])[:, None, None]
    picture = (1 - fade) * (40, 80, 180) + fade * (150, 180, 220) + np.zeros((1, size[0], 1))
    left = 3 * number % (size[0] - 16)
    picture[size[1] // 3 : size[1] // 3 + 10, left : left + 16] = 20
    return picture


_MOVING = {
    "bars": _bars,
    "still": _still,
    "talk": _talk,
    "lettered": _lettered,
    "candle": _candle,
    "sky": _sky,
}


def _sounding(scene: Scene, number: int, rng: np.random.Generator) -> NDArray[np.float32]:
    """One picture's length of sound, left and right interleaved."""
    count = SOUND_RATE // RATE
    times = (number * count + np.arange(count)) / SOUND_RATE
    tone = scene.volume * np.sin(2 * np.pi * 440 * times)
    hiss = rng.normal(0, HISS, (count, 2))
    return (hiss + tone[:, None] * (scene.left, scene.right)).astype(np.float32).reshape(1, -1)
