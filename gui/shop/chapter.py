"""A chapter of the Shop screen, and where the screen finds its chapters."""

from __future__ import annotations

import pkgutil
from collections.abc import Callable, Iterator
from functools import partial
from importlib import import_module
from typing import ClassVar

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

import gui.shop
from core.model.errors import TapewrightError
from core.model.names import EVERY_KIND
from core.services.shop_overview import ShopView
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say


class Chapter(QObject):
    """One subject of the Shop screen. A module of this folder brings its chapter as ``CHAPTER``."""

    said = Signal(str)
    """Something done, to be told in one sentence."""
    refused = Signal(object)
    """A `TapewrightError` to be shown."""
    wants_tape = Signal(object)
    """The code of a tape to go on with at the Bench."""
    wants_moment = Signal(str, str)
    """As of a `Screen`."""
    outdated = Signal()
    """What the chapter shows has changed: the screen is to build it anew."""

    name: ClassVar[str]
    """Its key in the list, and of its title in the wording file ``shop``."""
    place: ClassVar[int]
    """Chapters are listed by rising place."""
    kinds: ClassVar[frozenset[str]] = EVERY_KIND
    """Kinds of change that make it stale."""

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.desk = desk

    @property
    def title(self) -> str:
        return say("shop", self.name)

    def note(self, view: ShopView) -> str:
        """A word beside the title in the list, or nothing."""
        return ""

    def renew(self) -> None:
        """The records changed: what was worked out from the old ones is dropped."""

    def open(self, view: ShopView) -> QWidget:
        """A new page with what the chapter shows."""
        raise NotImplementedError

    def close(self) -> None:
        """The page is about to be deleted: answers under way no longer reach it."""

    def change(
        self,
        step: Callable[..., object],
        *args: object,
        said: str = "",
        changes: frozenset[str] = EVERY_KIND,
    ) -> None:
        """Run one step on the records; ``said`` is told when it is done."""
        self.desk.work.run(
            step, *args, then=partial(self._was_changed, said), otherwise=self.show_failure, changes=changes
        )

    def show_failure(self, failure: TapewrightError) -> None:
        self.refused.emit(failure)

    def _was_changed(self, said: str, _: object) -> None:
        if said:
            self.said.emit(said)


def import_chapters() -> Iterator[None]:
    """Imports the modules in this folder, one a turn: all of them together take a seventh of a second."""
    for each in pkgutil.iter_modules(gui.shop.__path__):
        import_module(f"gui.shop.{each.name}")
        yield


def found() -> tuple[type[Chapter], ...]:
    """The chapters of the modules in this folder, by their place."""
    modules = [import_module(f"gui.shop.{each.name}") for each in pkgutil.iter_modules(gui.shop.__path__)]
    chapters = [module.CHAPTER for module in modules if hasattr(module, "CHAPTER")]
    return tuple(sorted(chapters, key=lambda chapter: chapter.place))
