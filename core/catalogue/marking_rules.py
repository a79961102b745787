"""Markings that the catalogue does not list, read by rule: the number in them tells the minutes.

A rule is one ``[[rules]]`` of a format's file: letters with a number, the recording in which the number
counts, the length it needs. Hub and thickness are those of the listed markings around it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.catalogue import markings
from core.catalogue.format_file import CassetteEntry, FormatFile, Lot, RuleEntry, ThicknessSpan
from core.catalogue.markings import Derivation, Marking, Sourced, Speeds, bare
from core.catalogue.wound_tape import thickest_that_fits
from core.model.errors import WrongInput, at
from core.model.names import FormatName, TvSystem
from core.wording.locale_figures import listed
from core.wording.messages import say

CLEARANCE_MM = 1.5
"""A full pack stays this far inside the edge of its reel: JVC VTG82063 §1.1.25, 2nd-hand (manufacturer)."""
UNLISTED_OVER = 0.015
"""A marking that nobody lists may run so much further over its length than a listed one (an assumption)."""
_TOLD = re.compile(
    r"(?P<about>[^\W\d]+\.?|[~≈])?\s*(?P<number>\d{1,4}(?:[.,]\d{1,2})?)\s*(?P<unit>[^\W\d]+)\.?"
    r"(?:\s*(?P<more>\d{1,2})\s*(?P<minutes>[^\W\d]+)\.?)?"
)
_MINUTE, _HOUR = "min", "h"
"""Unit symbols of minute and hour: SI brochure, table 8 (standard); understood in every language."""


@dataclass(frozen=True, slots=True, eq=False)
class MarkingRule:
    """One rule of one format, with the listed markings it has to agree with."""

    entry: RuleEntry
    file: FormatFile
    mm_s: Sourced[float]
    listed: tuple[tuple[int, Marking], ...]
    """The number in each listed marking of these names, lowest first."""
    neighbors: tuple[Marking, ...]
    """Listed markings that count in the same recording and whose reel is known, shortest first."""

    @property
    def span(self) -> tuple[str, str]:
        """The first and the last marking that is read: ``T-5`` and ``T-210``."""
        low, high = self.entry.numbers
        return self.written(low), self.written(high)

    @property
    def every(self) -> Iterator[Marking]:
        """All markings that the rule reads, listed ones among them."""
        low, high = self.entry.numbers
        return (self.read(number) for number in range(low, high + 1))

    def written(self, number: int) -> str:
        return self.entry.names[0].replace("{n}", str(number))

    def number(self, text: str) -> int | None:
        """The number in ``text`` if it is written as the rule says and is in its range."""
        found = number_in(text, self.entry)
        low, high = self.entry.numbers
        return found if found is not None and low <= found <= high else None

    def read(self, number: int) -> Marking:
        """The marking with this number."""
        entry = self.entry
        cassette = CassetteEntry(self.written(number), entry.minutes * number, number=float(number))
        lot = Lot((entry.nominal.system,), entry.nominal, (cassette,), entry.length)
        made = replace(
            markings.of_entry(self.file, lot, cassette, self.mm_s),
            rule=Sourced(number, entry.source, entry.mark),
            is_told=entry.told,
            nominal_tv=None if entry.told else entry.nominal.tv,
        )
        if not entry.told:
            made = replace(made, longest_m=self._longest(made, number))
        return self._wound(made)

    def _longest(self, made: Marking, number: int) -> Sourced[float] | None:
        """As far over its length as the nearest listed marking may be, and a little more."""
        beside = [(abs(n - number), each) for n, each in self.listed if each.longest_m is not None]
        if not beside:
            return None
        _, nearest = min(beside, key=lambda each: each[0])
        assert nearest.longest_m is not None
        over = nearest.longest_m.value - nearest.metres.value
        longest = round(made.metres.value * (1 + UNLISTED_OVER) + over, 9)
        return Sourced(longest, _as_in((nearest.name,)), "derived")

    def _wound(self, made: Marking) -> Marking:
        """With the hub of the next longer listed marking, and of the shorter one the thickness if it fits."""
        longer = next((each for each in self.neighbors if each.minutes >= made.minutes), None)
        before = [each for each in self.neighbors if each.minutes <= made.minutes]
        shorter = max(before, key=lambda each: each.minutes, default=None)
        hub = longer or shorter
        if hub is None or hub.hub_radius_mm is None:
            return made
        most = self._thickest(made.metres.value, hub.hub_radius_mm.value)
        taken = shorter if shorter and _thickness(shorter) <= most else longer
        if taken is None:
            return made
        return _of_grade(replace(made, hub_radius_mm=hub.hub_radius_mm), taken, shorter, longer, most)

    def _thickest(self, metres: float, hub_mm: float) -> float:
        """The thickest tape that leaves the full pack inside the reel, in µm."""
        assert self.file.pack is not None
        return thickest_that_fits(metres, hub_mm, self.file.pack.reel_radius.value - CLEARANCE_MM)


def _as_in(names: tuple[str, ...]) -> Derivation:
    """As one listed marking is, or the two beside it are."""
    if len(names) == 1:
        return Derivation("by-neighbor", (("name", names[0]),))
    return Derivation("by-neighbors", (("one", names[0]), ("other", names[-1])))


def _of_grade(
    made: Marking, taken: Marking, shorter: Marking | None, longer: Marking | None, most: float
) -> Marking:
    """With the thickness ``taken``, and the span of both neighbors as far as it fits the reel."""
    beside = [each for each in (shorter, longer) if each]
    spans = [each.thickness_span for each in beside if each.thickness_span]
    source = _as_in(tuple(dict.fromkeys(each.name for each in beside)))
    nominal = _thickness(taken)
    thick = max(nominal, min(most, max(span.thick for span in spans)))
    return replace(
        made,
        thickness_um=Sourced(nominal, source, "derived"),
        thickness_span=ThicknessSpan(min(span.thin for span in spans), thick, str(source), "derived"),
    )


def _thickness(marking: Marking) -> float:
    assert marking.thickness_um is not None
    return marking.thickness_um.value


def check(where: str, rules: MarkingRules) -> None:
    """WrongInput for a rule that misses a listed length by more than it states; ``where`` is the file."""
    for n, rule in enumerate(rules, 1):
        for number, marking in rule.listed:
            off = abs(rule.read(number).metres.value / marking.metres.value - 1)
            if off > rule.entry.tolerance:
                accepted = say("files", "rule-tolerance", marking=marking.name, off=round(off, 4))
                raise WrongInput(at(where, f"rules {n}", "tolerance"), rule.entry.tolerance, accepted)


@dataclass(frozen=True, slots=True, eq=False)
class MarkingRules:
    """All rules of one format."""

    rules: tuple[MarkingRule, ...]

    def __iter__(self) -> Iterator[MarkingRule]:
        return iter(self.rules)

    def read(self, text: str, tv: TvSystem | None, system: FormatName) -> Marking | None:
        """The marking that one of the rules reads in ``text``; None where none does.

        Where several do (told minutes), one of the recording ``system`` comes first, then one of ``tv``.
        """
        found = [(rule, number) for rule in self if (number := rule.number(text)) is not None]
        if not found:
            return None
        rule, number = min(
            found,
            key=lambda each: (
                each[0].entry.nominal.system != system,
                tv is not None and each[0].entry.nominal.tv not in (None, tv),
            ),
        )
        return rule.read(number)

    @property
    def words(self) -> str:
        """What is read, in words: ``T-5 to T-210, E-5 to E-300, or 5 min to 300 min``; or nothing."""
        printed = [rule for rule in self if not rule.entry.told]
        told = [rule for rule in self if rule.entry.told]
        longest = sorted(told, key=lambda rule: rule.entry.numbers[1])[-1:]
        spans = (rule.span for rule in (*printed, *longest))
        said = [say("playtime", "rule-span", first=first, last=last) for first, last in spans]
        return listed(said, "or") if said else ""


def of_file(file: FormatFile, speeds: Speeds, known: tuple[Marking, ...]) -> MarkingRules:
    """The rules of one format; ``known`` are its markings."""
    return MarkingRules(tuple(_rule(file, entry, speeds, known) for entry in file.rules))


def _rule(file: FormatFile, entry: RuleEntry, speeds: Speeds, known: tuple[Marking, ...]) -> MarkingRule:
    mm_s = markings.nominal_speed(entry.nominal, speeds)
    assert mm_s is not None
    nominal = entry.nominal
    alike = (
        each
        for each in known
        if (each.nominal_speed, each.nominal_tv) == (nominal.speed, nominal.tv) and each.thickness_um
    )
    neighbors = tuple(sorted(alike, key=lambda each: (each.minutes, number_in(each.name, entry) is None)))
    return MarkingRule(entry, file, mm_s, tuple(numbered(entry, known)), neighbors)


def numbered(entry: RuleEntry, known: tuple[Marking, ...]) -> list[tuple[int, Marking]]:
    """The listed markings that are written as a rule says, each with its number, lowest first."""
    found = [
        (number, marking)
        for marking in known
        for name in (marking.name, *marking.aliases)
        if (number := number_in(name, entry)) is not None
    ]
    return sorted(found, key=lambda each: each[0])


def number_in(text: str, entry: RuleEntry) -> int | None:
    """The number in ``text`` if it is written in one of the ways of a rule; case and dashes do not count."""
    wanted = bare(told_minutes(text) if entry.told else text)
    for name in entry.names:
        before, after = (bare(part) for part in name.split("{n}"))
        middle = wanted.removeprefix(before).removesuffix(after)
        if wanted == before + middle + after and middle.isascii() and middle.isdigit():
            return int(middle)
    return None


def told_minutes(text: str) -> str:
    """``about 75 minutes`` and ``1 h 15 min`` as ``75 min``; any other text as it is."""
    found = _TOLD.fullmatch(text.strip().casefold())
    if found is None or not _is_about(found["about"]):
        return text
    number, is_hours = float(found["number"].replace(",", ".")), _is(found["unit"], _HOUR, "told-hours")
    if not is_hours and not _is(found["unit"], _MINUTE, "told-minutes"):
        return text
    if found["more"] and not (is_hours and _is(found["minutes"], _MINUTE, "told-minutes")):
        return text
    minutes = number * (60 if is_hours else 1) + int(found["more"] or 0)
    return f"{round(minutes)} {_MINUTE}"


def _is_about(word: str | None) -> bool:
    return word is None or word in "~≈" or word.rstrip(".") in _words("told-about")


def _is(word: str, symbol: str, key: str) -> bool:
    return word == symbol or word in _words(key)


def _words(key: str) -> set[str]:
    return {word.strip().casefold() for word in say("playtime", key).split(",")}
