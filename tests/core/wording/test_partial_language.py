"""A language that is only begun: what it has is said in it, the rest in English, figures by its locale."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from core.papers.booking import quote_paper
from core.wording import message_files, messages
from core.wording.messages import say
from tests.support import invented_job as records
from tests.support import pdf

GERMAN = {
    "paper": "quote-title = Kostenvoranschlag\n",
    "phone": "promised = Versprochen für { $day }\n",
    "figures": "chance =\n    { $times ->\n        [1] 1 von 20\n       *[other] { $times } von 20\n    }\n",
}
"""The beginning of a German folder: three sentences of hundreds."""


@pytest.fixture
def begun(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A wording folder with all of English and a little German; the process speaks German."""
    english = message_files.FOLDER / "en"
    (tmp_path / "en").symlink_to(english, target_is_directory=True)
    (tmp_path / "de").mkdir()
    for room, said in GERMAN.items():
        (tmp_path / "de" / f"{room}.ftl").write_text(said, encoding="utf-8")
    monkeypatch.setattr(message_files, "FOLDER", tmp_path)
    messages._room.cache_clear()  # a test before may have read German where there was none yet
    messages.use("de")
    yield
    messages.use("en")
    messages._room.cache_clear()


def test_each_sentence_falls_back_by_itself(begun: None) -> None:
    assert say("phone", "promised", day="Montag") == "Versprochen für Montag"
    assert say("phone", "no_date", why="x") == say("phone", "no_date", language="en", why="x")
    assert say("pickup", "name") == say("pickup", "name", language="en")


def test_a_sentence_that_fell_back_still_writes_figures_of_its_own_language(begun: None) -> None:
    """An English sentence keeps English plurals; German has the same two (CLDR), so that both agree."""
    assert say("pickup", "tapes_many", count=1) == say("pickup", "tapes_many", language="en", count=1)


def test_a_paper_is_german_where_german_is_known(begun: None) -> None:
    """Days and amounts as CLDR writes them for ``de_DE``."""
    front = replace(records.FRONT, language="de", currency="EUR", timezone="Europe/Berlin")
    said = pdf.words(quote_paper.render(records.quote(), front, detail=True))
    assert "Kostenvoranschlag" in said
    assert say("paper", "quote-cost", language="en") in said
    assert "Donnerstag, 12. März" in said
    assert "19 von 20" in said
    assert "$376.71" not in said
    assert "376,71 $" in said
