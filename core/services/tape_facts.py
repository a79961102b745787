"""What is known of a tape at hand: findings added to it, those still open, the minutes it played."""

from __future__ import annotations

from collections.abc import Iterable

from core.catalogue import condition
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import Finding
from core.playtime import tape_minutes
from core.store.tables import TapeRow
from core.wording.messages import say


def add_findings(row: TapeRow, findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Adds what was seen to a tape at hand and judges it anew; seen again after a repair, it is open."""
    seen = tuple(dict.fromkeys(findings))
    row.settled = tuple(each for each in row.settled if each not in seen)
    known = row.findings + tuple(each for each in seen if each not in row.findings)
    if known != row.findings:
        row.findings = known
        row.verdict = condition.verdict(known, row.draft.format)
    return seen


def open_findings(row: TapeRow) -> tuple[Finding, ...]:
    """Findings nobody has dealt with yet."""
    return tuple(each for each in row.findings if each not in row.settled)


def take_minutes(row: TapeRow, minutes: float | None) -> None:
    """Keeps the minutes a tape at hand played, when they are known; WrongInput for more than it can hold."""
    if minutes is None:
        return
    longest = tape_minutes.belief(TapeLine(1, row.draft.format), None).longest
    if not 0 < minutes <= longest:
        raise WrongInput(
            say("steps", "minutes_played"),
            minutes,
            say("steps", "more_than_most_accepted", longest=f"{longest:.0f}"),
        )
    row.played_minutes = minutes
