"""Files for their owner alone, whatever the umask says."""

from __future__ import annotations

import ast
import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest

import core
import gui
from core.model import private_files

pytestmark = pytest.mark.skipif(os.name == "nt", reason="modes are POSIX")

OPEN_TO_ALL = {
    "core/model/private_files.py": "makes them private itself",
    "core/store/shop_files/durable_files.py": "writes into what `tempfile` made, 0600",
    "core/store/shop_files/restore_journal.py": "makes its folder 0700 itself",
    "core/cli/subcommands/desktop.py": "a menu entry and an icon, which the desktop reads",
    "gui/app/walkthrough.py": "pictures of the invented shop",
}
"""Who writes without `private_files`, and why that is right."""
_MAKING = {"write_text", "write_bytes", "mkdir", "touch", "makedirs", "copyfile", "copy", "copy2"}


@pytest.fixture(autouse=True)
def umask() -> Iterator[None]:
    """The usual one: everybody may read."""
    before = os.umask(0o022)
    yield
    os.umask(before)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_folders_are_private_with_all_that_was_missing_above(tmp_path: Path) -> None:
    os.chmod(tmp_path, 0o755)
    made = private_files.make_folder(tmp_path / "a" / "b")
    assert [mode(each) for each in (made, made.parent, tmp_path)] == [0o700, 0o700, 0o755]
    assert private_files.make_folder(made) == made


def test_a_file_is_private_and_keeps_what_was_in_it(tmp_path: Path) -> None:
    file = tmp_path / "a"
    assert mode(private_files.write(file, b"one")) == 0o600
    file.chmod(0o644)
    assert private_files.make_file(file).read_bytes() == b"one"
    assert mode(file) == 0o600


def test_what_is_no_file_keeps_its_rights(tmp_path: Path) -> None:
    """As a device does: ``--output /dev/null`` by the administrator must not take it from everybody."""
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    pipe.chmod(0o666)
    private_files.tighten(pipe)
    assert mode(pipe) == 0o666


def test_nothing_can_be_made_below_a_file(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"")
    with pytest.raises(NotADirectoryError):
        private_files.make_folder(tmp_path / "a")


def test_whoever_makes_a_file_or_folder_makes_it_private() -> None:
    found = set()
    for tree in (core, gui):
        root = Path(tree.__file__).parent
        for file in root.rglob("*.py"):
            if any(map(_makes, ast.walk(ast.parse(file.read_text(encoding="utf-8"))))):
                found.add(file.relative_to(root.parent).as_posix())
    assert found == set(OPEN_TO_ALL)


def _makes(node: ast.AST) -> bool:
    """A call that makes a file or a folder by itself."""
    if not isinstance(node, ast.Call):
        return False
    name, _, last = ast.unparse(node.func).rpartition(".")
    if last in _MAKING and name != "private_files":
        return last != "copy" or name == "shutil"
    return ast.unparse(node.func) == "open" and any("w" in ast.unparse(each) for each in node.args[1:])
