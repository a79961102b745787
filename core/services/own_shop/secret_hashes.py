"""Secrets kept as Argon2id hashes (RFC 9106) in PHC strings, never as they are."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from argon2 import PasswordHasher


def hash_of(secret: str) -> str:
    """The Argon2id hash of a secret with its salt and costs, as a PHC string."""
    return _hasher().hash(secret)


def fits(kept: str, secret: str) -> bool:
    """Whether ``kept`` is the hash of this secret."""
    from argon2.exceptions import InvalidHashError, VerificationError

    try:
        return _hasher().verify(kept, secret)
    except (VerificationError, InvalidHashError, UnicodeError):  # letters that no keyboard gives
        return False


@cache
def _hasher() -> PasswordHasher:
    """RFC 9106 §4, the low-memory option: 3 passes, 64 MiB, 4 lanes; a salt of 16 bytes, a tag of 32."""
    from argon2 import PasswordHasher, profiles

    return PasswordHasher.from_parameters(profiles.RFC_9106_LOW_MEMORY)
