"""The shop's own sentences as they are entered: each fits the built-in one it stands for, or is refused."""

from __future__ import annotations

from collections.abc import Iterable

from core.model.errors import WrongInput, at
from core.wording import messages, own_words
from core.wording.messages import say
from core.wording.own_words import Misfit


def check(entered: Iterable[tuple[str, str]], language: str, where: str) -> None:
    """WrongInput, naming the sentence, for one that is closed, unknown, unreadable or short of a blank."""
    for place, text in entered:
        room, _, key = place.partition("/")
        built_in = messages.built_in(room, language).get(key)
        read = own_words.read(place, text, built_in, messages.speech(language).locale)
        if not isinstance(read, Misfit):
            continue
        if built_in is None or read is Misfit.CLOSED:
            raise WrongInput(at(where, "words"), place, say("files", read.value))
        names = sorted(own_words.blanks(built_in))
        blanks = ", ".join(f"{{ ${name} }}" for name in names) or say("files", "none")
        raise WrongInput(at(where, "words", place), text, say("files", read.value, blanks=blanks))
