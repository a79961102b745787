"""What may be on a tape: the recording, its TV system, its speed, the cassette, each with its weight.

One tree of choices, read in two ways: `tape_minutes` multiplies it out into a belief about one tape,
`core.playtime.box_habits` draws the tapes of one box from it together.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Generic, TypeVar

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.catalogue.markings import OVERRUN, Marking, TapeSpeed, play_minutes
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FillKnown, FormatName, Origin, Speed, TvSystem
from core.playtime import fill_stretches, starting_beliefs
from core.playtime.fill_stretches import Stretch
from core.playtime.measured_lengths import UNMEASURED, LeastLength
from core.playtime.starting_beliefs import Group, GroupWeights
from core.wording.messages import say

T = TypeVar("T")
_READ_OFF = 0.5
"""Minutes by which a counter may be off (an assumption)."""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a tape, as far as its play time goes. None: nobody knows."""

    format: FormatName
    marking: str | None = None
    recorded_as: FormatName | None = None
    speed: Speed | None = None
    tv: TvSystem | None = None
    fill: float | None = None
    origin: Origin | None = None
    fill_known: FillKnown = FillKnown.TOLD
    fill_off: float | None = None
    box_tv: TvSystem | None = None
    """What the box is said to be, against the marking of this tape; `tv` is not known then."""
    least: LeastLength = UNMEASURED
    """What was measured of this very tape."""

    @property
    def shell(self) -> Format:
        """WrongInput when the catalogue does not know the format."""
        return catalogue().format(self.format)

    @property
    def unfilled(self) -> Facts:
        """The same without what is known of the recorded share."""
        return replace(self, fill=None, fill_known=FillKnown.TOLD, fill_off=None)


def facts(line: TapeLine, tv: TvSystem | None = None, least: LeastLength = UNMEASURED) -> Facts:
    """What a line says; ``tv`` is the TV system of the box, for a line that names none.

    Where the marking tells another system than the box, both are possible (`is_doubted`). ``least`` is what
    was measured of the tape.
    """
    is_filled = line.fill is not None
    box = tv or line.box_tv
    told = told_tv(line, box)
    if line.fill is not None and line.fill > 1:
        least = replace(least, metres=max(least.metres, metres_told(line, told)))
    return Facts(
        format=line.format,
        marking=line.marking,
        recorded_as=line.recorded_as,
        speed=line.speed,
        tv=told,
        fill=line.fill if line.fill is None else min(line.fill, 1.0),
        origin=line.origin,
        fill_known=line.fill_known if is_filled else FillKnown.TOLD,
        fill_off=line.fill_off if is_filled else None,
        box_tv=box if told is None else None,
        least=least,
    )


def metres_told(line: TapeLine, tv: TvSystem | None = None) -> float:
    """Metres that are recorded by a told share above 1: the tape is longer than its marking says.

    WrongInput for more than a shell of the format holds: the longest tape that is sold in it, overrun
    included.
    """
    shell = catalogue().format(line.format)
    marking = shell.marking(line.marking, tv) or shell.marking(shell.usual_pack) or shell.markings[0]
    told = (line.fill or 1.0) * marking.metres.value
    longest = max(shell.markings, key=lambda each: each.metres.value)
    if told > longest.metres.value * (1 + OVERRUN):
        accepted = say(
            "playtime", "fill-beyond", format=shell.words, marking=longest.name, source=longest.metres.words
        )
        raise WrongInput("fill", line.fill, accepted)
    return told


def told_tv(line: TapeLine, box: TvSystem | None) -> TvSystem | None:
    """The TV system of the tapes of a line in a box of that system; None where it has to be asked.

    A box's system holds for every tape in it that names none, but for one whose marking tells the other.
    """
    return line.tv or (None if is_doubted(line, box) else box)


def out_of_box(line: TapeLine, box: TvSystem | None) -> TapeLine:
    """The line as its tapes keep it when they leave a box of that system: told, or still to be asked."""
    told = told_tv(line, box)
    return replace(line, tv=told, box_tv=box if told is None else None)


def is_doubted(line: TapeLine, box: TvSystem | None) -> bool:
    """Whether the marking of a line that names no TV system tells another one than its box does.

    WrongInput for a marking that cannot be read.
    """
    if line.tv is not None or box is None:
        return False
    shell = catalogue().format(line.format)
    expected = tuple(name for name, weight in shell.record.systems.items() if weight)
    systems = (line.recorded_as,) if line.recorded_as in shell.systems else expected
    matters = any(entry.tv for name in systems if name for entry in catalogue().format(name).tape_speeds)
    return matters and shell.sold_for(line.marking) not in (None, box)


@dataclass(frozen=True, slots=True)
class Choice(Generic[T]):
    """Possibilities of one kind with weights that add up to one."""

    group: Group | None
    """The habit behind it; None where a box has none of its own."""
    options: tuple[tuple[T, float], ...]
    mass: float = 1.0
    """Share of the habit that what is known left over."""


def systems(known: Facts, shop: GroupWeights) -> Choice[Format]:
    """The recordings that may be on the tape; WrongInput for one that does not fit the shell."""
    shell = known.shell
    if known.recorded_as is not None:
        if known.recorded_as not in shell.systems:
            accepted = say("playtime", "shell-takes", format=shell.words, names=", ".join(shell.systems))
            raise WrongInput("recorded_as", known.recorded_as, accepted)
        return Choice(None, ((catalogue().format(known.recorded_as), 1.0),))
    weights = {
        catalogue().format(name): weight
        for name, weight in system_weights(shell, shop).items()
        if _runs_at(name, known)
    }
    if not weights:
        return Choice(None, ((catalogue().format(shell.systems[0]), 1.0),))
    return _choice(starting_beliefs.system_group(shell), weights)


def tvs(known: Facts, system: Format, shop: GroupWeights) -> Choice[TvSystem]:
    """The TV systems in which one of the speeds exists; WrongInput for a speed the recording has not."""
    choices = system.speed_choices(known.speed, known.tv)
    if known.tv is not None:
        return Choice(None, ((known.tv, 1.0),))
    marking = known.shell.marking(known.marking)
    weights = {
        tv: weight * _box_says(known, tv)
        for tv, weight in tv_weights(marking, shop).items()
        if any(entry.suits(None, tv) for entry in choices)
    }
    return _choice(starting_beliefs.tv_group(marking), weights)


def _box_says(known: Facts, tv: TvSystem) -> float:
    """The likelihood of what is said of the whole box, were the tape recorded in ``tv``."""
    if known.box_tv is None:
        return 1.0
    wrong = starting_beliefs.box_tv_wrong()
    return 1 - wrong if tv is known.box_tv else wrong


def speeds(known: Facts, system: Format, tv: TvSystem, shop: GroupWeights) -> Choice[TapeSpeed]:
    """The speeds possible under what is known."""
    weights = speed_weights(system, tv, shop, known.origin)
    fitting = _reaching(known, tv, system.speed_choices(known.speed, known.tv))
    found = {entry: weights[entry.speed] for entry in fitting}
    if not any(found.values()):
        return Choice(None, tuple((entry, 1 / len(fitting)) for entry in fitting))
    return _choice(starting_beliefs.speed_group(system, tv), found)


def _reaching(known: Facts, tv: TvSystem, choices: Iterable[TapeSpeed]) -> list[TapeSpeed]:
    """The speeds at which the tape may run as long as was measured; the slowest where none does."""
    fitting = [entry for entry in choices if entry.suits(None, tv)]
    if known.least.minutes <= 0:
        return fitting
    longest = max(
        cassette.metres.value * (1 + max(starting_beliefs.over_of(cassette)))
        for cassette, _ in cassettes(known, tv).options
    )
    sides, least = known.shell.sides, known.least.minutes - _READ_OFF
    reaching = [entry for entry in fitting if play_minutes(longest, entry.mm_s.value, sides) >= least]
    return reaching or [min(fitting, key=lambda entry: entry.mm_s.value)]


def cassettes(known: Facts, tv: TvSystem) -> Choice[Marking]:
    """The cassette, or the usual ones while its marking cannot be read."""
    shell = known.shell
    marking = shell.marking(known.marking, tv)
    if marking is not None:
        return Choice(None, ((marking, 1.0),))
    weights = starting_beliefs.marking_weights(shell, tv)
    return _choice(None, {entry: weights[entry.name] for entry in shell.markings if entry.name in weights})


def fills(known: Facts, shop: GroupWeights) -> Choice[Stretch]:
    """How much is recorded: stretches of the tape from share to share, each equally likely within."""
    group, edges = starting_beliefs.fill_group(known.shell), starting_beliefs.fill_edges()
    stretches = dict(zip(pairwise(edges), shop.weights(group).values(), strict=True))
    if known.fill is None and known.shell.habits.fill == starting_beliefs.WHOLE:
        return Choice(None, (((1.0, 1.0), 1.0),))
    if known.fill is None:
        return _choice(group, stretches, keep=True)
    if not 0 < known.fill <= 1:
        accepted = say("playtime", "fill-accepted")
        raise WrongInput("fill", known.fill, accepted)
    if known.fill == 1:
        return Choice(None, (((1.0, 1.0), 1.0),))
    if known.fill_known is FillKnown.AT_LEAST:
        return _choice(group, dict(fill_stretches.beyond(known.fill, stretches)))
    around = fill_stretches.around(known.fill, _fill_off(known), edges, list(stretches.values())[:-1])
    return _choice(None, dict(around))


def _fill_off(known: Facts) -> float:
    """How far the recorded share may lie from the one that is known."""
    if known.fill_off is not None or known.fill is None:
        return known.fill_off or 0.0
    off = starting_beliefs.told_fill_off(known.fill)
    return min(off, starting_beliefs.read_fill_off()) if known.fill_known is FillKnown.READ else off


def lengths(marking: Marking, shop: GroupWeights) -> Choice[float]:
    """How much longer the cassette is than the catalogue's length, as a share of it."""
    found = shop.weights(starting_beliefs.length_group(marking))
    return Choice(None, tuple(zip(starting_beliefs.over_of(marking), found.values(), strict=True)))


def lengths_of(group: Group, shop: GroupWeights) -> Choice[float]:
    """The same for one group of markings."""
    found = shop.weights(group)
    return Choice(None, tuple(zip(starting_beliefs.length_over(group), found.values(), strict=True)))


def tv_weights(marking: Marking | None, shop: GroupWeights) -> dict[TvSystem, float]:
    """How likely each TV system is, given the marking when it was made for one of them."""
    found = shop.weights(starting_beliefs.tv_group(marking))
    return {tv: found[tv.value] for tv in TvSystem}


def system_weights(shell: Format, shop: GroupWeights) -> dict[FormatName, float]:
    """How likely each recording is that fits the shell."""
    found = shop.weights(starting_beliefs.system_group(shell))
    return {FormatName(name): weight for name, weight in found.items()}


def speed_weights(
    system: Format, tv: TvSystem, shop: GroupWeights, origin: Origin | None = None
) -> dict[Speed, float]:
    """How likely each recording speed is."""
    found = starting_beliefs.of_origin(shop.weights(starting_beliefs.speed_group(system, tv)), system, origin)
    return {Speed(name): weight for name, weight in found.items()}


def _runs_at(system: FormatName, known: Facts) -> bool:
    return any(entry.suits(known.speed, known.tv) for entry in catalogue().format(system).tape_speeds)


def _choice(group: Group | None, weights: dict[T, float], *, keep: bool = False) -> Choice[T]:
    """Weights scaled to one; what cannot be is left out unless ``keep`` is set."""
    mass = sum(weights.values())
    options = tuple((one, weight / mass) for one, weight in weights.items() if keep or weight > 0)
    return Choice(group, options, mass)
