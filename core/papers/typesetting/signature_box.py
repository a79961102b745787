"""The place of a signature: a frame with a line to sign on, and the strokes where somebody signed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.signatures import Signature
from core.papers.typesetting import signature_strokes
from core.papers.typesetting.paper_tokens import LINE, MUTED, UNIT

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_PAD_HEIGHT = 9 * UNIT
_FOOT = 1.5 * UNIT


@dataclass(frozen=True, slots=True)
class Signed:
    """The frame, ``width`` points wide, with the strokes on it."""

    signature: Signature
    width: float
    pad: float = _PAD_HEIGHT

    @property
    def height(self) -> float:
        return self.pad + UNIT / 2

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        box = (x, y, self.width, self.pad)
        pen.box(box, line=LINE, round_by=3)
        pen.rule(x + UNIT, y + self.pad - _FOOT, self.width - 2 * UNIT, MUTED, dashed=True)
        inner = (x + UNIT, y + UNIT / 2, self.width - 2 * UNIT, self.pad - UNIT)
        signature_strokes.draw(pen, inner, self.signature)
