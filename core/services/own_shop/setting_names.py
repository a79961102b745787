"""What a setting is called on its page, and its value as the page shows it: for every line on a change."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from core.catalogue import country_defaults, findings
from core.model import accents
from core.model.names import Speed
from core.model.own_shop import shop_additions
from core.model.own_shop.settings_differences import Difference, spelled
from core.model.own_shop.shop_additions import OwnFinding, OwnMedium, OwnRepair
from core.pricing import price_rows
from core.promise import chances
from core.wording import locale_figures, messages, own_words
from core.wording.messages import say

PRICES = "prices"
LISTED = ("deck", "person", "partner", "format", "finding", "repair", "medium")
"""Tables of entries with a name of their own."""
_WORDS = "words"
_BY_FORMAT, _BY_CODE = "capture", ("repair", "media")


def line(difference: Difference) -> str:
    """``Name of the shop: Your shop → The Reel``; of a secret only that it changed."""
    path, was, now = difference.path, difference.was, difference.now
    if path[0] in LISTED and len(path) < 3:
        return "; ".join(_entry_lines(path, was, now))
    if path[-1] == "logo":
        return say("settings", "own-logo-changed" if now else "own-logo-removed")
    place = name_of(path)
    if difference.is_secret:
        return say("settings", "people-secret-changed", place=place)
    was, now = (_sentence(path, each) if path[0] == _WORDS else value_of(path, each) for each in (was, now))
    return say("settings", "difference", place=place, was=was, now=now)


def price_line(difference: Difference) -> str:
    """One line on one change in a price book, whose path begins with a part of the book."""
    return line(Difference((PRICES, *difference.path), difference.was, difference.now))


def name_of(path: Sequence[str]) -> str:
    """What the field of a key is called: ``Deck VHS 1, speeds``; the key itself where no page has it."""
    if path[0] == PRICES:
        return price_name(path[1:])
    if path[0] in LISTED and len(path) > 2:
        return _entry_key(path)
    if path[0] == _WORDS:
        return say("settings", "change-words")
    flat = "-".join(path)
    is_special = messages.knows("settings", f"change-{flat}")
    return _known(f"change-{flat}" if is_special else flat, path)


def _entry_key(path: Sequence[str]) -> str:
    """What a key of an entry is called; a format's own keys are those of its file."""
    key, name = f"change-{path[0]}-{path[2]}", _entry_name(path, None)
    if path[0] == "format" and not messages.knows("settings", key):
        return say("settings", "change-format-key", name=name, key=", ".join(path[2:]))
    key = f"change-own-{path[2]}" if path[0] in _ADDED else key
    return _known(key, path, name=name)


def added_place(name: str, key: str) -> str:
    """What a key of something the shop adds is called, by the words it has on the page."""
    return say("settings", f"change-own-{'words' if key == 'name' else key}", name=name)


def price_name(path: Sequence[str]) -> str:
    """What a price is called: ``Copying VHS, price``."""
    part, *further = path
    if part == _BY_FORMAT and further:
        head = say("settings", "change-copying", format=price_rows.format_words(further[0]))
    elif part in _BY_CODE and further:
        head = say("settings", f"change-priced-{part}", code=_code_words(part, further[0]))
    elif part == price_rows.DISPOSITIONS and further:
        head = say("settings", "change-disposition", what=_known_disposition(further[0]))
    elif part == price_rows.BREAKS:
        return say("settings", f"prices-row-{part}")
    else:
        head, further = _known(f"prices-row-{part}", path), ["", *further]
    if len(further) < 2:
        return head
    return say("settings", "change-price-part", place=head, part=_known(f"change-price-{further[1]}", path))


def _known_disposition(code: str) -> str:
    key = f"disposition-{code}"
    return say("names", key) if messages.knows("names", key) else code


def _code_words(part: str, code: str) -> str:
    """A repair or a medium of the shop's own by its words, one of the program by its code."""
    known = shop_additions.repair(code) if part == price_rows.REPAIR else shop_additions.medium(code)
    return known.words if known else code


def value_of(path: Sequence[str], value: Any) -> str:
    """A value as its field shows it."""
    if path[-1] in _ANY and not value and value is not None:
        return say("settings", "change-any")
    if path[-1] == "accent":
        return accents.words(str(value or ""))
    if value is None or value in ("", []):
        return say("files", "nothing")
    shown = _SHOWN.get(path[-1])
    if shown is not None and path[0] != PRICES:
        return shown(value)
    if isinstance(value, int | float) and not isinstance(value, bool):
        return locale_figures.figure(value)
    return spelled(value)


# --- entries of lists --------------------------------------------------------------------


def _entry_lines(path: Sequence[str], was: Any, now: Any) -> Iterator[str]:
    """Decks, people or partners that came or went; without a name in the path, whole lists of them."""
    if len(path) == 2:
        yield _entry_line(path, now)
        return
    for name in (each["name"] for each in was or ()):
        yield _entry_line((*path, name), None)
    for each in now or ():
        yield _entry_line((*path, each["name"]), each)


def _entry_line(path: Sequence[str], now: Any) -> str:
    name = _entry_name(path, now)
    if now is None:
        return say("settings", f"change-{path[0]}-removed", name=name)
    parts = [value_of((*path, key), now.get(key)) for key in _TOLD[path[0]] if now.get(key)]
    what = "; ".join(parts) or say("files", "nothing")
    return say("settings", f"change-{path[0]}-added", name=name, what=what, n=len(parts))


def _entry_name(path: Sequence[str], now: Any) -> str:
    """What an entry is called: by its name, one of the shop's own by its words where they are known."""
    if path[0] in _ADDED:
        known = _ADDED[path[0]](path[1])
        return str((now or {}).get("words") or (known.words if known else path[1]))
    if path[0] != "format":
        return path[1]
    return str((now or {}).get("words", {}).get("name") or price_rows.format_words(path[1]))


_TOLD = {
    "deck": ("plays", "tv", "speeds"),
    "person": ("may",),
    "partner": ("formats", "price"),
    "format": ("like",),
    "finding": ("told", "outcome", "repairs", "caution"),
    "repair": ("minutes",),
    "medium": ("gigabytes", "minutes"),
}
"""What is told of an entry that is new."""
_ADDED: Mapping[str, Callable[[str], OwnFinding | OwnRepair | OwnMedium | None]] = {
    "finding": shop_additions.finding,
    "repair": shop_additions.repair,
    "medium": shop_additions.medium,
}
"""What the shop adds to the program's own, by the table it stands in."""


def _known(key: str, path: Sequence[str], **fill: str) -> str:
    return say("settings", key, **fill) if messages.knows("settings", key) else ".".join(path)


# --- values ------------------------------------------------------------------------------


def _sentence(path: Sequence[str], value: object) -> str:
    """An own sentence, or the built-in one that it stands for."""
    room, _, key = ".".join(path[1:]).partition("/")
    if value is None and messages.knows(room, key):
        value = own_words.source_of(messages.built_in(room, messages.BASE)[key])
    return spelled(value)


def _formats(codes: Sequence[str]) -> str:
    return locale_figures.listed([price_rows.format_words(code) for code in codes], "unit")


def _speeds(values: Sequence[str]) -> str:
    return ", ".join(Speed(value).words for value in values)


def _days(values: Sequence[date]) -> str:
    return "; ".join(locale_figures.full_day(day) for day in values)


def _quoted(sentence: str) -> str:
    return say("settings", "findings-sentence", sentence=spelled(sentence))


def _repairs(codes: Sequence[str]) -> str:
    return locale_figures.listed([findings.repair_words(code) for code in codes], "unit")


def _minutes(value: Any) -> str:
    """Bench minutes of a repair, or what a medium holds."""
    if isinstance(value, list):
        low, likely, high = value
        return say("settings", "findings-bench-minutes", low=low, likely=likely, high=high)
    return say("settings", "findings-holds-minutes", minutes=value)


def _offered(prefix: str) -> Callable[[Any], str]:
    """The words of one of the offers of a field, or of several."""

    def words(value: Any) -> str:
        if isinstance(value, list):
            return ", ".join(words(each) for each in value)
        key = f"{prefix}-{value}"
        return say("settings", key) if messages.knows("settings", key) else spelled(value)

    return words


def _country(code: str) -> str:
    return country_defaults.names().get(code, code)


_ANY = ("tv", "speeds")
"""Lists that, empty, leave nothing out."""
_SHOWN: Mapping[str, Callable[[Any], str]] = {
    "plays": _formats,
    "formats": _formats,
    "like": price_rows.format_words,
    "counted_in": _offered("formats-counted"),
    "tv": lambda values: ", ".join(value.upper() for value in values),
    "speeds": _speeds,
    "may": _offered("people-may"),
    "does": _offered("people-does"),
    "can": _offered("people-can"),
    "paper": _offered("papers-size"),
    "quote": _offered("papers-when"),
    "claim_slip": _offered("papers-when"),
    "labels": _offered("papers-when"),
    "claim_slip_on": _offered("papers-slip"),
    "label_stock": _offered("papers-stock"),
    "country": _country,
    "told": _quoted,
    "caution": _quoted,
    "outcome": _offered("findings-outcome"),
    "repairs": _repairs,
    "gigabytes": lambda value: say("settings", "findings-holds-gb", gb=value),
    "minutes": _minutes,
    "check": _offered("calls-check"),
    "confidence": chances.words,
    "closed": _days,
}
"""How the value of a key is shown, by the last step of its path."""
