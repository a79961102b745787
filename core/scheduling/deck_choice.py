"""Which decks can play a tape, by the system it was recorded in, its TV system and its speed.

What nobody knows yet must be playable by the deck that is chosen, if the shop has such a deck: else
any deck that plays one of the possibilities, with a sentence saying so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from core.catalogue.formats import catalogue
from core.model.names import FormatName, Speed, TvSystem
from core.model.own_shop.settings_records import Deck
from core.playtime import possibilities
from core.playtime.habits import STARTING
from core.wording.locale_figures import listed
from core.wording.messages import say, worded_cache

LIKELY = 0.1
"""Share from which a recording counts as likely enough to want a deck for (an assumption)."""


@dataclass(frozen=True, slots=True)
class Suited:
    """Places of the decks that can play the tape, the least flexible first."""

    decks: tuple[int, ...]
    words: str
    """What the tape is to a deck: ``VHS``, ``Video8 or Hi8``."""
    doubt: str | None = None
    """What may go wrong with this choice, or why there is none."""


@worded_cache(maxsize=4096)
def suited(
    decks: tuple[Deck, ...],
    format: FormatName,
    recorded_as: FormatName | None,
    tv: TvSystem | None,
    speed: Speed | None,
) -> Suited:
    """The decks in service for one tape, and a sentence where there is doubt or no deck at all."""
    systems = possible_systems(format, recorded_as)
    words = " or ".join(catalogue().format(name).words for name in systems)
    try:
        able = _able(decks, systems, words, tv, speed)
    except _NoDeckError as none:
        return Suited((), words, str(none))
    best, in_doubt = _covering(able, systems, lambda place: decks[place].plays)
    if tv is None:
        best, _ = _covering(best, _common_tv(decks, best), lambda place: decks[place].tv)
    if speed is None:
        every = set().union(*(decks[place].speeds for place in best))
        best, _ = _covering(best, every, lambda place: decks[place].speeds)
    order = sorted(best, key=lambda place: (len(decks[place].plays), place))
    return Suited(tuple(order), words, _spoken_doubt(words) if in_doubt else None)


@worded_cache(maxsize=4096)
def not_here(
    decks: tuple[Deck, ...],
    format: FormatName,
    recorded_as: FormatName | None,
    tv: TvSystem | None,
    speed: Speed | None,
) -> str | None:
    """Why none of the shop's decks can play the tape, in service or not; None where one can.

    None as well while the shop has no deck at all: then nobody knows yet what it will play.
    """
    owned = [replace(deck, in_service=True) for deck in decks if not deck.retired]
    systems = possible_systems(format, recorded_as)
    words = listed([catalogue().format(name).words for name in systems], "or")
    try:
        if owned:
            _able(tuple(owned), systems, words, tv, speed)
    except _NoDeckError as none:
        return say("dates", f"not_here{none.key.removeprefix('no_deck')}", **none.told)
    return None


class _NoDeckError(Exception):
    """Says what no deck in service can do."""

    def __init__(self, key: str, **told: str) -> None:
        super().__init__(say("dates", key, **told))
        self.key, self.told = key, told


def _able(
    decks: tuple[Deck, ...],
    systems: tuple[FormatName, ...],
    words: str,
    tv: TvSystem | None,
    speed: Speed | None,
) -> list[int]:
    """The decks in service that can do all that is known of the tape; never none."""
    places = [place for place, deck in enumerate(decks) if deck.in_service]
    if not places:
        raise _NoDeckError("no_deck_at_all")
    places = [place for place in places if decks[place].plays & set(systems)]
    if not places:
        raise _NoDeckError("no_deck_plays", what=words)
    if tv is not None:
        places = [place for place in places if _takes(decks[place].tv, tv.value)]
        if not places:
            raise _NoDeckError("no_deck_plays_tv", what=words, tv=tv.value.upper())
    if speed is not None:
        places = [place for place in places if _takes(decks[place].speeds, speed.value)]
        if not places:
            raise _NoDeckError("no_deck_plays_speed", what=words, speed=speed.words)
    return places


def possible_systems(format: FormatName, recorded_as: FormatName | None) -> tuple[FormatName, ...]:
    """What is likely recorded on the tape: as told, else what the shop believes of such a shell."""
    if recorded_as is not None:
        return (recorded_as,)
    shell = catalogue().format(format)
    weights = possibilities.system_weights(shell, STARTING)
    least = LIKELY * sum(weights.values())
    return tuple(system for system in shell.systems if weights.get(system, 0.0) >= least) or (format,)


def _covering(
    places: Sequence[int], wanted: Iterable[str], has: Callable[[int], frozenset[FormatName] | frozenset[str]]
) -> tuple[list[int], bool]:
    """Decks with all that is wanted, or that are not limited in it; else, with doubt, every one of them."""
    names = set(wanted)
    full = [place for place in places if not has(place) or names <= has(place)]
    return (full, False) if full else (list(places), True)


def _takes(accepted: frozenset[str], value: str) -> bool:
    """A deck that names none (an audio deck has no TV system) is not limited by it."""
    return not accepted or value in accepted


def _common_tv(decks: Sequence[Deck], places: Sequence[int]) -> set[str]:
    """The TV systems at least half of these decks play: a shop buys decks for what is brought to it."""
    counts: dict[str, int] = {}
    for place in places:
        for system in decks[place].tv:
            counts[system] = counts.get(system, 0) + 1
    return {system for system, count in counts.items() if 2 * count >= len(places)}


def _spoken_doubt(words: str) -> str:
    return say("dates", "no_single_deck", what=words)
