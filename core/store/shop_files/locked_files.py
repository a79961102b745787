"""Copies that only the holder of a key can read, in the age format (age-encryption.org/v1, X25519).

Locking needs the public key alone, so backups are locked while the key itself lies on paper in a drawer. What
was locked is read back whole, with a second key that is made for it and forgotten.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

from core.model.backup_records import LOCKED_ENDING
from core.model.errors import AsWritten, Refused, Unavailable, WrongInput
from core.store.shop_files import durable_files
from core.wording.messages import say

ENDING = LOCKED_ENDING
_BEGINS = b"age-encryption.org/v1\n"
_AT_ONCE = 1 << 20


class WrongKey(WrongInput):
    """What was given as the key of a locked backup does not open it."""


def new_key() -> tuple[str, str]:
    """A new key, and the public key that belongs to it."""
    key = _library().x25519.Identity.generate()
    return str(key), str(key.to_public())


def check_public_key(text: str, place: str) -> None:
    """WrongInput where a text is no public key."""
    try:
        _library().x25519.Recipient.from_str(text)
    except _library().RecipientError as error:
        raise WrongInput(place, text, say("files", "public-key")) from error


def is_locked(file: Path) -> bool:
    """Whether a file was locked."""
    with file.open("rb") as opened:
        return opened.read(len(_BEGINS)) == _BEGINS


def lock(plain: Path, target: Path, public_key: str) -> Path:
    """The locked copy of a file, named ``target`` or with a number, read back before it has its name."""
    library = _library()
    once = library.x25519.Identity.generate()
    keys = [library.x25519.Recipient.from_str(public_key), once.to_public()]
    growing, again = durable_files.beside(target), durable_files.beside(plain)
    try:
        library.encrypt_file(str(plain), str(growing), keys)
        durable_files.flush(growing)
        library.decrypt_file(str(growing), str(again), [once])
        if not _are_equal(plain, again):
            raise Unavailable(say("records", "lock_not_sound", file=target))
        return durable_files.give_free_name(growing, target)
    finally:
        for each in (growing, again):
            each.unlink(missing_ok=True)


def unlock(file: Path, target: Path, key: str) -> None:
    """Writes what was locked to ``target``.

    Refused without a key; WrongKey for one that is none, and for another one than it was locked with;
    WrongInput for a file that was altered.
    """
    library = _library()
    if not key.strip():
        raise Refused(say("records", "backup_is_locked", file=file))
    hidden = AsWritten(say("records", "key_not_shown"))
    try:
        held = library.x25519.Identity.from_str(_bare(key))
    except library.IdentityError as error:
        raise WrongKey(say("records", "backup_key"), hidden, say("records", "key_accepted")) from error
    try:
        library.decrypt_file(str(file), str(target), [held])
    except library.DecryptError as error:
        raise WrongKey(say("records", "backup_key"), hidden, say("records", "other_key_accepted")) from error
    except OSError as error:
        if error.errno is not None:  # the system's; the library's own have no number
            raise
        accepted = say("records", "backup_incomplete")
        raise WrongInput(say("records", "backup"), str(file), accepted) from error


def _bare(key: str) -> str:
    """A key as it is typed from paper, in groups, or as it stands in a key file, after lines of remarks."""
    return "".join("".join(line.split()) for line in key.splitlines() if not line.lstrip().startswith("#"))


def _are_equal(one: Path, other: Path) -> bool:
    with one.open("rb") as first, other.open("rb") as second:
        while piece := first.read(_AT_ONCE):
            if second.read(len(piece)) != piece:
                return False
        return not second.read(1)


def _library() -> Any:
    import pyrage  # imported where it is used: most starts lock nothing

    return pyrage
