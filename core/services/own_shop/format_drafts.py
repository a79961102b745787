"""A format of the shop's own as an owner fills it in: a name, the nearest known format, and a few figures.

What is not asked here is taken from the nearest format; a settings file may say more, and keeps it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.catalogue import formats
from core.model.names import Speed
from core.model.own_shop.settings_records import OwnFormat, own_format
from core.wording.messages import say

AS_THE_NEAREST = ""
"""Lengths and speeds are those of the nearest format."""
FIGURE_OF = {"feet": "frames_per_foot", "pieces": "seconds_a_piece", "minutes": "mm_s"}
"""The figure that an amount of each unit is reckoned with."""
_RATES = {Speed.FPS16.value: 0.3, Speed.FPS18.value: 0.4, Speed.FPS24.value: 0.3}
"""Frame rates of film of which the nearest format tells none (an assumption)."""


@dataclass(frozen=True, slots=True)
class FormatDraft:
    """What the page shows of one format; figures as they were typed, where they are none."""

    words: str
    like: str
    counted_in: str
    unit: str = AS_THE_NEAREST
    figure: float | str | None = None
    pace: float | str | None = None
    usual: tuple[str, ...] = ()
    retired: bool = False


def begun(like: str) -> FormatDraft:
    """A new format like one of the program, still without a name."""
    nearest = formats.shipped().format(like)
    amount = nearest.record.amount
    if amount is None:
        return FormatDraft("", like, nearest.counted_in.value)
    own = getattr(amount, FIGURE_OF[amount.unit])
    return FormatDraft(
        words="",
        like=like,
        counted_in=nearest.counted_in.value,
        unit=amount.unit,
        figure=own.value if own else None,
        pace=amount.pace.value if amount.pace else None,
        usual=tuple(sorted(amount.usual, key=int)),
    )


def counted_by(draft: FormatDraft, unit: str) -> FormatDraft:
    """The draft counted by another unit; figures and usual amounts begin as the nearest format has them."""
    base = begun(draft.like)
    if base.unit == unit:
        return replace(draft, unit=unit, figure=base.figure, pace=base.pace, usual=base.usual)
    return replace(draft, unit=unit, figure=None, pace=None, usual=())


def of(form: OwnFormat) -> FormatDraft:
    """What the page shows of a format as it is kept."""
    tables = form.tables
    like = str(tables.get("like", formats.shipped().names[0]))
    base = begun(like) if like in formats.shipped().names else FormatDraft("", like, "tape")
    amount = tables.get("amount", {})
    unit = str(amount.get("unit", base.unit))
    same = unit == base.unit
    return FormatDraft(
        words=form.words,
        like=like,
        counted_in=str(tables.get("counted_in", base.counted_in)),
        unit=unit,
        figure=_value(amount, FIGURE_OF.get(unit, ""), base.figure if same else None),
        pace=_value(amount, "pace", base.pace if same else None),
        usual=tuple(amount["usual"]) if "usual" in amount else base.usual if same else (),
        retired=form.retired,
    )


def kept(draft: FormatDraft, name: str, before: OwnFormat | None = None) -> OwnFormat:
    """The format of a draft under the key ``name``; what the page does not show stays as in ``before``."""
    if before is not None and of(before) == replace(draft, retired=before.retired):
        return replace(before, retired=draft.retired)
    tables = dict(before.tables) if before is not None else {}
    words = {**tables.get("words", {}), "name": draft.words.strip()}
    tables |= {"like": draft.like, "words": words, "counted_in": draft.counted_in}
    if draft.unit == AS_THE_NEAREST:
        tables.pop("amount", None)
    else:
        tables["amount"] = _amount(draft, tables.get("amount", {}))
    return own_format(name, tables, retired=draft.retired)


def _amount(draft: FormatDraft, before: dict[str, Any]) -> dict[str, Any]:
    nearest = formats.shipped().format(draft.like).record.amount
    amount: dict[str, Any] = {"unit": draft.unit, "usual": _usual(draft.usual, before.get("usual", {}))}
    if draft.figure is not None:
        amount[FIGURE_OF[draft.unit]] = _own_figure(draft.figure)
    if draft.pace is not None:
        amount["pace"] = _own_figure(draft.pace)
    if draft.unit == "feet":
        amount["rates"] = before.get("rates") or (
            dict(nearest.rates) if nearest and nearest.rates else _RATES
        )
    if nearest is None or nearest.unit != draft.unit:
        amount["written"] = before.get("written") or list(_written(draft.unit))
    elif "written" in before:
        amount["written"] = before["written"]
    return amount


def _written(unit: str) -> Sequence[str]:
    """How an amount is written where the nearest format writes another unit."""
    return {"feet": ("{n} ft", "{n} feet"), "pieces": ("{n} pieces", "{n}"), "minutes": ("{n} min",)}[unit]


def _usual(numbers: Sequence[str], before: dict[str, Any]) -> dict[str, Any]:
    """Equally usual, but for those whose weight somebody wrote down."""
    return {number: before.get(number, 1.0) for number in numbers}


def _own_figure(value: float | str) -> dict[str, Any]:
    return {"value": value, "source": say("sources", "by-the-owner"), "mark": "shop"}


def _value(amount: dict[str, Any], key: str, otherwise: float | str | None) -> float | str | None:
    found = amount.get(key)
    return found.get("value", otherwise) if isinstance(found, dict) else otherwise
