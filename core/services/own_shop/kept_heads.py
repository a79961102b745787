"""Whether the history holds what the names of the backups say: whoever rewrote it cannot reach every place.

The name of a backup tells the head of the history it was made from. Records put back by an older file, cut at
their end or worked out anew from the beginning are sound in themselves; the heads in the places are not
theirs.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import func, select

from core.services import backup
from core.services.own_shop import backup_places
from core.services.records_door import Shop
from core.services.restoring import given_numbers
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from core.wording import record_heads
from core.wording.messages import say

_BEGINNING = datetime.min.replace(tzinfo=UTC)


@dataclass(frozen=True, slots=True)
class HeadsLookedAt:
    """How many names told a head, and a sentence for each folder where one is not of this history."""

    count: int
    problems: tuple[str, ...]


def look(shop: Shop, folders: Collection[Path] = ()) -> HeadsLookedAt:
    """Compares the names of this shop's backups in its places and in ``folders`` with its history.

    A place that cannot be reached is left out; so is what was made before a backup was last put back, for
    that history may have gone another way since.
    """
    state = shop.ask(backup_places.read)
    places = dict.fromkeys([*(Path(place.folder) for place in state.places), *folders])
    since, begins = shop.ask(_last_restore), f"{backup.stem(shop.database)}-"
    found = {folder: dict(_heads(folder, begins, since)) for folder in places}
    known = shop.ask(_known, {head for heads in found.values() for head in heads.values()})
    problems = []
    for folder, heads in found.items():
        strange = sorted(name for name, head in heads.items() if head not in known)
        if strange:
            newest, n = strange[-1], len(strange)
            head = record_heads.short_head(heads[newest])
            problems.append(say("records", "heads_not_held", folder=folder, file=newest, head=head, n=n))
    return HeadsLookedAt(sum(map(len, found.values())), tuple(problems))


def _heads(folder: Path, begins: str, since: datetime) -> Iterator[tuple[str, str]]:
    """Names and heads of the backups of a shop, those made after ``since``."""
    try:
        names = [path.name for path in folder.iterdir() if _is_of_shop(path.name, begins)]
    except OSError:
        return
    for name in names:
        head, made_at = record_heads.in_name(name), record_heads.stamp_in_name(name)
        if head is not None and made_at is not None and made_at > since:
            yield name, head


def _is_of_shop(name: str, begins: str) -> bool:
    """The moment follows at once: the name of another shop in the same database may begin alike."""
    return name.startswith(begins) and name[len(begins) :][:8].isdigit()


def _known(unit: Unit, heads: Collection[str]) -> set[str]:
    """Those of some heads that a line of the history has; the beginning, where there is no line yet, too."""
    begins = func.substr(EventRow.digest, 1, record_heads.LETTERS)
    found = set(unit.session.scalars(select(begins).where(begins.in_(list(heads)))))
    return found | {"0" * record_heads.LETTERS}


def _last_restore(unit: Unit) -> datetime:
    told = select(func.max(EventRow.at)).where(EventRow.kind == given_numbers.KIND)
    return unit.session.scalar(told) or _BEGINNING
