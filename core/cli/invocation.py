"""What a subcommand gets, and what it gives back."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from core.cli import terminal_text
from core.model import regular_files
from core.model.errors import AsWritten, TapewrightError, Unavailable, WrongInput, nothing
from core.wording import messages, own_words, shop_clock
from core.wording.messages import say

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Concatenate, ParamSpec, TypeVar

    from core.model.names import CommandId
    from core.model.own_shop.access_records import Acting
    from core.model.own_shop.settings_records import ShopSettings
    from core.services.own_shop.shop_opening import ShopAtOpening
    from core.services.records_door import Shop
    from core.store.unit import Unit

    P = ParamSpec("P")
    T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Reply:
    """The answer of one subcommand, for programs and for people."""

    document: Mapping[str, object]
    text: str
    shop_to_open: str | None = None
    """The shop a window should open afterwards."""
    note: str = ""
    """Something that went wrong after the thing itself was done; goes to standard error."""
    exit_code: int = 0


@dataclass(frozen=True, slots=True)
class Invocation:
    """One subcommand with what was typed, the clock and the way to the shop."""

    asked: Namespace
    prove: Callable[[Shop, Namespace, ShopSettings | None], Acting]
    """Finds out who acts in a shop with these settings (`core.cli.proving`)."""
    notes: list[str] = field(default_factory=list)
    """What is said beside the answer, on standard error."""
    marks: set[str] = field(default_factory=set)
    """What an answer has to be marked with, such as ``practice`` for a shop to practise in."""
    acting: list[Acting] = field(default_factory=list)
    """Who was found to act in the shops opened so far."""
    made: list[Path] = field(default_factory=list)
    """Folders made for papers, the outermost first."""
    sent: list[CommandId] = field(default_factory=list)
    """The ids of the steps begun so far."""

    def clock(self) -> datetime:
        """The time given with ``--now``, else the time of this computer; in UTC, as it is stored."""
        given: datetime | None = self.asked.now
        return datetime.now(UTC) if given is None else given.astimezone(UTC)

    @property
    def where(self) -> str:
        """The shop: a path or a URL."""
        given: str | None = self.asked.shop
        return given if given is not None else str(default_shop())

    @property
    def has_shop(self) -> bool:
        """Whether the shop is there already, not as an empty file; a database server is taken to be."""
        if is_url(self.where):
            return True
        place = regular_files.expanded(self.where)
        return place.exists() and bool(place.is_dir() or place.stat().st_size)

    def elsewhere(self, where: Path) -> Invocation:
        """The same, typed at another shop."""
        return Invocation(Namespace(**{**vars(self.asked), "shop": str(where)}), self.prove)

    def open(self, *, create: bool = False) -> Shop:
        """The shop, opened; used in a ``with`` statement. What is said from here on is in its language."""
        from core.services.own_shop import shop_opening
        from core.services.records_door import Shop

        shop, found = Shop.open(self.where, clock=self.clock, who=self.asked.who, create=create), None
        try:
            with suppress(TapewrightError):  # damaged records: `verify` tells what is wrong with them
                found = shop.ask(shop_opening.read)
            self.acting.append(self.prove(shop, self.asked, None if found is None else found.settings))
        except TapewrightError:
            shop.close()
            raise
        if found is not None:
            self._take_over(found)
        return shop

    def _take_over(self, found: ShopAtOpening) -> None:
        self.notes.extend([found.clock] if found.clock and found.clock not in self.notes else [])
        front = found.settings.front
        messages.use(front.language, own=own_words.of(front.language, front.words))
        shop_clock.use(front.timezone)
        self.marks.update(("practice",) if front.practice else ())

    def new_pin(self, name: str) -> str:
        """The PIN somebody is to have: from TAPEWRIGHT_NEW_PIN, else asked for."""
        given = os.environ.get("TAPEWRIGHT_NEW_PIN")
        return (
            given
            if given is not None
            else terminal_text.ask_secret(say("settings", "people-new-pin", name=name))
        )

    def take_back_folders(self) -> None:
        """Removes the folders made for what was refused, unless something lies in them."""
        for folder in reversed(self.made):
            with suppress(OSError):
                folder.rmdir()

    def run(
        self, shop: Shop, step: Callable[Concatenate[Unit, P], T], /, *args: P.args, **kwargs: P.kwargs
    ) -> T:
        """Carries out a step under the id typed with ``--command``, or a new one; a repetition is noted."""
        done = shop.once(self.next_command(), step, *args, **kwargs)
        if done.before is not None:
            self.notes.append(say("cli", "saved_before"))
        return done.answer

    def recalled(self, shop: Shop, step: Callable[Concatenate[Unit, P], T]) -> T | None:
        """What the typed id was answered before, for a step whose arguments take long to work out."""
        from core.store import commands

        if not self.asked.command:
            return None
        found = shop.ask(commands.recalled, self.asked.command, step)
        if found is not None:
            self.notes.append(say("cli", "saved_before"))
        return found

    def with_way_back(self, failure: Unavailable) -> Unavailable:
        """The failure, with the id to send it again by, where nobody knows whether a step was stored."""
        if not self.sent or self.asked.command:
            return failure
        command = str(self.sent[0])
        return Unavailable(say("cli", "send_again", sentence=failure.sentence, command=command))

    def next_command(self) -> CommandId:
        """The id of the next step; further steps of one subcommand count on from the first."""
        from core.model.names import CommandId
        from core.services.records_door import new_command

        first = self.sent[0] if self.sent else self.asked.command or new_command()
        made = CommandId(f"{first}.{len(self.sent) + 1}" if self.sent else first)
        self.sent.append(made)
        return made


def marked(reply: Reply, marks: Iterable[str]) -> Reply:
    """The reply with ``marks`` in its document, each true."""
    return replace(reply, document={**reply.document, **dict.fromkeys(marks, True)})


def is_url(where: str) -> bool:
    return "://" in where


def default_shop() -> Path:
    """The shop in the user's data folder."""
    import platformdirs

    return Path(platformdirs.user_data_dir("Tapewright", appauthor=False)) / "shop.sqlite"


def default_demo() -> Path:
    """The place of the demonstration in the user's data folder."""
    return default_shop().with_name("demo")


def contents(name: str) -> bytes:
    """The bytes of the file ``name`` (``-``: standard input), one more than is accepted at most."""
    from core.model import json_reader

    if name == "-":
        return sys.stdin.buffer.read(json_reader.MOST_BYTES + 1)
    regular_files.check(name, name, say("cli", "name_readable_file_accepted"))
    try:
        with open(name, "rb") as file:
            return file.read(json_reader.MOST_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError) as error:
        raise WrongInput(name, nothing(), say("cli", "name_readable_file_accepted")) from error
    except IsADirectoryError as error:
        raise WrongInput(
            name, AsWritten(say("cli", "folder")), say("cli", "name_readable_file_accepted")
        ) from error
    except ValueError as error:
        raise WrongInput("FILE", name, say("cli", "name_readable_file_accepted")) from error
