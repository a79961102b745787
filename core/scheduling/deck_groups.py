"""The shop's bays: groups of decks that share no tape with the others, each with its tapes.

What happens in one bay changes nothing in another as long as nobody has to walk between them. So each is
worked off by itself: fewer decks to compare, and no scenario waits for a bay that has nothing left to do.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from core.scheduling.simulated_shop import Coming, Decks, Ground, Lanes, Queue, Turnout


@dataclass(frozen=True, slots=True, eq=False)
class Bay:
    """Some decks and the tapes that play on them and nowhere else, as a shop of their own."""

    decks: Decks
    ground: Ground
    """Its decks are numbered anew; what comes in as rush is shared with the shop."""
    queue: Queue
    """The minutes are a copy."""

    def give_back(self, ground: Ground) -> None:
        """When each of its decks is free, to the whole shop."""
        ground.lanes.free[list(self.decks)] = self.ground.lanes.free


def of(ground: Ground, queue: Queue) -> Iterator[Bay]:
    """The bays that have something to do, in the order in which the queue comes to them."""
    for decks in _groups([*(tape.decks for tape in queue.tapes), *(each.kind.decks for each in ground.rush)]):
        places = [place for place, tape in enumerate(queue.tapes) if not decks.isdisjoint(tape.decks)]
        if places:
            yield _bay(tuple(sorted(decks)), places, ground, queue)


def _groups(sets: Sequence[Decks]) -> list[set[int]]:
    """Decks joined by whatever may play on either."""
    groups: list[set[int]] = []
    for decks in dict.fromkeys(sets):
        joined = set(decks).union(*(group for group in groups if not group.isdisjoint(decks)))
        groups = [*(group for group in groups if group.isdisjoint(decks)), joined]
    return groups


def _bay(decks: Decks, places: Sequence[int], ground: Ground, queue: Queue) -> Bay:
    numbers = {deck: number for number, deck in enumerate(decks)}
    renamed = {tape.decks: _renamed(tape.decks, numbers) for tape in (queue.tapes[place] for place in places)}
    tapes = [
        Turnout(renamed[tape.decks], tape.estimate, tape.ready, tape.part)
        for tape in (queue.tapes[place] for place in places)
    ]
    fails = queue.fails_after
    return Bay(
        decks,
        replace(
            ground,
            lanes=_lanes(decks, ground.lanes, numbers),
            rush=[
                _rush(each, numbers) for each in ground.rush if not set(numbers).isdisjoint(each.kind.decks)
            ],
            overtaken_from=sum(place < ground.overtaken_from for place in places),
        ),
        Queue(tapes, queue.minutes[places], None if fails is None else fails[places], queue.repair),
    )


def _lanes(decks: Decks, lanes: Lanes, numbers: dict[int, int]) -> Lanes:
    out = {numbers[deck]: spans for deck, spans in lanes.out.items() if deck in numbers}
    return Lanes(lanes.hours, lanes.free[list(decks)], out)


def _rush(coming: Coming, numbers: dict[int, int]) -> Coming:
    """The same rush tapes, going on from where they are for both."""
    return replace(coming, kind=replace(coming.kind, decks=_renamed(coming.kind.decks, numbers)))


def _renamed(decks: Decks, numbers: dict[int, int]) -> Decks:
    return tuple(numbers[deck] for deck in decks)
