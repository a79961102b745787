"""Worlds that differ in one thing each from one that is as planned: what a miss in large boxes is made of."""

from __future__ import annotations

from dataclasses import replace

from tests.support.worlds.brought_boxes import Sizes, as_told, living_here
from tests.support.worlds.people_at_work import Efforts, Person
from tests.support.worlds.shop_lives import Troubles
from tests.support.worlds.told_worlds import FAMILIES, LUCK, LUNCH, RIGHT

LARGER = Sizes(6.0, 0.2)
"""One box in five holds 16 to 60 tapes."""
_FAMILIES = replace(FAMILIES, sizes=LARGER)
PLANNED = replace(
    RIGHT,
    name="as planned",
    bring=lambda dice: as_told(LARGER, (("vhs", 0.67), ("hi8", 0.33))),
    boxes_a_day=0.65,
)
HOUSEHOLDS = replace(PLANNED, name="households", bring=lambda dice: living_here(_FAMILIES), boxes_a_day=0.55)
CHANGED = (
    PLANNED,
    replace(PLANNED, name="rush", troubles=Troubles(rush=LUCK.rush)),
    replace(
        PLANNED,
        name="failures",
        troubles=Troubles(between_failures=LUCK.between_failures, repair=LUCK.repair),
    ),
    replace(PLANNED, name="closed days", troubles=Troubles(closures=LUCK.closures)),
    replace(PLANNED, name="played again", troubles=Troubles(again=0.15)),
    replace(PLANNED, name="breaks", people=(Person(late=25.0, lunch=LUNCH, leaves=15.0),) * 2),
    replace(PLANNED, name="handling", efforts=Efforts(7.0, 3.0, 9.0, 16.0, counter=15.0)),
    replace(
        PLANNED,
        name="long checks",
        efforts=replace(PLANNED.efforts, check=3.0, check_share=0.3, counter=15.0),
    ),
    HOUSEHOLDS,
    replace(HOUSEHOLDS, name="other towns", bring=lambda dice: living_here(_FAMILIES.of_another_town(dice))),
    replace(
        HOUSEHOLDS, name="slow tail", bring=lambda dice: living_here(replace(_FAMILIES, alike=0.6, full=0.35))
    ),
)
