"""The bench cards as a page of the handbook, written from the catalog: one card a format."""

from __future__ import annotations

import re
from collections.abc import Sequence

from core.catalogue import bench_cards
from core.catalogue.bench_cards import BenchCard
from core.catalogue.formats import catalogue
from core.wording.messages import say

_MARKS = re.compile(r"([\\`*_\[\]<>|~#])")


def markdown() -> str:
    """All cards; what stands on every one of them is told once, before the first."""
    cards = [bench_cards.card(form.name) for form in catalogue().formats]
    every = [caution for caution in cards[0].cautions if all(caution in card.cautions for card in cards)]
    parts = [f"# {_plain(say('commands', 'bench-cards'))}", _plain(say("commands", "cards-lead"))]
    parts += _list("cards-careful", every, level=2) + _list("cards-general", cards[0].general, level=2)
    for card in cards:
        parts += _card(card, [each for each in card.cautions if each not in every])
    return "\n\n".join(parts) + "\n"


def _card(card: BenchCard, own: Sequence[str]) -> list[str]:
    return [
        f"## {_plain(card.title)}",
        *_list("cards-careful", own, level=3),
        *_list("cards-opening", card.opening, level=3),
        *_list("cards-protect", [card.protect] if card.protect else [], level=3),
        *_list("cards-plays", card.plays, level=3),
    ]


def _list(heading: str, sentences: Sequence[str], level: int) -> list[str]:
    if not sentences:
        return []
    told = "\n".join(f"- {_plain(sentence)}" for sentence in sentences)
    return [f"{'#' * level} {_plain(say('commands', heading))}", told]


def _plain(sentence: str) -> str:
    """A sentence in which no sign means anything to Markdown."""
    return _MARKS.sub(r"\\\1", sentence)
