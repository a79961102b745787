"""What a column of a table knows: its words, how a row reads in it, and what may be typed there."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from gui.tables.choices import CellChoice
from gui.toolkit.text import say

Paint = Callable[[QPainter, QRectF, Any], bool]
"""Paints a cell's content for a row; False leaves it to the table."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column. Callables take the row; none of them may raise."""

    name: str
    words: str
    show: Callable[[Any], str]
    width: int
    """Logical pixels; the one column with ``stretch`` takes what is left over."""
    stretch: bool = False
    right: bool = False
    edited: bool = False
    edited_in: Callable[[Any], bool] | None = None
    """Whether a row may be typed into here, where not every row may."""
    choices: Callable[[Any], Sequence[CellChoice]] | None = None
    many: bool = False
    """Whether several choices may stand there, with commas between them."""
    wrong: Callable[[Any], str] | None = None
    """A sentence on what is accepted, when the text in the cell is not; else nothing."""
    paint: Paint | None = None
    hint: str = ""
    """What belongs there, for the tool tip of the heading."""
    besides: Callable[[Any], str] | None = None
    """What is painted in a cell besides its words; the tool tip tells it as well."""

    @property
    def tip(self) -> str:
        """The heading in full, with what belongs there."""
        return say("counter", "column_tip", words=self.words, hint=self.hint) if self.hint else self.words
