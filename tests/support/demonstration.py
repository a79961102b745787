"""The invented shop, made once for a whole run and handed out as copies.

Making it takes seconds: a day of some 160 steps with their papers and a recording. The processes of a run
share one making; a lock beside it lets the others wait for the one that makes it.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from core.services import invented_shop
from core.services.invented_shop import InventedShop
from core.wording import messages, pseudo_language
from tests.support.patience import PATIENCE_S

DENVER = ZoneInfo("America/Denver")
AFTERNOON = datetime(2026, 3, 12, 15, 0, tzinfo=DENVER)
"""A Thursday with no holiday near."""


@pytest.fixture(scope="session")
def demonstration(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the invented shop as it stands on `AFTERNOON`; to be read or copied, never written to."""
    place = _shared(tmp_path_factory) / "demonstration"
    _make_once(place, lambda folder: invented_shop.make(folder, AFTERNOON))
    return place


@pytest.fixture(scope="session")
def pseudo_demonstration(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same shop in the pseudo-language: all that its people did was said in it."""
    place = _shared(tmp_path_factory) / "demonstration-xx"
    _make_once(place, _make_in_pseudo)
    return place


@pytest.fixture(scope="module")
def made(demonstration: Path, tmp_path_factory: pytest.TempPathFactory) -> InventedShop:
    """A copy of the invented shop for one file of tests."""
    return copied(demonstration, tmp_path_factory.mktemp("demo") / "demo")


def copied(made_at: Path, to: Path) -> InventedShop:
    """The whole demonstration in another folder, as if it had been made there."""
    shutil.copytree(made_at, to)
    papers = sorted(to.glob("papers/*.pdf"))
    return InventedShop(to / invented_shop.FILE, tuple(papers), tuple(sorted(to.glob("recordings/*"))))


def _make_in_pseudo(folder: Path) -> None:
    spoken = messages.current()
    messages.use(pseudo_language.TAG)
    try:
        invented_shop.make(folder, AFTERNOON, pseudo_language.TAG)
    finally:
        messages.use(spoken.language, spoken.locale)


def _shared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that all processes of this run have in common."""
    own = tmp_path_factory.getbasetemp()
    return own.parent if os.environ.get("PYTEST_XDIST_WORKER") else own


def _make_once(place: Path, make: Callable[[Path], object]) -> None:
    """Whoever comes first makes it aside and puts it in place whole; the others wait for that."""
    with _locked(place.with_suffix(".lock")):
        if not place.exists():
            aside = place.with_suffix(".new")
            shutil.rmtree(aside, ignore_errors=True)
            make(aside)
            aside.rename(place)


@contextmanager
def _locked(lock: Path) -> Iterator[None]:
    """A folder is made by one process only, on every system."""
    given_up = time.monotonic() + 5 * PATIENCE_S
    while True:
        try:
            lock.mkdir()
        except FileExistsError:
            if time.monotonic() > given_up:
                raise TimeoutError(
                    f"{lock} was not given back; a run that was killed may have left it"
                ) from None
            time.sleep(0.05)
        else:
            break
    try:
        yield
    finally:
        lock.rmdir()
