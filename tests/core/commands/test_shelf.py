"""``playtime``, ``cut`` and ``pack``: answers of the catalogue, without a shop."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.typed import Typist, run_python


def test_playtime_tells_minutes_metres_speed_and_sources(typed: Typist) -> None:
    told = typed(
        "playtime", "--format", "vhs", "--marking", "T-120", "--speed", "sp", "--tv", "ntsc"
    ).document
    assert told["full_minutes"] == pytest.approx(122.9, abs=0.1)  # SMPTE 32M: 246 m at 33.35 mm/s
    assert (told["metres"], told["speed_mm_s"]) == (246.0, 33.35)
    assert told["minutes"]["low"] <= told["minutes"]["likely"] <= told["minutes"]["high"]
    assert told["sources"]


def test_playtime_of_a_hi8_cassette_recorded_as_digital8_is_an_hour(typed: Typist) -> None:
    told = typed(
        "playtime", "--format", "hi8", "--marking", "p6 120", "--recorded-as", "digital8", "--speed", "sp"
    ).document
    assert told["full_minutes"] == pytest.approx(60.0, abs=0.1)


def test_playtime_narrows_with_the_share_that_is_recorded(typed: Typist) -> None:
    told = typed(
        "playtime", "--format", "minidv", "--marking", "DVM60", "--speed", "sp", "--fill", "0.5"
    ).document
    assert told["minutes"]["likely"] == pytest.approx(30.0, rel=0.1)


def test_cut_tells_seconds_removed_and_disturbed(typed: Typist) -> None:
    told = typed("cut", "--format", "vhs", "--speed", "sp", "--tv", "ntsc", "--cm", "2").document
    assert told["seconds_removed"] == pytest.approx(20 / 33.35, abs=1e-6)
    assert told["seconds_disturbed"] == pytest.approx((20 + 96.2) / 33.35, abs=1e-6)


def test_pack_tells_metres_and_minutes_and_refuses_an_unknown_hub(typed: Typist) -> None:
    told = typed("pack", "--format", "vhs", "--radius-mm", "35", "--speed", "sp", "--tv", "ntsc").document
    assert told["metres"] == pytest.approx(3.141592653589793 * (35**2 - 13**2) / 19, abs=1e-6)
    assert told["minutes"] == pytest.approx(told["metres"] / 33.35 / 0.06, abs=1e-5)
    assert typed("pack", "--format", "micromv", "--radius-mm", "12").code == 3


def test_the_shelf_needs_no_shop_no_database_and_no_paper(tmp_path: Path) -> None:
    script = (
        "import sys; from core import cli;"
        "codes = [cli.run(words.split()) for words in sys.argv[1:]];"
        "print(codes, sorted({name.split('.')[0] for name in sys.modules}"
        " & {'sqlalchemy', 'alembic', 'reportlab', 'psycopg', 'phonenumbers', 'PySide6'}))"
    )
    words = ["playtime --format vhs --json", "cut --format hi8 --cm 2", "pack --format vhs --radius-mm 30"]
    done = run_python("-c", script, *words, home=tmp_path)
    assert done.stdout.splitlines()[-1] == "[0, 0, 0] []"
    assert list(tmp_path.iterdir()) == []
