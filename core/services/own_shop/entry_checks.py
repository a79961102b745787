"""What is asked of more than one table of the settings file."""

from __future__ import annotations

from collections.abc import Iterable

from core.model.errors import WrongInput
from core.wording.messages import say


def check_printable(text: str, place: str) -> None:
    """WrongInput for control characters: no paper could show them."""
    if not text.isprintable():
        raise WrongInput(place, text, say("files", "one-line"))


def known(found: Iterable[str], accepted: Iterable[str], place: str) -> frozenset[str]:
    """The names found; WrongInput for one that is not accepted."""
    names = tuple(accepted)
    for one in found:
        if one not in names:
            raise WrongInput(place, one, say("readers", "accepted_3", names=", ".join(names)))
    return frozenset(found)
