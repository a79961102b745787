"""The card that hangs over the bench: how to open a shell, what plays it, where its record-protect is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from core.catalogue import hazards
from core.catalogue.format_file import Hazard
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.model.stations import Station
from core.model.tape_records import TapeRecord

STANDING = tuple(dict.fromkeys((*hazards.IN_A_SHELL, *hazards.IN_A_DECK)))
"""The cautions on every card: it hangs where shells and decks are opened."""


OPENED = (Station.LOOKED_OVER, Station.AT_THE_BENCH)
"""Where a shell may have to be opened, so that what that takes and needs is told."""


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
    """All of them: of the shell's own, of opening shells, of opening decks."""
    opening_cautions: tuple[str, ...]
    """Those of opening this shell alone."""


def card(name: FormatName) -> BenchCard:
    """The card of one format; WrongInput when the format is not known."""
    form = catalogue().format(name)
    own = form.record.hazards
    return BenchCard(
        title=form.words,
        opening=form.sentences("opening"),
        protect=" ".join(form.sentences("protect")),
        plays=form.sentences("plays"),
        general=tuple(numbered("bench", "card-general")),
        cautions=_said((*own, *STANDING)),
        opening_cautions=_said((*own, *hazards.IN_A_SHELL)),
    )


def cautions_of(tape: TapeRecord) -> tuple[str, ...]:
    """Hazards of one tape in the shop; where its shell may have to be opened, those of opening it as well."""
    if not tape.station.is_in_the_shop:
        return ()
    opening = card(tape.format).opening_cautions if tape.station in OPENED and tape.findings else ()
    return tuple(dict.fromkeys((*tape.verdict.cautions, *opening)))


def _said(every: Sequence[Hazard]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(map(hazards.caution, every)))
