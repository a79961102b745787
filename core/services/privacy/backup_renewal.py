"""Backups made anew after an erasure, so that none that holds who was erased is kept until it is thinned."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from core.model.errors import TapewrightError, Unavailable
from core.model.names import CommandId
from core.model.own_shop.settings_records import Permission
from core.services import backup
from core.services.own_shop import backup_places
from core.services.privacy import held_copies
from core.services.records_door import Shop, new_command
from core.store import commands, history, permissions
from core.store.shop_files import durable_files, erased_orders, locked_files
from core.store.steps import step
from core.store.unit import Unit
from core.wording.locale_figures import listed
from core.wording.messages import say

KIND = "backups-renewed"
"""Of the lines of history."""


@dataclass(frozen=True, slots=True)
class Renewal:
    """What came of it."""

    made: tuple[Path, ...]
    """The new backup of each place."""
    removed: tuple[Path, ...]
    failures: tuple[tuple[str, TapewrightError], ...] = ()
    """Places where it failed, and why: there everything older stays."""
    left: tuple[Path, ...] = ()
    """Files in the places that the program did not make there, and that hold or may hold the erased."""
    was_before: bool = False
    """Whether this was done before under the same command, and is only told again."""

    @property
    def is_whole(self) -> bool:
        """Nothing is left that the program made and that holds somebody who was erased."""
        return not self.failures

    @property
    def sentences(self) -> tuple[str, ...]:
        """What is to be told, the failures first."""
        said = [
            say("privacy", "renewal-failed", folder=folder, why=failure.sentence)
            for folder, failure in self.failures
        ]
        said.append(say("privacy", "renewed", made=len(self.made), removed=len(self.removed)))
        if self.left:
            files = listed([str(each) for each in self.left])
            said.append(say("privacy", "left-by-hand", n=len(self.left), files=files))
        return tuple(said)


@dataclass(frozen=True, slots=True)
class KeptRenewal:
    """What is kept of a renewal that was whole: the files by their paths."""

    made: tuple[str, ...]
    removed: tuple[str, ...]


@step
def note(unit: Unit, made: tuple[str, ...], removed: tuple[str, ...]) -> KeptRenewal:
    """Notes that the backups were made anew, so that the same command is answered and not carried out again.

    NotPermitted without the right to erase.
    """
    permissions.check(unit, Permission.ERASE)
    words = say("privacy", "event-renewed", made=len(made), removed=len(removed))
    history.append(unit, KIND, words, made=made, removed=removed)
    return KeptRenewal(made, removed)


def renew(shop: Shop, command: CommandId | None = None) -> Renewal:
    """Makes a backup in every place, reads it back, then removes there what was made before an erasure.

    Copies made before an update or a restore go as well where they still hold somebody who was erased. A
    place where no new backup can be made keeps what it has. NotPermitted without the right to erase.

    Once it was whole, the same ``command`` is told what came of it then; Refused where that was another step.
    As long as it was not, or where its answer was lost before it was noted, it is done again.
    """
    shop.ask(permissions.check, Permission.ERASE)
    before = None if command is None else shop.ask(commands.recalled, command, note)
    if before is not None:
        made_then, removed_then = map(Path, before.made), map(Path, before.removed)
        return Renewal(tuple(made_then), tuple(removed_then), left=tuple(_left(shop)), was_before=True)
    made: list[Path] = []
    removed: list[Path] = []
    failures: list[tuple[str, TapewrightError]] = []
    for place in shop.ask(backup_places.read).places:
        try:
            made.append(_made_and_read(shop, place.folder))
            removed += backup_places.remove_before_erasure(shop, place.folder)
        except TapewrightError as failure:
            failures.append((place.folder, failure))
    if not failures:
        removed += _removed(held_copies.beside(shop))
        kept = tuple(map(str, made)), tuple(map(str, removed))
        shop.once(command or new_command(), note, *kept)
    return Renewal(tuple(made), tuple(removed), tuple(failures), tuple(_left(shop)))


def _made_and_read(shop: Shop, folder: str) -> Path:
    """A locked one was read back when it was locked; nobody has its key here."""
    copy = backup_places.back_up(shop, folder)
    if copy.suffix != locked_files.ENDING:
        backup.check(copy, shop.clock())
    return copy


def _removed(copies: tuple[Path, ...]) -> Iterator[Path]:
    for path in copies:
        try:
            durable_files.remove(path)
        except OSError as error:
            raise Unavailable(say("privacy", "paper-stays", path=path, why=error.strerror or "")) from error
        yield path


def _left(shop: Shop) -> Iterator[Path]:
    """What somebody else put into the places: it is told, never removed."""
    orders, state = held_copies.orders_of(shop), shop.ask(backup_places.read)
    for place in state.places:
        known = {each.path for each in place.files}
        folder = Path(place.folder)
        for path in sorted(folder.iterdir()) if orders and folder.is_dir() else ():
            if path not in known and path.name != erased_orders.NAME and _may_hold(path, orders):
                yield path


def _may_hold(path: Path, orders: frozenset[str]) -> bool:
    return path.suffix == locked_files.ENDING or erased_orders.held_in(path, orders)
