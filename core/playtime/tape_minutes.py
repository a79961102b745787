"""How long a tape plays: length ÷ speed, and what is believed while length or speed are not known.

A belief is a mixture over what may be on the tape: the recording, the TV system, the speed, the
cassette, how much of it is recorded, and how much longer it is than its marking says. Every fact that
is known leaves fewer cases standing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

import numpy as np
from numpy.typing import NDArray

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.catalogue.markings import Marking, TapeSpeed, minutes_to_metres, play_minutes
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed, TvSystem
from core.model.quote_records import Answer, Question
from core.playtime import possibilities, starting_beliefs
from core.playtime.beliefs import Belief, Points, as_range, gathered, settled, spread, weighed
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import Choice, Facts, facts
from core.wording.locale_figures import figure, percent
from core.wording.messages import say, worded_cache

DrawnAs = tuple[Facts, ShopHabits]
"""What the play times of a tape are drawn from: what is known of it, and the shop's habits."""

_PARTS = 50
"""No part in which a stretch of the tape is looked at holds more than one in so many tapes (our choice)."""


def belief(line: TapeLine, tv: TvSystem | None, shop: ShopHabits = STARTING) -> Belief:
    """What the shop believes about the play time of one tape of ``line``.

    ``tv`` is the TV system of the recording when the line names none, ``shop`` what the shop (or the box)
    has taught. WrongInput as `check`.
    """
    return belief_of(facts(line, tv), shop)


def check(line: TapeLine, tv: TvSystem | None, place: str = "") -> None:
    """Refuse what cannot be; ``place`` goes before the name of the field, e.g. ``tapes[2]``.

    WrongInput for a format, marking, recording, speed or fill that is not of this catalogue.
    """
    try:
        belief(line, tv)
    except WrongInput as wrong:
        if not place:
            raise
        raise WrongInput(f"{place}.{wrong.place}", wrong.found, wrong.accepted) from None


def questions(line: TapeLine, tv: TvSystem | None, position: int) -> tuple[Question, ...]:
    """What to ask the customer about line number ``position`` that would narrow its play time.

    A format says which recording its shell does not tell (one 8 mm shell holds three systems).
    """
    shell = catalogue().format(line.format)
    asked = shell.asks_for
    if asked is None or line.recorded_as is not None:
        return ()
    text = say("questions", "recorded-as", tape=named(line), system=catalogue().format(asked).words)
    others = [shell.name] if shell.has_own_system else [name for name in shell.systems if name != asked]
    answers = tuple(_answer(line, tv, system, asked) for system in (asked, *others))
    return (Question(position, text, answers),)


def _answer(line: TapeLine, tv: TvSystem | None, system: FormatName, asked: FormatName) -> Answer:
    words = catalogue().format(system).words
    draft = replace(line, recorded_as=system)
    full = as_range(belief(draft, tv).full)
    span = spanned(full.low, full.high)
    key = "recorded-as-yes" if system == asked else "recorded-as-no"
    means = say("questions", f"{key}-means", minutes=span, system=words)
    return Answer(say("questions", key, system=words), means, draft)


def named(line: TapeLine) -> str:
    """``VHS T-120``: the format with what is printed on the shell."""
    words = catalogue().format(line.format).words
    return say("questions", "named", format=words, marking=line.marking) if line.marking else words


def spanned(low: float, high: float) -> str:
    """``62 to 124``, or one figure when both agree as printed; whole minutes."""
    first, last = round(low), round(high)
    return figure(first) if first == last else say("charges", "range", low=first, high=last)


@dataclass(frozen=True, slots=True)
class Recording:
    """One way a tape may have been recorded, and how likely it is."""

    system: Format
    tv: TvSystem | None
    """None where tape speed does not depend on it."""
    mm_s: float
    words: str
    weight: float


@worded_cache(maxsize=1024)
def recordings(
    name: FormatName, speed: Speed | None, tv: TvSystem | None, marking: str | None = None
) -> tuple[Recording, ...]:
    """The recordings possible on a tape that is what it was booked as; weights add up to one.

    WrongInput for a format, marking or speed that is not of this catalogue.
    """
    shell = catalogue().format(name)
    own = name if shell.has_own_system else None
    weights: dict[tuple[Format, TapeSpeed], float] = {}
    for case in _cases(Facts(name, marking, own, speed, tv), STARTING):
        key = (case.system, case.speed)
        weights[key] = weights.get(key, 0.0) + case.weight
    total = sum(weights.values())
    return tuple(
        Recording(system, entry.tv, entry.mm_s.value, _speed_words(system, entry), weight / total)
        for (system, entry), weight in weights.items()
    )


@dataclass(frozen=True, slots=True)
class _Case:
    """One way the whole tape may have been recorded."""

    weight: float
    system: Format
    speed: TapeSpeed
    marking: Marking

    def minutes(self, sides: int) -> float:
        return play_minutes(self.marking.metres.value, self.speed.mm_s.value, sides)

    def least(self, known: Facts) -> float:
        """Minutes that a tape runs at least, of which so much was measured."""
        measured = play_minutes(known.least.metres, self.speed.mm_s.value, known.shell.sides)
        return max(known.least.minutes, measured)

    def metres(self, known: Facts) -> float:
        """Metres of the whole tape: by its marking, or what was measured where that is more."""
        run = minutes_to_metres(self.least(known), self.speed.mm_s.value, known.shell.sides)
        return max(self.marking.metres.value, run)


@worded_cache(maxsize=1024)
def belief_of(known: Facts, shop: ShopHabits = STARTING) -> Belief:
    """The belief about a tape of which this much is known."""
    shell = known.shell
    shell.marking(known.marking, known.tv)
    shares = _shares(possibilities.fills(known, shop))
    cases = tuple(_cases(known, shop))
    claimed = _claimed(shell, known.recorded_as, cases)
    points = _points(cases, shares, known, shop)
    overrun = max(_overrun(case.marking) for case in cases)
    return Belief(
        points=points,
        range=spread(points, shop.levels.low, shop.levels.high),
        full=settled(
            gathered((max(case.minutes(shell.sides), case.least(known)), case.weight) for case in claimed)
        ),
        metres=settled(gathered((case.metres(known), case.weight) for case in claimed)),
        speed_mm_s=settled(gathered((case.speed.mm_s.value, case.weight) for case in claimed)),
        overrun=overrun,
        longest=max(_longest(case, known) for case in cases),
        sources=tuple(dict.fromkeys(_sources(claimed, len(cases) * len(shares), shop))),
    )


def points_of(known: Facts, shop: ShopHabits) -> Points:
    """The points of `belief_of`, not remembered: for shops that are asked once."""
    shares = _shares(possibilities.fills(known, shop))
    return _points(tuple(_cases(known, shop)), shares, known, shop)


def _cases(known: Facts, shop: ShopHabits) -> Iterator[_Case]:
    for system, system_weight in possibilities.systems(known, shop).options:
        for tv, tv_weight in possibilities.tvs(known, system, shop).options:
            speeds = possibilities.speeds(known, system, tv, shop).options
            for cassette, cassette_weight in possibilities.cassettes(known, tv).options:
                for entry, weight in speeds:
                    together = system_weight * tv_weight * cassette_weight * weight
                    yield _Case(together, system, entry, cassette)


def _points(
    cases: tuple[_Case, ...], shares: tuple[tuple[float, float], ...], known: Facts, shop: ShopHabits
) -> Points:
    """Every way to record times every share times every length of the cassette, as long as was measured."""
    recorded, share_weights = np.array(shares).T
    minutes: list[NDArray[np.float64]] = []
    weights: list[NDArray[np.float64]] = []
    for case in cases:
        over, over_weights = np.array(possibilities.lengths(case.marking, shop).options).T
        whole = np.maximum(case.minutes(known.shell.sides) * (1 + over), case.least(known))
        minutes.append(np.multiply.outer(recorded, whole).ravel())
        weights.append(case.weight * np.multiply.outer(share_weights, over_weights).ravel())
    return weighed(np.concatenate(minutes), np.concatenate(weights))


def _shares(fills: Choice[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """(recorded share, weight): each stretch in a few equal parts, each part at its middle."""
    found: list[tuple[float, float]] = []
    for (begin, end), weight in fills.options:
        parts = 1 if begin == end else ceil(weight * _PARTS)
        step = (end - begin) / parts
        found += [(begin + step * (n + 0.5), weight / parts) for n in range(parts)]
    return tuple(found)


def _longest(case: _Case, known: Facts) -> float:
    printed = case.minutes(known.shell.sides) * (1 + _most_over(case.marking))
    return round(max(printed, case.least(known)), 9)


def _most_over(marking: Marking) -> float:
    return max(starting_beliefs.over_of(marking))


def _overrun(marking: Marking) -> float:
    """By which share a tape may be longer than its marking says; 0 where its length is published."""
    return _most_over(marking) if marking.rule is not None or marking.is_shortest else 0.0


def _claimed(shell: Format, recorded_as: FormatName | None, cases: tuple[_Case, ...]) -> tuple[_Case, ...]:
    """The cases in which the tape is what it was booked as; all of them when the shell has no name yet."""
    own = tuple(case for case in cases if case.system.name in (recorded_as, shell.name))
    return own or cases


def _sources(claimed: tuple[_Case, ...], ways: int, shop: ShopHabits) -> Iterator[str]:
    for case in claimed:
        yield from _case_sources(case)
    for group in dict.fromkeys(
        starting_beliefs.length_group(case.marking) for case in claimed if case.marking.longest_m is None
    ):
        most = max(starting_beliefs.length_over(group))
        source = starting_beliefs.length_source(group)
        yield say("playtime", f"longer-{group[1]}", most=percent(most), source=source)
    for marking in dict.fromkeys(case.marking for case in claimed):
        if (longest := marking.longest_m) is not None:
            metres = figure(longest.value, digits=1)
            yield say("playtime", "longest-of", marking=marking.name, metres=metres, source=longest.words)
    if ways > 1:
        yield say("playtime", "not-known", source=starting_beliefs.source())
    if shop != STARTING:
        yield say("playtime", "learned")


def _case_sources(case: _Case) -> Iterator[str]:
    metres, marking = case.marking.metres, case.marking
    if not case.system.is_counted:
        length = figure(metres.value, digits=1)
        key = "length-by-marking" if marking.is_shortest else "length-of"
        yield say("playtime", key, marking=marking.name, metres=length, source=metres.words)
    if (rule := marking.rule) is not None and marking.unit is None:
        yield say("playtime", "read-by-rule", marking=marking.name, source=rule.words)
    yield _speed_words(case.system, case.speed)


def _speed_words(system: Format, entry: TapeSpeed) -> str:
    """``VHS SP NTSC: 33.35 mm/s`` and its source; of pictures the seconds that one takes."""
    if system.is_counted:
        seconds = figure(1 / entry.mm_s.value, digits=1)
        return say("playtime", "piece-takes", format=system.words, seconds=seconds, source=entry.mm_s.words)
    told = {"format": system.words, "speed": entry.speed.words, "source": entry.mm_s.words}
    if entry.tv is None:
        return say("playtime", "speed-of", mm_s=entry.mm_s.value, **told)
    return say("playtime", "speed-of-tv", mm_s=entry.mm_s.value, tv=entry.tv.value.upper(), **told)
