"""The language of the process and its catalogue: as shipped before each test, whatever the one before did."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from core.catalogue import formats
from core.wording import messages


@pytest.fixture(autouse=True)
def american() -> Iterator[None]:
    """Speaks the base language and knows the program's formats, before the test and after it."""
    messages.use("en")
    formats.put_in_force(())
    yield
    messages.use("en")
    formats.put_in_force(())
