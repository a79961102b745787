"""All that is kept of one customer, and nothing of anybody else, as one file."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path

import pytest

from core.model.errors import NotPermitted
from core.model.own_shop.settings_records import Person
from core.papers import privacy_page
from core.services import decks
from core.services.own_shop import settings_versions
from core.services.privacy import customer_export, kept_entries
from core.store import current_settings
from core.wording.messages import say
from tests.core.filled_shop import fill
from tests.support import pdf
from tests.support.booked import Desk
from tests.support.typed import Typist, contents


def test_every_row_and_line_of_theirs_is_in_it(desk: Desk) -> None:
    fill(desk)
    desk.shop.who = "Ada"
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=()))
    found = desk.shop.ask(customer_export.export, "000018")
    text = json.dumps(found)
    assert found["customer"]["name"] == "Ada Fenwick"
    assert found["orders"] == ["000018", "000034"]
    assert set(found["records"]) >= {
        "jobs",
        "tapes",
        "payments",
        "pickups",
        "promises",
        "splices",
        "incidents",
    }
    assert found["records"]["jobs"][0]["quote"]["inventory"]["customer"]["name"] == "Ada Fenwick"
    assert any("called" in each["words"] for each in found["history"])
    assert "Holloway" not in text
    assert "salt" not in text


def test_nobody_takes_it_out_without_the_right(desk: Desk) -> None:
    staff = (Person("Ada", may=frozenset({"settings"})),)
    settings = desk.shop.ask(current_settings.read)
    desk.shop.run(settings_versions.change, replace(settings, staff=staff), needs=None)
    with pytest.raises(NotPermitted):
        desk.shop.ask(customer_export.export, "000018")


def test_the_page_says_of_each_thing_what_why_and_how_long(file_desk: Desk) -> None:
    settings = file_desk.shop.ask(decks.settings)
    found = file_desk.shop.ask(kept_entries.entries)
    lines = [(each.what, each.why, each.how_long) for each in found]
    shown = pdf.words(privacy_page.render(lines, settings.front, file_desk.clock().date()))
    assert len(found) == len(kept_entries.KEPT)
    for line in lines:
        assert all(each for each in line)
        assert line[0].split(",")[0].split(":")[0] in shown
    assert say("privacy", "title") in shown


def test_typed_it_is_told_exported_and_erased(typed: Typist, codes: list[str], tmp_path: Path) -> None:
    page = typed("data-kept", "--paper", tmp_path / "shown")
    assert len(page.document["kept"]) == len(kept_entries.KEPT)
    assert Path(page.document["papers"][0]).read_bytes().startswith(b"%PDF")
    file = tmp_path / "ada.json"
    assert typed("export-customer", "000018", file).code == 0
    assert json.loads(file.read_bytes())["customer"]["name"] == "Ada Fenwick"
    if os.name != "nt":
        assert file.stat().st_mode & 0o077 == 0
    assert typed("export-customer", "Ada Fenwick", "-").document["orders"] == ["000018"]
    assert typed("export-customer", "Nobody Atall", "-").code == 2
    refused = typed("erase", "000018")
    assert (refused.code, "still open" in refused.err) == (3, True)


def test_a_file_that_cannot_be_written_is_noted_nowhere(
    typed: Typist, codes: list[str], tmp_path: Path
) -> None:
    """A pipe that nobody reads: the answer said *nothing was changed*, and the history had a line more."""
    pipe = tmp_path / "customer.json"
    os.mkfifo(pipe)
    before = contents(Path(typed.shop))
    refused = typed("export-customer", "000018", pipe)
    assert (refused.code, "nothing was changed" in refused.err) == (4, True)
    assert contents(Path(typed.shop)) == before
