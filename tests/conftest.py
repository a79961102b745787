"""What holds for every test: warnings fail it, and it leaves nothing running behind."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_DATA = tempfile.TemporaryDirectory(prefix="tapewright-tests-")
os.environ["XDG_DATA_HOME"] = _DATA.name
"""A window takes its place among those of this run, not among those of whoever runs it."""

pytest_plugins = [
    "tests.support.cheap_hashes",
    "tests.support.compiled_once",
    "tests.support.leaks",
    "tests.support.logs",
    "tests.support.languages",
    "tests.support.patience",
    "tests.support.postgres",
    "tests.support.own_postgres",  # after the one it imports from
    "tests.support.quick",
]

settings.register_profile(
    "house",
    max_examples=60,
    deadline=None,  # a slow machine is no wrong answer
    derandomize=bool(os.environ.get("CI")),
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("house")


@pytest.fixture(scope="session", autouse=True)
def own_data_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Copies of servers are kept in the user's data folder: in a run, in a folder of the run."""
    with pytest.MonkeyPatch.context() as surroundings:
        surroundings.setenv("XDG_DATA_HOME", str(tmp_path_factory.mktemp("data")))
        yield
