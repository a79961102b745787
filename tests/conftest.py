"""What holds for every test: warnings fail it, and it leaves nothing running behind."""

from __future__ import annotations

import os
import tempfile

from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
_DATA = tempfile.TemporaryDirectory(prefix="tapewright-tests-")
os.environ["XDG_DATA_HOME"] = _DATA.name
os.environ["XDG_DOCUMENTS_DIR"] = os.path.join(_DATA.name, "documents")
"""Places of windows, copies and papers of servers are kept in a folder of the run, not of whoever runs it."""

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
    "tests.support.worked_out_once",
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
