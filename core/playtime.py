"""How long a tape plays: length ÷ speed, and what is believed while length or speed are not known.

A belief is a mixture over what may be on the tape: the recording, the TV system, the speed, the
cassette and how much of it is recorded. Every fact that is known leaves one case standing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from core import habits
from core.beliefs import Belief, as_range, gathered, settled, spread
from core.cassettes import Format, Marking, TapeSpeed
from core.errors import WrongInput
from core.formats import catalogue
from core.inventory import TapeLine
from core.names import FormatName, Speed, TvSystem
from core.records import Answer, Question

OVERRUN = 0.07
"""Tapes run up to 7 % over their marking: T-30, 64 m by SMPTE 32M, plays 31.99 minutes (derived)."""
DIGITAL8 = "digital8"


def play_minutes(metres: float, mm_s: float, sides: int = 1) -> float:
    """Minutes that ``metres`` of tape play at ``mm_s``, over both sides where there are two.

    Rounded to a billionth, so that what is equal on paper is equal here.
    """
    return round(metres * 1000 / mm_s / 60 * sides, 9)


def belief(line: TapeLine, tv: TvSystem | None) -> Belief:
    """What the shop believes about the play time of one tape of ``line``.

    ``tv`` is the TV system of the recording when the line names none. WrongInput as `check`.
    """
    return _belief(line.format, line.marking, line.recorded_as, line.speed, line.tv or tv, line.fill)


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

    One 8 mm shell holds three systems, and a Digital8 recording runs shorter than the marking says.
    """
    shell = catalogue().format(line.format)
    if DIGITAL8 not in shell.systems or line.recorded_as is not None or line.format == DIGITAL8:
        return ()
    named = f"{shell.words} {line.marking}" if line.marking else shell.words
    text = f"{named}: was it recorded in a Digital8 camcorder? The shell does not tell."
    analogue = [shell.name] if shell.has_own_system else [name for name in shell.systems if name != DIGITAL8]
    answers = tuple(_answer(line, tv, system) for system in (FormatName(DIGITAL8), *analogue))
    return (Question(position, text, answers),)


def _answer(line: TapeLine, tv: TvSystem | None, system: FormatName) -> Answer:
    words = catalogue().format(system).words
    draft = replace(line, recorded_as=system)
    full = as_range(belief(draft, tv).full)
    span = f"{full.low:.0f}" if full.low == full.high else f"{full.low:.0f} to {full.high:.0f}"
    if system == DIGITAL8:
        return Answer(f"yes, {words}", f"about {span} minutes when full; needs a Digital8 machine", draft)
    return Answer(f"no, {words}", f"about {span} minutes when full", draft)


@dataclass(frozen=True, slots=True)
class Recording:
    """One way a tape may have been recorded, and how likely it is."""

    system: Format
    tv: TvSystem | None
    """None where tape speed does not depend on it."""
    mm_s: float
    words: str
    weight: float


@lru_cache(maxsize=1024)
def recordings(
    name: FormatName, speed: Speed | None, tv: TvSystem | None, marking: str | None = None
) -> tuple[Recording, ...]:
    """The recordings possible on a tape that is what it was booked as; weights add up to one.

    WrongInput for a format, marking or speed that is not of this catalogue.
    """
    shell = catalogue().format(name)
    recorded = _recorded(shell, name if shell.has_own_system else None, speed, tv)
    weights: dict[tuple[Format, TapeSpeed], float] = {}
    for case in _cases(shell, shell.marking(marking), recorded, speed, tv):
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


@lru_cache(maxsize=4096)
def _belief(
    name: FormatName,
    text: str | None,
    recorded_as: FormatName | None,
    speed: Speed | None,
    tv: TvSystem | None,
    fill: float | None,
) -> Belief:
    shell = catalogue().format(name)
    marking = shell.marking(text)
    fills = habits.fill_weights(shell) if fill is None else ((_share(fill), 1.0),)
    cases = tuple(_cases(shell, marking, _recorded(shell, recorded_as, speed, tv), speed, tv))
    claimed = _claimed(shell, recorded_as, cases)
    points = gathered(
        (case.minutes(shell.sides) * share, case.weight * weight) for case in cases for share, weight in fills
    )
    overrun = OVERRUN if any(case.marking.is_shortest for case in cases) else 0.0
    return Belief(
        points=points,
        range=spread(points),
        full=settled(gathered((case.minutes(shell.sides), case.weight) for case in claimed)),
        metres=settled(gathered((case.marking.metres.value, case.weight) for case in claimed)),
        speed_mm_s=settled(gathered((case.speed.mm_s.value, case.weight) for case in claimed)),
        overrun=overrun,
        longest=max(case.minutes(shell.sides) * (1 + OVERRUN * case.marking.is_shortest) for case in cases),
        sources=tuple(dict.fromkeys(_sources(claimed, len(cases) * len(fills), overrun))),
    )


def _share(fill: float) -> float:
    if not 0 < fill <= 1:
        raise WrongInput("fill", fill, "accepted is the recorded share of the tape, above 0 and up to 1")
    return fill


def _recorded(
    shell: Format, recorded_as: FormatName | None, speed: Speed | None, tv: TvSystem | None
) -> dict[FormatName, float]:
    """The recordings that may be on the tape, with their weights."""
    if recorded_as is None:
        weights = habits.system_weights(shell)
        possible = {system: weight for system, weight in weights.items() if _runs_at(system, speed, tv)}
        return possible or {shell.systems[0]: 1.0}
    if recorded_as not in shell.systems:
        accepted = f"a {shell.words} shell takes {', '.join(shell.systems)}"
        raise WrongInput("recorded_as", recorded_as, accepted)
    return {recorded_as: 1.0}


def _runs_at(system: FormatName, speed: Speed | None, tv: TvSystem | None) -> bool:
    return any(entry.suits(speed, tv) for entry in catalogue().format(system).tape_speeds)


def _cases(
    shell: Format,
    marking: Marking | None,
    recorded: dict[FormatName, float],
    speed: Speed | None,
    tv: TvSystem | None,
) -> Iterator[_Case]:
    for name, system_weight in recorded.items():
        system = catalogue().format(name)
        choices = system.speed_choices(speed, tv)
        for system_tv, tv_weight in _tv_weights(marking, choices, tv).items():
            speeds = _speed_weights(system, choices, system_tv)
            for cassette, cassette_weight in _cassettes(shell, marking, system_tv):
                for entry, weight in speeds:
                    together = system_weight * tv_weight * cassette_weight * weight
                    yield _Case(together, system, entry, cassette)


def _tv_weights(
    marking: Marking | None, choices: tuple[TapeSpeed, ...], tv: TvSystem | None
) -> dict[TvSystem, float]:
    """Weights of the TV systems in which one of the speeds exists, adding up to one."""
    weights = {tv: 1.0} if tv else habits.tv_weights(marking)
    possible = {
        system: weight
        for system, weight in weights.items()
        if any(entry.suits(None, system) for entry in choices)
    }
    total = sum(possible.values())
    return {system: weight / total for system, weight in possible.items()}


def _speed_weights(
    system: Format, choices: tuple[TapeSpeed, ...], tv: TvSystem
) -> list[tuple[TapeSpeed, float]]:
    weights = habits.speed_weights(system, tv)
    fitting = [entry for entry in choices if entry.suits(None, tv)]
    total = sum(weights[entry.speed] for entry in fitting)
    if total == 0:
        return [(entry, 1 / len(fitting)) for entry in fitting]
    return [(entry, weights[entry.speed] / total) for entry in fitting]


def _cassettes(shell: Format, marking: Marking | None, tv: TvSystem) -> Iterator[tuple[Marking, float]]:
    if marking is not None:
        yield marking, 1.0
        return
    weights = habits.marking_weights(shell, tv)
    total = sum(weights.values())
    for entry in shell.markings:
        if entry.name in weights:
            yield entry, weights[entry.name] / total


def _claimed(shell: Format, recorded_as: FormatName | None, cases: tuple[_Case, ...]) -> tuple[_Case, ...]:
    """The cases in which the tape is what it was booked as; all of them when the shell has no name yet."""
    own = tuple(case for case in cases if case.system.name in (recorded_as, shell.name))
    return own or cases


def _sources(claimed: tuple[_Case, ...], cases: int, overrun: float) -> Iterator[str]:
    for case in claimed:
        metres = case.marking.metres
        yield f"{case.marking.name}: {metres.value:.1f} m, {metres.words}"
        yield _speed_words(case.system, case.speed)
    if overrun:
        yield f"only the marking is known: the tape may run up to {overrun:.0%} longer (derived)"
    if cases > 1:
        yield f"what is not known: {habits.source()}"


def _speed_words(system: Format, entry: TapeSpeed) -> str:
    """``VHS SP NTSC: 33.35 mm/s`` and its source."""
    tv = f" {entry.tv.value.upper()}" if entry.tv else ""
    return f"{system.words} {entry.speed.words}{tv}: {entry.mm_s.value:.5g} mm/s, {entry.mm_s.words}"
