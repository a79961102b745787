"""The language of the process and its catalogue: as shipped before each test, whatever the one before did."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from core.catalogue import formats
from core.model.own_shop import shop_additions
from core.wording import messages, shop_clock


@pytest.fixture(autouse=True)
def american() -> Iterator[None]:
    """Speaks the base language and knows what the program knows, before the test and after it."""
    messages.use("en")
    _forget_the_shop()
    yield
    messages.use("en")
    _forget_the_shop()


def _forget_the_shop() -> None:
    formats.put_in_force(())
    shop_clock.use("UTC")
    shop_additions.put_in_force(shop_additions.NOTHING_ADDED)
