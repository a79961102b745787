"""How long a call to the shop's server may hear nothing."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

SILENT_SECONDS = 8.0
"""More than `BUSY_SECONDS` of `core.store.engines`, after which a server that is busy says so."""

UPDATE_SECONDS = 600.0
"""One statement of an update of the tables may go over all their rows."""

CLOSING_SECONDS = 5.5
"""Once the window is closed: no longer than somebody else's step may take."""


@dataclass(slots=True)
class Patience:
    """May change while a call waits; the call looks again and again."""

    seconds: float = SILENT_SECONDS

    @contextmanager
    def lengthened(self, seconds: float) -> Iterator[None]:
        """For what takes long by itself."""
        usual, self.seconds = self.seconds, seconds
        try:
            yield
        finally:
            self.seconds = usual

    def hurry(self) -> None:
        """Somebody waits for everything to end."""
        self.seconds = min(self.seconds, CLOSING_SECONDS)
