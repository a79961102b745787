"""Inputs that the fuzzed runs found a fault with: each is answered with a sentence, and nothing changes."""

from __future__ import annotations

import hashlib
import io
import json
import os
import sqlite3
import time
from pathlib import Path

import pytest

from core.cli import entry, terminal_text
from core.model import json_reader, private_files, regular_files, serialization, shaped_toml
from core.model.errors import Unavailable, WrongInput
from core.model.typed_draft import TypedBox
from core.services.own_shop import secret_hashes
from core.store import schema, secret_digests
from core.store.shop_files import erased_orders, restore_journal
from core.wording import record_heads, typed_amounts
from core.wording.messages import say
from tests.support.typed import NOW, Printed, Typist, contents

INSIDE = "went wrong inside"
"""What a person reads of a bug."""


def unchanged(typed: Typist, *words: str | Path, code: int = 2) -> Printed:
    """The answer of a line that is refused and changes nothing."""
    before = contents(Path(typed.shop))
    answer = typed(*words)
    assert answer.code == code, answer.err
    assert INSIDE not in answer.err
    assert answer.err.startswith("tapewright: ")
    assert contents(Path(typed.shop)) == before
    return answer


# --- TOML --------------------------------------------------------------------------------


@pytest.mark.parametrize("text", ["a = " + "[" * 3000, "a = " + "9" * 5000, "a = {" * 2000])
def test_toml_that_only_a_machine_makes_is_refused(text: str) -> None:
    with pytest.raises(WrongInput):
        shaped_toml.parsed(text, "shop.toml")


def test_so_it_is_where_a_setting_is_typed(typed: Typist) -> None:
    unchanged(typed, "shop", "set", "work.people", "[" * 3000)
    unchanged(typed, "shop", "set", "work.people", "9" * 5000)


def test_a_settings_file_is_not_cut_off_where_it_is_too_large(typed: Typist, tmp_path: Path) -> None:
    file = tmp_path / "shop.toml"
    typed("shop", "export", file)
    file.write_text(file.read_text() + "# x\n" * (json_reader.MOST_BYTES // 4))
    assert say("readers", "larger_file") in unchanged(typed, "shop", "import", file).err
    prices = tmp_path / "prices.csv"
    typed("shop", "prices-out", prices)
    prices.write_text(prices.read_text() + ",\r\n" * (json_reader.MOST_BYTES // 3))
    assert say("readers", "larger_file") in unchanged(typed, "shop", "prices-in", prices).err


def test_a_figure_in_the_place_of_a_table_is_refused(typed: Typist) -> None:
    unchanged(typed, "shop", "set", "deck.VHS 1", "5")


def test_a_figure_has_no_entries_of_its_own(typed: Typist) -> None:
    unchanged(typed, "shop", "set", "prices.deposit.percent.1", "5")


def test_stray_bytes_in_a_setting_are_refused(typed: Typist) -> None:
    unchanged(typed, "shop", "set", "front.name", "a\udcffb")
    unchanged(typed, "shop", "set", "prices.remark", "a\udcffb")


@pytest.mark.parametrize("percent", ["1e999999999", "1e-999999999", "nan", "1e-13"])
def test_a_percentage_has_a_size(typed: Typist, percent: str) -> None:
    unchanged(typed, "shop", "raise-prices", percent)
    unchanged(typed, "shop", "raise-prices", "3", "--round", percent)


def test_an_amount_of_thousands_of_digits_is_none() -> None:
    typed_amounts.number_of("9" * 400 + "." + "9" * 400)  # raised once
    assert typed_amounts.minor_of("9" * 400, "USD") is None


def test_json_of_spaces_and_commas_is_read_in_no_time() -> None:
    for filler in (b" " * 200_000, b"," * 200_000, b", " * 100_000):
        began = time.process_time()
        with pytest.raises(WrongInput):
            json_reader.read(b'{"strokes": [' + filler + b"x", "pen.json")
        assert time.process_time() - began < 5  # a quadratic search took over a minute


def test_a_secret_that_nobody_types_is_asked_for_in_vain(monkeypatch: pytest.MonkeyPatch) -> None:
    def ended(_: str) -> str:
        raise EOFError

    monkeypatch.setattr("getpass.getpass", ended)
    with pytest.raises(WrongInput):
        terminal_text.ask_secret("PIN:")


# --- what is no file ---------------------------------------------------------------------


@pytest.fixture
def pipe(tmp_path: Path) -> Path:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    return path


def test_a_pipe_is_no_file_of_a_copy(typed: Typist, codes: list[str], pipe: Path) -> None:
    unchanged(typed, "copy-made", codes[0][:6], "1", "--files", pipe)


def test_nobody_waits_for_a_pipe_to_be_read(typed: Typist, pipe: Path) -> None:
    unchanged(typed, "shop", "export", pipe, code=4)
    with pytest.raises(OSError, match="No such device"):
        private_files.make_file(pipe)


def test_a_device_is_not_closed_to_others(pipe: Path) -> None:
    """As an administrator's export to /dev/null did."""
    pipe.chmod(0o666)
    private_files.tighten(pipe)
    assert pipe.stat().st_mode & 0o777 == 0o666


def test_a_folder_made_for_papers_is_taken_back_with_a_refusal(typed: Typist, tmp_path: Path) -> None:
    (tmp_path / "there").mkdir()
    for folder in ("new/papers", "there"):
        unchanged(typed, "files", "000018", "--paper", tmp_path / folder)
    assert not (tmp_path / "new").exists()
    assert (tmp_path / "there").is_dir()


def test_an_empty_file_stays_empty_where_no_shop_may_be_made(
    typed: Typist, box: Path, tmp_path: Path
) -> None:
    file = tmp_path / "odd.sqlite"
    file.touch()
    assert typed.plainly("status", "Ada", "--shop", str(file)).code == 4
    assert typed.plainly("book", str(box), "--shop", str(file), "--now", NOW).code == 3
    assert file.read_bytes() == b""
    assert [each.name for each in tmp_path.glob("odd*")] == ["odd.sqlite"]


@pytest.mark.parametrize(
    "words",
    ["set work.people 0", "set one", "import nothing.toml", "set front.name X --dry-run"],
)
def test_no_shop_is_made_only_to_refuse_a_setting(typed: Typist, tmp_path: Path, words: str) -> None:
    before = set(tmp_path.iterdir())
    answer = typed.plainly("shop", *words.split(), "--shop", str(tmp_path / "new.sqlite"), "--now", NOW)
    assert answer.code == (0 if "--dry-run" in words else 2), answer.err
    assert set(tmp_path.iterdir()) == before


def test_a_new_shop_takes_its_settings_from_standard_input_all_the_same(
    typed: Typist, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    settings = typed("shop", "export").document["toml"]
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(settings.encode())))
    new = str(tmp_path / "new.sqlite")
    assert typed.plainly("shop", "import", "-", "--shop", new, "--now", NOW).code == 0
    assert typed.plainly("shop", "export", "--shop", new, "--now", NOW).out.strip() == settings.strip()


def test_the_home_of_nobody_is_a_folder_like_any_other(typed: Typist, tmp_path: Path) -> None:
    assert regular_files.expanded("~nobody-of-that-name/x") == Path("~nobody-of-that-name/x")
    assert entry.run(["quote", "box.json", "--shop", "~nobody-of-that-name/x", "--now", NOW]) in (2, 4)
    unchanged(typed, "rehearse-restore", "~nobody-of-that-name/x")


# --- what lies beside a shop -------------------------------------------------------------


@pytest.mark.parametrize(
    "note",
    [
        b"no JSON\n",
        b"5\n",
        b'["papers", null]\n',
        b'[".restoring-1/../papers", null]\n',
        b'[".restoring-1", "../elsewhere"]\n',
        b'[".restoring-1", 7]\n',
        b"[" * 3000 + b"\n",
    ],
)
def test_a_note_about_a_restore_that_is_none_of_ours_removes_nothing(tmp_path: Path, note: bytes) -> None:
    shop, papers = tmp_path / "shop.sqlite", tmp_path / "papers"
    shop.write_bytes(b"a shop")
    papers.mkdir()
    restore_journal.place(shop).write_bytes(note)
    with pytest.raises(Unavailable):
        restore_journal.settle(shop)
    assert papers.is_dir()
    assert shop.read_bytes() == b"a shop"


def test_a_pipe_in_its_place_is_told(tmp_path: Path) -> None:
    shop = tmp_path / "shop.sqlite"
    os.mkfifo(restore_journal.place(shop))
    with pytest.raises(Unavailable):
        restore_journal.settle(shop)


def test_a_draft_nested_too_deep_is_no_draft() -> None:
    with pytest.raises(ValueError, match="no TypedBox"):
        serialization.loads(TypedBox, "[" * 30_000)


def test_an_altered_record_is_told_in_a_sentence(typed: Typist, codes: list[str]) -> None:
    connection = sqlite3.connect(typed.shop)
    connection.execute("UPDATE jobs SET promise = 'x'")
    connection.commit()
    connection.close()
    answer = typed("agreement", codes[0][:6])
    assert (answer.code, INSIDE in answer.err) == (4, False)
    assert typed("verify").code == 4


def test_a_cell_that_became_bytes_is_answered_as_text(typed: Typist, codes: list[str]) -> None:
    connection = sqlite3.connect(typed.shop)
    connection.execute("UPDATE customers SET email = x'00ff'")
    connection.commit()
    connection.close()
    assert INSIDE not in typed("to-tell", "--all").err
    assert INSIDE not in typed("status", codes[0]).err


@pytest.mark.parametrize("last", ["1.5", "'x'", "1000000000000000000"])
def test_a_count_of_orders_that_is_none_is_told_by_verify(typed: Typist, codes: list[str], last: str) -> None:
    connection = sqlite3.connect(typed.shop)
    connection.execute(f"UPDATE counters SET last = {last} WHERE name = 'job'")
    connection.commit()
    connection.close()
    answer = typed("verify")
    assert (answer.code, INSIDE in answer.err) == (4, False)


@pytest.mark.parametrize("stamp", ["99999999-999999", "20261330-000000"])
def test_a_copy_may_be_named_after_no_moment(stamp: str) -> None:
    assert record_heads.stamp_in_name(f"shop-{stamp}-9f3a77c01d2e4b5a.sqlite") is None


def test_a_pipe_is_no_list_of_erased_orders(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / erased_orders.NAME)
    assert erased_orders.listed(tmp_path) == frozenset()


def test_a_dump_that_was_counted_right_and_says_nonsense_is_no_backup(typed: Typist, tmp_path: Path) -> None:
    for row in (
        "7",
        '{"table": 5}',
        '{"table": "jobs", "row": []}',
        '{"table": "jobs", "row": {"number": []}}',
    ):
        head = f'{{"tapewright": "{schema.HEAD}"}}'
        body = f"{head}\n{row}\n"
        last = json.dumps({"rows": 1, "sha256": hashlib.sha256(body.encode()).hexdigest()})
        file = tmp_path / "shop.dump"
        file.write_text(f"{body}{last}\n")
        unchanged(typed, "rehearse-restore", file)


# --- letters that are none ---------------------------------------------------------------


def test_a_pin_of_stray_bytes_is_a_wrong_one() -> None:
    kept = secret_hashes.hash_of("2468")
    assert not secret_hashes.fits(kept, "\udcff")
    assert secret_digests.digest("\udcff", "c") != secret_digests.digest("x", "c")  # type: ignore[arg-type]
