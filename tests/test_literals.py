"""No sentence in code: every file is either free of English, or counted and getting better.

``literals_left.json`` lists the files not converted yet; it only ever shrinks, and must go to nothing. After
moving sentences to the wording files run ``python -m tests.test_literals``: it lowers counts and raises none.
"""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.support import literals

LEFT = Path(__file__).with_name("literals_left.json")


def left() -> dict[str, int]:
    counted: dict[str, int] = json.loads(LEFT.read_text(encoding="utf-8"))
    return counted


def test_no_file_holds_more_sentences_than_it_did() -> None:
    allowed = left()
    worse = {
        name: [f"{line}: {text}" for line, text in literals.literals(literals.ROOT / name)]
        for name, count in literals.counts().items()
        if count > allowed.get(name, 0)
    }
    assert worse == {}, "move these to resources/wording/en"


def test_a_file_that_got_better_is_counted_anew() -> None:
    now = literals.counts()
    assert {name: count for name, count in left().items() if now.get(name, 0) < count} == {}


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('say_it("Hand the tapes back")', 1),
        ('f"No {number} is booked for {name}: nothing else"', 1),
        ('raise Refused("The tape is cold")', 1),
        ('def f():\n    """Says a thing or two."""\n', 0),
        ('raise TypeError("not a tape at all")', 0),
        ('assert x, "cannot be so"', 0),
        ('button.setObjectName("hand back")', 0),
        ('"SELECT name FROM tape"', 0),
        ('say("pickup", "hand_back")', 0),
    ],
)
def test_what_is_a_sentence_and_what_is_not(tmp_path: Path, source: str, found: int) -> None:
    file = tmp_path / "room.py"
    file.write_text(source, encoding="utf-8")
    assert len(literals.literals(file)) == found


def _shrink() -> None:
    before, now = left(), literals.counts()
    kept = {name: min(count, now[name]) for name, count in before.items() if name in now}
    LEFT.write_text(json.dumps(kept, indent=0, sort_keys=True) + "\n", encoding="utf-8")


if __name__ == "__main__":
    _shrink()
