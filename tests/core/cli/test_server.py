"""The same words on a shop that lives on a PostgreSQL server."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support.booked import set_up
from tests.support.typed import READY, Typist, walk


@pytest.mark.postgres
def test_a_shop_on_a_server_takes_the_same_words(
    postgres_url: str, box: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    set_up(postgres_url)
    typed = Typist(postgres_url, capsys)
    booked = typed("book", box).document
    code = booked["tapes"][0]["code"]
    assert typed("quote", box).code == 0
    walk(typed, code, *READY)
    assert typed("status", "fenw").document["jobs"][0]["number"] == booked["number"]
    copy = typed("backup", tmp_path / "copies").document["file"]
    assert typed("pickup", booked["number"], "--tape", code, "--signed-by", "Ada").code == 0
    assert typed("pickup", booked["number"], "--tape", code, "--signed-by", "Ada").code == 3
    refused = typed("restore", copy)
    assert (refused.code, refused.out) == (3, "")
    assert "--replace" in refused.err
    assert typed("restore", copy, "--replace").code == 0
    assert typed("status", code).document["jobs"][0]["tapes"][0]["station"] == "ready"
    assert typed("verify").document["sound"] is True
