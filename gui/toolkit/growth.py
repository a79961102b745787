"""What is laid out already grows with its window: explicit type, bounds, margins and gaps on another grid.

What is made later is made on the grid that is worn then. A widget that draws or places by itself has a method
`has_grown`, called when everything around it has its new size.
"""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QApplication, QBoxLayout, QGridLayout, QHeaderView, QLayout, QWidget

from gui.toolkit import sizes, theme
from gui.toolkit.sizes import UNIT

_BOUNDLESS = 16_777_215
"""Qt's own bound of a width or height (QWIDGETSIZE_MAX): none."""
_KEPT = "drawn_up"
"""Property: name → the value on the plain grid, and the one that was set from it last."""
_POINTS = "points_drawn_up"
_BOUNDS = (
    ("minimumWidth", "setMinimumWidth", "_q_stylesheet_minw"),
    ("minimumHeight", "setMinimumHeight", "_q_stylesheet_minh"),
    ("maximumWidth", "setMaximumWidth", "_q_stylesheet_maxw"),
    ("maximumHeight", "setMaximumHeight", "_q_stylesheet_maxh"),
)
"""How each bound is read and set, and Qt's own property that says that the style sheet set it."""


def grow_with(window: QWidget, width: int, height: int) -> bool:
    """Wear the grid for a window of this size, in device-independent pixels; says whether it is another."""
    was, now = sizes.Length.now, sizes.unit_for(width, height)
    if was == now:
        return False
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.grow(now)
    theme.dress(app, theme.current_tokens(app))
    _lay_anew(window, was, now)
    return True


def _lay_anew(window: QWidget, was: int, now: int) -> None:
    widgets = [window, *window.findChildren(QWidget)]
    for layout in window.findChildren(QLayout):
        _grow_layout(layout, was, now)
    for widget in widgets:
        _grow_type(widget, was, now)
        _grow_bounds(widget, was, now)
    for widget in widgets:
        grown = getattr(widget, "has_grown", None)
        if grown is not None:
            grown()
        widget.updateGeometry()
    for widget in widgets:  # from the outside in: what was given its room before its own measure was known
        layout_of = widget.layout()
        if layout_of is not None:
            layout_of.activate()
            layout_of.setGeometry(widget.rect())


def _grow_type(widget: QWidget, was: int, now: int) -> None:
    if not widget.testAttribute(Qt.WidgetAttribute.WA_SetFont):
        return
    face = widget.font()
    points = widget.property(_POINTS) or face.pointSizeF() * UNIT / was
    if points > 0:
        widget.setProperty(_POINTS, points)  # a sheet that is put on gives back the type it found
        face.setPointSizeF(points * now / UNIT)
        widget.setFont(face)


def _grow_bounds(widget: QWidget, was: int, now: int) -> None:
    if widget.isWindow():
        return  # how large a window may be is no part of what it holds
    for name, set_name, of_sheet in _BOUNDS:
        value = getattr(widget, name)()
        if 1 < value < _BOUNDLESS and not widget.property(of_sheet):
            getattr(widget, set_name)(_grown(widget, name, value, was, now))
    if isinstance(widget, QHeaderView) and widget.orientation() is Qt.Orientation.Vertical:
        widget.setDefaultSectionSize(_grown(widget, "section", widget.defaultSectionSize(), was, now))


def _grow_layout(layout: QLayout, was: int, now: int) -> None:
    margins = layout.contentsMargins()
    sides = (margins.left(), margins.top(), margins.right(), margins.bottom())
    if any(sides):
        layout.setContentsMargins(
            *(_grown(layout, f"side-{n}", side, was, now) for n, side in enumerate(sides))
        )
    if isinstance(layout, QGridLayout):
        layout.setHorizontalSpacing(_grown(layout, "across", layout.horizontalSpacing(), was, now))
        layout.setVerticalSpacing(_grown(layout, "down", layout.verticalSpacing(), was, now))
        for column in range(layout.columnCount()):
            least = layout.columnMinimumWidth(column)
            if least:
                layout.setColumnMinimumWidth(column, _grown(layout, f"column-{column}", least, was, now))
    elif isinstance(layout, QBoxLayout) and layout.spacing() > 0:
        layout.setSpacing(_grown(layout, "gap", layout.spacing(), was, now))


def _grown(owner: QObject, name: str, value: int, was: int, now: int) -> int:
    """The value on the new grid, from the plain one where it is known, so that nothing is rounded twice."""
    kept = owner.property(_KEPT) or {}
    plain, set_last = kept.get(name, (0.0, None))
    plain = float(plain)
    if set_last != value:  # set by its owner since, on the grid of then
        plain = value * UNIT / was
    grown: int = round(plain * now / UNIT)
    kept[name] = (plain, grown)
    owner.setProperty(_KEPT, kept)
    return grown
