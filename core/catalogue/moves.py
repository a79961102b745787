"""Whether a tape may go where somebody wants to put it, and if not, why and where it may go instead."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from core.catalogue import condition, findings
from core.model.errors import Refused
from core.model.names import Finding, FormatName, Look, TapeCode
from core.model.stations import ASIDE, Station, allowed_moves, allows

APART = frozenset(finding for finding in Finding if findings.of(finding).kept_apart)
"""What harms machines and other tapes: such a tape leaves the line until somebody says it is over."""

ON_A_DECK = (Station.CLEARED_TO_PLAY, Station.PLAYING)


@dataclass(frozen=True, slots=True)
class Standing:
    """What the moves of one tape depend on."""

    code: TapeCode
    format: FormatName
    station: Station
    open: tuple[Finding, ...]
    """Findings nobody has dealt with yet, the ones seen just now among them."""
    seen_now: tuple[Finding, ...] = ()
    look: Look | None = None
    """What the look after the last repair told."""


def check(tape: Standing, there: Station) -> None:
    """Refused, with the reason and the way out, when the tape may not go ``there``."""
    _check_line(tape, there)
    _check_apart(tape, there)
    if there in ON_A_DECK:
        _check_rights(tape)
        _check_splice(tape)
        _check_look(tape)
        if tape.station is not Station.AT_THE_BENCH:
            _check_repairs(tape)


def needing_splice(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings that leave no other way than a splice."""
    return tuple(each for each in findings if condition.must_be_spliced((each,)))


def _check_line(tape: Standing, there: Station) -> None:
    if there is tape.station:
        raise Refused(f"Tape {tape.code} is {_at(there)} already.")
    if there is Station.HANDED_BACK:
        raise Refused(
            f"Tape {tape.code} is {_at(tape.station)}; a tape goes back to its owner only by a pickup, "
            "so that somebody signs for it."
        )
    if not allows(tape.station, there):
        raise Refused(
            f"Tape {tape.code} is {_at(tape.station)}; it cannot go to {there.value}. {_ways(tape.station)}"
        )


def _check_apart(tape: Standing, there: Station) -> None:
    harmful = [each for each in tape.open if each in APART]
    if there is Station.LOOKED_OVER:
        # Looking it over is how it was found: that is written down before the tape is carried off.
        harmful = [each for each in harmful if each not in tape.seen_now]
    if harmful and there not in ASIDE:
        aside = ", ".join(each.value for each in ASIDE if each is not tape.station)
        raise Refused(
            f"Tape {tape.code} has {_listed(harmful)}; it stays away from machines and other tapes. "
            f"It may go to {aside}, or clear the finding first and say what was done."
        )


def _check_rights(tape: Standing) -> None:
    if Finding.COMMERCIAL_RECORDING in tape.open:
        raise Refused(
            f"Tape {tape.code} is a commercial recording; it is copied only if the customer holds the "
            "rights. If so, clear the finding and note what the customer showed."
        )


def _check_splice(tape: Standing) -> None:
    if missing := needing_splice(tape.open):
        raise Refused(
            f"Tape {tape.code} is {_listed(missing)} and no splice is recorded. Record the splice, "
            "or say what was done instead of one."
        )


def _check_look(tape: Standing) -> None:
    if tape.look is Look.AGAIN:
        raise Refused(
            f"Tape {tape.code} was looked over after its repair and has to be done again. Record what was "
            "done to it, or look once more and say that it may go on."
        )


def _check_repairs(tape: Standing) -> None:
    if broken := [each for each in tape.open if condition.verdict((each,), tape.format).repairs]:
        raise Refused(
            f"Tape {tape.code} needs a repair first ({_listed(broken)}). "
            f"It may go to {Station.AT_THE_BENCH.value}."
        )


def _at(station: Station) -> str:
    words = station.words
    return f"among those that {words}" if station is Station.CANNOT_BE_PLAYED else words


def _ways(here: Station) -> str:
    ways = allowed_moves(here)
    if not ways:
        return "It has left the shop."
    return f"From here it may go to {', '.join(each.value for each in ways)}."


def _listed(findings: Iterable[Finding]) -> str:
    return ", ".join(each.words for each in findings)
