"""Which TV system the tapes of a line are said to have: their own, their box's, or one to be asked about."""

from __future__ import annotations

from dataclasses import replace

from core.catalogue.formats import catalogue
from core.model.inventory import TapeLine
from core.model.names import TvSystem


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
