"""Questions to the catalogue: play time, cuts and packs. No shop is needed, but for its own formats."""

from __future__ import annotations

from contextlib import suppress

from core.catalogue import formats
from core.cli import json_catalogue, plain_answers
from core.cli.invocation import Invocation, Reply
from core.model.errors import TapewrightError
from core.model.inventory import TapeLine
from core.model.json_reader import Value
from core.playtime import cuts, one_pack, pack_reading, tape_minutes
from core.services import inventory_file
from core.wording.messages import say

_FIELDS = ("format", "marking", "recorded_as", "speed", "tv", "fill", "fill_known", "fill_off")


def tell_playtime(call: Invocation) -> Reply:
    line = _line(call)
    belief = tape_minutes.belief(line, line.tv)
    is_counted = formats.catalogue().format(line.format).is_counted
    return Reply(json_catalogue.playtime(belief), plain_answers.playtime(belief, is_counted=is_counted))


def tell_cut(call: Invocation) -> Reply:
    line = _line(call)
    lost = cuts.cut(line.format, line.speed, line.tv, call.asked.cm)
    return Reply(json_catalogue.cut(lost), plain_answers.cut(lost))


def tell_pack(call: Invocation) -> Reply:
    """One reel; with the take-up as well, whether both agree with the marking."""
    line, asked = _line(call), call.asked
    reel = one_pack.pack(line.format, line.marking, asked.radius_mm, line.speed, line.tv)
    if asked.take_up_radius_mm is None:
        return Reply(json_catalogue.pack(reel), plain_answers.pack(reel))
    both = pack_reading.read(
        line.format,
        line.marking,
        to_come_mm=asked.radius_mm,
        run_mm=asked.take_up_radius_mm,
        speed=line.speed,
        tv=line.tv,
    )
    document = {**json_catalogue.pack(reel), **json_catalogue.both_packs(both)}
    return Reply(document, f"{plain_answers.pack(reel)}\n{plain_answers.both_packs(both)}")


def _line(call: Invocation) -> TapeLine:
    """The cassette described by the options, read by the rules of the inventory file."""
    if call.asked.format not in formats.shipped().names and call.has_shop:
        with suppress(TapewrightError), call.open():  # which puts the shop's own formats in force
            pass
    members = {"count": Value("", "", 1)}
    for field in _FIELDS:
        typed = getattr(call.asked, field, None)
        members[field] = Value(say("cli", "command_line"), f"--{field.replace('_', '-')}", typed)
    return inventory_file.tape_line(members)
