"""What the history shows of the shop's work, worked out once for all who ask, and the settings with it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache, partial
from typing import cast

from core.model.own_shop.settings_records import Permission, ShopSettings
from core.scheduling import opening_hours
from core.scheduling.worktime import work_evidence, work_learning
from core.scheduling.worktime.work_evidence import WorkEvidence
from core.scheduling.worktime.work_learning import LearnedWork
from core.services.shop_work import history_acts
from core.store import current_settings, permissions
from core.store.unit import Unit

_KEY = "learned_work"


@dataclass(frozen=True, slots=True)
class _Known:
    """What was learned, and from what."""

    of: object
    work: LearnedWork


def read(unit: Unit, settings: ShopSettings) -> LearnedWork:
    """The beliefs beside what ``settings`` state."""
    found = history_acts.read(unit, settings)
    today = opening_hours.today(settings, unit.now)
    of = (
        found.first,
        found.last,
        found.read_with,
        settings.handling,
        settings.openings,
        settings.closed_days,
        today,
    )
    kept = cast("_Known | None", unit.memory.get(_KEY))
    if kept is None or kept.of != of:
        hours = lru_cache(maxsize=None)(partial(opening_hours.hours_on, settings))
        now = unit.now.timestamp() / 60
        kept = _Known(of, work_learning.learned(found.acts, hours, settings.handling, now, today))
        unit.memory[_KEY] = kept
    return kept.work


def reckoned(unit: Unit, settings: ShopSettings) -> ShopSettings:
    """The settings with what people really take: what a date is made from. One given already stays."""
    return read(unit, settings).reckoned(settings)


def evidence(unit: Unit) -> tuple[WorkEvidence, ...]:
    """Every belief with what it rests on; people by name only for whoever may see reports."""
    settings = current_settings.read(unit)
    names = not permissions.refusals(settings, unit.who, Permission.REPORTS)
    return work_evidence.evidence_of(read(unit, settings), settings, names=names)
