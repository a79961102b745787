"""What a shop adds, as an owner fills it in: findings, repairs, media, with figures as they were typed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.catalogue import findings
from core.model.inventory import CARRIERS
from core.model.names import Finding, Outcome
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.shop_additions import Additions
from core.pricing import bitrates
from core.services.own_shop import own_formats, shop_settings
from core.wording.messages import say

FINDING, REPAIR, MEDIUM = "finding", "repair", "medium"
KINDS = (FINDING, REPAIR, MEDIUM)
GIGABYTES, MINUTES = "gigabytes", "minutes"
_USUAL_MINUTES = (8.0, 15.0, 30.0)
"""Bench minutes that a new repair begins with: common practice, no source."""
_USUAL_GIGABYTES = 32.0


@dataclass(frozen=True, slots=True)
class AdditionDraft:
    """One entry; what does not belong to its kind means nothing. A figure that is none stays a text."""

    key: str
    """Names the entry while it is filled in, wherever another one points to it."""
    kind: str
    name: str = ""
    """Its key in the settings; empty for one that is new."""
    words: str = ""
    told: str = ""
    outcome: str = Outcome.PLAYS.value
    repairs: tuple[str, ...] = ()
    """Codes, or the keys of drafts."""
    caution: str = ""
    minutes: tuple[float | str, ...] = _USUAL_MINUTES
    holds: float | str = _USUAL_GIGABYTES
    holds_in: str = GIGABYTES
    retired: bool = False


def of(added: Additions) -> tuple[AdditionDraft, ...]:
    """The drafts of what is kept: findings, repairs, media."""
    found = [
        AdditionDraft(
            f"{FINDING}-{each.name}",
            FINDING,
            each.name,
            each.words,
            each.told,
            each.outcome.value,
            each.repairs,
            each.caution,
            retired=each.retired,
        )
        for each in added.findings
    ]
    for each in added.repairs:
        minutes = (each.minutes.low, each.minutes.likely, each.minutes.high)
        key = f"{REPAIR}-{each.name}"
        found.append(AdditionDraft(key, REPAIR, each.name, each.words, minutes=minutes, retired=each.retired))
    for medium in added.media:
        draft = AdditionDraft(
            f"{MEDIUM}-{medium.name}", MEDIUM, medium.name, medium.words, retired=medium.retired
        )
        holds_in = MINUTES if medium.minutes else GIGABYTES
        found.append(replace(draft, holds=medium.minutes or medium.gigabytes, holds_in=holds_in))
    return tuple(found)


def kept(drafts: Sequence[AdditionDraft], before: ShopSettings) -> ShopSettings:
    """``before`` with these entries; WrongInput by entry and key, as for a settings file."""
    known = {each.key for each in of(before.additions)}
    names = _names(drafts, known)
    tables: dict[str, list[dict[str, Any]]] = {kind: [] for kind in KINDS}
    for draft in drafts:
        tables[draft.kind].append(_table(draft, names))
    content = {**shop_settings.document(before), **tables}
    made = shop_settings.of_document(content, say("settings", "the-settings"))
    front = replace(before.front, finding_names=made.front.finding_names)
    return replace(before, additions=made.additions, front=front)


def _names(drafts: Iterable[AdditionDraft], known: set[str]) -> dict[str, str]:
    """The key in the settings of every draft; that of a new one comes from its words."""
    drafts = tuple(drafts)
    names = {each.key: each.name for each in drafts if each.key in known}
    taken = {kind: _built_in(kind) for kind in KINDS}
    for each in drafts:
        if each.key in names:
            taken[each.kind].add(names[each.key])
    for each in drafts:
        if each.key not in names:
            names[each.key] = own_formats.free_key(each.words, taken[each.kind])
            taken[each.kind].add(names[each.key])
    return names


def _built_in(kind: str) -> set[str]:
    if kind == FINDING:
        return {finding.value for finding in Finding}
    if kind == REPAIR:
        return set(findings.page().repairs)
    return {*CARRIERS, *bitrates.CODECS, *bitrates.page()["discs"]}


def _table(draft: AdditionDraft, names: dict[str, str]) -> dict[str, Any]:
    found: dict[str, Any] = {"name": names[draft.key], "words": draft.words.strip(), "retired": draft.retired}
    if draft.kind == FINDING:
        repairs = [names.get(code, code) for code in draft.repairs]
        told, caution = draft.told.strip(), draft.caution.strip()
        return {**found, "told": told, "outcome": draft.outcome, "repairs": repairs, "caution": caution}
    if draft.kind == REPAIR:
        return {**found, "minutes": list(draft.minutes)}
    return {**found, draft.holds_in: draft.holds}
