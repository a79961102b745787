"""Ways to go on with an order or a tape on another screen, by the keys of the screens."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from PySide6.QtCore import SignalInstance

from core.model.numbers import CODE_DIGITS
from gui.toolkit import actions
from gui.toolkit.text import say
from gui.widgets.row_menu import MenuEntry

_KEYS = {each.name: each.keys for each in actions.MOMENTS}


def of_order(code: str, wants_moment: SignalInstance, here: str) -> Iterator[MenuEntry]:
    """``code``: of a tape, or the number of an order; ``here``: the screen on which that is asked."""
    for name in ("phone", "bench", "pickup"):
        if name != here and (name != "bench" or len(code) == CODE_DIGITS):
            go = partial(wants_moment.emit, name, code)
            yield MenuEntry(say("window", f"menu-{name}"), _KEYS[name], go)
