"""The draft's undo stack: keys in one field are one step, and steps go when nobody can undo them any more."""

from __future__ import annotations

import gc

import pytest
from pytestqt.qtbot import QtBot

from core.model.typed_draft import TypedBox
from gui.counter import draft_history
from gui.counter.draft_history import Draft


@pytest.fixture
def draft(qapp: object, qtbot: QtBot) -> Draft:
    return Draft()


def typed(draft: Draft, field: str, text: str) -> None:
    for end in range(1, len(text) + 1):
        draft.write_field(field, text[:end])


def test_keys_in_one_field_are_undone_together(draft: Draft) -> None:
    typed(draft, "name", "Ada")
    typed(draft, "phone", "303")

    draft.undo.undo()
    assert (draft.box.name, draft.box.phone) == ("Ada", "")
    draft.undo.undo()
    assert draft.box == TypedBox()
    draft.undo.redo()
    assert draft.box.name == "Ada"


def test_a_key_after_undo_begins_a_step_of_its_own(draft: Draft) -> None:
    typed(draft, "name", "Ada")
    typed(draft, "phone", "303")
    draft.undo.undo()

    draft.write_field("name", "Ada F")
    draft.undo.undo()
    assert draft.box.name == "Ada"
    assert draft.undo.canRedo()


def test_no_step_outlives_the_box_it_belongs_to(draft: Draft) -> None:
    before = _steps()
    typed(draft, "name", "Ada Fenwick")
    draft.add_row()
    draft.begin(TypedBox())

    assert _steps() == before


def _steps() -> int:
    gc.collect()
    return sum(isinstance(thing, draft_history._Step) for thing in gc.get_objects())
