"""Finding a customer's jobs by whatever a caller says: number, tape, phone, name, nearly the name.

The sure ways come first, and a similar name is only looked for when nothing else was found. Names and
digits are searched by their three-letter pieces, so that a million tapes are no slower than a hundred.
A misspelled name is looked for in all names at every key. Reading two hundred thousand of them takes longer
than comparing them, so they are read once and then only the new ones; the history tells when a name was put
right and all must be read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any, cast

from sqlalchemy import Row, select

from core.model import folding, numbers
from core.model.errors import WrongInput
from core.store import history, search_statements
from core.store.job_tables import CustomerRow
from core.store.search_statements import MOST
from core.store.shop_tables import EventRow
from core.store.unit import Unit

LEAST_DIGITS = 3
"""A phone fragment shorter than this would match nearly everybody."""
ALIKE = 75.0
"""Share of letters, in percent, that a misspelt name has in common with the right one (an assumption)."""
_CLOSEST = 10
"""Names nearly like the one that was said; nobody reads on."""

_PIECE = 3
_KEY = "known_names"


def jobs(unit: Unit, text: str) -> tuple[tuple[int, str], ...]:
    """Ids of matching jobs with what matched, the surest first, at most `MOST`; open jobs before old ones."""
    wanted = text.encode("utf-8", "replace").decode().strip()  # half a sign is in no name
    if _is_number(wanted):
        found = [*_by_number(unit, wanted), *_by_code(unit, wanted), *_by_phone(unit, wanted)]
    else:
        found = list(_by_name(unit, wanted)) or list(_by_similar_name(unit, wanted))
    surest: dict[int, str] = {}
    for job, matched in found:
        surest.setdefault(job, matched)
    return tuple(surest.items())[:MOST]


def _is_number(text: str) -> bool:
    return bool(folding.digits(text)) and not any(character.isalpha() for character in text)


def _by_number(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    try:
        number = numbers.read_job_number(text)
    except WrongInput:
        return
    for row in search_statements.found(unit, search_statements.numbered, {"number": number}):
        yield row.job, "number"


def _by_code(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    try:
        code = numbers.read_tape_code(text)
    except WrongInput:
        return
    for row in search_statements.found(unit, search_statements.coded, {"code": code}):
        yield row.job, "tape-code"


def _by_phone(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    """A fragment of a phone number; the 0 that is dialled at home before it does not count."""
    digits = folding.digits(text)
    bare = digits.lstrip("0")
    for fragment in dict.fromkeys((digits, bare)):
        if len(fragment) >= LEAST_DIGITS:
            yield from ((job, "phone") for job in _of_holders(unit, "digits", [fragment]))


def _by_name(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    """Names that begin with the text, then names that hold each of its words."""
    words = _words(text)
    if not words:
        return
    prefix = " ".join(words)
    found = _called_about(
        search_statements.found(
            unit, search_statements.beginning, {"begins": prefix, "ends": prefix + "\U0010ffff"}
        )
    )
    if len(found) < MOST and max(map(len, words)) >= _PIECE:
        found = [*found, *_of_holders(unit, "folded", words)]
    yield from ((job, "name") for job in found)


def _by_similar_name(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    words = _words(text)
    if len("".join(words)) < _PIECE:
        return
    alike = _alike(words, _names(unit))
    found = search_statements.found(unit, search_statements.named, {"alike": alike})
    best_first = sorted(found, key=lambda row: alike.index(row.folded))
    yield from ((job, "similar-name") for job in _called_about(best_first))


def _alike(words: Sequence[str], names: _Names) -> list[str]:
    """The names most like the words, best first; one word is compared with first and last names singly."""
    if len(words) > 1:
        return _closest(" ".join(words), names.whole)
    singles = _closest(words[0], list(names.by_word))
    return list(dict.fromkeys(name for word in singles for name in names.by_word[word]))[:MOST]


def _closest(wanted: str, choices: Sequence[str]) -> list[str]:
    from rapidfuzz import fuzz, process

    found = process.extract(wanted, choices, scorer=fuzz.ratio, limit=_CLOSEST, score_cutoff=ALIKE)
    return [choice for choice, _, _ in found]


def _words(text: str) -> list[str]:
    """Folded words without the two signs that mean something to a pattern."""
    return folding.folded(text.replace("%", " ").replace("_", " ").replace(",", " ")).split()


# --- the names in memory -----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Names:
    """Folded names as they were when the history had ``seq`` lines."""

    seq: int
    last_id: int
    whole: tuple[str, ...]
    by_word: dict[str, list[str]]
    """First and last names, each with the whole names it is part of."""


def _names(unit: Unit) -> _Names:
    """Every name of this moment, remembered in the unit's memory for the next question."""
    seq = history.latest(unit)
    kept = cast("_Names | None", unit.memory.get(_KEY))
    if kept is not None and kept.seq == seq:
        return kept
    if kept is None or seq < kept.seq or _was_corrected(unit, kept.seq):
        kept = _Names(0, 0, (), {})
    names = _grown(kept, seq, _since(unit, kept.last_id))
    unit.memory[_KEY] = names
    return names


def _was_corrected(unit: Unit, seq: int) -> bool:
    corrected = select(EventRow.seq).where(
        EventRow.seq > seq, EventRow.kind.in_(("customer-corrected", history.ERASED))
    )
    return unit.session.scalars(corrected.limit(1)).first() is not None


def _since(unit: Unit, last_id: int) -> Sequence[tuple[int, str]]:
    new = select(CustomerRow.id, CustomerRow.folded).where(CustomerRow.id > last_id).order_by(CustomerRow.id)
    return [(row.id, row.folded) for row in unit.session.execute(new)]


def _grown(kept: _Names, seq: int, new: Sequence[tuple[int, str]]) -> _Names:
    """A new record each time: another thread may be reading the one before."""
    whole = dict.fromkeys(kept.whole)
    fresh = [name for name in dict.fromkeys(name for _, name in new) if name not in whole]
    by_word = {word: list(names) for word, names in kept.by_word.items()} if fresh else kept.by_word
    for name in fresh:
        for word in name.split():
            by_word.setdefault(word, []).append(name)
    last_id = new[-1][0] if new else kept.last_id
    return _Names(seq, last_id, _side_by_side([*kept.whole, *fresh]) if fresh else kept.whole, by_word)


def _side_by_side(names: list[str]) -> tuple[str, ...]:
    """Sorted, and made anew so that they lie in that order in memory: comparing takes half the time."""
    return tuple("\n".join(sorted(names)).split("\n"))


def _of_holders(unit: Unit, name: str, pieces: Sequence[str]) -> Sequence[int]:
    """Jobs of customers whose ``folded`` or ``digits`` holds all pieces, the latest customer first."""
    is_file = unit.session.get_bind().dialect.name == "sqlite"
    patterns = {f"piece_{n}": f"%{piece}%" for n, piece in enumerate(pieces)}
    build = partial(search_statements.holding, is_file, name, len(pieces))
    return _called_about(search_statements.found(unit, build, patterns))


def _called_about(rows: Iterable[Row[Any]]) -> list[int]:
    """Of each customer the open jobs, else the last one; in the order of the customers."""
    of_each: dict[int, list[tuple[int, bool]]] = {}
    for row in rows:
        of_each.setdefault(row.customer, []).append((row.job, row.is_open))
    called: list[int] = []
    for own in of_each.values():
        called += [job for job, is_open in own if is_open] or [job for job, _ in own[-1:]]
    return called
