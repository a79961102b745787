"""What is known of each finding and of each repair: one validated entry a thing, in ``repairs.toml``."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Annotated, TypeAlias

from msgspec import Meta, Struct

from core.catalogue.format_file import Hazard, Mark, NotNegative, Words
from core.catalogue.format_words import numbered
from core.model import resource_files
from core.model.errors import WrongInput, at, missing, nothing, one_of
from core.model.names import AnyFinding, Container, Finding, Outcome
from core.model.own_shop import shop_additions
from core.model.repair_records import Hold
from core.model.shaped_toml import ROOM, read, shaped
from core.wording.messages import knows, say

_Minutes: TypeAlias = Annotated[tuple[NotNegative, NotNegative, NotNegative], Meta(description="minutes")]


class RepairEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """One action at the bench: its bench minutes on a usual and on a small shell."""

    usual: _Minutes
    small: _Minutes
    covered_by: str | None = None
    """The repair that does this one as well: a donor shell brings its own lid."""
    joins: bool = False
    """Two ends may have to be put together in it."""


class FindingEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """What one finding means."""

    repairs: tuple[str, ...]
    """Codes of the actions that deal with it; none where nothing can be done."""
    outcome: Outcome
    hazards: tuple[Hazard, ...] = ()
    hold: Hold | None = None
    """Nothing is done, promised or charged before an answer."""
    needs_splice: bool = False
    """Not played before a splice is on record."""
    kept_apart: bool = False
    """It harms machines and other tapes: the tape leaves the line until somebody says it is over."""
    always_careful: bool = False
    """Its caution protects somebody or something, also where another finding decides what is done."""
    things: tuple[Container, ...] = (Container.TAPE,)
    """What it may be found on."""


class RepairFile(Struct, frozen=True, forbid_unknown_fields=True):
    """The shape of ``repairs.toml``; ``source`` and ``mark`` are those of all bench minutes."""

    source: Words
    mark: Mark
    repairs: dict[str, RepairEntry]
    findings: dict[str, FindingEntry]


def of(finding: AnyFinding) -> FindingEntry:
    """What a finding means; one of the shop's own may be on anything, and harms nothing by itself."""
    if isinstance(finding, Finding):
        return page().findings[finding.value]
    own = shop_additions.finding(finding)
    if own is None:
        return FindingEntry((), Outcome.PLAYS, things=())
    things = () if own.retired else tuple(Container)
    return FindingEntry(own.repairs, own.outcome, always_careful=True, things=things)


def every() -> tuple[AnyFinding, ...]:
    """Every finding there is, those of the shop's own last."""
    return (*Finding, *(each.key for each in shop_additions.in_force().findings))


def in_order(found: Iterable[AnyFinding]) -> tuple[AnyFinding, ...]:
    """Findings as they are told, each once: those of the program, of the shop, and what nobody knows."""
    wanted = frozenset(found)
    known = tuple(each for each in every() if each in wanted)
    return (*known, *sorted(wanted.difference(known), key=lambda each: each.value))


def sentences(kind: str, finding: AnyFinding) -> tuple[str, ...]:
    """The sentences of one kind (``seen``, ``means``, ``told``, ``caution``, ``also`` …) about a finding.

    The shop's own has one for the customer and maybe a caution; as a mere fact it is told by its words.
    """
    if isinstance(finding, Finding):
        return tuple(numbered("findings", f"{kind}-{finding.value}"))
    own = shop_additions.finding(finding)
    if own is None:
        return ()
    if kind == "caution":
        return (own.caution,) if own.caution else ()
    return (say("findings", "also-own", finding=own.words),) if kind == "also" else (own.told,)


def repair_codes() -> tuple[str, ...]:
    """Codes of the actions at the bench, those of the shop's own last."""
    return (*page().repairs, *(each.name for each in shop_additions.in_force().repairs))


def repair_words(code: str) -> str:
    """What an action is called; its code where nobody knows it any more."""
    own = shop_additions.repair(code)
    if own is not None:
        return own.words
    return say("repairs", code) if code in page().repairs else code


def covered_by(code: str) -> str | None:
    """The repair that does this one as well."""
    entry = page().repairs.get(code)
    return entry.covered_by if entry else None


@cache
def page() -> RepairFile:
    """The whole file; WrongInput for a gap, or a name that nothing is called, by file and key."""
    path = resource_files.path("catalogue", "repairs.toml")
    return checked(path.name, read(path))


def checked(where: str, content: object) -> RepairFile:
    """``content`` checked: every finding has its entry, and every repair it names is known."""
    found = shaped(content, RepairFile, where)
    for finding in Finding:
        if finding.value not in found.findings:
            raise missing(at(where, "findings"), finding.value, say(ROOM, "table"))
    _known(at(where, "findings"), found.findings, [finding.value for finding in Finding])
    for name, entry in found.findings.items():
        _known(at(where, "findings", name, "repairs"), entry.repairs, found.repairs)
    for code, repair in found.repairs.items():
        covered = [repair.covered_by] if repair.covered_by else []
        _known(at(where, "repairs", code, "covered_by"), covered, found.repairs)
    _check_words(found)
    return found


def _check_words(found: RepairFile) -> None:
    """WrongInput for the first sentence about a finding or a repair that English lacks."""
    for room, key in _needed_words(found):
        if not (knows(room, key, "en") or knows(room, f"{key}-1", "en")):
            raise WrongInput(f"{room}.ftl", nothing(), say(ROOM, "sentence-needed", key=key))


def _needed_words(found: RepairFile) -> Iterator[tuple[str, str]]:
    for name in found.findings:
        yield "names", f"finding-{name}"
        yield from (("findings", f"{kind}-{name}") for kind in ("seen", "means", "told", "also"))
    yield from (("repairs", code) for code in found.repairs)
    covered = {code for code, repair in found.repairs.items() if repair.covered_by}
    for name, entry in found.findings.items():
        if covered.intersection(entry.repairs):
            yield "findings", f"covered-{name}"


def _known(where: str, names: Iterable[str], known: Iterable[str]) -> None:
    accepted = tuple(known)
    for name in names:
        if name not in accepted:
            raise WrongInput(where, name, one_of(accepted))
