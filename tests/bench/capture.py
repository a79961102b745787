"""Stretches of generated clips, by precision and recall; and reading a file against merely decoding it."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import av
import numpy as np

from core.captured.examining import examine
from core.captured.report import Kind
from tests.bench.ratio import Ratio, median
from tests.support.clips import Clip, Scene, made
from tests.support.matching import Match, matched

CLIPS = 12
TOLERANCE = 0.3
"""Seconds by which an end may be off: a fade of the encoder, a window of the sound."""
LEAST = 0.97
AT_MOST = 3.0
"""Times bare decoding: the checksum and looking at four pictures a second must not outweigh the decoder."""

_SHOWS = ("bars", "talk", "noise", "candle", "sky", "black", "blue", "lettered", "frozen")
_CODECS = (("mkv", "mpeg4", "pcm_s16le"), ("mp4", "libx264", "aac"), ("mpg", "mpeg2video", "mp2"))


def measure() -> Iterator[Ratio]:
    """Pooled over random clips that differ in scenes, codec, noise and seed; then speed at SD size."""
    with tempfile.TemporaryDirectory() as folder:
        for kind, match in _found(Path(folder)).items():
            right = f"{match.pieces_right} of {match.pieces_known} within {TOLERANCE} s"
            pieces = f"{right}, {match.pieces_found} found"
            yield _at_least(f"{kind.value}: precision", match.precision, pieces)
            yield _at_least(f"{kind.value}: recall", match.recall, pieces)
        yield from _speed(Path(folder))


def _at_least(what: str, share: float, pieces: str) -> Ratio:
    """A share that must reach `LEAST`, as the ratio of what may be missing."""
    return Ratio(f"{what} {share:.4f} ({pieces}): missing", 1 - share, "allowed", 1 - LEAST, "", 1.0)


def _found(folder: Path) -> dict[Kind, Match]:
    matches = dict.fromkeys(Kind, Match())
    for number in range(CLIPS):
        clip = random_clip(folder, number)
        report = examine(clip.path)
        for kind in Kind:
            ours = [(each.start, each.end) for each in report.stretches if each.kind is kind]
            matches[kind] += matched(ours, clip.spans(kind), TOLERANCE)
    return matches


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
    return made(path, scenes, codec=codec, sound=sound, noise=float(rng.uniform(2, 8)), seed=number)


def _speed(folder: Path) -> Iterator[Ratio]:
    scenes = (Scene("blue", 3, False, False), Scene("bars", 8), Scene("talk", 6), Scene("black", 3))
    clip = made(folder / "sd.mpg", scenes, codec="mpeg2video", sound="mp2", size=(720, 480))
    ours, bare = [], []
    for _ in range(5):
        ours.append(_seconds(lambda: examine(clip.path)))
        bare.append(_seconds(lambda: _decode(clip.path)))
    yield Ratio("reading an SD file", median(ours), "bare decode", median(bare), "s", AT_MOST)
    yield Ratio("reading an SD file", median(ours), "its play time", clip.seconds, "s", 1.0)


def _seconds(call: Callable[[], object]) -> float:
    began = time.perf_counter()
    call()
    return time.perf_counter() - began


def _decode(path: Path) -> int:
    with av.open(str(path)) as file:
        for stream in file.streams:
            stream.thread_type = "AUTO"
        return sum(1 for packet in file.demux() for _ in packet.decode())
