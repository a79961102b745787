"""The guided look-over: what to do with one kind of cassette, in which order, and what each finding changes.

The steps stand in ``resources/catalogue/inspection.toml``: common practice, unless they say otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

from msgspec import Struct

from core.catalogue import acclimatisation, bench_cards, condition, findings, hazards
from core.catalogue.format_file import Hazard, Mark, Words
from core.catalogue.format_words import numbered
from core.catalogue.formats import catalogue
from core.catalogue.markings import Sourced
from core.model import resource_files
from core.model.names import AnyFinding, Container, Finding, FormatName, Outcome
from core.model.ranges import ZERO, Range
from core.model.repair_records import Hold
from core.model.shaped_toml import read, shaped
from core.wording.messages import knows, say, worded_cache

COLD = "cold"
"""The step that asks for a temperature instead of findings."""

ROOM_C = 20.0
"""Taken for the room when nobody says otherwise: 20 ± 1 °C is the test climate of SMPTE 250M (standard)."""

_OUTCOMES = tuple(Outcome)


@dataclass(frozen=True, slots=True)
class LookStep:
    """One thing to do and what to look for while doing it."""

    key: str
    title: str
    how: tuple[str, ...]
    light: str
    lamp: str
    """Where that light is drawn: room, above, side, flat, through; empty where none is needed."""
    part: str
    """What to point at in a drawing: shell, window, screws, protect, lid, latch, tape, release, hubs."""
    side: str
    """Which side is turned up: above or below."""
    looks_for: tuple[AnyFinding, ...]
    """What may be found here, what changes most first."""
    ask: str
    """The same step as one question at the counter; empty where the counter leaves it out."""
    cautions: tuple[str, ...]
    stop: str
    """What to do at once when something is found here; empty where the look-over goes on."""
    source: Sourced[None]


@dataclass(frozen=True, slots=True)
class Change:
    """What one finding changes for the shop and for the customer."""

    finding: AnyFinding
    harms: bool
    """Somebody, a machine or the next tape could be hurt."""
    outcome: Outcome
    not_for_reuse: bool
    repairs: tuple[str, ...]
    """What goes on the bill."""
    bench_minutes: Range
    """What it adds to the bench time, so to the date."""
    means: str
    """One sentence for the customer."""
    decides: bool = True
    """Whether it decides what is done, and no other finding does."""
    hold: Hold | None = None
    """What is waited for before anything is done."""


@worded_cache(maxsize=256)
def steps(name: FormatName) -> tuple[LookStep, ...]:
    """The whole look-over of one format, in its order; WrongInput when the format is not known."""
    thing = catalogue().format(name).counted_in
    return tuple(_step(entry, name) for entry in _page().steps if thing in entry.things)


def short_steps(name: FormatName) -> tuple[LookStep, ...]:
    """The few steps of the counter, while the customer waits."""
    return tuple(step for step in steps(name) if step.ask)


def change(finding: AnyFinding, name: FormatName, among: Iterable[AnyFinding] = ()) -> Change:
    """What this finding changes on a cassette of format ``name``.

    ``among``: everything that was found; where another finding decides, this one is a fact and no more.
    """
    decides = finding in condition.leading((finding, *among))
    verdict = condition.verdict((finding,), name)
    if not decides:
        verdict = replace(verdict, repairs=(), not_for_reuse=False)
    minutes = ZERO
    for repair in verdict.repairs:
        minutes += repair.minutes
    return Change(
        finding=finding,
        harms=findings.of(finding).kept_apart,
        outcome=verdict.outcome,
        not_for_reuse=verdict.not_for_reuse,
        repairs=tuple(repair.words for repair in verdict.repairs),
        bench_minutes=minutes,
        means=next(iter(findings.sentences("means" if decides else "also", finding)), ""),
        decides=decides,
        hold=verdict.hold,
    )


def ranked(found: Iterable[AnyFinding], name: FormatName) -> tuple[Change, ...]:
    """The findings by what they change, most first; see `in_order`."""
    wanted = frozenset(found)
    return tuple(change(each.finding, name, wanted) for each in _alone(wanted, name))


def in_order(changes: Iterable[Change]) -> tuple[Change, ...]:
    """Changes, most first.

    Safety goes before everything, then the outcome, worst
    first, what waits for an answer among the worst; then a tape that may never be used again;
    then what costs the most time at the bench, which is both price and date.
    """
    return tuple(sorted(changes, key=_weight))


def cautions(found: Iterable[AnyFinding], name: FormatName) -> tuple[str, ...]:
    """What could hurt somebody or the tape while these findings are dealt with; each said once.

    Where something has to be opened, the cautions of opening come too, with the rules that go first.
    """
    verdict = condition.verdict(found, name)
    opening = bench_cards.card(name).opening_cautions if verdict.repairs else ()
    return tuple(dict.fromkeys((*verdict.cautions, *opening)))


def waiting(tape_c: float, room_c: float = ROOM_C) -> str:
    """How long the tape waits before it is played, as one sentence. Degrees are Celsius."""
    hours = acclimatisation.hours_to_wait(tape_c, room_c)
    if not hours:
        return say("look", "no-wait")
    return say("look", "wait-warm" if tape_c < room_c else "wait-cool", hours=-(-hours * 2 // 1) / 2)


def _alone(found: Iterable[AnyFinding], name: FormatName) -> tuple[Change, ...]:
    return in_order(change(finding, name) for finding in findings.in_order(found))


def _weight(each: Change) -> tuple[bool, int, bool, float]:
    return (
        not each.harms,
        -_OUTCOMES.index(each.outcome if each.hold is None else Outcome.CANNOT),
        not each.not_for_reuse,
        -each.bench_minutes.high,
    )


class StepEntry(Struct, frozen=True, forbid_unknown_fields=True):
    """One ``[[steps]]`` of ``inspection.toml``; its words are in ``look.ftl``, under its key."""

    key: Words
    part: Literal["shell", "window", "screws", "protect", "lid", "latch", "tape", "release", "hubs"]
    side: Literal["above", "below"]
    short: bool
    """Asked at the counter while the customer waits."""
    looks_for: tuple[Finding, ...]
    things: tuple[Container, ...] = (Container.TAPE,)
    """What is looked over so."""
    lamp: Literal["", "room", "above", "side", "flat", "through"] = ""
    hazards: tuple[Hazard, ...] = ()
    source: str = ""
    mark: Mark | None = None


class InspectionFile(Struct, frozen=True, forbid_unknown_fields=True):
    """The shape of ``inspection.toml``; ``source`` and ``mark`` are those of a step that names none."""

    source: Words
    mark: Mark
    steps: tuple[StepEntry, ...]


@cache
def _page() -> InspectionFile:
    path = resource_files.path("catalogue", "inspection.toml")
    return shaped(read(path), InspectionFile, path.name)


def _step(entry: StepEntry, name: FormatName) -> LookStep:
    form = catalogue().format(name)
    how = form.sentences(f"look-{entry.key}") or tuple(numbered("look", f"how-{entry.key}"))
    if entry.key == "protect":
        how = (*how, *(form.sentences("protect") or (say("look", "protect-unknown"),)))
    return LookStep(
        key=entry.key,
        title=say("look", f"title-{entry.key}"),
        how=how,
        light=_said(f"light-{entry.key}"),
        lamp=entry.lamp,
        part=form.record.look.part(entry.key) or entry.part,
        side=entry.side,
        looks_for=tuple(each.finding for each in _alone(entry.looks_for, name)),
        ask=say("look", f"ask-{entry.key}") if entry.short else "",
        cautions=tuple(hazards.caution(hazard) for hazard in entry.hazards),
        stop=_said(f"stop-{entry.key}"),
        source=Sourced(None, entry.source or _page().source, entry.mark or _page().mark),
    )


def _said(key: str) -> str:
    """A sentence that not every step has."""
    return say("look", key) if knows("look", key) else ""
