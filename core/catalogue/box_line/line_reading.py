"""A line read: rows, what each word was taken as, and what may have been meant by the others."""

from __future__ import annotations

from core.catalogue import condition
from core.catalogue.box_line import line_customer, line_rows
from core.catalogue.box_line.line_clauses import clauses
from core.catalogue.box_line.line_items import items
from core.catalogue.box_line.line_offers import markings_with, resembling
from core.catalogue.box_line.line_records import LineReading, LineStretch, Taken
from core.catalogue.box_line.line_rows import Claim, LineRows, OpenRow
from core.catalogue.box_line.line_words import Meaning, Phrase
from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.names import Speed, TvSystem, finding_of
from core.wording.messages import worded_cache


@worded_cache(maxsize=512)
def read(text: str) -> LineReading:
    """The rows that ``text`` names. Nothing is guessed: the rest is told, with what is like it."""
    customer = line_customer.behind(text)
    of_tapes = text if customer is None else text[: customer.start]
    rows = LineRows(text)
    for clause in clauses(of_tapes, items(of_tapes)):
        rows.read(clause)
    claims = sorted(rows.claims, key=lambda claim: claim.item.start)
    of_row = line_rows.by_row(claims)
    for row in rows.rows:
        _fit(row, of_row[id(row)])
    for claim in claims:
        _offer(claim, text)
    made = line_rows.finished(rows.rows, of_row, text)
    told = line_rows.stretches(rows.rows, claims)
    if customer is not None:
        told = (*told, LineStretch(customer.start, customer.end, Taken.CUSTOMER))
    return LineReading(text, made, told, customer)


# --- what the format of the row makes of it ----------------------------------------------


def _fit(row: OpenRow, claims: list[Claim]) -> None:
    """Markings, recordings and speeds that the format does not have are given up."""
    shell = line_rows.shell_of(row)
    if shell is None:
        return
    _fit_several(row, claims, shell)
    tv = row.value(Taken.TV)
    _fit_marking(row, shell, TvSystem(tv) if tv else None)
    system = _fit_recording(row, shell)
    _fit_speed(row, system, TvSystem(tv) if tv else None)


def _fit_several(row: OpenRow, claims: list[Claim], shell: Format) -> None:
    """Words for several findings mean the one that such a thing can have."""
    for claim in claims:
        possible = [each for each in claim.item.meant if _is_possible(each, shell)]
        if len(possible) == 1 and all(each.meaning is Meaning.FINDING for each in claim.item.meant):
            claim.taken, claim.item = Taken.FINDING, claim.item._replace(value=possible[0].value)
    said = [finding_of(claim.item.value) for claim in claims if claim.taken is Taken.FINDING]
    row.findings = dict.fromkeys((*(each for each in row.findings if each not in said), *said))


def _is_possible(phrase: Phrase, shell: Format) -> bool:
    return phrase.meaning is Meaning.FINDING and finding_of(phrase.value) in condition.possible(shell.name)


def _fit_marking(row: OpenRow, shell: Format, tv: TvSystem | None) -> None:
    claim = row.given.get(Taken.MARKING)
    if claim is None:
        return
    try:
        found = shell.marking(claim.item.value, tv)
    except WrongInput:
        found = None
    if found is None:
        digits = "".join(sign for sign in claim.item.value if sign.isdecimal())
        _drop(row, Taken.MARKING, markings_with(shell, digits))
    else:
        claim.item = claim.item._replace(value=found.name, implied=claim.item.implied)


def _fit_recording(row: OpenRow, shell: Format) -> Format:
    name = row.value(Taken.RECORDED_AS)
    if not name:
        return shell
    if name in shell.systems:
        return catalogue().format(name)
    _drop(row, Taken.RECORDED_AS, tuple(catalogue().format(each).words for each in shell.systems))
    return shell


def _fit_speed(row: OpenRow, system: Format, tv: TvSystem | None) -> None:
    speed = row.value(Taken.SPEED)
    if speed and Speed(speed) not in system.speeds_in(tv):
        _drop(row, Taken.SPEED, tuple(each.words for each in system.speeds_in(tv)))


def _drop(row: OpenRow, taken: Taken, offers: tuple[str, ...]) -> None:
    """What one row cannot have is nobody's: of some tapes it goes back to what held for all."""
    claim = row.given.pop(taken)
    if claim.row is row:
        claim.give_up(offers)


# --- what may have been meant ------------------------------------------------------------


def _offer(claim: Claim, text: str) -> None:
    if claim.taken is not Taken.UNREAD or claim.offers or claim.because:
        return
    word = text[claim.item.start : claim.item.end]
    shell = line_rows.shell_of(claim.row) if claim.row is not None else None
    if claim.item.is_digits and shell is not None:
        claim.offers = markings_with(shell, claim.item.value)
    elif claim.item.meaning is Meaning.UNKNOWN:
        claim.offers = _words(claim.item.meant or resembling(word))


def _words(phrases: tuple[Phrase, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(phrase.words for phrase in phrases))
