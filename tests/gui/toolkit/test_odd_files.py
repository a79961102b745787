"""What lies where the window expects a file: it waits for no pipe and stumbles over no bytes."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from core.model.errors import WrongInput
from core.model.typed_draft import TypedBox
from gui.bench.incident_form import IncidentEntry, IncidentKind
from gui.counter import accepted_words
from gui.counter.local_draft import LocalDraft
from gui.settings import logo_field
from gui.shop.prices import price_files
from gui.toolkit import counter_place


@pytest.fixture
def pipe(tmp_path: Path) -> Path:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    return path


def test_the_window_waits_for_no_pipe_either(pipe: Path, tmp_path: Path) -> None:
    for read in (logo_field.encoded, price_files.content):
        with pytest.raises(WrongInput):
            read(pipe)
    kept = LocalDraft(tmp_path / "drafts", "counter 1")
    kept.keep(TypedBox(name="Ada"))
    (file,) = (tmp_path / "drafts").glob("*.json")
    file.unlink()
    os.mkfifo(file)
    assert kept.kept() is None


@pytest.mark.parametrize("found", [b"\xff\xfe", b"", b"two\nlines", b"\x1b[2J", b"x" * 500, "é".encode()])
def test_a_counter_has_a_name_that_can_be_stored(tmp_path: Path, found: bytes) -> None:
    (tmp_path / "counter-id").write_bytes(found)
    place = counter_place.take(tmp_path)
    place.release()
    assert place.name.isprintable()
    assert place.name.isascii()
    assert counter_place._id_in(tmp_path / "counter-id")


def test_a_count_of_thousands_of_digits_is_refused() -> None:
    with pytest.raises(WrongInput):
        accepted_words.read_count("9" * 5000)


def test_a_photo_in_the_home_of_nobody_is_a_path_like_any_other() -> None:
    entry = IncidentEntry(IncidentKind.PHOTO, "~nobody-of-that-name/x.png")
    assert entry.path == Path("~nobody-of-that-name/x.png")
