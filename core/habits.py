"""The shop's starting beliefs about tapes nobody knows anything of, from ``resources/catalogue/habits.toml``.

They are invented, and say so; every fact that is known replaces them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

from core import resources
from core.cassettes import Format, Marking
from core.names import FormatName, Speed, TvSystem

Weights = Mapping[str, float]


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resources.path("catalogue", "habits.toml").read_text(encoding="utf-8"))


def source() -> str:
    """Where these beliefs come from, as a clerk may read it."""
    return f"{_page()['source']} ({_page()['mark']})"


def tv_weights(marking: Marking | None) -> dict[TvSystem, float]:
    """How likely each TV system is, given the marking when it was made for one of them."""
    if marking is None or marking.nominal_tv is None:
        return {tv: _page()["tv"][tv.value] for tv in TvSystem}
    shares = _page()["tv_of_marking"]
    return {tv: shares["same" if tv is marking.nominal_tv else "other"] for tv in TvSystem}


def system_weights(shell: Format) -> dict[FormatName, float]:
    """How likely each recording is that fits the shell; its own only, unless labels mislead."""
    own: Weights = _page()["systems"].get(shell.name) or {shell.systems[0]: 1.0}
    return {system: own[system] for system in shell.systems if system in own}


def speed_weights(system: Format, tv: TvSystem) -> dict[Speed, float]:
    """How likely each recording speed is."""
    pages = _page()["speeds"]
    weights: Weights = _first(pages, system, tv) or pages["usual"]
    return {speed: weights.get(speed.value, 0.0) for speed in system.speeds_in(tv)}


def fill_weights(shell: Format) -> tuple[tuple[float, float], ...]:
    """(share of the tape that is recorded, weight), from the emptiest to the full tape."""
    habit = _page()["fill_of"][shell.family]
    return tuple((share, weight) for share, weight in _page()["fill"][habit])


def marking_weights(shell: Format, tv: TvSystem) -> dict[str, float]:
    """The usual cassettes of a format in one TV system."""
    return dict(_first(_page()["usual"], shell, tv) or {entry.name: 1.0 for entry in shell.markings})


def _first(pages: Mapping[str, Weights], entry: Format, tv: TvSystem) -> Weights | None:
    """The table of the format itself, else of the format it resembles, else of its family."""
    alike = {"s-vhs-c": "vhs-c"}.get(entry.name, entry.name)
    for name in (alike, entry.family):
        for key in (f"{name}-{tv.value}", name):
            if key in pages:
                return pages[key]
    return None
