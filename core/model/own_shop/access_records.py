"""What proves who somebody is besides a PIN: a user of a computer, a token for a program of theirs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import Enum

NOBODY = "counter"
"""Who acts where nobody says a name."""


@dataclass(frozen=True, slots=True)
class AccessToken:
    """A token that was issued to a person. The token itself is kept nowhere."""

    name: str
    """What it is for, in words."""
    until: date
    """The last day on which it is taken, by the shop's calendar."""
    digest: str
    """``sha256$SALT$DIGEST``, both in hexadecimal."""


@dataclass(frozen=True, slots=True)
class SystemUser:
    """A user of one computer, as its operating system knows them."""

    login: str
    """The name, to be read."""
    number: str
    """What counts: the user id on POSIX systems, the name again on Windows."""
    machine: str
    """The computer's own name: the same number is somebody else on another one."""

    @property
    def text(self) -> str:
        """``ada/1000@till-1``, as it is typed and kept."""
        return f"{self.login}/{self.number}@{self.machine}"

    def is_one_of(self, kept: Iterable[str]) -> bool:
        """Whether one of these texts means this user; a login that was renamed is the same user."""
        return any(each.rpartition("/")[2] == self.text.rpartition("/")[2] for each in kept)


class Proof(Enum):
    """What tells who somebody is."""

    TOKEN = "token"
    SYSTEM_USER = "system-user"
    PIN = "pin"
    NONE = "unproven"
    UNASKED = "unasked"
    """The shop asks for none yet."""


@dataclass(frozen=True, slots=True)
class Acting:
    """Who acts, and what proves it."""

    name: str
    proof: Proof
