"""How people in a shop work, as its history shows it: what plans reckon with beside the stated minutes."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class WorkHabits:
    """Learned, never stated (see `core.scheduling.worktime`); as here in a shop without a history."""

    repair: float = 1.0
    """How many times as long as the catalogue says repairs take."""
    copying: float = 1.0
    """How many times as long as stated copies take."""
    again: float = 0.0
    """Share of the tapes that are played a second time."""
    begins_late: float = 0.0
    """Minutes after opening at which work begins."""
    break_from: float = 0.0
    """When the break begins, in minutes after midnight on the shop's clock."""
    break_minutes: float = 0.0
    paces: tuple[tuple[str, float], ...] = ()
    """People by name, with how many times as long as the others they take."""

    @property
    def thins_hours(self) -> bool:
        """Whether nobody works for some of the time that the shop is open."""
        return bool(self.begins_late or self.break_minutes)


NO_HABITS = WorkHabits()
