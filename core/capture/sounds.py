"""Listens to the sound go by: where nothing is to be heard, and which channel is dead."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.capture import thresholds as at
from core.capture.time_spans import Span

Samples = NDArray[np.float32]
"""Channels × samples, -1 to 1."""

_SILENT = 10 ** (at.SILENT_DBFS / 20)


class SoundWatch:
    """Is given all samples in order; keeps less than one window of them."""

    def __init__(self, rate: int, channels: int, start: float) -> None:
        self.silent: list[Span] = []
        self._window = max(round(rate * at.SOUND_WINDOW_SECONDS), 1)
        self._seconds = self._window / rate
        self._rest: Samples = np.zeros((channels, 0), np.float32)
        self._windows = 0
        self._start = start
        self._began: float | None = None
        self._heard = np.zeros(channels, np.int64)
        """Windows in which each channel was heard."""

    @property
    def end(self) -> float:
        """Where the sound heard so far ends."""
        return self._start + self._windows * self._seconds

    @property
    def dead_channels(self) -> tuple[int, ...]:
        """Channels that are silent all through while another is not; counted from 0."""
        if not self._heard.any():
            return ()
        return tuple(int(channel) for channel in np.flatnonzero(self._heard == 0))

    @property
    def before(self) -> tuple[Span, ...]:
        """The time before the first sound of the file, which is silent as well."""
        return ((0.0, self._start),) if self._start > self._seconds else ()

    def after(self, end: float) -> tuple[Span, ...]:
        """The time from the last sound of the file to its ``end``."""
        return ((self.end, end),) if end - self.end > self._seconds else ()

    def hear(self, samples: Samples) -> None:
        """The next samples."""
        joined = np.concatenate([self._rest, samples], axis=1)
        whole = joined.shape[1] // self._window * self._window
        self._rest = joined[:, whole:]
        if whole:
            self._judge(joined[:, :whole].reshape(joined.shape[0], -1, self._window))

    def finish(self) -> None:
        """No more sound; a silence that is going on ends here."""
        if self._began is not None:
            self.silent.append((self._began, self.end))
            self._began = None

    def _judge(self, windows: Samples) -> None:
        is_heard = windows.std(axis=2) >= _SILENT
        self._heard += is_heard.sum(axis=1)
        for heard in is_heard.any(axis=0):
            if heard and self._began is not None:
                self.silent.append((self._began, self.end))
                self._began = None
            elif not heard and self._began is None:
                self._began = self.end
            self._windows += 1
