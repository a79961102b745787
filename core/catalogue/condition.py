"""What the findings of a tape mean: repairs, cautions, what the customer is told, and the outcome.

Wording and bench times are in ``resources/catalogue/repairs.toml``; the times are common practice, no source.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from typing import Any

from core.catalogue import hazards
from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.names import Finding, FormatName, Outcome
from core.model.ranges import Range
from core.model.records import Repair, Verdict

REPAIRS = ("splice", "re-anchor", "straighten", "shell-swap", "reel-swap", "lid-swap", "inspect-sound")
"""Codes of the actions at the bench; the price book has one price for each."""

MUST_BE_SPLICED = frozenset({Finding.SNAPPED})
"""A tape with one of these is not played before a splice is on record."""

_WORST_LAST = tuple(Outcome)
_COVERED = {"lid-swap": "shell-swap"}
"""A donor shell brings its own lid."""


def verdict(findings: Iterable[Finding], name: FormatName) -> Verdict:
    """What these findings mean on a cassette of format ``name``.

    A tape that cannot be played here is not repaired either: it keeps its cautions and no repairs.
    WrongInput when the format is not known.
    """
    return _verdict(frozenset(findings), name)


def must_be_spliced(findings: Iterable[Finding]) -> bool:
    """Whether a splice has to be on record before the tape meets a machine."""
    return not MUST_BE_SPLICED.isdisjoint(findings)


def repair(code: str, name: FormatName) -> Repair:
    """One action of `REPAIRS` with its bench minutes on this format."""
    table = _page()["repairs"][code]
    low, likely, high = table[catalogue().format(name).record.bench_times]
    return Repair(code, table["words"], Range(float(low), float(likely), float(high)))


def repairs_of(finding: Finding) -> tuple[str, ...]:
    """Codes of the actions that deal with one finding; none where nothing can be done."""
    return tuple(_about(finding)["repairs"])


def how_seen(finding: Finding) -> str:
    """What to look for: ``a loose end, or both ends showing under the lid``."""
    return str(_about(finding)["seen"])


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resource_files.path("catalogue", "repairs.toml").read_text(encoding="utf-8"))


def _about(finding: Finding) -> Mapping[str, Any]:
    table: Mapping[str, Any] = _page()["findings"][finding.value]
    return table


@lru_cache(maxsize=2048)
def _verdict(findings: frozenset[Finding], name: FormatName) -> Verdict:
    shell = catalogue().format(name)
    abouts = [_about(finding) for finding in Finding if finding in findings]
    outcome = max(
        (Outcome(about["outcome"]) for about in abouts), key=_WORST_LAST.index, default=Outcome.PLAYS
    )
    plays = outcome is not Outcome.CANNOT
    codes = _codes(abouts) if plays else ()
    return Verdict(
        outcome=outcome,
        repairs=tuple(repair(code, name) for code in codes),
        cautions=tuple(dict.fromkeys(_cautions(abouts, codes, shell))),
        told=tuple(sentence for about in abouts for sentence in about["told"]),
        not_for_reuse=plays and any(about.get("not_for_reuse", False) for about in abouts),
    )


def _codes(abouts: Sequence[Mapping[str, Any]]) -> tuple[str, ...]:
    wanted = {code for about in abouts for code in about["repairs"]}
    return tuple(code for code in REPAIRS if code in wanted and _COVERED.get(code) not in wanted)


def _cautions(abouts: Sequence[Mapping[str, Any]], codes: Sequence[str], shell: Format) -> Iterator[str]:
    for about in abouts:
        yield from about["cautions"]
    for about in abouts:
        yield from (hazards.of(name).words for name in about.get("hazards", ()))
    for hazard in map(hazards.of, shell.record.hazards):
        if hazard.comes_with in codes or (codes and hazard.comes_with == "any-repair"):
            yield hazard.words


CHOICES: tuple[tuple[Finding, str, str], ...] = tuple(
    (finding, finding.words, how_seen(finding)) for finding in Finding
)
"""For screens: the finding, its short words, and how it is seen."""
