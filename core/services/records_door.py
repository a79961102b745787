"""The one door to the shop's records: opens them, runs a step in one transaction, answers a question.

No rule of the shop lives here. What the database complains of leaves as a named failure with a sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar
from uuid import uuid4

from sqlalchemy import Engine

from core.model.errors import Refused
from core.model.names import NO_COMMAND, CommandId
from core.services.own_shop import shop_settings
from core.store import changes, commands, failures, history, moved_shops, row_digests, schema, steps
from core.store.changes import ChangeLog
from core.store.commands import CarriedOut
from core.store.engines import Database, open_database
from core.store.sharing import server_address
from core.store.sharing.shop_scope import ShopSession
from core.store.unit import Unit

if TYPE_CHECKING:
    from core.store.change_watch import ChangeWatch

P = ParamSpec("P")
T = TypeVar("T")


def utc_now() -> datetime:
    """The present moment."""
    return datetime.now(UTC)


def as_shown(where: str | Path) -> str:
    """A shop's file or address as it may be shown: never with a password."""
    return server_address.shown(where)


def new_command() -> CommandId:
    """An id nobody has used (RFC 9562, version 4)."""
    return CommandId(uuid4().hex)


class Shop:
    """An open shop. Safe to use from several threads; each step is one transaction."""

    def __init__(self, database: Database, clock: Callable[[], datetime], who: str) -> None:
        self.database = database
        self.clock = clock
        self.who = who
        """The person acting from now on."""
        self.refuses_to_write = ""
        """Why nothing is stored for whoever asks, where nobody is proven; questions are answered."""
        self._memory: dict[str, object] = {}

    @classmethod
    def open(
        cls,
        where: str | Path,
        *,
        clock: Callable[[], datetime] = utc_now,
        who: str = "counter",
        create: bool = True,
        alone: bool = False,
    ) -> Shop:
        """The shop in a file or at a PostgreSQL URL, its tables brought up to date.

        ``create`` makes a new one where there is none. ``alone`` locks the file for this program only. Raises
        Unavailable, WrongInput (not a shop of ours) or Refused (written by a newer version).
        """
        database = open_database(where, alone=alone)
        try:
            with failures.named_here(database.where):
                schema.bring_up(database, create=create, now=clock())
                with database.reading.begin() as connection:
                    moved_shops.check(connection)
        except BaseException:
            database.close()
            raise
        return cls(database, clock, who)

    @property
    def where(self) -> str:
        """The file or address, as it may be shown."""
        return self.database.where

    def run(self, step: Callable[Concatenate[Unit, P], T], /, *args: P.args, **kwargs: P.kwargs) -> T:
        """Carries out one step: all of it is stored, for good, when this returns; nothing when it raises.

        For what the program does of itself: nobody is told the id, so nobody can send it again.
        """
        with self._writing(new_command()) as unit:
            return step(unit, *args, **kwargs)

    def once(
        self,
        command: CommandId,
        step: Callable[Concatenate[Unit, P], T],
        /,
        *args: P.args,
        **kwargs: P.kwargs,
    ) -> CarriedOut[T]:
        """`run` for what somebody asked for: the same command again is answered and not carried out again.

        Refused when the id was used for something else (see `core.store.commands`), and without proof of who
        asks where that is needed. Where Unavailable is
        raised, the step may have been stored all the same: send it again with the same id.
        """
        if self.refuses_to_write:
            raise Refused(self.refuses_to_write)
        request = steps.request(step, args, kwargs, command)
        with self._writing(command) as unit:
            return commands.carry_out(unit, request)

    def carried_out(self, ids: Collection[CommandId]) -> tuple[datetime, ...]:
        """When those of some commands were carried out that were, the earliest first."""
        return self.ask(commands.carried_out, ids)

    def ask(self, query: Callable[Concatenate[Unit, P], T], /, *args: P.args, **kwargs: P.kwargs) -> T:
        """Answers one question from a steady view of the records; nothing can be changed by it."""
        with self._unit(self.database.reading) as unit:
            return query(unit, *args, **kwargs)

    def rehearse(self, step: Callable[Concatenate[Unit, P], T], /, *args: P.args, **kwargs: P.kwargs) -> T:
        """Carries out one step and takes all of it back: its answer is given, nothing is stored."""
        with (
            failures.named_here(self.where),
            ShopSession(self.database.writing, expire_on_commit=False) as session,
            session.begin() as transaction,
        ):
            unit = Unit(session, self.clock(), self.who, {}, shop_settings.new_shop, new_command())
            result = step(unit, *args, **kwargs)
            session.flush()
            transaction.rollback()
        return result

    def backup(self, directory: str | Path) -> Path:
        """A checked copy in ``directory`` while the shop stays in use; its name tells the moment."""
        from core.services import backup

        return backup.make(self.database, Path(directory), self.clock())

    def verify(self) -> tuple[str, ...]:
        """What is wrong with the records, a sentence each; nothing when all is well."""
        from core.services import backup

        return backup.verify(self.database, self.clock())

    def scrub(self) -> None:
        """Writes the records anew, so that nothing of what was taken out is left in free places or the log.

        Unavailable while others hold the records; nothing is lost then, and it can be done again.
        """
        from core.store import scrubbing

        with failures.named_here(self.where):
            scrubbing.scrub(self.database)

    def note_changes(self) -> None:
        """Whatever is read from now on is new enough: `watch` tells what changed after this moment."""
        self.ask(_remember, self.database.changes)

    def watch(self) -> ChangeWatch:
        """What tells of the steps of others. One a shop; closed by whoever asked."""
        from core.store.change_watch import FileWatch, ServerWatch

        return (ServerWatch if self.database.path is None else FileWatch)(self.database)

    def hurry(self) -> None:
        """Somebody waits for what is under way to end: a server that says nothing is given up sooner."""
        self.database.patience.hurry()

    def close(self) -> None:
        """Lets go of the records. The shop cannot be used afterwards."""
        self.database.close()

    def __enter__(self) -> Shop:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @contextmanager
    def _writing(self, command: CommandId) -> Iterator[Unit]:
        """A unit whose rows are told to the history at its end."""
        with self._unit(self.database.writing, command) as unit:
            row_digests.watch(unit.session)
            yield unit
            unit.session.flush()
            history.append_rows(unit)

    @contextmanager
    def _unit(self, engine: Engine, command: CommandId = NO_COMMAND) -> Iterator[Unit]:
        with (
            self.database.changes.own_step(),
            failures.named_here(self.where),
            ShopSession(engine, expire_on_commit=False) as session,
            session.begin(),
        ):
            yield Unit(session, self.clock(), self.who, self._memory, shop_settings.new_shop, command)


def _remember(unit: Unit, log: ChangeLog) -> None:
    log.find(changes.read(unit.session))
