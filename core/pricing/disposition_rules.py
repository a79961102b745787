"""What is charged for a tape by what became of it: its play time, repairs that were done, the inspection fee.

A book may state its own rules; without them nobody pays for a tape that was not copied.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from core.model.dispositions import Disposition
from core.model.errors import WrongInput, at, one_of
from core.model.names import Finding
from core.model.quote_records import QuotedTape
from core.pricing.price_book_file import DispositionEntry, PlayCharge


@dataclass(frozen=True, slots=True)
class DispositionRule:
    """What is charged for a tape of one disposition."""

    play: PlayCharge
    repairs: bool = False
    """Those that were done."""
    inspection: bool = False
    """The fee for looking at a tape that is not copied, where the book has one."""


NOTHING = DispositionRule(PlayCharge.NONE)

DEFAULTS: Mapping[Disposition, DispositionRule] = {
    Disposition.COPIED: DispositionRule(PlayCharge.FULL, repairs=True),
    Disposition.COPIED_IN_PART: DispositionRule(PlayCharge.PLAYED, repairs=True),
    Disposition.NOTHING_ON_IT: DispositionRule(PlayCharge.NONE, inspection=True),
    Disposition.NOT_WANTED: NOTHING,
    Disposition.REPAIR_DECLINED: DispositionRule(PlayCharge.NONE, inspection=True),
    Disposition.CANNOT_BE_PLAYED: DispositionRule(PlayCharge.NONE, inspection=True),
    Disposition.SENT_ELSEWHERE: NOTHING,
    Disposition.LOST: NOTHING,
    Disposition.DAMAGED: NOTHING,
}
"""The rules of a book that states none (what a shop may charge is its own to say: no source)."""

BESIDES = ("repairs", "inspection")
"""What may be charged besides the play time."""
_NEVER_CHARGED = frozenset({Disposition.LOST, Disposition.DAMAGED})
"""Nobody pays for what was lost or damaged in the shop's hands, whatever the book says."""


def of_entries(entries: Mapping[str, DispositionEntry], where: str) -> dict[Disposition, DispositionRule]:
    """The rules of a book's file, its own before the usual; WrongInput for a name or rule that cannot be."""
    known = {each.value: each for each in Disposition}
    rules = dict(DEFAULTS)
    for name, entry in entries.items():
        if name not in known:
            raise WrongInput(at(where, name), name, one_of(known))
        rules[known[name]] = _checked(known[name], entry, at(where, name))
    return rules


def entries_of(rules: Mapping[Disposition, DispositionRule]) -> dict[str, dict[str, object]]:
    """The plain tables that `of_entries` reads back."""
    return {each.value: entry_of(spelled(rule)) for each, rule in rules.items()}


def spelled(rule: DispositionRule) -> str:
    """A rule in one word, as it stands in a row of prices: ``full+repairs``, ``none``."""
    besides = [name for name in BESIDES if getattr(rule, name)]
    return "+".join((rule.play.value, *besides))


def entry_of(word: str) -> dict[str, object]:
    """The plain table of a rule that `spelled` gave; of any other word one that `of_entries` refuses."""
    play, *besides = word.split("+")
    known = set(besides) <= set(BESIDES)
    return {"play": play if known else word, **{name: name in besides for name in BESIDES}}


def possible(disposition: Disposition) -> tuple[DispositionRule, ...]:
    """The rules a book may state for one disposition, the usual one first."""
    plays = (PlayCharge.FULL, PlayCharge.PLAYED) if disposition.is_copied else ()
    never = disposition in _NEVER_CHARGED
    extras = ((False, False),) if never else ((False, False), (True, False), (False, True), (True, True))
    found = [DispositionRule(play, *extra) for play in (*plays, PlayCharge.NONE) for extra in extras]
    return (DEFAULTS[disposition], *(each for each in found if each != DEFAULTS[disposition]))


def is_played(tape: QuotedTape, rules: Mapping[Disposition, DispositionRule]) -> bool:
    """Whether a tape's play time is charged: as it is expected, or by what became of it."""
    if tape.disposition is None:
        return tape.verdict.is_worked_on
    return rules[tape.disposition].play is not PlayCharge.NONE


def is_repaired(tape: QuotedTape, rules: Mapping[Disposition, DispositionRule]) -> bool:
    """Whether the repairs of a tape are charged."""
    return tape.verdict.is_worked_on if tape.disposition is None else rules[tape.disposition].repairs


def is_inspected_only(tape: QuotedTape, rules: Mapping[Disposition, DispositionRule]) -> bool:
    """Whether a tape is looked over and not copied.

    Nobody looks over one for no deck of the shop, or one that the counter knew to be a commercial recording.
    """
    if tape.disposition is None:
        seen_by_label = tape.verdict.elsewhere or Finding.COMMERCIAL_RECORDING in tape.draft.findings
        return not tape.verdict.is_worked_on and not seen_by_label
    return rules[tape.disposition].inspection and not is_played(tape, rules)


def _checked(disposition: Disposition, entry: DispositionEntry, where: str) -> DispositionRule:
    """A tape that was not copied is charged for no play time; one lost or damaged here for nothing at all."""
    if entry.play is not PlayCharge.NONE and not disposition.is_copied:
        raise WrongInput(at(where, "play"), entry.play.value, one_of([PlayCharge.NONE.value]))
    charged = [key for key in BESIDES if getattr(entry, key)]
    if charged and disposition in _NEVER_CHARGED:
        raise WrongInput(at(where, charged[0]), "true", one_of(["false"]))
    return DispositionRule(entry.play, entry.repairs, entry.inspection)
