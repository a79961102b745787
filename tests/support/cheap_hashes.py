"""PINs and pass phrases of the tests are hashed at the least costs Argon2id has.

At the costs of the program one hash takes a fifth of a second and 64 MiB, which shows nothing about what a
test is about. A test of the costs themselves asks for `shipped_costs`.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING

import pytest

from core.services.own_shop import secret_hashes

if TYPE_CHECKING:
    from argon2 import PasswordHasher

_shipped = secret_hashes._hasher


@cache
def _cheap() -> PasswordHasher:
    from argon2 import PasswordHasher

    return PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)


@pytest.fixture(autouse=True, scope="session")
def cheap_hashes() -> Iterator[None]:
    """One pass over 8 KiB in place of three over 64 MiB."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(secret_hashes, "_hasher", _cheap)
        yield


@pytest.fixture
def shipped_costs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes as the program makes them."""
    monkeypatch.setattr(secret_hashes, "_hasher", _shipped)
