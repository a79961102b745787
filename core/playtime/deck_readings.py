"""What a deck shows of a tape it plays: what can be told of it, and which of it was likely."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TypeVar

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.deck_showing import Shown
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.playtime import possibilities
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Choice, facts

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Offer:
    """What a deck may show of one tape; empty where there is nothing to choose from."""

    systems: tuple[FormatName, ...]
    tvs: tuple[TvSystem, ...]
    speeds: tuple[Speed, ...]
    likely: Shown
    """The likeliest under what is known, which is what was booked wherever that was told."""


def found(line: TapeLine, shown: Shown) -> TapeLine:
    """The line as it turned out to be.

    What the customer said of the speed gives way to a recording that was found to be another.
    """
    return replace(
        line,
        recorded_as=shown.recorded_as or line.recorded_as,
        tv=shown.tv or line.tv,
        speed=shown.speed or (None if shown.recorded_as else line.speed),
    )


def offer(line: TapeLine, said: Shown, shop: ShopHabits) -> Offer:
    """What there is to choose from on a tape of ``line`` when ``said`` was read off already.

    WrongInput for a recording that does not fit the shell.
    """
    shell = catalogue().format(line.format)
    known = facts(replace(found(line, said), speed=None))
    system = _likeliest(possibilities.systems(known, shop))
    tv = _likeliest(possibilities.tvs(known, system, shop))
    speeds = system.speeds_in(tv)
    told = None if said.recorded_as else line.speed
    speed = told if told in speeds else _likeliest(possibilities.speeds(known, system, tv, shop)).speed
    return Offer(
        shell.systems if _differ(shell) else (),
        tuple(each for each in TvSystem if system.speeds_in(each)) if _depends_on_tv(system) else (),
        speeds if len(speeds) > 1 else (),
        Shown(speed, system.name, tv),
    )


def _likeliest(choice: Choice[T]) -> T:
    return max(choice.options, key=lambda option: option[1])[0]


def _differ(shell: Format) -> bool:
    """Whether the recordings that fit the shell run at different speeds, so that it matters which it is."""
    paces = {
        tuple((entry.speed, entry.tv, entry.mm_s.value) for entry in catalogue().format(name).tape_speeds)
        for name in shell.systems
    }
    return len(paces) > 1


def _depends_on_tv(system: Format) -> bool:
    return any(entry.tv is not None for entry in system.tape_speeds)
