"""The page on what can be wrong: a finding with a repair of its own by keys, told when wrong, retired."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QScrollArea

from core.catalogue import condition
from core.model.names import FindingKey, FormatName, Outcome
from core.model.ranges import Range
from core.services.own_shop import settings_versions, shop_document
from gui.counter import accepted_words
from gui.settings import price_lines
from gui.settings.findings_page import FindingsPage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from gui.widgets import wishes
from tests.gui.settings.opened_sheets import kept, opened, save
from tests.support.screens import Place, press, type_in, written

TOLD = "It smells of smoke: we air it out for a day."


@pytest.fixture
def sheet(place: Place) -> PageSheet:
    return opened(place, place.turn_to(ShopScreen), "findings")


def page(sheet: PageSheet) -> FindingsPage:
    assert isinstance(sheet.page, FindingsPage)
    return sheet.page


def choose(box: QComboBox, words: str) -> None:
    """Down the offers to this one."""
    box.setFocus()
    press(Qt.Key.Key_Home)
    while box.currentText() != words:
        before = box.currentIndex()
        press(Qt.Key.Key_Down)
        assert box.currentIndex() > before, words


def add(sheet: PageSheet, kind: str, words: str) -> FindingsPage:
    at = page(sheet)
    choose(at.kind, kind)
    at.add.click()
    assert at.form.name.hasFocus()
    type_in(at.form.name, words)
    return at


def add_smoke(sheet: PageSheet) -> FindingsPage:
    add(sheet, "repair", "Air out")
    at = add(sheet, "finding", "smells of smoke")
    type_in(at.form.told, TOLD)
    choose(at.form.outcome, "it plays after a repair")
    box = next(box for box in at.form.repairs.boxes.values() if box.text() == "Air out")
    box.setFocus()
    press(Qt.Key.Key_Space)
    return at


def test_a_finding_with_a_repair_of_its_own_is_known_at_once(place: Place, sheet: PageSheet) -> None:
    add_smoke(sheet)
    save(place, page(sheet).kind)

    added = kept(place).additions
    assert (added.repairs[0].name, added.repairs[0].minutes) == ("air-out", Range(8, 15, 30))
    finding = added.findings[0]
    assert (finding.key, finding.told) == (FindingKey("smells-of-smoke"), TOLD)
    assert (finding.outcome, finding.repairs) == (Outcome.REPAIR, ("air-out",))
    assert accepted_words.read_findings("smells of smoke, snapped")[0] == finding.key
    assert finding.key in condition.possible(FormatName("vhs"))
    row = next(line for line in price_lines.lines(_prices(place)) if line.row.code == "air-out")
    assert (row.row.words, row.counts) == ("Air out", False)
    assert "findings" in kept(place).confirmed


def _prices(place: Place) -> dict[str, object]:
    return dict(place.records.shop.ask(shop_document.view).prices)


def test_a_medium_is_offered_for_copies(place: Place, sheet: PageSheet) -> None:
    at = add(sheet, "stick or disc", "Gift stick")
    at.form.holds.selectAll()
    type_in(at.form.holds, "64")
    save(place, page(sheet).kind)

    assert kept(place).additions.media[0].gigabytes == 64
    assert wishes.deliveries("files on Gift stick")[0].carrier == "gift-stick"


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [("likely", "soon", "Air out, minutes"), ("low", "20", "Air out, minutes")],
)
def test_what_is_wrong_is_said_at_its_field(
    place: Place, sheet: PageSheet, field: str, typed: str, sentence: str
) -> None:
    at = add(sheet, "repair", "Air out")
    edit = at.form.minutes[("low", "likely", "high").index(field)]
    edit.selectAll()
    type_in(edit, typed)
    save(place, page(sheet).kind)

    assert not kept(place).additions.repairs
    assert sentence in written(place.window)
    assert any(each.hasFocus() for each in at.form.minutes)


def test_a_name_that_is_taken_is_refused(place: Place, sheet: PageSheet) -> None:
    at = add(sheet, "finding", "snapped")
    type_in(at.form.told, "It is torn.")
    save(place, page(sheet).kind)

    assert not kept(place).additions.findings
    assert "words that nothing else of the kind is called by" in written(place.window)
    assert at.form.name.hasFocus()


def test_retired_it_is_not_offered_and_undo_brings_it_back(place: Place, sheet: PageSheet) -> None:
    add_smoke(sheet)
    save(place, page(sheet).kind)
    again = page(opened(place, place.turn_to(ShopScreen), "findings"))
    again.form.retired.click()
    press(Qt.Key.Key_F6)
    place.settle()
    place.settle()
    assert FindingKey("smells-of-smoke") not in condition.offered()

    place.records.shop.run(settings_versions.undo)
    assert FindingKey("smells-of-smoke") in condition.offered()


def test_it_fits_a_window_of_640_pixels(place: Place, sheet: PageSheet) -> None:
    """1280 × 800 at 200 %."""
    add_smoke(sheet)
    place.window.resize(640, 400)
    place.settle()

    area = sheet.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    assert isinstance(area, QScrollArea)
    assert sheet.mapTo(area, sheet.rect().topRight()).x() <= area.viewport().width()
