"""The same tasks in a plain spreadsheet: one row a tape or kind of tape, columns as the Counter has them.

Nothing is played: what a hand would do is written down by the same model. The sheet has a row of fields for
name and phone above the tapes; a look-up is the sheet's search; a station is a word in a cell. It knows no
prices, days or slips, so that booking is saving: that it does less is no part of the model.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tests.klm.operators import Deed, Did, keys_of

TAB, RETURN = Deed(Did.COMMAND, "tab"), Deed(Did.COMMAND, "return")
SAVE = Deed(Did.COMMAND, "save", 2)
FIND = Deed(Did.COMMAND, "find", 2)


def written(text: str) -> Iterator[Deed]:
    yield from (Deed(Did.WRITE, "", keys_of(sign)) for sign in text)


def rows(cells: Sequence[Sequence[str]], *, by_mouse: bool = False) -> Iterator[Deed]:
    """Each row cell by cell: Tab from cell to cell, over empty ones in one run, Return at its end."""
    for number, row in enumerate(cells):
        for place, cell in enumerate(row):
            if by_mouse and cell:
                yield Deed(Did.PLACE, f"{number}/{place}")
            elif place and not by_mouse:
                yield TAB
            yield from written(cell)
        if not by_mouse:
            yield RETURN


def walk_in(who: Sequence[str], cells: Sequence[Sequence[str]], *, by_mouse: bool = False) -> Iterator[Deed]:
    """Who brings the tapes, the tapes, saved."""
    yield from rows([who], by_mouse=by_mouse)
    yield from rows(cells, by_mouse=by_mouse)
    yield Deed(Did.POINT, "save") if by_mouse else SAVE


def look_up(said: str, *, by_mouse: bool = False) -> Iterator[Deed]:
    """The sheet's search."""
    yield Deed(Did.POINT, "find") if by_mouse else FIND
    yield from written(said)
    yield RETURN


def station(code_digits: str, word: str, *, by_mouse: bool = False) -> Iterator[Deed]:
    """One tape found by the digits that are typed off its label, and its new station written into its row."""
    yield from look_up(code_digits, by_mouse=by_mouse)
    yield Deed(Did.PLACE, "station") if by_mouse else TAB
    yield from written(word)
    yield RETURN


def hand_back(said: str, tapes: int, *, by_mouse: bool = False) -> Iterator[Deed]:
    """The customer found, a word written beside each tape, saved."""
    yield from look_up(said, by_mouse=by_mouse)
    for number in range(tapes):
        if by_mouse:
            yield Deed(Did.PLACE, f"tape {number}")
        yield from written("back")
        yield RETURN
    yield Deed(Did.POINT, "save") if by_mouse else SAVE
