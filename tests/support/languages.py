"""The language of the process: American English before each test, whatever the one before spoke."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from core.wording import messages


@pytest.fixture(autouse=True)
def american() -> Iterator[None]:
    """Speaks the base language, before the test and after it."""
    messages.use("en")
    yield
    messages.use("en")
