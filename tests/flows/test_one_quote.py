"""Whoever is asked says the same: window, command line and booking quote a box alike after learning."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from core.cli import json_quotes
from core.model.deck_showing import Shown
from core.model.names import FormatName, Speed
from core.model.quote_records import Quote
from core.model.stations import Station
from core.playtime.habits import STARTING
from core.services import inventory_file, jobs, shop_snapshot
from core.services.inventory_file import InventoryContext
from tests.support.booked import Desk, line
from tests.support.typed import Typist

BOX = {
    "tv": "ntsc",
    "customer": {"name": "Ben Marlow", "phone": "(303) 555-0161"},
    "tapes": [
        {"count": 6, "format": "vhs-c", "marking": "TC-30"},
        {"count": 3, "format": "hi8", "marking": "P6-120"},
    ],
    "deliver": [{"as": "files", "codec": "h264", "on": "usb"}],
}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    written = tmp_path / "box.json"
    written.write_text(json.dumps(BOX), encoding="utf-8")
    return written


def teach(desk: Desk) -> None:
    """Sixteen compact cassettes ran at EP, eight Hi8 shells held Digital8; one box is still playing."""
    for n in range(16):
        job = desk.book(line("vhs-c", marking="TC-30", speed=None), name=f"Compact {n}")
        desk.bring_to(job.tapes[0], Station.BEING_CHECKED, minutes=80.0, shown=Shown(Speed.EP))
    for n in range(8):
        job = desk.book(line("hi8", marking="P6-120", speed=None), name=f"Shell {n}")
        digital = Shown(recorded_as=FormatName("digital8"))
        desk.bring_to(job.tapes[0], Station.BEING_CHECKED, minutes=60.0, shown=digital)
    desk.bring_to(desk.book(line("vhs", 2)).tapes[0], Station.PLAYING)


def windows_quote(desk: Desk, file: Path, **changes: object) -> Quote:
    """What the Counter would show and book."""
    now = replace(desk.shop.ask(shop_snapshot.read), **changes)  # type: ignore[arg-type]
    box = inventory_file.read(file.read_bytes(), str(file), InventoryContext(now.today))
    return now.quote(box, desk.clock())


def as_printed(quote: Quote) -> dict[str, object]:
    printed: dict[str, object] = json.loads(json.dumps(json_quotes.quote(quote)))
    return printed


def test_window_and_command_line_quote_a_box_alike_after_the_shop_has_learned(
    file_desk: Desk, file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    teach(file_desk)
    window = as_printed(windows_quote(file_desk, file))
    typed = Typist(file_desk.where, capsys)
    now = file_desk.clock().isoformat()

    assert typed("quote", file, now=now).document == window
    assert (
        window["capture_hours"]
        != as_printed(windows_quote(file_desk, file, habits=STARTING))["capture_hours"]
    )


def test_what_is_booked_by_command_is_what_the_window_quoted(
    file_desk: Desk, file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    teach(file_desk)
    window = windows_quote(file_desk, file)
    booked = Typist(file_desk.where, capsys)("book", file, now=file_desk.clock().isoformat())
    job = file_desk.shop.ask(jobs.get, booked.document["number"])

    assert as_printed(job.quote) == as_printed(window)
