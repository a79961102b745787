"""What the findings of a tape mean: repairs, cautions, what the customer is told, and the outcome.

Wording and bench times are in ``resources/catalogue/repairs.toml``; the times are common practice, no source.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from typing import Any

from core.catalogue.formats import catalogue
from core.model import resource_files
from core.model.names import Finding, FormatName, Outcome
from core.model.quote_records import Repair, Verdict
from core.model.ranges import Range

REPAIRS = ("splice", "re-anchor", "straighten", "shell-swap", "reel-swap", "lid-swap", "inspect-sound")
"""Codes of the actions at the bench; the price book has one price for each."""

MUST_BE_SPLICED = frozenset({Finding.SNAPPED})
"""A tape with one of these is not played before a splice is on record."""

_SMALL = frozenset({"8mm", "dv", "micromv"})
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
    small = catalogue().format(name).family in _SMALL
    low, likely, high = table["small" if small else "minutes"]
    return Repair(code, table["words"], Range(float(low), float(likely), float(high)))


def repairs_of(finding: Finding) -> tuple[str, ...]:
    """Codes of the actions that deal with one finding; none where nothing can be done."""
    return tuple(_about(finding)["repairs"])


def how_seen(finding: Finding) -> str:
    """What to look for: ``a loose end, or both ends showing under the lid``."""
    return str(_about(finding)["seen"])


def hazard(name: str) -> str:
    """The standing caution of one hazard: ``blades``, ``springs``, ``mould``, ``foil``, ``small``."""
    return str(_page()["hazards"][name])


@cache
def _page() -> Mapping[str, Any]:
    return tomllib.loads(resource_files.path("catalogue", "repairs.toml").read_text(encoding="utf-8"))


def _about(finding: Finding) -> Mapping[str, Any]:
    table: Mapping[str, Any] = _page()["findings"][finding.value]
    return table


@lru_cache(maxsize=2048)
def _verdict(findings: frozenset[Finding], name: FormatName) -> Verdict:
    family = catalogue().format(name).family
    abouts = [_about(finding) for finding in Finding if finding in findings]
    outcome = max(
        (Outcome(about["outcome"]) for about in abouts), key=_WORST_LAST.index, default=Outcome.PLAYS
    )
    plays = outcome is not Outcome.CANNOT
    codes = _codes(abouts) if plays else ()
    return Verdict(
        outcome=outcome,
        repairs=tuple(repair(code, name) for code in codes),
        cautions=tuple(dict.fromkeys(_cautions(abouts, codes, family))),
        told=tuple(sentence for about in abouts for sentence in about["told"]),
        not_for_reuse=plays and any(about.get("not_for_reuse", False) for about in abouts),
    )


def _codes(abouts: Sequence[Mapping[str, Any]]) -> tuple[str, ...]:
    wanted = {code for about in abouts for code in about["repairs"]}
    return tuple(code for code in REPAIRS if code in wanted and _COVERED.get(code) not in wanted)


def _cautions(abouts: Sequence[Mapping[str, Any]], codes: Sequence[str], family: str) -> Iterator[str]:
    for about in abouts:
        yield from about["cautions"]
    for about in abouts:
        yield from (hazard(name) for name in about.get("hazards", ()))
    if "splice" in codes and family == "betamax":
        yield hazard("foil")
    if codes and family in _SMALL:
        yield hazard("small")


CHOICES: tuple[tuple[Finding, str, str], ...] = tuple(
    (finding, finding.words, how_seen(finding)) for finding in Finding
)
"""For screens: the finding, its short words, and how it is seen."""
