"""What counts as silence."""

from __future__ import annotations

import numpy as np
import pytest

from core.capture.sounds import SoundWatch

RATE = 8000


def watch(*levels_db: float, channels: int = 1, bias: float = 0.0, piece: int = 700) -> SoundWatch:
    """One second of noise at each level, heard in odd pieces."""
    rng = np.random.default_rng(4)
    whole = np.concatenate([rng.normal(0, 10 ** (db / 20), (channels, RATE)) for db in levels_db], axis=1)
    listening = SoundWatch(RATE, channels, 0.0)
    for start in range(0, whole.shape[1], piece):
        listening.hear((whole[:, start : start + piece] + bias).astype(np.float32))
    listening.finish()
    return listening


def test_hiss_is_silence_and_a_whisper_is_not() -> None:
    assert watch(-20, -58, -46).silent == [(pytest.approx(1.0), pytest.approx(2.0))]


def test_a_constant_voltage_is_no_sound() -> None:
    assert watch(-70, bias=0.2).silent == [(0.0, pytest.approx(1.0))]


@pytest.mark.parametrize("piece", [1, 399, 400, 401, 8000])
def test_it_does_not_matter_in_which_pieces_the_sound_comes(piece: int) -> None:
    heard = watch(-20, -60, piece=piece)

    assert heard.silent == [(pytest.approx(1.0), pytest.approx(2.0))]
    assert heard.end == pytest.approx(2.0)


def test_a_dead_channel_is_named_only_beside_a_live_one() -> None:
    rng, both = np.random.default_rng(5), SoundWatch(RATE, 2, 0.0)
    left = rng.normal(0, 0.1, RATE)
    both.hear(np.stack([left, np.zeros(RATE)]).astype(np.float32))

    assert both.dead_channels == (1,)
    assert watch(-70, channels=2).dead_channels == ()
