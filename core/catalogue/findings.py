"""What is known of each finding and of each repair: one validated entry a thing, in ``repairs.toml``."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cache
from typing import Annotated, TypeAlias

from msgspec import Meta, Struct

from core.catalogue.format_file import Hazard, Mark, NotNegative, Words
from core.model import resource_files
from core.model.errors import WrongInput, at, missing, nothing, one_of
from core.model.names import Container, Finding, Outcome
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


def of(finding: Finding) -> FindingEntry:
    return page().findings[finding.value]


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
