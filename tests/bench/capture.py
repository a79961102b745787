"""Stretches of generated clips, by precision and recall; and reading a file against merely decoding it."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import av
import numpy as np

from core.capture.examining import examine
from core.capture.file_report import StretchKind
from tests.bench.ratio import Ratio, median
from tests.core.capture.matching import Match, matched
from tests.support.clips import Clip, Scene, made

CLIPS = 12
TOLERANCE = 0.3
"""Seconds by which an end may be off: a fade of the encoder, a window of the sound."""
LEAST = 0.97
AT_MOST = 3.0
"""Times bare decoding: the checksum and looking at four pictures a second must not outweigh the decoder."""

QUIETEST = 1.25
"""Levels of 255 that the noise of a tape spreads at least: 45 dB below the signal of 219 levels, which no
home deck betters (from memory)."""

_SHOWS = ("bars", "talk", "still", "noise", "candle", "sky", "black", "blue", "lettered", "frozen")
_STILL = (
    Scene("bars", 3),
    Scene("frozen", 6),
    Scene("still", 8),
    Scene("frozen", 6),
    Scene("talk", 4),
    Scene("still", 6),
)
"""A moving picture held, a quiet room, the same room held: told apart by noise alone."""
_AS_SHOPS_RECORD = (
    ("mp4", "libx264", "aac", 5.0),
    ("mp4", "libx264", "aac", 2.0),
    ("mpg", "mpeg2video", "mp2", 8.0),
    ("mpg", "mpeg2video", "mp2", 4.0),
    ("avi", "dvvideo", "pcm_s16le", 25.0),
)
"""Files at 720 × 576 and their Mb/s: the usual ones of the catalogue, and the least a DVD should have."""
_CODECS = (("mkv", "mpeg4", "pcm_s16le"), ("mp4", "libx264", "aac"), ("mpg", "mpeg2video", "mp2"))


def measure() -> Iterator[Ratio]:
    """Pooled over random clips that differ in scenes, codec, noise and seed; then at SD size, and speed."""
    with tempfile.TemporaryDirectory() as folder:
        for kind, match in _found(Path(folder)).items():
            yield from _told(kind.value, match)
        yield from _told("held or quiet, at SD size", _held(Path(folder)))
        yield from _speed(Path(folder))


def _told(what: str, match: Match) -> Iterator[Ratio]:
    right = f"{match.pieces_right} of {match.pieces_known} within {TOLERANCE} s"
    pieces = f"{right}, {match.pieces_found} found"
    yield _at_least(f"{what}: precision", match.precision, pieces)
    yield _at_least(f"{what}: recall", match.recall, pieces)


def _at_least(what: str, share: float, pieces: str) -> Ratio:
    """A share that must reach `LEAST`, as the ratio of what may be missing."""
    return Ratio(f"{what} {share:.4f} ({pieces}): missing", 1 - share, "allowed", 1 - LEAST, "", 1.0)


def _found(folder: Path) -> dict[StretchKind, Match]:
    matches = dict.fromkeys(StretchKind, Match())
    for number in range(CLIPS):
        clip = random_clip(folder, number)
        report = examine(clip.path)
        for kind in StretchKind:
            ours = [(each.start, each.end) for each in report.stretches if each.kind is kind]
            matches[kind] += matched(ours, clip.spans(kind), TOLERANCE)
    return matches


def _held(folder: Path) -> Match:
    """Held pictures among quiet rooms, in files as shops record them and at noises from quiet to bad."""
    match = Match()
    for number, (ending, codec, sound, mb_s) in enumerate(_AS_SHOPS_RECORD):
        noise = float(np.random.default_rng(2000 + number).uniform(QUIETEST, 6))
        path = folder / f"held-{number}.{ending}"
        size = (720, 576)
        clip = made(path, _STILL, codec=codec, sound=sound, noise=noise, seed=number, size=size, mb_s=mb_s)
        frozen = [
            (each.start, each.end) for each in examine(path).stretches if each.kind is StretchKind.FROZEN
        ]
        match += matched(frozen, clip.spans(StretchKind.FROZEN), TOLERANCE)
    return match


def random_clip(folder: Path, number: int) -> Clip:
    """A clip drawn by chance: the same number gives the same clip."""
    rng = np.random.default_rng(1000 + number)
    ending, codec, sound = _CODECS[number % len(_CODECS)]
    scenes: list[Scene] = []
    for _ in range(8):
        # A picture that freezes must have moved before, and two stretches of one kind would be one.
        others = [name for name in _SHOWS if not scenes or name != scenes[-1].shows]
        if not scenes or scenes[-1].shows in ("black", "blue", "lettered"):
            others.remove("frozen")
        heard = bool(rng.random() < 0.7)
        volume = float(10 ** rng.uniform(-2, -0.5))
        scenes.append(Scene(str(rng.choice(others)), float(rng.integers(5, 10)), heard, heard, volume))
    path = folder / f"{number}.{ending}"
    return made(path, scenes, codec=codec, sound=sound, noise=float(rng.uniform(QUIETEST, 8)), seed=number)


def _speed(folder: Path) -> Iterator[Ratio]:
    lively = (Scene("blue", 3, False, False), Scene("bars", 8), Scene("talk", 6), Scene("black", 3))
    for words, scenes in (("an SD file", lively), ("a quiet room at SD size", (Scene("still", 20),))):
        clip = made(folder / "sd.mpg", scenes, codec="mpeg2video", sound="mp2", size=(720, 480))
        ours, bare = [], []
        for _ in range(5):
            ours.append(_seconds(partial(examine, clip.path)))
            bare.append(_seconds(partial(_decode, clip.path)))
        yield Ratio(f"reading {words}", median(ours), "bare decode", median(bare), "s", AT_MOST)
        yield Ratio(f"reading {words}", median(ours), "its play time", clip.seconds, "s", 1.0)


def _seconds(call: Callable[[], object]) -> float:
    began = time.perf_counter()
    call()
    return time.perf_counter() - began


def _decode(path: Path) -> int:
    with av.open(str(path)) as file:
        for stream in file.streams:
            stream.thread_type = "AUTO"
        return sum(1 for packet in file.demux() for _ in packet.decode())
