"""A warning in the log fails the test that caused it, unless the test reads the log itself."""

from __future__ import annotations

import logging
from collections.abc import Iterator

import pytest


class _Kept(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.records: list[logging.LogRecord] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.records.append(record)


@pytest.fixture(autouse=True)
def quiet_log(request: pytest.FixtureRequest) -> Iterator[None]:
    """Nothing may be logged at warning level or above by a test that does not ask for `caplog`."""
    if "caplog" in request.fixturenames:
        yield
        return
    kept = _Kept()
    logging.getLogger().addHandler(kept)
    try:
        yield
    finally:
        logging.getLogger().removeHandler(kept)
    if kept.records:
        lines = [f"{record.levelname} {record.name}: {record.getMessage()}" for record in kept.records]
        pytest.fail("logged without being expected:\n" + "\n".join(lines))
