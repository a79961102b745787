"""What may not be imported before the first paint, nor by a subcommand that needs no database."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
RECORDS = {"sqlalchemy", "alembic", "psycopg"}
PAPERS = {"reportlab", "pypdfium2", "segno"}
SLOW_DATA = {"holidays", "phonenumbers", "babel", "rapidfuzz", "numpy"}
SLOW_TYPES = {"dataclasses", "datetime", "decimal", "html", "uuid", "getpass"}
"""Of the standard library, a millisecond or more each before the first paint; a record of `dataclasses`
takes half a millisecond to make, a `NamedTuple` a fifth."""


@pytest.mark.parametrize(
    ("start", "forbidden"),
    [
        ("import gui.app.startup", RECORDS | PAPERS | SLOW_DATA | SLOW_TYPES),
        ("import gui.__main__", RECORDS | PAPERS | SLOW_DATA | SLOW_TYPES | {"PySide6"}),
        (
            "from core.cli import entry; entry.run(['playtime', '--format', 'vhs'])",
            RECORDS | PAPERS | {"PySide6"},
        ),
    ],
    ids=["the window", "the program", "a subcommand without records"],
)
def test_starting_brings_only_what_it_needs(start: str, forbidden: set[str]) -> None:
    said = "import sys, json; print(json.dumps(sorted({name.split('.')[0] for name in sys.modules})))"
    command = [sys.executable, "-c", f"{start}; {said}"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, timeout=60, check=True)

    imported = set(json.loads(done.stdout.splitlines()[-1]))

    assert imported & forbidden == set()


def test_offering_every_country_reads_the_language_of_the_reader_only() -> None:
    """Babel keeps what it reads of a locale for good: all of them are 96 MB and half a second."""
    offered = "countries(), offers.currencies(), offers.timezones('US'), offers.holiday_countries()"
    read = "from babel import localedata; print(sorted(localedata._cache))"
    look = f"from gui.settings import place_offers as offers; offers.{offered}; {read}"
    done = subprocess.run(
        [sys.executable, "-c", look], cwd=ROOT, capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout.strip() == "['en', 'en_US', 'root']"
