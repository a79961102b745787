"""The card that hangs over the bench: how to open a shell, what plays it, where its record-protect is."""

from __future__ import annotations

from dataclasses import dataclass

from core.catalogue import hazards
from core.catalogue.formats import catalogue
from core.model.names import FormatName

STANDING = ("blades", "springs", "solvent", "mains")
"""The cautions on every card."""
GENERAL = (
    "Check the record-protect and set it to SAVE before the cassette meets any machine that can record "
    "(common practice, no source).",
    "Take up slack by turning a hub before playing (Kodak, Sony DSR-400).",
)
"""What holds for every shell."""


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
    cautions = (*form.record.hazards, *STANDING)
    return BenchCard(
        title=form.words,
        opening=form.bench.opening,
        protect=form.bench.protect,
        plays=form.bench.plays,
        general=GENERAL,
        cautions=tuple(hazards.of(each).words for each in cautions),
    )
