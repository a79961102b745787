"""The shop's settings as dated versions: never changed, each with who and when, undone by a further one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import select

from core.model import serialization
from core.model.errors import Conflict, Refused
from core.model.own_shop.settings_differences import Difference
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import own_sentences, settings_changes, shop_settings
from core.services.own_shop.settings_changes import differences
from core.store import current_settings, lookup, permissions, settings_entries
from core.store.steps import special_step
from core.store.tables import SettingsVersionRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

PAGE_OF = {
    "front.paper": SetupPage.PAPERS,
    "front": SetupPage.FRONT,
    "opening": SetupPage.HOURS,
    "holidays": SetupPage.HOURS,
    "work.past_closing_minutes": SetupPage.HOURS,
    "work.confidence": SetupPage.HOURS,
    "work.scanner_prefix": SetupPage.PAPERS,
    "work": SetupPage.PEOPLE,
    "copying": SetupPage.HOURS,
    "handling": SetupPage.HOURS,
    "calls": SetupPage.PEOPLE,
    "deck": SetupPage.DECKS,
    "papers": SetupPage.PAPERS,
    "format": SetupPage.FORMATS,
    "finding": SetupPage.FINDINGS,
    "repair": SetupPage.FINDINGS,
    "medium": SetupPage.FINDINGS,
    "person": SetupPage.PEOPLE,
    "partner": SetupPage.PARTNERS,
    "backup": SetupPage.BACKUP,
    "front.extra_cautions": SetupPage.WORDS,
    "words": SetupPage.WORDS,
}
"""The page on which a table of the settings file, or a key of it, is filled in."""


@dataclass(frozen=True, slots=True)
class SettingsVersion:
    """One version: its number, what was changed, by whom and when."""

    number: int
    at: datetime
    by: str
    words: str
    undoes: int | None
    settings: ShopSettings


def number(unit: Unit) -> int:
    """The number of the version in force; 0 before the first."""
    return settings_entries.number(unit, current_settings.PART)


def versions(unit: Unit, most: int | None = None) -> tuple[SettingsVersion, ...]:
    """Every version, or the newest so many, newest first."""
    newest_first = current_settings.rows().order_by(SettingsVersionRow.number.desc())
    rows = unit.session.scalars(newest_first.limit(most))
    return tuple(
        SettingsVersion(
            row.number, row.at, row.by, row.words, row.undoes, current_settings.of_text(row.value)
        )
        for row in rows
    )


def told(newest_first: Sequence[SettingsVersion]) -> Iterator[tuple[SettingsVersion, str]]:
    """Each version with what it changed, in the words of today's pages; the earliest as it was kept."""
    for version, before in zip(newest_first, [*newest_first[1:], None], strict=False):
        changed = () if before is None else settings_changes.lines(before.settings, version.settings)
        kept_as_told = version.undoes is not None or not changed
        yield version, version.words if kept_as_told else "; ".join(changed)


@special_step(again=current_settings.read)
def change(
    unit: Unit,
    changed: ShopSettings,
    *,
    based_on: int | None = None,
    confirms: Sequence[SetupPage] = (),
    undoes: int | None = None,
    needs: Permission | None = Permission.SETTINGS,
) -> ShopSettings:
    """Puts settings in force from now on; nothing is written when nothing differs.

    What was quoted, promised and printed before stays as it was. ``confirms`` names pages somebody looked
    at and left as they are. ``needs`` is what the person acting must be permitted; what happened to the shop
    (breakdowns, outages, days closed) anybody may enter. Conflict when somebody changed the settings since
    version ``based_on``; Refused without the permission, and while a tape plays on a deck that would be
    gone. WrongInput as `shop_settings.load`.
    """
    before = current_settings.read(unit)
    _check_nobody_else(unit, based_on)
    checked = shop_settings.of_document(shop_settings.document(changed), say("settings", "the-settings"))
    if undoes is None:  # one that a newer program no longer takes gives way to the built-in sentence
        entered = sorted(set(checked.front.words) - set(before.front.words))
        own_sentences.check(entered, checked.front.language, say("settings", "the-settings"))
    found = differences(before, checked)
    pages = before.confirmed | {page.value for page in confirms} | {page.value for page in _pages(found)}
    checked = replace(
        checked, front=replace(checked.front, practice=before.front.practice), confirmed=frozenset(pages)
    )
    if checked == before:
        return before
    if needs is not None and (confirms or not found or not all(map(_is_an_event, found))):
        is_of_prices = not found and set(confirms) <= {SetupPage.PRICES}
        permissions.check(unit, Permission.PRICES if is_of_prices else needs)
    _check_playing(unit, checked)
    _check_booked(unit, before, checked)
    _append(unit, checked, _words(before, checked, undoes), undoes)
    current_settings.put_in_force(checked)
    return checked


@special_step(again=current_settings.read)
def undo(unit: Unit) -> ShopSettings:
    """Puts the version before the one in force back, as a further version. Refused when there is none."""
    newest, before = _last_change(unit)
    if newest is None:
        raise Refused(say("settings", "nothing-to-undo"))
    if all(_is_an_event(each) for each in differences(before, newest.settings)):
        raise Refused(say("settings", "event-not-undone", what=newest.words))
    if all(each.path[2:3] == ("tokens",) for each in differences(before, newest.settings)):
        raise Refused(say("access", "token-undone"))
    return change(unit, before, undoes=newest.number)


def _last_change(unit: Unit) -> tuple[SettingsVersion | None, ShopSettings]:
    """The newest version that stands and differs from the one before it, with that one's settings."""
    standing: list[SettingsVersion] = []
    for version in reversed(versions(unit)):
        if version.undoes is None:
            standing.append(version)
        while version.undoes is not None and standing and standing[-1].number >= version.undoes:
            standing.pop()
    is_practice = bool(standing) and standing[0].settings.front.practice
    earlier = [*(() if is_practice else (unit.new_shop(),)), *(each.settings for each in standing)]
    for version, before in zip(reversed(standing), reversed(earlier[:-1]), strict=False):
        if differences(before, version.settings):
            return version, before
    return None, unit.new_shop()


@special_step(again=current_settings.read)
def make_practice(unit: Unit, settings: ShopSettings) -> ShopSettings:
    """Makes a shop that has no settings yet one to practise in, for good. Refused when it has some."""
    if current_settings.newest(unit) is not None:
        raise Refused(say("settings", "no-practice-any-more"))
    practice = replace(settings, front=replace(settings.front, practice=True))
    _append(unit, practice, say("settings", "practice-made"), None)
    return practice


def page_of(path: Sequence[str]) -> SetupPage | None:
    """The page on which the value at a path is filled in; None for what belongs to no page."""
    return PAGE_OF.get(".".join(path[:2])) or PAGE_OF.get(path[0])


def _append(unit: Unit, settings: ShopSettings, words: str, undoes: int | None) -> None:
    value = serialization.dumps(settings)
    settings_entries.append(unit, current_settings.PART, "settings", value, words, undoes=undoes)


def _check_nobody_else(unit: Unit, based_on: int | None) -> None:
    row = current_settings.newest(unit)
    if based_on is not None and row is not None and row.number != based_on:
        raise Conflict(say("settings", "changed-meanwhile", who=row.by, what=row.words))


def _check_playing(unit: Unit, settings: ShopSettings) -> None:
    known = {deck.name for deck in settings.working_decks}
    for code, deck in unit.session.execute(
        select(TapeRow.code, TapeRow.deck).where(TapeRow.deck.is_not(None))
    ):
        if deck not in known:
            raise Refused(say("settings", "deck-is-playing", deck=deck, code=locale_figures.tape_code(code)))


def _check_booked(unit: Unit, before: ShopSettings, after: ShopSettings) -> None:
    """Refused while a tape was booked with what would be gone: its history could not be read."""
    gone = {form.name: form for form in before.formats} | {form.name: None for form in after.formats}
    for name, form in gone.items():
        if form is not None and lookup.is_booked(unit, name):
            raise Refused(say("settings", "formats-booked", format=form.words))
    was, now = before.additions, after.additions
    for kept, there, is_booked in (
        (was.findings, now.findings, lookup.is_found),
        (was.repairs, now.repairs, lookup.is_repaired_by),
        (was.media, now.media, lookup.is_copied_onto),
    ):
        names = {each.name for each in there}
        for each in kept:
            if each.name not in names and is_booked(unit, each.name):
                raise Refused(say("settings", "findings-booked", words=each.words))


def _is_an_event(difference: Difference) -> bool:
    """What happened to the shop, and is taken back by a step of its own: breakdowns, outages, days closed."""
    return difference.path[0] == "outage" or difference.path[-1] in ("in_service", "closed")


def _pages(found: Sequence[Difference]) -> set[SetupPage]:
    return {page for each in found if (page := page_of(each.path)) is not None}


def _words(before: ShopSettings, after: ShopSettings, undoes: int | None) -> str:
    if undoes is not None:
        return say("settings", "taken-back", number=undoes)
    return "; ".join(settings_changes.lines(before, after)) or say("settings", "confirmed")
