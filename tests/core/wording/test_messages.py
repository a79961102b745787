"""Sentences: what is said, in which language, and what is no sentence."""

from __future__ import annotations

from pathlib import Path

import pytest
from babel import Locale

from core.wording import message_files, messages
from core.wording.messages import MissingWording, say

# CLDR: plural categories of whole numbers and decimals, as Babel's own data has them.
LANGUAGES = ("en", "de", "es", "fr", "pl", "ar", "ru")
CATEGORIES = ("zero", "one", "two", "few", "many", "other")
NUMBERS = (0, 1, 2, 3, 5, 11, 21, 22, 25, 100, 101, 103, 111, 1_000_000, 0.5, 1.5)


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of wording files of its own."""
    monkeypatch.setattr(message_files, "FOLDER", tmp_path)
    monkeypatch.setattr(messages, "_room", messages._room.__wrapped__)
    return tmp_path


def write(folder: Path, language: str, room: str, text: str) -> None:
    (folder / language).mkdir(exist_ok=True)
    (folder / language / f"{room}.ftl").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_plural_of_a_sentence_is_the_category_of_cldr(files: Path, language: str) -> None:
    rows = "\n".join(f"        [{each}] {each}" for each in CATEGORIES[:-1])
    write(files, "en", "counted", "n = base\n")
    write(files, language, "counted", f"n =\n    {{ $n ->\n{rows}\n       *[other] other\n    }}\n")
    said = [say("counted", "n", language, n=number) for number in NUMBERS]
    assert said == [Locale.parse(language).plural_form(number) for number in NUMBERS]


def test_a_sentence_without_blanks_and_one_with_blanks(files: Path) -> None:
    write(files, "en", "hall", 'a = Good day\nb = { $who } has { $n }{ "  " }tapes\n')
    assert say("hall", "a") == "Good day"
    assert say("hall", "b", who="Ada", n=1234) == "Ada has 1,234  tapes"


def test_a_sentence_nobody_wrote_is_an_error_and_no_literal(files: Path) -> None:
    write(files, "en", "hall", "a = Good day\n")
    with pytest.raises(MissingWording, match=r"no sentence 'b' in hall\.ftl"):
        say("hall", "b")
    with pytest.raises(MissingWording, match=r"no wording file cellar\.ftl"):
        say("cellar", "a")


@pytest.mark.parametrize("source", ["{ $who } came", "{ $who ->\n    [a] b\n   *[c] { $who }\n }"])
def test_a_blank_that_is_not_filled_is_an_error(files: Path, source: str) -> None:
    write(files, "en", "hall", f"a = {source}\n")
    with pytest.raises(MissingWording, match="who"):
        say("hall", "a")


def test_what_a_language_lacks_is_said_in_english(files: Path) -> None:
    write(files, "en", "hall", "a = Good day\nb = Good night\n")
    write(files, "de", "hall", "a = Guten Tag\n")
    assert [say("hall", key, "de-AT") for key in "ab"] == ["Guten Tag", "Good night"]


def test_the_process_speaks_what_it_was_told_until_a_paper_names_another(files: Path) -> None:
    write(files, "en", "hall", "a = Good day, { $n }\n")
    write(files, "de", "hall", "a = Guten Tag, { $n }\n")
    messages.use("de")
    assert (say("hall", "a", n=1234.5), say("hall", "a", "en", n=1234.5)) == (
        "Guten Tag, 1.234,5",
        "Good day, 1,234.5",
    )


def test_british_spelling_comes_from_a_table(files: Path) -> None:
    write(files, "en", "hall", "a = Mold on { $n } labeled tapes; the color is GRAY\n")
    assert say("hall", "a", "en-GB", n=2) == "Mould on 2 labelled tapes; the colour is GREY"


def test_a_small_whole_number_is_written_as_its_language_writes_it() -> None:
    for language in messages._LATIN_DIGITS - {"xx"}:
        assert Locale.parse(language).default_numbering_system == "latn"
