"""Named failures. What a person reads is the sentence each one carries."""

from __future__ import annotations

from collections.abc import Iterable

from core.wording.messages import say


class TapewrightError(Exception):
    """Something went wrong that a person can understand and act on."""

    exit_code = 1

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class WrongInput(TapewrightError):
    """What was typed or read cannot be right; names the place, what was found and what is accepted."""

    exit_code = 2

    def __init__(self, place: str, found: object, accepted: str) -> None:
        frame = "wrong_input" if found != "" else "nothing_entered"
        super().__init__(say("files", frame, place=place, found=_shown(found), accepted=accepted))
        self.place = place
        self.found = found
        self.accepted = accepted


class Refused(TapewrightError):
    """A rule of the shop does not allow this; the sentence gives the reason and the way out."""

    exit_code = 3


class StoredBefore(Refused):
    """Under this command something else was stored before; ``answer`` is what it was answered."""

    def __init__(self, sentence: str, answer: object) -> None:
        super().__init__(sentence)
        self.answer = answer


class Unconfirmed(Refused):
    """Nobody confirmed what is hardly possible: the step is taken when it is sent again as ``sure``."""


class NotPermitted(Refused):
    """Only some of the people may do this; ``who_may`` are their names, none where nobody may."""

    def __init__(self, sentence: str, who_may: tuple[str, ...]) -> None:
        super().__init__(sentence)
        self.who_may = who_may


class Conflict(Refused):
    """Somebody else changed the same thing first; read it again before deciding."""


class Unavailable(TapewrightError):
    """The shop's records cannot be reached just now; nothing was changed."""

    exit_code = 4


class Unreachable(Unavailable):
    """The server of the records does not answer; it may be there again in a while."""


class NoShopYet(Unavailable):
    """There are no records of a shop at the place asked for."""


class AsWritten(str):
    """A thing found that is shown without quotation marks: ``null``, ``a list``, ``nothing``."""

    __slots__ = ()

    def __repr__(self) -> str:
        return str(self)


def at(where: str, *keys: str) -> str:
    """The place of a key in a file as a person reads it: ``pebble.toml, habits, usual``."""
    return ", ".join((where, *keys))


def nothing() -> AsWritten:
    """What is found where something is missing."""
    return AsWritten(say("files", "nothing"))


def missing(where: str, key: str, accepted: str) -> WrongInput:
    """The error for a key that is not there; the caller raises it."""
    return WrongInput(where, nothing(), say("files", "needed", key=key, accepted=accepted))


def one_of(names: Iterable[str]) -> str:
    """What is accepted where only some names are."""
    return say("files", "one-of", names=", ".join(names) or say("files", "none"))


def _shown(found: object) -> str:
    """As somebody who typed it knows it: no escapes, lines side by side, a space for what cannot be seen."""
    text = repr(found)
    if isinstance(found, str) and not isinstance(found, AsWritten):
        seen = "".join(sign if sign.isprintable() else " " for sign in " / ".join(found.splitlines()))
        mark = '"' if "'" in seen and '"' not in seen else "'"
        text = f"{mark}{' '.join(seen.split()) or seen[:1]}{mark}"
    return text if len(text) <= 60 else f"{text[:57]}…"
