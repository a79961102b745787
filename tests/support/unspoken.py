"""Words of a text that came from no wording file, found by speaking the pseudo-language.

A word of a wording file is accented and stands in ⟦ ⟧. Besides these a text may hold what nobody translates:
figures, and the data that the caller names (what people typed, names of decks, of markings, of days).
"""

from __future__ import annotations

import ast
import json
import re
import string
import tomllib
import zoneinfo
from collections.abc import Iterable, Iterator
from functools import cached_property
from pathlib import Path

import holidays
from babel import Locale

from core.catalogue import formats
from core.model import resource_files
from core.model.names import Speed, TvSystem
from core.pricing import bitrates
from core.wording import locale_figures, pseudo_language
from tests.support import literals

TYPED_BY_PEOPLE = frozenset(
    {"name", "address", "label", "note", "because", "told", "came_from", "signed_by", "email", "file", "deck"}
    | {"words", "remark"}
)
"""Keys of the invented shop's files under which a person's own words stand: people's, the price book's."""
_KEYS = re.compile(r"\b(?:Ctrl|Alt|Shift)\+\w+|\bF\d+\b|\b(?:Esc|Return|Space|Backspace|Up|Down)\b")
"""Names of keys, which the pseudo-language leaves as well."""
_WORDS = re.compile(r"[^\W\d_]{2,}|.*[a-z]{2} .*|.* [a-z]{2}.*", re.DOTALL)
"""One word, or a piece of a sentence."""
_FORMULA = re.compile(r"[\d.]+ min × [\d.]+ mm/s")
"""A length of the catalogue reckoned from minutes and speed, in symbols of the SI brochure."""
_CHECK_NUMBER = re.compile(r"\b[0-9a-f]{4}(?:\s[0-9a-f]{4}){3}\b")
"""How the head of the history begins, in hexadecimal."""
_MINUTES = re.compile(r"\b[\d.]+ min\b")
"""A length told by its minutes, in the symbol of the SI brochure."""
_MARKING = re.compile(r"\b[A-Z]{1,4}\d{1,3}[A-Z]{0,3}\b")
"""A marking as a cassette carries it, such as DVM60."""
_SETTING = re.compile(
    r"\b(?:front|work|holidays|opening|deck|person|papers|backup|words|prices)(?:\.[\w -]+)+(?=:)"
)
"""A key of the settings file as it is typed after ``shop set``, such as deck.VHS 1.in_service."""
_PATH = re.compile(r"(?:/[\w.\-]+){2,}")
"""Where a file lies."""
_DIGEST = re.compile(r"\b[0-9a-f]{32,64}\b")


class Data:
    """Everything that may stand in a text without having been said by a wording file."""

    def __init__(self, *more: str, but_counted: bool = True) -> None:
        """``more``: data of the test itself, e.g. the folder it works in.

        ``but_counted``: let pass what stands in files that ``literals_left.json`` still counts.
        """
        self._more = more
        self._counted = tuple(_counted()) if but_counted else ()

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """Any of it as whole words, the longest first."""
        told = (
            *_typed(),
            *_standard_names(),
            *_calendar(),
            *_joined(),
            *_places(),
            pseudo_language.TAG,
            *_cited(),
            *self._counted,
            *self._more,
        )
        known = {each.strip(" .,;:") for each in told if each.strip(" .,;:")}
        ordered = sorted(known, key=len, reverse=True)
        return re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, ordered)) + r")(?!\w)")


def unspoken(text: str, data: Data) -> list[str]:
    """The words of ``text`` that neither a wording file nor the records have said."""
    if data.pattern.fullmatch(text):
        return []  # data as a whole, though it may name a key or a setting
    for known in (_KEYS, _SETTING, _FORMULA, _MINUTES, _CHECK_NUMBER, _PATH, _DIGEST, data.pattern, _MARKING):
        text = known.sub(" ", text)
    return [word for word, inside in _words(text) if not (inside and _is_pseudo(word))]


def _words(text: str) -> Iterator[tuple[str, bool]]:
    """Each word, and whether it stands in brackets; a mnemonic is part of its word."""
    depth = 0
    for piece in re.split(r"([⟦⟧])", text):
        depth += {"⟦": 1, "⟧": -1}.get(piece, 0)
        for word in re.findall(r"&?[^\W\d_&]+(?:&[^\W\d_&]+)*", piece):
            if len(word.replace("&", "")) > 1:  # a letter by itself is the name of a key, or part of a figure
                yield re.sub(r"&\w", "", word), depth > 0


def _is_pseudo(word: str) -> bool:
    """Whether the pseudo-language made the word; the letter of an access key stays plain in it."""
    return any(letter in _MADE for letter in word) or not any(letter in _UNMADE for letter in word)


_UNMADE = frozenset(letter for letter in string.ascii_letters if pseudo_language.accented(letter) != letter)
"""Letters that do not outlive the pseudo-language."""
_MADE = frozenset("".join(map(pseudo_language.accented, _UNMADE)))


# --- data --------------------------------------------------------------------------------


def _typed() -> Iterator[str]:
    """What the people of the invented shop wrote."""
    folder = resource_files.path("demo")
    for script in (*folder.glob("*.toml"), *resource_files.path("pricebook").glob("*.toml")):
        yield from _under(tomllib.loads(script.read_text(encoding="utf-8")), "", TYPED_BY_PEOPLE)
    box = json.loads((folder / "walkthrough.json").read_text(encoding="utf-8"))
    yield from _under(box, "", TYPED_BY_PEOPLE)


def _under(page: object, key: str, keys: frozenset[str]) -> Iterator[str]:
    """Every text under one of these keys; of a person's name, the first name as well."""
    if isinstance(page, dict):
        for name, inside in page.items():
            yield from _under(inside, name, keys)
    elif isinstance(page, list):
        for inside in page:
            yield from _under(inside, key, keys)
    elif isinstance(page, str) and key in keys:
        yield from (page, locale_figures.sentence_case(page))
        yield from page.split()[:1] if key == "name" else ()


def _standard_names() -> Iterator[str]:
    """Names that standards and makers gave: markings, recording speeds, TV systems."""
    for known in formats.catalogue().formats:
        yield from (marking.name for marking in known.markings)
        for rule in known.rules.rules:  # the letters before and after the number, as in DVM60 or BCT-90M
            yield from (
                piece for name in rule.entry.names for piece in re.split(r"[^A-Za-z]+", name) if piece
            )
    yield from (speed.words for speed in Speed)
    yield from (tv.value.upper() for tv in TvSystem)
    yield from (
        "µm",
        "mm",
        "cm",
        "Mb",
    )  # SI and IEC 80000-13: alike in every language
    yield from (each["words"] for each in bitrates.page()["discs"].values())  # DVD-R, BD-R DL
    yield "TV"  # its T is an access key, which stays plain, and V has no accent


def _cited() -> Iterator[str]:
    """Works, tables, and tolerances that the catalogue cites, each as its author wrote it."""
    for file in resource_files.path("catalogue").rglob("*.toml"):
        yield from _under(tomllib.loads(file.read_text(encoding="utf-8")), "", frozenset({"source"}))


def _counted() -> Iterator[str]:
    """What is still said in files counted in ``literals_left.json``: none as soon as that is empty."""
    left = json.loads((literals.ROOT / "tests" / "literals_left.json").read_text(encoding="utf-8"))
    for file in filter(Path.is_file, (literals.ROOT / name for name in left)):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if (
                isinstance(node, ast.Constant)
                and isinstance(node.value, str)
                and _WORDS.fullmatch(node.value)
            ):
                yield node.value


def _calendar() -> Iterable[str]:
    """Names of days, months and halves of the day (CLDR): the pseudo-language writes dates as American."""
    locale = Locale.parse("en_US")
    for width in ("wide", "abbreviated"):
        yield from locale.days["format"][width].values()
        yield from locale.months["format"][width].values()
    yield from (locale.day_periods["format"]["abbreviated"][half] for half in ("am", "pm"))


def _joined() -> Iterable[str]:
    """The words between the parts of a list (CLDR)."""
    for patterns in Locale.parse("en_US").list_patterns.values():
        for pattern in patterns.values():
            yield from re.findall(r"[a-z]+", re.sub(r"\{\d\}", " ", pattern))


def _places() -> Iterable[str]:
    """Countries, currencies and languages (CLDR), time zones (IANA), and the days that a library knows."""
    locale = Locale.parse("en_US")
    yield from (*locale.territories.values(), *locale.currencies.values(), *locale.currencies)
    yield from (f"{name} ({place})" for name in ("English",) for place in locale.territories.values())
    yield from (zone.replace("_", " ") for zone in zoneinfo.available_timezones())
    yield from holidays.country_holidays("US", years=range(2025, 2029)).values()
