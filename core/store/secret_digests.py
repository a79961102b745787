"""A digest of a secret that tells whether the same was typed again, and is too slow to guess by."""

from __future__ import annotations

import hashlib

from core.model.names import CommandId


def digest(secret: str, command: CommandId) -> str:
    """The Argon2id tag (RFC 9106 §4, the low-memory option) of ``secret``, salted by the command, in hex."""
    from argon2 import low_level, profiles

    costs = profiles.RFC_9106_LOW_MEMORY
    return low_level.hash_secret_raw(
        secret.encode("utf-8", "surrogatepass"),
        hashlib.sha256(command.encode("utf-8", "surrogatepass")).digest()[:16],
        time_cost=costs.time_cost,
        memory_cost=costs.memory_cost,
        parallelism=costs.parallelism,
        hash_len=32,
        type=costs.type,
    ).hex()
