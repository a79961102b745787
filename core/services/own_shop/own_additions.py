"""The findings, repairs and media of a shop's own in its settings.

Tables ``[[finding]]``, ``[[repair]]``, ``[[medium]]``. They are told apart from those of the program, and
from each other, by their keys and by their words.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from core.catalogue import findings
from core.catalogue.markings import bare
from core.model.errors import WrongInput, at, one_of
from core.model.inventory import CARRIERS
from core.model.names import Finding, Outcome
from core.model.own_shop.settings_file import OwnFindingEntry, OwnMediumEntry, OwnRepairEntry, SettingsFile
from core.model.own_shop.shop_additions import Additions, OwnFinding, OwnMedium, OwnRepair
from core.model.ranges import Range
from core.model.spoken_names import spoken
from core.pricing import bitrates
from core.services.own_shop.entry_checks import check_printable
from core.wording.messages import say

LONGEST_WORDS = 40
ROOM = "files"
_SOLD = ("usb-", "disk-")
"""Beginnings of the codes under which the program's sticks and disks stand in the price book."""


def of_file(page: SettingsFile, where: str) -> Additions:
    """The entries of a settings file; WrongInput names the entry and the key."""
    repairs = tuple(_repair(each, at(where, f"repair {n}")) for n, each in enumerate(page.repair, 1))
    codes = (*findings.page().repairs, *(each.name for each in repairs))
    added = Additions(
        findings=tuple(
            _finding(each, codes, at(where, f"finding {n}")) for n, each in enumerate(page.finding, 1)
        ),
        repairs=repairs,
        media=tuple(_medium(each, at(where, f"medium {n}")) for n, each in enumerate(page.medium, 1)),
    )
    known = {finding.value: spoken(finding) for finding in Finding}
    _check_told_apart(at(where, "finding"), added.findings, known)
    built_in = {code: say("repairs", code) for code in findings.page().repairs}
    _check_told_apart(at(where, "repair"), added.repairs, built_in)
    _check_told_apart(at(where, "medium"), added.media, _media())
    return added


def finding_entries(added: Additions) -> tuple[OwnFindingEntry, ...]:
    """The tables that `of_file` reads back to the same findings."""
    return tuple(
        OwnFindingEntry(
            each.name, each.words, each.told, each.outcome, each.repairs, each.caution, each.retired
        )
        for each in added.findings
    )


def repair_entries(added: Additions) -> tuple[OwnRepairEntry, ...]:
    """The tables that `of_file` reads back to the same repairs."""
    return tuple(
        OwnRepairEntry(
            each.name, each.words, (each.minutes.low, each.minutes.likely, each.minutes.high), each.retired
        )
        for each in added.repairs
    )


def medium_entries(added: Additions) -> tuple[OwnMediumEntry, ...]:
    """The tables that `of_file` reads back to the same media."""
    return tuple(
        OwnMediumEntry(each.name, each.words, each.gigabytes, each.minutes, each.retired)
        for each in added.media
    )


def named(added: Additions) -> tuple[tuple[str, str], ...]:
    """Key and words of each finding, as papers say them."""
    return tuple((each.name, each.words) for each in added.findings)


def _finding(entry: OwnFindingEntry, codes: Sequence[str], place: str) -> OwnFinding:
    for key in ("words", "told", "caution"):
        check_printable(getattr(entry, key), at(place, key))
    if "," in entry.words:
        raise WrongInput(at(place, "words"), entry.words, say(ROOM, "no-comma"))
    for code in entry.repairs:
        if code not in codes:
            raise WrongInput(at(place, "repairs"), code, one_of(codes))
    if (entry.outcome is Outcome.REPAIR) and not entry.repairs:
        raise WrongInput(at(place, "repairs"), list(entry.repairs), say(ROOM, "some-repair"))
    if entry.outcome is Outcome.CANNOT and entry.repairs:
        raise WrongInput(at(place, "repairs"), ", ".join(entry.repairs), say(ROOM, "no-repair"))
    repairs = tuple(dict.fromkeys(entry.repairs))
    words, told, caution = entry.words.strip(), entry.told.strip(), entry.caution.strip()
    return OwnFinding(entry.name, words, told, entry.outcome, repairs, caution, entry.retired)


def _repair(entry: OwnRepairEntry, place: str) -> OwnRepair:
    check_printable(entry.words, at(place, "words"))
    low, likely, high = entry.minutes
    if not low <= likely <= high:
        raise WrongInput(at(place, "minutes"), list(entry.minutes), say(ROOM, "bench-minutes"))
    return OwnRepair(entry.name, entry.words.strip(), Range(low, likely, high), entry.retired)


def _medium(entry: OwnMediumEntry, place: str) -> OwnMedium:
    check_printable(entry.words, at(place, "words"))
    if bool(entry.gigabytes) is bool(entry.minutes):
        key = "minutes" if entry.minutes else "gigabytes"
        raise WrongInput(at(place, key), getattr(entry, key), say(ROOM, "one-capacity"))
    if entry.name.startswith(_SOLD):
        raise WrongInput(at(place, "name"), entry.name, say(ROOM, "name-taken"))
    return OwnMedium(entry.name, entry.words.strip(), entry.gigabytes, entry.minutes, entry.retired)


def _media() -> dict[str, str]:
    """Codes and words of the media of the program."""
    discs = {code: str(disc["words"]) for code, disc in bitrates.page()["discs"].items()}
    return {**dict.fromkeys((*CARRIERS, *bitrates.CODECS), ""), **discs}


def _check_told_apart(
    place: str, own: Iterable[OwnFinding | OwnRepair | OwnMedium], known: dict[str, str]
) -> None:
    """WrongInput for a key or for words that something else has, too: nobody could type either."""
    names, called = set(known), {bare(words) for words in known.values()} | {bare(name) for name in known}
    for n, each in enumerate(own, 1):
        if each.name in names:
            raise WrongInput(at(f"{place} {n}", "name"), each.name, say(ROOM, "name-taken"))
        names.add(each.name)
        if bare(each.words) in called or not bare(each.words):
            raise WrongInput(at(f"{place} {n}", "words"), each.words, say(ROOM, "words-taken"))
        called.add(bare(each.words))
