"""The labels a shop prints on: a sheet of them, or a printer that prints one after the other."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.errors import WrongInput, at
from core.model.own_shop.settings_records import Printing, ShopFront
from core.papers.typesetting.paper_tokens import MM, SIZES, sheet
from core.wording.locale_figures import figure
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class LabelSheet:
    """A sheet of labels; all lengths in points. A pitch is from one edge to the next of its kind."""

    columns: int
    rows: int
    left: float
    top: float
    pitch: float
    """Across."""
    width: float
    height: float
    air: float
    """Kept free at both sides of a label: for feeders that are not exact, for printers that cannot reach
    the edge of the paper, and as the quiet zone of the bars."""
    pitch_down: float = 0.0
    """0: the labels touch."""

    @property
    def places(self) -> int:
        return self.columns * self.rows

    @property
    def step_down(self) -> float:
        return self.pitch_down or self.height


USUAL = {
    # 3 x 8 labels of 70 x 35 mm, edge to edge across A4, the rest shared above and below
    # (common office stock, no source).
    "a4": LabelSheet(3, 8, 0, 8.5 * MM, 70 * MM, 70 * MM, 35 * MM, 12),
    # 3 x 10 labels of 2 5/8 x 1 inch on Letter, 1/8 inch apart (common office stock, no source).
    "letter": LabelSheet(3, 10, 0.1875 * 72, 36, 2.75 * 72, 2.625 * 72, 72, 8),
}

NARROWEST, LOWEST = 45.0, 24.0
"""Millimeters: the bars of the code of a tape with three lines of words over them."""
_AIR = 8.0
"""Points at the sides of a label of the shop's own."""
_INEXACT = 0.5
"""Points: the sheet is held to fit when it is over by no more than rounding of millimeters."""


def of(front: ShopFront, paper: str | None = None) -> tuple[LabelSheet, tuple[float, float]]:
    """The labels of a shop and the size of the page they are printed on, in points.

    ``paper`` asks for the usual labels of that sheet.
    """
    printing = front.printing
    if paper is None and printing.label_stock == "single":
        size = (printing.label_width_mm * MM, printing.label_height_mm * MM)
        return LabelSheet(1, 1, 0, 0, size[0], size[0], size[1], _AIR), size
    size = sheet(paper or front.paper, front.currency)
    if paper is None and printing.label_stock == "sheet":
        return _measured(printing), size
    return USUAL["letter" if size == SIZES["letter"] else "a4"], size


def start(front: ShopFront) -> int:
    """The first label still there; 1 where every label is a page of its own."""
    places = of(front)[0].places
    return front.printing.label_start if front.printing.label_start <= places else 1


def check(front: ShopFront, where: str) -> None:
    """WrongInput for labels that are too small for their codes, or that the sheet has no room for."""
    printing = front.printing
    if printing.label_stock != "usual":
        for key, least in (("label_width_mm", NARROWEST), ("label_height_mm", LOWEST)):
            if getattr(printing, key) < least:
                accepted = say("settings", "papers-label-least", least=figure(least))
                raise WrongInput(at(where, key), getattr(printing, key), accepted)
    if printing.label_stock == "sheet":
        _check_fit(front, where)
    places = of(front)[0].places
    if printing.label_stock != "single" and printing.label_start > places:
        accepted = say("readers", "sheet_places", places=places)
        raise WrongInput(at(where, "label_start"), printing.label_start, accepted)


def _check_fit(front: ShopFront, where: str) -> None:
    grid, (width, height) = of(front)
    across = grid.left + (grid.columns - 1) * grid.pitch + grid.width
    down = grid.top + (grid.rows - 1) * grid.step_down + grid.height
    for key, needed, room in (("label_columns", across, width), ("label_rows", down, height)):
        if needed > room + _INEXACT:
            found = getattr(front.printing, key)
            there, wanted = figure(round(room / MM, 1)), figure(round(needed / MM, 1))
            raise WrongInput(
                at(where, key), found, say("settings", f"papers-{key}-fit", room=there, needed=wanted)
            )


def _measured(printing: Printing) -> LabelSheet:
    return LabelSheet(
        columns=printing.label_columns,
        rows=printing.label_rows,
        left=printing.label_left_mm * MM,
        top=printing.label_top_mm * MM,
        pitch=(printing.label_width_mm + printing.label_gap_across_mm) * MM,
        width=printing.label_width_mm * MM,
        height=printing.label_height_mm * MM,
        air=_AIR,
        pitch_down=(printing.label_height_mm + printing.label_gap_down_mm) * MM,
    )
