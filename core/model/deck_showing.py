"""What a deck shows of the tape it plays."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.names import FormatName, Speed, TvSystem


@dataclass(frozen=True, slots=True)
class Shown:
    """What somebody read off the deck besides the minutes; None: nobody looked."""

    speed: Speed | None = None
    recorded_as: FormatName | None = None
    tv: TvSystem | None = None

    @property
    def is_nothing(self) -> bool:
        return self == NOTHING

    @property
    def words(self) -> str:
        parts = [
            self.speed.words if self.speed else "",
            self.recorded_as or "",
            self.tv.name if self.tv else "",
        ]
        return ", ".join(part for part in parts if part)

    def over(self, before: Shown) -> Shown:
        """What is known by now: what was seen last, and of the rest what had been seen before."""
        return Shown(self.speed or before.speed, self.recorded_as or before.recorded_as, self.tv or before.tv)


NOTHING = Shown()
