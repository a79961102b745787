"""What a shop adds of its own to the findings, repairs and media of the program, and what is in force.

As its formats do (`core.catalogue.formats`), they belong to the whole process from the moment the settings
are read; what was booked with one is told by its words as long as the settings hold it, retired or not.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol, TypeVar

from core.model.names import FindingKey, Outcome
from core.model.ranges import Range
from core.wording import editions


class _Named(Protocol):
    @property
    def name(self) -> str: ...


N = TypeVar("N", bound=_Named)


@dataclass(frozen=True, slots=True)
class OwnFinding:
    """Something that can be wrong with a tape. It never means *not for reuse*: only a splice does."""

    name: str
    """The key under which it is kept; never changed once a tape was booked with it."""
    words: str
    """As it stands within a sentence: ``smells of smoke``."""
    told: str
    """The sentence for the customer, said before money is taken."""
    outcome: Outcome = Outcome.PLAYS
    repairs: tuple[str, ...] = ()
    """Codes of the repairs that deal with it, built-in or the shop's own."""
    caution: str = ""
    """For the person at the bench, besides the built-in cautions."""
    retired: bool = False
    """Not offered any more; what was booked with it keeps its words."""

    @property
    def key(self) -> FindingKey:
        return FindingKey(self.name)


@dataclass(frozen=True, slots=True)
class OwnRepair:
    """An action at the bench; its price stands in the price book under its key."""

    name: str
    words: str
    minutes: Range
    """Of bench time; alike on every format."""
    retired: bool = False


@dataclass(frozen=True, slots=True)
class OwnMedium:
    """A stick or a disc that copies are made on; its price stands in the price book under its key.

    It holds either so many ``gigabytes`` of files, or so many ``minutes`` of a recording.
    """

    name: str
    words: str
    gigabytes: float = 0.0
    minutes: float = 0.0
    retired: bool = False


@dataclass(frozen=True, slots=True)
class Additions:
    """Everything a shop has added, in its own order."""

    findings: tuple[OwnFinding, ...] = ()
    repairs: tuple[OwnRepair, ...] = ()
    media: tuple[OwnMedium, ...] = ()


NOTHING_ADDED = Additions()
_in_force: list[Additions] = [NOTHING_ADDED]


def put_in_force(own: Additions) -> None:
    """From now on these are known beside those of the program."""
    if own != _in_force[0]:
        _in_force[0] = own
        editions.use(editions.ADDITIONS, () if own == NOTHING_ADDED else own)


def in_force() -> Additions:
    """What of the shop's own is known now."""
    return _in_force[0]


def finding(key: str) -> OwnFinding | None:
    """The finding of a key; None where the settings do not hold it."""
    return _called(key, in_force().findings)


def repair(key: str) -> OwnRepair | None:
    """The repair of a code; None where it is not the shop's own."""
    return _called(key, in_force().repairs)


def medium(key: str) -> OwnMedium | None:
    """The medium of a code; None where it is not the shop's own."""
    return _called(key, in_force().media)


def finding_words(key: str) -> str:
    """A finding as it stands within a sentence; its key where the settings do not hold it."""
    found = finding(key)
    return found.words if found else key


def offered(among: Iterable[N]) -> tuple[N, ...]:
    """Those that are not retired."""
    return tuple(each for each in among if not getattr(each, "retired", False))


def _called(key: str, among: Iterable[N]) -> N | None:
    return next((each for each in among if each.name == key), None)
