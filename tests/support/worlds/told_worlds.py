"""The worlds in which stated chances are judged: shops unlike the plan in hands, luck and customers.

None of them is what the program assumes, but for `RIGHT`: its tapes are as long as is told of them, its
people take the minutes a new shop is planned with, and nothing goes wrong. All figures are invented.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tests.support.worlds.brought_boxes import Bring, Neighbors, Sizes, as_told, living_here, moving_in
from tests.support.worlds.people_at_work import PLAIN, Dice, Efforts, Person
from tests.support.worlds.shop_lives import Troubles, World

VHS, EIGHT = frozenset({"vhs", "vhs-c"}), frozenset({"hi8"})
THREE = (VHS, VHS, EIGHT)
FIRST_OF_JUNE = 147.0
"""Day 0 is Monday, January 5, 2026."""

FAMILIES = Neighbors((("vhs", 0.6), ("vhs-c", 0.15), ("hi8", 0.25)), recorders=0.7, slow_recorders=0.75)
FILMERS = Neighbors(
    (("vhs", 0.45), ("vhs-c", 0.2), ("hi8", 0.35)),
    recorders=0.15,
    full=0.1,
    fullness=(0.35, 0.15),
)
"""Who had cameras, and left tapes half empty."""
RECORDERS = Neighbors(
    (("vhs", 0.8), ("vhs-c", 0.05), ("hi8", 0.15)),
    recorders=0.9,
    slow_recorders=0.8,
    full=0.6,
    fullness=(0.75, 0.15),
    long_tapes=0.4,
)
"""Who recorded television at the slowest speed until the tape was full."""
LUCK = Troubles(again=0.02, between_failures=15_000.0, repair=2_000.0, closures=0.008, rush=0.06)
"""What befalls most shops."""
LUNCH = (750.0, 45.0)


def _living(neighbors: Neighbors) -> Callable[[Dice], Bring]:
    return lambda dice: living_here(neighbors.of_another_town(dice))


def _change(dice: Dice) -> Bring:
    return moving_in(FILMERS.of_another_town(dice), RECORDERS.of_another_town(dice), FIRST_OF_JUNE)


def _growing(day: float) -> float:
    """Boxes come in more and more from April on."""
    return 0.9 + 0.9 * max(0.0, day - 90) / 366


def _fewer_from_june(day: float) -> float:
    return 1.0 if day < FIRST_OF_JUNE else 0.33


STEADY = World("steady", THREE, (Person(), Person(1.1)), 0.75, _living(FAMILIES), troubles=LUCK)
RIGHT = World(
    "right",
    THREE,
    (Person(), Person()),
    0.95,
    lambda dice: as_told(Sizes(6.0), (("vhs", 0.67), ("hi8", 0.33))),
    PLAIN,
)
WORLDS = (
    STEADY,
    replace(
        STEADY,
        name="lunch",
        people=(
            Person(late=25.0, lunch=LUNCH, leaves=15.0),
            Person(1.1, late=10.0, lunch=(750.0, 60.0), leaves=10.0),
        ),
    ),
    replace(
        STEADY,
        name="efforts",
        bring=_living(FILMERS),
        boxes_a_day=1.0,
        efforts=Efforts(
            load=7.0,
            unload=3.0,
            look_over=9.0,
            check=3.0,
            check_share=0.3,
            splice=50.0,
            clean=10.0,
            copies=12.0,
            copies_each=3.0,
            counter=15.0,
            spread=0.5,
        ),
    ),
    replace(STEADY, name="again", boxes_a_day=0.65, troubles=replace(LUCK, again=0.15)),
    replace(
        STEADY,
        name="alone",
        people=(Person(late=10.0, lunch=LUNCH, ill=0.02),),
        boxes_a_day=0.65,
        efforts=Efforts(5.0, 2.0, 6.0, 10.0, counter=15.0, spread=0.4),
        troubles=replace(LUCK, closures=0.0),
    ),
    replace(STEADY, name="backlog", pace=_growing),
    replace(STEADY, name="june", bring=_change, boxes_a_day=1.1, pace=_fewer_from_june),
    replace(
        STEADY,
        name="clusters",
        boxes_a_day=0.65,
        troubles=replace(LUCK, between_failures=12_000.0, repair=2_500.0, spells=(60.0, 10.0, 8.0)),
    ),
    replace(
        STEADY,
        name="big",
        decks=(VHS, VHS, VHS, EIGHT),
        bring=_living(replace(FAMILIES, sizes=Sizes(large=1.0), recorders=0.35)),
        boxes_a_day=0.21,
        days=1000,
    ),
    RIGHT,
)
"""Nine that the program knows nothing of, and the one it takes the world for."""
