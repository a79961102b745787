"""A new format is one file: with it every room works, and whatever is left out of it is refused."""

from __future__ import annotations

import copy
import os
import shutil
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, get_args, get_origin, get_type_hints

import msgspec
import pytest

from core.catalogue import formats
from core.catalogue.format_file import FormatFile
from core.model import resource_files, shaped_toml
from core.model.errors import WrongInput
from tests.support.invented_format import FILE, NAME

ROOT = Path(__file__).resolve().parents[2]
SHIPPED = resource_files.path("catalogue", "formats")


def test_a_file_added_makes_the_format_work_in_every_room(tmp_path: Path) -> None:
    for part in ("core", "gui", "resources", "tests/support"):
        shutil.copytree(ROOT / part, tmp_path / part, ignore=shutil.ignore_patterns("__pycache__"))
    for file in ("pyproject.toml", "tests/__init__.py"):
        shutil.copy(ROOT / file, tmp_path / file)
    (tmp_path / "resources/catalogue/formats" / f"{NAME}.toml").write_text(FILE, encoding="utf-8")

    command = [
        sys.executable,
        "-m",
        "pytest",
        "-q",
        "-p",
        "no:cacheprovider",
        "tests/support/new_format_rooms.py",
    ]
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTEST_")}
    run = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)

    assert run.returncode == 0, run.stdout[-6000:]


def paths(content: Any, kind: Any, at: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Where the keys lie that a file may not go without."""
    kind = shaped_toml.bare(kind)
    if isinstance(kind, type) and issubclass(kind, msgspec.Struct):
        hints = get_type_hints(kind, include_extras=True)
        for each in msgspec.structs.fields(kind):
            if each.name in content:
                if each.required:
                    yield (*at, each.name)
                yield from paths(content[each.name], hints[each.name], (*at, each.name))
    elif get_origin(kind) is dict:
        for key in content:
            yield from paths(content[key], get_args(kind)[1], (*at, key))
    elif get_origin(kind) is tuple and content and isinstance(content[0], dict):
        yield from paths(content[0], get_args(kind)[0], (*at, 0))


NEEDED = tuple(paths(tomllib.loads(FILE), FormatFile))


def spelled(at: tuple[str | int, ...]) -> str:
    """The place as a person reads it: ``pebble.toml, shells 1, mm``."""
    return f"{NAME}.toml" + "".join(f" {step + 1}" if isinstance(step, int) else f", {step}" for step in at)


@pytest.mark.parametrize("path", NEEDED, ids=spelled)
def test_a_needed_key_left_out_is_refused_by_file_and_key_with_what_is_accepted(
    path: tuple[str | int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    *above, key = path
    content = copy.deepcopy(tomllib.loads(FILE))
    inner: Any = content
    for step in above:
        inner = inner[step]
    del inner[key]

    with pytest.raises(WrongInput) as wrong:
        loaded(content, monkeypatch)

    assert wrong.value.place == spelled(tuple(above))
    assert str(wrong.value).startswith(f"{wrong.value.place}: found nothing; the key {key} is needed; ")
    assert "accepted" in wrong.value.accepted


def loaded(content: dict[str, Any], monkeypatch: pytest.MonkeyPatch) -> None:
    """The shipped formats beside this one."""
    pages = {path.stem: shaped_toml.read(path) for path in SHIPPED.glob("*.toml")}
    monkeypatch.setattr(formats, "_pages", lambda folders: {**pages, NAME: content})
    formats.load(SHIPPED)


@pytest.mark.parametrize("key", ["name", "sizes", "plays", "lid", "reels"])
def test_needed_words_that_no_file_has_are_refused(key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    content = tomllib.loads(FILE)
    del content["words"][key]

    with pytest.raises(WrongInput, match=f"pebble.toml, words: found nothing; the key {key} is needed"):
        loaded(content, monkeypatch)


def test_there_is_much_that_a_file_may_not_go_without() -> None:
    assert len(NEEDED) > 50


@pytest.mark.parametrize(
    ("old", "new", "sentence"),
    [
        (
            "sides = 1",
            "wordz = 1\nsides = 1",
            "pebble.toml: found 'wordz'; the keys accepted",
        ),
        ("sides = 1", "sides = 3", "pebble.toml, sides: found 3; accepted are 1, 2"),
        ("sides = 1", 'sides = "one"', "pebble.toml, sides: found 'one'; accepted are 1, 2"),
        ('mark = "invented"', 'mark = "hearsay"', "mark: found 'hearsay'; accepted are 'standard'"),
        ("mm_s = 12.0", "mm_s = -1", "pebble.toml, speeds 1, mm_s: found -1; a number above 0 is accepted"),
        (
            "mm_s = 12.0",
            "of_sp = [2, 3]",
            "pebble.toml, speeds 1: found nothing; mm_s is accepted, or of_sp",
        ),
        (
            'speed = "sp", mm_s',
            'speed = "fast", mm_s',
            "speeds 1, speed: found 'fast'; accepted are 'sp', 'lp'",
        ),
        ("PB-45 = 0.9", "PB-46 = 0.9", "habits, usual, any: found 'PB-46'; accepted are PB-30, PB-45"),
        ("PB-45 = 0.9", 'PB-45 = "often"', "habits, usual, any, PB-45: found 'often'; a number not below 0"),
        (
            "speeds = { any = { sp = 1.0 } }",
            "speeds = { ntsc = { sp = 1.0 } }",
            "the key pal is needed, or any",
        ),
        ('hub = "only"', 'hub = "odd"', "lots 1, cassettes 1, hub: found 'odd'; accepted are only"),
        (
            'hazards = ["small"]',
            'hazards = ["lions"]',
            "pebble.toml, hazards 1: found 'lions'; accepted are 'blades'",
        ),
        (
            'priced_like = "minidv"',
            'priced_like = "wax"',
            "pebble.toml, priced_like: found 'wax'; accepted are",
        ),
        ('part = "lid"', 'part = "door"', "look, lid, part: found 'door'; accepted are shell, window"),
        ('usual = "PB-45"', 'usual = "PB-60"', "pack, usual: found 'PB-60'; accepted are PB-30, PB-45"),
        (
            'nominal = { system = "pebble", speed = "sp" }',
            'nominal = { system = "pebble", speed = "lp" }',
            "lots 1, nominal: found 'lp'; pebble has sp",
        ),
        (
            "counter_place = 135",
            'counter_place = 135\nlike = "granite"',
            "pebble.toml, like: found 'granite'; accepted are",
        ),
        ("x = 0.3,", "x = 3,", "drawing, parts, hubs 1, x: found 3; a share from 0 to 1 is accepted"),
    ],
)
def test_what_does_not_fit_is_refused_with_a_sentence(
    old: str, new: str, sentence: str, tmp_path: Path
) -> None:
    assert old in FILE
    (tmp_path / f"{NAME}.toml").write_text(FILE.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(WrongInput) as wrong:
        formats.load(SHIPPED, tmp_path)
    assert sentence in str(wrong.value)


def test_a_shops_own_format_comes_from_a_folder_of_its_own_and_may_borrow(tmp_path: Path) -> None:
    text = 'like = "minidv"\ncounter_place = 5\nwords = { name = "Own" }\nsystems = { own = 1.0 }\n'
    (tmp_path / "own.toml").write_text(text, encoding="utf-8")

    first, *_ = formats.load(SHIPPED, tmp_path)
    assert first.name == "own"
    assert first.marking("DVM60") is not None


def test_a_format_in_two_folders_is_refused(tmp_path: Path) -> None:
    shutil.copy(SHIPPED / "vhs.toml", tmp_path)
    with pytest.raises(WrongInput, match=r"vhs\.toml.*in one folder only"):
        formats.load(SHIPPED, tmp_path)


def test_a_file_that_is_no_toml_is_named(tmp_path: Path) -> None:
    (tmp_path / "torn.toml").write_text("[formats", encoding="utf-8")
    with pytest.raises(WrongInput, match=r"torn\.toml"):
        formats.load(tmp_path)
