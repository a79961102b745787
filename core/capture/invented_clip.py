"""The recording nobody made: a small file of invented pictures and tones for the demonstration.

Written with PyAV where that is installed; the same bytes every time, so that its checksum is too.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from core.model.errors import Unavailable
from core.wording.messages import say

RATE, SOUND_RATE = 5, 8000
"""Pictures and samples a second: enough to be seen and heard, and soon read."""
WIDTH, HEIGHT = 160, 120
_SEED = 4
_NOISE = 3.0
"""Spread of the noise in levels of 255, as on a tape."""

SCENES = (
    ("blue", 6, False),
    ("stage", 70, True),
    ("held", 8, True),
    ("stage", 40, True),
    ("stage", 16, False),
    ("stage", 30, True),
    ("blue", 12, False),
)
"""What it shows, for how many seconds, and whether there is sound."""

_BLUE = (18, 22, 190)
_STAGE = (60, 40, 34)


def write(path: Path) -> None:
    """Writes the recording; Unavailable where PyAV is not installed."""
    try:
        import av
    except ImportError as error:
        raise Unavailable(say("capture", "no-library-demo")) from error
    with av.open(str(path), "w", format="avi", options={"fflags": "+bitexact"}) as file:
        video = file.add_stream("mpeg4", rate=RATE)
        video.width, video.height, video.pix_fmt, video.bit_rate = WIDTH, HEIGHT, "yuv420p", 400_000
        audio = file.add_stream("pcm_s16le", rate=SOUND_RATE, layout="mono")
        for stream in (video, audio):
            stream.codec_context.thread_count = 1
            stream.codec_context.flags |= 1 << 23  # AV_CODEC_FLAG_BITEXACT: no version of the encoder in it
        for number, (picture, sound) in enumerate(_moments()):
            frame = av.VideoFrame.from_ndarray(picture, format="rgb24")
            frame.pts = number
            heard = av.AudioFrame.from_ndarray(sound, format="s16", layout="mono")
            heard.sample_rate, heard.pts = SOUND_RATE, number * SOUND_RATE // RATE
            file.mux(video.encode(frame))
            file.mux(audio.encode(heard))
        for stream in (video, audio):
            file.mux(stream.encode(None))


def _moments() -> Iterator[tuple[NDArray[Any], NDArray[Any]]]:
    """Picture by picture what is seen, and the piece of sound that goes with it."""
    rng = np.random.default_rng(_SEED)
    number, picture = 0, _noisy(_stage(0), rng)
    for shows, seconds, heard in SCENES:
        for _ in range(seconds * RATE):
            if shows == "blue":
                picture = np.full((HEIGHT, WIDTH, 3), _BLUE, np.uint8)
            elif shows == "stage":
                picture = _noisy(_stage(number), rng)
            yield picture, _tone(number, heard, rng)
            number += 1


def _stage(number: int) -> NDArray[np.float64]:
    """Somebody walks up and down before a curtain."""
    picture = np.full((HEIGHT, WIDTH, 3), _STAGE, float)
    picture[:, ::16] -= 14
    left = round(WIDTH * (0.5 + 0.3 * np.sin(number / 14))) - 8
    picture[40:105, left : left + 16] = (150, 130, 120)
    picture[26:42, left + 3 : left + 13] = (205, 170, 150)
    return picture


def _noisy(picture: NDArray[np.float64], rng: np.random.Generator) -> NDArray[Any]:
    grain = rng.normal(0, _NOISE, picture.shape[:2])[..., None]
    return np.clip(picture + grain, 0, 255).astype(np.uint8)


def _tone(number: int, heard: bool, rng: np.random.Generator) -> NDArray[Any]:
    count = SOUND_RATE // RATE
    times = (number * count + np.arange(count)) / SOUND_RATE
    sound = rng.normal(0, 8, count)
    if heard:
        sound += 2600 * np.sin(2 * np.pi * 330 * times) * (0.6 + 0.4 * np.sin(2 * np.pi * 2 * times))
    return sound.astype(np.int16).reshape(1, -1)
