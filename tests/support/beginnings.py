"""Shops in which something has happened: made once for a file of tests, and copied for each of them."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.support.booked import Desk, opened, server_copy

Begin = Callable[[Desk], object]


def begun_file(begin: Begin) -> Any:
    """The fixture `begun_file` of a file of tests; the clock stands where it stood before ``begin``."""

    @pytest.fixture(scope="module", name="begun_file")
    def made(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
        path = Path(shutil.copy(empty_file, tmp_path_factory.mktemp("begun") / "shop.sqlite"))
        with opened(str(path), "sqlite") as desk:
            begin(desk)
        return path

    return made


def begun_server(begin: Begin) -> Any:
    """The fixture `begun_server` of a file of tests."""

    @pytest.fixture(scope="module", name="begun_server")
    def made(empty_server: str) -> Iterator[str]:
        with server_copy(empty_server) as url:
            with opened(url, "postgres") as desk:
                begin(desk)
            yield url.rsplit("/", 1)[1]

    return made
