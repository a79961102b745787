"""The widgets of the look-over and where they stand: drawing at the left, step at the right, keys below."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QSizePolicy, QStackedWidget, QVBoxLayout, QWidget

from core.catalogue.formats import catalogue
from core.catalogue.inspection import LookStep
from core.model.names import AnyFinding, FormatName
from core.model.spoken_names import spoken
from gui.inspection.look_end import LookEnd
from gui.inspection.look_progress import LookProgress
from gui.inspection.look_step import LETTERS, StepPage
from gui.inspection.shell_drawing import ShellArt
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.finding_field import FindingChooser
from gui.widgets.fitted_dialog import dialog_button
from gui.widgets.layouts import Columns, give_key, scrolled, stacked, words


class LookLayout:
    """Builds the widgets into ``outer``; the dialog connects them."""

    def __init__(self, outer: QVBoxLayout, *, short: bool) -> None:
        self.heading = words("", "small")
        self.place = words("", "time", wrap=False)
        self.title = words("", "heading")
        self.title.setObjectName("step-title")
        self.title.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.art = ShellArt()
        self.drawn = words("", "small")
        self.page, self.end, self.chooser = StepPage(), LookEnd(short=short), FindingChooser()
        self._pages = QStackedWidget()
        for page in (self.page, self.end, self.chooser):
            self._pages.addWidget(page)
        self.wrong = words("", "attention")
        self._so_far = words("", "small")
        self._so_far.setObjectName("found-so-far")
        self._build_buttons()
        self._lay_out(outer)

    def turn(self, page: QWidget) -> None:
        """Show one page; it alone decides how much room there must be."""
        free, bound = QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred
        for each in (self.page, self.end, self.chooser):
            each.setSizePolicy(free, bound if each is page else free)
        self._pages.setCurrentWidget(page)

    @property
    def is_choosing(self) -> bool:
        """Whether the list of everything that can be wrong is on show."""
        return self._pages.currentWidget() is self.chooser

    @property
    def area_on_show(self) -> QScrollArea:
        """What Page Up and Page Down scroll: the step, or the whole where the room is narrow."""
        return self._columns if self._columns.is_folded else self._area

    def scroll_to_top(self) -> None:
        for area in (self._columns, self._area):
            area.verticalScrollBar().setValue(0)

    def bring_into_view(self, row: QWidget) -> None:
        for area in (self._columns, self._area):
            area.ensureWidgetVisible(row, 0, theme.UNIT)

    def tell_found(self, progress: LookProgress, found: Sequence[AnyFinding]) -> None:
        """Say what was found so far, and on the buttons what they do now."""
        is_step = progress.step is not None
        named = ", ".join(spoken(finding) for finding in found)
        so_far = say("inspection", "so_far", findings=named) if found else say("inspection", "none_so_far")
        self._so_far.setText(so_far)
        self._so_far.setVisible(is_step)
        key = "on" if progress.has_finding_here else "done" if progress.is_only_to_do else "fine"
        self.on.setText(say("inspection", key))
        self.on.setVisible(is_step)
        self.keep.setText(say("inspection", "keep", count=len(found)))
        for button, is_main in ((self.on, is_step), (self.keep, not is_step)):
            theme.set_style_property(button, "role", "main" if is_main else "")

    def _build_buttons(self) -> None:
        self.on = dialog_button("look-on")
        self.back = dialog_button("look-back", say("inspection", "back"))
        self.other = dialog_button("look-other", say("inspection", "other"))
        self.keep = dialog_button("look-keep")
        give_key(self.other, "F6")
        give_key(self.keep, "Ctrl+Return")

    def _lay_out(self, outer: QVBoxLayout) -> None:
        columns = self._columns = Columns(fold_below=88 * theme.UNIT)
        columns.add(self._art_column(), 5)
        self._area = scrolled(self._pages, "look-area")
        columns.add(self._area, 6, rank=1)
        outer.addWidget(self.heading)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(self.place)
        outer.addLayout(head)
        outer.addWidget(columns, 1)
        outer.addWidget(self.wrong)
        outer.addWidget(self._so_far)
        outer.addWidget(ButtonRow((self.on, self.back, self.other, self.keep)))

    def _art_column(self) -> QWidget:
        side = QWidget()
        column = stacked(side, 2)
        column.addWidget(self.art, 1)
        column.addWidget(self.drawn)
        column.addWidget(words(say("inspection", "keys"), "small"))
        return side


def step_spoken(step: LookStep) -> str:
    """A whole step for a screen reader."""
    seen = (f"{LETTERS[finding]}: {spoken(finding)}" for finding in step.looks_for)
    return " ".join((step.title, *step.how, *step.cautions, *seen))


def caption(format: FormatName, *, short: bool = False) -> str:
    """How the drawing is held and, but at the counter (``short``), how far it is to be trusted."""
    way = "lid_away" if catalogue().format(format).anatomy.has_lid else "edge_near"
    held = say("inspection", way)
    return held if short else f"{held} {say('inspection', 'drawn')}"
