"""What the leading button does where the next right step is no move: a form is opened, an answer is kept."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.catalogue.next_steps import Doing
from gui.agreement.price_line import StandingPriceLine
from gui.bench.bench_side import BenchSide


class LeadingStep(QObject):
    """Does what `NextStationForm.step_wanted` says, by the ways that have keys of their own, too."""

    def __init__(self, side: BenchSide, price: StandingPriceLine, parent: QObject) -> None:
        super().__init__(parent)
        self._side = side
        self._ways: dict[Doing, Callable[[], object]] = {
            Doing.GOOD_AFTER_REPAIR: side.after.good.emit,
            Doing.SPLICE: side.begin_splice,
            Doing.REPAIR: side.begin_repair,
            Doing.SIGN_OFF: side.check_wanted.emit,
            Doing.READ_FILE: side.begin_file,
            Doing.SETTLE: side.begin_settling,
            Doing.CALL: price.button.click,
            Doing.LABEL_ON: side.labelled.emit,
            Doing.LABEL_OFF: side.labelled.emit,
        }
        self._forms: dict[Doing, tuple[QWidget, ...]] = {
            Doing.SPLICE: (side.splice,),
            Doing.REPAIR: (side.repair,),
            Doing.SIGN_OFF: (side.check,),
            Doing.READ_FILE: (side.file,),
            Doing.SETTLE: (side.became, side.incident),
        }
        side.moves.step_wanted.connect(self.do)

    @Slot(object)
    def do(self, doing: Doing) -> None:
        """A form that is open already keeps what is typed in it."""
        if self._side.form_on_show not in self._forms.get(doing, ()):
            self._ways[doing]()
