"""The fields of a customer's own drive, of the link of a download, and of why something is taken back."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.copies.copy_records import CopyRecord, FileSystem
from core.model.errors import WrongInput
from core.pricing import copy_fit
from core.wording import typed_amounts
from core.wording.locale_figures import figure
from gui.settings.form_fields import ChoiceField, TextField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets import wishes
from gui.widgets.layouts import labelled

USUAL_DAYS = 14
"""How long a download usually stays (common practice, no source)."""


class DriveFields(QWidget):
    """How large a drive is, and how it is formatted."""

    def __init__(self) -> None:
        super().__init__()
        self.gigabytes = TextField("drive-gigabytes")
        self.system = ChoiceField("drive-system", say("copying", "drive-system"), _systems)
        _side_by_side(
            self,
            labelled(self.gigabytes, say("copying", "drive-gigabytes")),
            labelled(self.system, say("copying", "drive-system")),
        )

    def show_copy(self, copy: CopyRecord) -> None:
        """Write what is known of the drive of this copy."""
        drive = copy.drive
        self.gigabytes.setText("" if drive is None else figure(drive.size_bytes / copy_fit.GB))
        self.system.show_value("" if drive is None else drive.file_system.value)

    def typed_size(self) -> float:
        """Gigabytes as typed; WrongInput for what is no number."""
        found = typed_amounts.number_of(self.gigabytes.text())
        if found is None:
            self.gigabytes.setFocus()
            place = self.gigabytes.accessibleName()
            raise WrongInput(place, self.gigabytes.text(), say("copying", "drive-accepted"))
        return float(found)

    def file_system(self) -> FileSystem:
        """The file system as typed; WrongInput for another."""
        value = self.system.value
        if not value:
            self.system.setFocus()
            few = ", ".join(_systems().values())
            raise WrongInput(say("copying", "drive-system"), "", say("settings", "choice-accepted", few=few))
        return FileSystem(value)


class LinkFields(QWidget):
    """The link a customer is given, and its last day."""

    def __init__(self) -> None:
        super().__init__()
        self.link, self.until = TextField("download-link"), TextField("download-until")
        self.until.setPlaceholderText(say("copying", "until-hint"))
        _side_by_side(
            self,
            labelled(self.link, say("copying", "link")),
            labelled(self.until, say("copying", "last-day")),
        )

    def day(self, today: date) -> date:
        """The last day as typed; nothing typed means two weeks from ``today``."""
        found = wishes.day(self.until.text(), today, say("copying", "last-day"))
        return found or today + timedelta(days=USUAL_DAYS)


def _side_by_side(room: QWidget, first: QWidget, second: QWidget) -> None:
    row = QHBoxLayout(room)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(2 * theme.UNIT)
    row.addWidget(first, 3)
    row.addWidget(second, 2)


def _systems() -> dict[str, str]:
    return {each.value: say("copies", f"file-system-{each.value}") for each in FileSystem}
