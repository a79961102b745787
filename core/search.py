"""Finding a customer's jobs by whatever a caller says: number, tape, phone, name, nearly the name.

The sure ways come first, and a similar name is only looked for when nothing else was found. Names and
digits are searched by their three-letter pieces, so that a million tapes are no slower than a hundred.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sqlalchemy import ColumnElement, Select, column, select, table

from core import folding, known_names, numbers
from core.errors import WrongInput
from core.shelf import IN_THE_SHOP
from core.tables import CustomerRow, JobRow, TapeRow
from core.unit import Unit

MOST = 50
LEAST_DIGITS = 3
"""A phone fragment shorter than this would match nearly everybody."""
ALIKE = 75.0
"""Share of letters, in percent, that a misspelt name has in common with the right one (an assumption)."""
_CLOSEST = 10
"""Names nearly like the one that was said; nobody reads on."""

_TRIGRAMS = table("customer_trigrams", column("rowid"), column("folded"), column("digits"))
_PIECE = 3


def jobs(unit: Unit, text: str) -> tuple[tuple[int, str], ...]:
    """Ids of matching jobs with what matched, the surest first, at most `MOST`; open jobs before old ones."""
    wanted = text.strip()
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
    for job in unit.session.scalars(select(JobRow.id).where(JobRow.number == number)):
        yield job, "number"


def _by_code(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    try:
        code = numbers.read_tape_code(text)
    except WrongInput:
        return
    for job in unit.session.scalars(select(TapeRow.job_id).where(TapeRow.code == code)):
        yield job, "tape code"


def _by_phone(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    """A fragment of a phone number; the 0 that is dialled at home before it does not count."""
    digits = folding.digits(text)
    bare = digits.lstrip("0")
    for fragment in dict.fromkeys((digits, bare)):
        if len(fragment) >= LEAST_DIGITS:
            customers = _holding(unit, "digits", [fragment])
            yield from ((job, "phone") for job in _of_customers(unit, customers))


def _by_name(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    """Names that begin with the text, then names that hold each of its words."""
    words = _words(text)
    if not words:
        return
    begins = select(CustomerRow.id).where(*_begins(" ".join(words))).order_by(CustomerRow.folded).limit(MOST)
    customers = list(unit.session.scalars(begins))
    if len(customers) < MOST and max(map(len, words)) >= _PIECE:
        customers += [each for each in _holding(unit, "folded", words) if each not in customers]
    yield from ((job, "name") for job in _of_customers(unit, customers))


def _by_similar_name(unit: Unit, text: str) -> Iterable[tuple[int, str]]:
    words = _words(text)
    if len("".join(words)) < _PIECE:
        return
    alike = _alike(words, known_names.known(unit))
    found = unit.session.execute(
        select(CustomerRow.folded, CustomerRow.id).where(CustomerRow.folded.in_(alike))
    )
    best_first = sorted(found, key=lambda row: alike.index(row[0]))
    customers = [customer for _, customer in best_first]
    yield from ((job, "a similar name") for job in _of_customers(unit, customers))


def _alike(words: Sequence[str], names: known_names.Names) -> list[str]:
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


def _begins(prefix: str) -> tuple[ColumnElement[bool], ...]:
    """A range of the index: a pattern would not use it on every database."""
    return CustomerRow.folded >= prefix, CustomerRow.folded < prefix + "\U0010ffff"


def _holding(unit: Unit, name: str, pieces: Sequence[str]) -> Sequence[int]:
    """Customers whose ``folded`` or ``digits`` holds all pieces, the latest first.

    On SQLite the longest piece is looked up by its trigrams; the first rows found are enough, unsorted.
    """
    is_file = unit.session.get_bind().dialect.name == "sqlite"
    searched = _TRIGRAMS if is_file else CustomerRow.__table__
    kept, key = searched.c[name], searched.c["rowid" if is_file else "id"]
    holds = [kept.like(f"%{piece}%") for piece in pieces]
    return unit.session.scalars(select(key).where(*holds).order_by(key.desc()).limit(MOST)).all()


def _of_customers(unit: Unit, customers: Sequence[int]) -> Iterable[int]:
    """Their open jobs, else for each the last one; in the order of the customers."""
    if not customers:
        return
    rows = unit.session.execute(_jobs_of(customers)).all()
    for customer in customers:
        own = [(job, is_open) for job, owner, is_open in rows if owner == customer]
        still = [job for job, is_open in own if is_open]
        yield from still or [job for job, _ in own[-1:]]


def _jobs_of(customers: Sequence[int]) -> Select[int, int, bool]:
    is_open = select(TapeRow.id).where(TapeRow.job_id == JobRow.id, TapeRow.station.in_(IN_THE_SHOP)).exists()
    chosen = select(JobRow.id, JobRow.customer_id, is_open).where(JobRow.customer_id.in_(customers))
    return chosen.order_by(JobRow.id)
