"""Why a command of the Counter cannot be used now."""

from __future__ import annotations

from core.model.quote_records import Quote
from gui.counter.draft_history import Draft
from gui.toolkit import actions
from gui.toolkit.text import say

_OF_A_QUOTE = frozenset(key.name for key in (actions.BOOK, actions.SIGN, actions.HELP_DAY)) | {"book"}


def why_not(name: str, draft: Draft, quote: Quote | None) -> str:
    """One sentence, or nothing where the draft does not bar it."""
    is_empty = draft.shown.is_empty
    barred = {
        actions.UNDO.name: is_empty and not draft.undo.canUndo(),
        actions.REDO.name: not draft.undo.canRedo(),
        actions.REMOVE.name: is_empty,
        actions.NEW_BOX.name: is_empty,
    }
    if barred.get(name):
        return say("commands", f"why-{name}")
    return say("commands", "no-quote") if name in _OF_A_QUOTE and quote is None else ""
