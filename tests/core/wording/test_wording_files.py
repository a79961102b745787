"""The wording files themselves: Fluent reads all of them, and every language fills the same blanks."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from fluent.runtime import FluentBundle, FluentResource
from fluent.syntax import FluentParser, ast, visitor

from core.wording import message_files

FILES = sorted(message_files.FOLDER.rglob("*.ftl"))
NAMES = [f"{file.parent.name}-{file.stem}" for file in FILES]


class Blanks(visitor.Visitor):
    """Names of the blanks of a message."""

    def __init__(self) -> None:
        self.names: set[str] = set()
        self.messages: set[str] = set()

    def visit_VariableReference(self, node: ast.VariableReference) -> None:
        self.names.add(node.id.name)

    def visit_MessageReference(self, node: ast.MessageReference) -> None:
        self.messages.add(node.id.name)


def parsed(file: Path) -> ast.Resource:
    return FluentParser(with_spans=False).parse(file.read_text(encoding="utf-8"))


def blanks(file: Path) -> dict[str, set[str]]:
    """Blanks of each message, those of messages it quotes with them."""
    seen: dict[str, Blanks] = {}
    for entry in parsed(file).body:
        if isinstance(entry, ast.Message):
            seen[entry.id.name] = found = Blanks()
            found.visit(entry)
    return {
        key: each.names.union(*(seen[name].names for name in each.messages)) for key, each in seen.items()
    }


def test_there_are_files_to_check() -> None:
    assert len(FILES) > 10


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_fluent_reads_every_line(file: Path) -> None:
    assert [entry.content for entry in parsed(file).body if isinstance(entry, ast.Junk)] == []


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_no_message_is_there_twice(file: Path) -> None:
    ids = Counter(entry.id.name for entry in parsed(file).body if isinstance(entry, ast.Message))
    assert [key for key, times in ids.items() if times > 1] == []


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_the_quick_reading_says_what_fluent_says(file: Path) -> None:
    bundle = FluentBundle(["en_US"], use_isolating=False)
    bundle.add_resource(FluentResource(file.read_text(encoding="utf-8")))
    quick = message_files.read(file, "en_US", None, None)
    assert set(quick) == set(blanks(file))
    for key, message in quick.items():
        if isinstance(message, message_files.Selected):
            continue
        parts = (message,) if isinstance(message, str) else message
        said = "".join(part if isinstance(part, str) else f"<{part.name}>" for part in parts)
        fill = {part.name: f"<{part.name}>" for part in parts if not isinstance(part, str)}
        pattern = bundle.get_message(key).value
        assert pattern is not None
        assert bundle.format_pattern(pattern, fill) == (said, [])


@pytest.mark.parametrize("file", FILES, ids=NAMES)
def test_every_language_fills_the_same_blanks_as_english(file: Path) -> None:
    (base,) = (message_files.FOLDER / "en").rglob(file.name)
    english = blanks(base)
    here = blanks(file)
    assert here == {key: english.get(key) for key in here}
