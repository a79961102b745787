"""Backups and own words by command line: set, made in every place, tried out, said the shop's way."""

from __future__ import annotations

import shutil
from pathlib import Path

from core.wording.messages import say
from tests.support.typed import Typist


def test_without_a_place_and_a_folder_nothing_is_made_and_the_way_out_is_told(typed: Typist) -> None:
    typed("shop", "set", "front.name", "The Reel")
    told = typed("backup")
    assert (told.code, told.out) == (3, "")
    assert say("cli", "backup_no_place") in told.err


def test_places_are_set_and_each_gets_its_copy_which_is_tried_out(typed: Typist, tmp_path: Path) -> None:
    stick, attic = tmp_path / "stick", tmp_path / "attic"
    stick.mkdir()
    attic.mkdir()
    assert typed("shop", "set", "backup.first", stick, "backup.second", attic).code == 0
    files = typed("backup").document["files"]
    assert [Path(each).parent for each in files] == [stick, attic]
    assert typed("backup", "--check").document["files"] == files
    assert typed("backup", stick).document["files"] != files[:1]
    assert typed("verify").document["sound"]


def test_a_place_that_is_gone_is_unavailable_and_named(typed: Typist, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    typed("shop", "set", "backup.first", stick)
    shutil.rmtree(stick)
    told = typed("backup")
    assert told.code == 4
    assert str(stick) in told.err
    assert not stick.exists()


def test_a_sentence_is_said_the_shops_own_way(typed: Typist) -> None:
    own = "Good and healthy. Well done!"
    answer = typed("shop", "set", "words.settings/all-set-up", own)
    assert answer.document["changed"] == [{"path": "words.settings/all-set-up", "was": None, "now": own}]
    refused = typed("shop", "set", "words.findings/mould", "Breathe deeply.")
    assert refused.code == 2
    assert say("files", "own-words-closed") in refused.err
    assert typed("shop", "show", "words").document == {"settings/all-set-up": own}
    assert typed("shop", "remove", "words.settings/all-set-up").code == 0
    assert typed("shop", "show", "words").document == {}
