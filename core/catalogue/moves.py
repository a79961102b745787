"""Whether a tape may go where somebody wants to put it, and if not, why and where it may go instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from core.catalogue import condition, findings
from core.model.dispositions import Disposition
from core.model.errors import Refused
from core.model.names import AnyFinding, Finding, FormatName, Look, TapeCode
from core.model.spoken_names import spoken
from core.model.stations import ASIDE, Station, allowed_moves, allows
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Standing:
    """What the moves of one tape depend on."""

    code: TapeCode
    format: FormatName
    station: Station
    open: tuple[AnyFinding, ...]
    """Findings nobody has dealt with yet, the ones seen just now among them."""
    seen_now: tuple[AnyFinding, ...] = ()
    look: Look | None = None
    """What the look after the last repair told."""
    disposition: Disposition | None = None
    """What became of it, as far as that is settled."""


def check(tape: Standing, there: Station) -> None:
    """Refused, with the reason and the way out, when the tape may not go ``there``."""
    _check_line(tape, there)
    _check_unsettled(tape)
    _check_apart(tape, there)
    if there.is_for_a_deck:
        _check_rights(tape)
        _check_splice(tape)
        _check_look(tape)
        if tape.station is not Station.AT_THE_BENCH:
            _check_repairs(tape)


def needing_splice(found: Iterable[AnyFinding]) -> tuple[AnyFinding, ...]:
    """Findings that leave no other way than a splice."""
    return tuple(each for each in found if condition.must_be_spliced((each,)))


def needing_repair(found: Iterable[AnyFinding], name: FormatName) -> tuple[AnyFinding, ...]:
    """Findings for which a tape of format ``name`` has to go to the bench before a deck may take it."""
    return tuple(each for each in found if condition.verdict((each,), name).repairs)


def _check_line(tape: Standing, there: Station) -> None:
    if there is tape.station:
        raise _refused("already", tape)
    if there is Station.HANDED_BACK:
        raise _refused("only-by-pickup", tape)
    if not allows(tape.station, there):
        ways = allowed_moves(tape.station)
        raise _refused("no-way" if ways else "no-way-gone", tape, to=there.value, ways=_listed(ways))


def place_of(tape: Standing, disposition: Disposition) -> Station:
    """Where a tape stands with ``disposition``: what harms machines or other tapes stays apart from them."""
    there = disposition.station
    harmful = any(findings.of(each).kept_apart for each in tape.open)
    return Station.KEPT_APART if harmful and not there.is_aside else there


def _check_unsettled(tape: Standing) -> None:
    settled = tape.disposition
    if settled is not None and not settled.follows_a_move:
        raise _refused("is-settled", tape, disposition=spoken(settled))


def _check_apart(tape: Standing, there: Station) -> None:
    harmful = [each for each in tape.open if findings.of(each).kept_apart]
    if there is Station.LOOKED_OVER:
        # Looking it over is how it was found: that is written down before the tape is carried off.
        harmful = [each for each in harmful if each not in tape.seen_now]
    if harmful and not there.is_aside:
        aside = [each for each in ASIDE if each is not tape.station]
        raise _refused("kept-apart", tape, findings=_in_words(harmful), ways=_listed(aside))


def _check_rights(tape: Standing) -> None:
    if Finding.COMMERCIAL_RECORDING in tape.open:
        raise _refused("rights", tape)


def _check_splice(tape: Standing) -> None:
    if missing := needing_splice(tape.open):
        raise _refused("no-splice", tape, findings=_in_words(missing))


def _check_look(tape: Standing) -> None:
    if tape.look is Look.AGAIN:
        raise _refused("look-again", tape)


def _check_repairs(tape: Standing) -> None:
    if broken := needing_repair(tape.open, tape.format):
        ways = Station.AT_THE_BENCH.value
        raise _refused("needs-repair", tape, findings=_in_words(broken), ways=ways)


def _refused(key: str, tape: Standing, **more: str) -> Refused:
    at = say("moves", f"at-{tape.station.value}")
    return Refused(say("moves", key, code=locale_figures.tape_code(tape.code), at=at, **more))


def _listed(stations: Iterable[Station]) -> str:
    return ", ".join(each.value for each in stations)


def _in_words(found: Iterable[AnyFinding]) -> str:
    return ", ".join(spoken(each) for each in found)
