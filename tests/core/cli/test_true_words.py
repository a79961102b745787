"""What the command line says after a failure is what was done: stored or not, safe or not, begun or not."""

from __future__ import annotations

import os
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from core.model.errors import WrongInput
from core.services import incident_photos
from core.store.shop_files import shop_marker
from core.store.sqlite_library import sqlite_module
from core.wording import messages
from core.wording.messages import say
from tests.support.typed import ROOT, Typist, contents, environment, walk

needs_full_device = pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a full device")
needs_pipes = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="only POSIX has pipes with a name")
NO_FILE_GOES_THERE = [each for each in (Path("/proc"),) if each.is_dir()]
"""A folder in which nobody makes a file, whoever runs the test."""
EARLIER = "2025-11-20T10:00:00-05:00"
"""A hundred days before `NOW`, or a little more."""


@needs_full_device
def test_an_answer_that_cannot_be_written_was_a_change_all_the_same(typed: Typist, box: Path) -> None:
    words = [sys.executable, "-m", "core.cli.entry", "book", str(box), "--shop", str(typed.shop)]
    with open("/dev/full", "w") as full:
        done = subprocess.run(
            words, cwd=ROOT, env=environment(box.parent), stdout=full, stderr=subprocess.PIPE, check=False
        )
    assert done.returncode == 4
    told = say("cli", "answer_not_written", named="No space left on device")
    assert done.stderr.decode() == f"tapewright: {told}\n"
    assert len(typed("status", "000018").document["jobs"]) == 1, "it was booked"


def test_a_damaged_shop_is_not_called_safe() -> None:
    for key in ("file_damaged", "disk_failed", "no_shop_file", "not_there", "cannot_open"):
        assert messages.knows("records", key)
        assert "safe" not in say("records", key, where="shop.sqlite")


def test_a_refused_order_begins_no_shop(typed_first: Typist, box: Path) -> None:
    refused = typed_first("book", box)
    assert (refused.code, refused.out) == (3, "")
    assert say("settings", "page-prices") in refused.err
    assert list(Path(typed_first.shop).parent.iterdir()) == [box]


def test_an_order_where_a_shop_was_is_refused_and_begins_none(typed: Typist, box: Path) -> None:
    path = Path(str(typed.shop))
    assert typed("book", box).code == 0
    path.unlink()
    refused = typed("book", box)
    assert (refused.code, refused.out) == (4, "")
    assert say("records", "shop_is_gone", path=path, marker=shop_marker.place(path)) in refused.err
    assert not path.exists()


def test_papers_that_have_no_folder_are_refused_before_anything_is_stored(
    typed: Typist, box: Path, tmp_path: Path
) -> None:
    """Seen red with the folder asked for after the booking, and with `prepare` not trying to write in it."""
    (tmp_path / "file").write_text("in the way")
    before = contents(Path(str(typed.shop)))
    for folder in (tmp_path / "file", tmp_path / "file" / "below", *NO_FILE_GOES_THERE):
        refused = typed("book", box, "--paper", folder)
        assert (refused.code, refused.out) == (4, "")
        assert contents(Path(str(typed.shop))) == before
    codes = [tape["code"] for tape in typed("book", box).document["tapes"]]
    walk(typed, codes[0], "looked-over", "cleared-to-play", "playing", "being-checked", "ready")
    before = contents(Path(str(typed.shop)))
    words = ("pickup", codes[0][:6], "--tape", codes[0], "--signed-by", "Ada", "--paid-minor", "0")
    refused = typed(*words, "--paper", tmp_path / "file")
    assert (refused.code, refused.out) == (4, "")
    assert contents(Path(str(typed.shop))) == before


# --- pipes -------------------------------------------------------------------------------


@needs_pipes
def test_a_pipe_in_the_place_of_a_file_is_refused_and_waits_for_nobody(
    typed: Typist, box: Path, tmp_path: Path
) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    code = typed("book", box).document["tapes"][0]["code"]
    for words in (
        ("quote", pipe),
        ("book", pipe),
        ("amend", code[:6], pipe, "--because", "more"),
        ("pickup", code[:6], "--signed-by", "Ada", "--signature", pipe),
        ("capture", pipe),
        ("capture", pipe, "--tape", code),
        ("shop", "import", pipe),
        ("restore", pipe),
    ):
        refused = typed(*words)
        assert refused.code == 2, (words, refused.err)
        assert say("files", "no-plain-file") in refused.err
    with pytest.raises(WrongInput, match=say("files", "no-plain-file")):
        incident_photos.keep(pipe, tmp_path / "photos")
    for words in (("status", "Ada"), ("book", box), ("verify",), ("restore", box)):
        refused = typed.plainly(*words, "--shop", pipe)
        assert refused.code == 2, (words, refused.err)
        assert say("files", "no-plain-file") in refused.err


# --- a clock that was set back -----------------------------------------------------------


def test_with_a_deck_out_and_the_clock_set_back_everything_still_answers(typed: Typist, box: Path) -> None:
    assert typed("book", box).code == 0
    assert typed("deck", "VHS 1", "out").code == 0
    for words in (("promises",), ("quote", box), ("load-now",), ("expect",), ("book", box), ("queue",)):
        answered = typed(*words, now=EARLIER)
        assert answered.code == 0, (words, answered.err)
    assert typed("verify", now=EARLIER).document["sound"]


def test_a_clock_that_was_set_back_is_said_and_the_history_goes_on(typed: Typist, box: Path) -> None:
    code = typed("book", box, now="2026-03-02T10:00:00-05:00").document["tapes"][0]["code"]
    moved = typed("move", code, "looked-over", now="2026-03-01T10:00:00-05:00")
    assert moved.code == 0
    assert moved.err.count("The clock of this computer says") == 1
    with closing(sqlite_module().connect(str(typed.shop))) as shop:
        at = [row[0] for row in shop.execute("SELECT at FROM events ORDER BY seq")]
    assert at == sorted(at)
    assert typed("verify").document["sound"]
    assert typed("status", code, now="2026-03-02T09:30:00-05:00").err == ""
