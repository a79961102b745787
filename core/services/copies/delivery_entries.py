"""The copies an inventory file orders: files on a carrier, video discs; several sets alike by one number."""

from __future__ import annotations

from core.model.inventory import MOST_SETS, Delivery
from core.model.json_reader import Value
from core.pricing import copy_sizes
from core.wording.messages import say

_KEYS = ("as", "codec", "on", "sets")


def read(value: Value | None) -> tuple[Delivery, ...]:
    """The orders under ``deliver``, each set by itself; nothing where none is named.

    WrongInput, by its place, for a kind, codec or carrier that is not known.
    """
    if value is None or value.is_null:
        return ()
    entries = value.items(say("readers", "accepted_list"))
    return tuple(delivery for entry in entries for delivery in _sets(entry))


def _sets(value: Value) -> tuple[Delivery, ...]:
    members = value.members(_KEYS)
    sets = _given(members, "sets")
    return (_delivery(value, members),) * (1 if sets is None else sets.whole(1, MOST_SETS))


def _delivery(value: Value, members: dict[str, Value]) -> Delivery:
    if "as" not in members:
        value.missing("as", say("readers", "needed_one_2", kinds=", ".join(copy_sizes.KINDS)))
    kind = members["as"].one_of(copy_sizes.KINDS)
    codec, carrier = _given(members, "codec"), _given(members, "on")
    if kind != "files":
        for each in (codec, carrier):
            if each is not None:
                each.refuse(say("readers", "takes_none_only_files", kind=kind))
    return Delivery(
        kind,
        codec=None if codec is None else codec.one_of(copy_sizes.CODECS),
        carrier=None if carrier is None else carrier.one_of(copy_sizes.carriers()),
    )


def _given(members: dict[str, Value], key: str) -> Value | None:
    """The member ``key``; None when it is left out or null."""
    found = members.get(key)
    return None if found is None or found.is_null else found
