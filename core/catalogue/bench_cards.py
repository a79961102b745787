"""The card that hangs over the bench: how to open a shell, what plays it, where its record-protect is."""

from __future__ import annotations

from dataclasses import dataclass

from core.catalogue import hazards
from core.catalogue.format_file import Hazard
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.model.names import FormatName

STANDING = (Hazard.BLADES, Hazard.SPRINGS, Hazard.SOLVENT, Hazard.MAINS)
"""The cautions on every card."""


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
        opening=form.sentences("opening"),
        protect=" ".join(form.sentences("protect")),
        plays=form.sentences("plays"),
        general=tuple(numbered("bench", "card-general")),
        cautions=tuple(hazards.caution(each) for each in cautions),
    )
