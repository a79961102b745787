"""Questions to the catalogue: play time, cuts and packs. No shop is needed."""

from __future__ import annotations

from core import answers, cuts, inventory_file, packreading, packs, plain_text, playtime
from core.commands.call import Call, Reply
from core.inventory import TapeLine
from core.json_text import Value

_FIELDS = ("format", "marking", "recorded_as", "speed", "tv", "fill", "fill_known", "fill_off")


def tell_playtime(call: Call) -> Reply:
    line = _line(call)
    belief = playtime.belief(line, line.tv)
    return Reply(answers.playtime(belief), plain_text.playtime(belief))


def tell_cut(call: Call) -> Reply:
    line = _line(call)
    lost = cuts.cut(line.format, line.speed, line.tv, call.asked.cm)
    return Reply(answers.cut(lost), plain_text.cut(lost))


def tell_pack(call: Call) -> Reply:
    """One reel; with the take-up as well, whether both agree with the marking."""
    line, asked = _line(call), call.asked
    reel = packs.pack(line.format, line.marking, asked.radius_mm, line.speed, line.tv)
    if asked.take_up_radius_mm is None:
        return Reply(answers.pack(reel), plain_text.pack(reel))
    both = packreading.read(
        line.format,
        line.marking,
        to_come_mm=asked.radius_mm,
        run_mm=asked.take_up_radius_mm,
        speed=line.speed,
        tv=line.tv,
    )
    document = {**answers.pack(reel), **answers.both_packs(both)}
    return Reply(document, f"{plain_text.pack(reel)}\n{plain_text.both_packs(both)}")


def _line(call: Call) -> TapeLine:
    """The cassette described by the options, read by the rules of the inventory file."""
    members = {"count": Value("", "", 1)}
    for field in _FIELDS:
        typed = getattr(call.asked, field, None)
        members[field] = Value("command line", f"--{field.replace('_', '-')}", typed)
    return inventory_file.tape_line(members)
