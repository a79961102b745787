"""The card that hangs over the bench: how to open a shell, what plays it, where its record-protect is."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from core.catalogue import condition
from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.names import FormatName


@dataclass(frozen=True, slots=True)
class BenchCard:
    """One card. A step without a published source says so."""

    title: str
    opening: tuple[str, ...]
    """Steps to open the shell; none where nothing is known."""
    protect: str
    """Where the record-protect is and how it looks when protected; empty where nothing is known."""
    plays: tuple[str, ...]
    """Which machine plays which recording."""
    general: tuple[str, ...]
    cautions: tuple[str, ...]


def card(name: FormatName) -> BenchCard:
    """The card of one format; WrongInput when the format is not known."""
    form = catalogue().format(name)
    page = _page()
    key = name.removeprefix("s-") if name.removeprefix("s-") in page else form.family
    about = page[key]
    cautions = [condition.hazard("blades"), condition.hazard("springs"), page["solvent"], page["mains"]]
    if "caution" in about:
        cautions.insert(0, condition.hazard(about["caution"]))
    return BenchCard(
        title=form.words,
        opening=tuple(about["opening"]),
        protect=about["protect"],
        plays=tuple(about["plays"]),
        general=tuple(page["general"]),
        cautions=tuple(cautions),
    )


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resource_files.path("catalogue", "bench_cards.toml").read_text(encoding="utf-8"))
