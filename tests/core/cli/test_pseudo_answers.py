"""What the command line answers a person in the pseudo-language: nothing of it was left in code.

Names that one types (stations, options, keys of the JSON) and the words of `argparse` stay as they are.
"""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import pytest

from core.cli.subcommands import SUBCOMMANDS
from core.model import resource_files
from core.model.own_shop.settings_records import Expected
from core.model.stations import Station
from core.wording import messages
from tests.support import demonstration
from tests.support.typed import Typist
from tests.support.unspoken import Data, unspoken

BOX = str(resource_files.path("demo", "walkthrough.json"))
_NOW = demonstration.AFTERNOON.isoformat()
ASKED = (
    ("playtime", "--format", "vhs", "--marking", "T-120"),
    ("cut", "--format", "vhs", "--speed", "sp", "--cm", "2"),
    ("pack", "--format", "vhs", "--marking", "T-120", "--radius-mm", "30"),
    ("quote", BOX),
    ("status", "000075"),
    ("status", "Ottoline"),
    ("history", "0000750063"),
    ("files", "000042"),
    ("promises",),
    ("kept",),
    ("expect",),
    ("queue",),
    ("load-now",),
    ("habits",),
    ("donors",),
    ("verify",),
)
DONE = (
    ("book", BOX),
    ("splice", "0000750071", "--at-minutes", "12", "--cut-cm", "2", "--joined-with", "tape"),
    ("mark", "0000750071"),
    ("undo-splice", "0000750071", "--because", "x"),
    ("label-off", "0000750071"),
    ("correct", "000075", "--name", "Edwin Marsh"),
)
REFUSED = (
    ("move", "123", "ready"),
    ("move", "0000750014", "playing"),
    ("mark", "0000750071"),
    ("looked", "0000750071", "ok"),
    ("quote", "nope.json"),
)


@pytest.fixture
def shop(pseudo_demonstration: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Typist:
    messages.use("xx")
    return Typist(demonstration.copied(pseudo_demonstration, tmp_path / "demo").shop, capsys)


@pytest.fixture
def data(tmp_path: Path) -> Data:
    names = (
        *SUBCOMMANDS,
        *(station.value for station in Station),
        *(field.name for field in fields(Expected)),
    )
    return Data("tapewright", "nope.json", "Robin", "Sam", str(tmp_path), *names, "--help")


@pytest.mark.parametrize("asked", ASKED, ids=lambda words: " ".join(words[:2]))
def test_an_answer_is_said_by_wording_files(shop: Typist, data: Data, asked: tuple[str, ...]) -> None:
    told = shop(*asked, now=_NOW, as_json=False)
    assert told.code == 0, told.err
    assert unspoken(told.out, data) == []


def test_so_is_what_was_done(shop: Typist, data: Data) -> None:
    for asked in DONE:
        told = shop(*asked, now=_NOW, as_json=False)
        assert told.code == 0, told.err
        assert (asked[0], unspoken(told.out, data)) == (asked[0], [])


@pytest.mark.parametrize("asked", REFUSED, ids=lambda words: " ".join(words[:2]))
def test_so_is_a_refusal(shop: Typist, data: Data, asked: tuple[str, ...]) -> None:
    told = shop(*asked, now=_NOW, as_json=False)
    assert told.code in (2, 3)
    assert unspoken(told.err, data) == []


def test_english_in_an_answer_is_found(shop: Typist, data: Data) -> None:
    told = shop("status", "000075", now=_NOW, as_json=False)
    assert unspoken(f"{told.out} planted literal", data) == ["planted", "literal"]
