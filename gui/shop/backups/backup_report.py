"""What each place of the backups holds: the last good copy, the last one that was tried out, and how many."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtWidgets import QWidget

from core.model.backup_records import BackupPlace, BackupState
from core.model.errors import Unavailable
from core.services.own_shop import backup_places
from core.services.records_door import Shop
from gui.toolkit import theme
from gui.toolkit.text import moment, say
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import empty, stacked, words

_HEADS = theme.Length(14)


@dataclass(frozen=True, slots=True)
class BackupSight:
    """The places as they are found on their disks."""

    state: BackupState
    out_of_reach: dict[str, str]
    """Why a folder cannot be used, by the folder."""
    now: datetime

    @property
    def needs_key(self) -> bool:
        """Whether the newest backup of some place is locked."""
        return any(place.files and place.files[0].is_locked for place in self.state.places)


def look(shop: Shop) -> BackupSight:
    """Looks at every place; for the background, as a disk on the network may take its time."""
    state = backup_places.still_there(shop.ask(backup_places.read))
    out_of_reach = {}
    for place in state.places:
        try:
            backup_places.check_reachable(place.folder)
        except Unavailable as failure:
            out_of_reach[place.folder] = failure.sentence
    return BackupSight(state, out_of_reach, shop.clock())


class BackupReport(QWidget):
    """A head and some lines for each place; what is to be done stands above them."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("backup-report")
        self.setAccessibleName(say("settings", "backup-report"))
        self._column = stacked(self)
        self._write([say("settings", "backup-looking")])

    def show_sight(self, seen: BackupSight) -> None:
        """Write down what was found."""
        warning = seen.state.warning(seen.now)
        if not seen.state.places:
            self._write([say("settings", "backup-no-place")])
            return
        self._write([warning] if warning else [], seen)

    def _write(self, sentences: list[str], seen: BackupSight | None = None) -> None:
        empty(self._column)
        for sentence in sentences:
            self._column.addWidget(words(sentence, "lead"))
        told = list(sentences)
        facts = FactList(_HEADS.px)
        for number, place in enumerate(seen.state.places if seen else (), 1):
            lines = list(_lines(seen, place)) if seen else []
            facts.add(say("settings", "backup-place", number=number), [place.folder, *lines])
            told += [place.folder, *lines]
        self._column.addWidget(facts)
        self.setAccessibleDescription(" ".join(told))


def _lines(seen: BackupSight, place: BackupPlace) -> Iterator[str]:
    timezone = seen.state.timezone
    if place.folder in seen.out_of_reach:
        yield seen.out_of_reach[place.folder]
    good, checked = place.last_good, place.last_checked
    if good is None:
        yield say("settings", "backup-none-made")
    else:
        yield say("settings", "backup-last-made", when=moment(good.made_at, timezone))
    if checked is None or checked.checked_at is None:
        yield say("settings", "backup-not-tried")
    else:
        key = "backup-tried-good" if checked.is_good else "backup-tried-bad"
        yield say("settings", key, when=moment(checked.checked_at, timezone), file=checked.path.name)
    if place.files:
        yield say("settings", "backup-kept", n=len(place.files))
