"""The files that command lines read: good ones, and each spoiled in its own way."""

from __future__ import annotations

import hashlib
import io
import json
import tempfile
import tomllib
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from typing import Any

import pyrage
from PIL import Image
from sqlalchemy import Connection

from core.capture import invented_clip
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from core.store.shop_files import dump
from tests.fuzzed_readers import spoiled_bytes, spoiled_documents
from tests.support.booked import MORNING, set_up
from tests.support.inventories import GOOD

AMENDED: dict[str, Any] = {**GOOD, "tapes": [{**GOOD["tapes"][0], "codes": []}]}
PEN: dict[str, Any] = {"strokes": [[[0.1, 0.2], [0.5, 0.6]], [[0.7, 0.1]]], "aspect": 3.0}
SHORT_CLIP = (("blue", 1, False), ("stage", 3, True))
Spoiler = Callable[[bytes, Random], bytes]


def made(folder: Path) -> dict[str, bytes]:
    """The good files by name; ``folder`` is for what is needed on the way."""
    with tempfile.TemporaryDirectory(dir=folder) as scratch:
        shop = Path(scratch) / "small.sqlite"
        set_up(shop)
        with Shop.open(shop, clock=lambda: MORNING) as opened:
            settings, prices = opened.ask(shop_document.export), opened.ask(shop_document.export_prices)
            with opened.database.reading.connect() as connection:
                dumped = _dumped(connection)
        plain = Path(scratch) / "copy.sqlite"
        from tests.fuzzed_readers.throwaway_shop import copied_shop

        copied_shop(shop, plain)
        key = pyrage.x25519.Identity.generate()
        clip = Path(scratch) / "clip.avi"
        _clip(clip)
        return {
            "box.json": json.dumps(GOOD).encode(),
            "amended.json": json.dumps(AMENDED).encode(),
            "pen.json": json.dumps(PEN).encode(),
            "shop.toml": settings.encode(),
            "prices.csv": prices.encode(),
            "photo.png": picture("PNG"),
            "copy.sqlite": plain.read_bytes(),
            "copy.dump": dumped,
            "copy.age": pyrage.encrypt(plain.read_bytes(), [key.to_public()]),
            "key.txt": str(key).encode(),
            "clip.avi": clip.read_bytes(),
        }


def spoiled(name: str, data: bytes, dice: Random) -> bytes:
    """The good file ``name`` with faults: half of the time as a file of its kind, else byte by byte."""
    way = _OWN_WAYS.get(Path(name).suffix)
    if way is not None and dice.random() < 0.6:
        return way(data, dice)
    return spoiled_bytes.spoiled(data, dice)


def spoiled_json(data: bytes, dice: Random) -> bytes:
    return spoiled_documents.as_json(spoiled_documents.spoiled(json.loads(data), dice), dice)


def spoiled_toml(data: bytes, dice: Random) -> bytes:
    document = spoiled_documents.spoiled(tomllib.loads(data.decode()), dice)
    return spoiled_documents.as_toml(spoiled_documents.for_toml(document)) or spoiled_bytes.spoiled(
        data, dice
    )


def spoiled_csv(data: bytes, dice: Random) -> bytes:
    """One cell, or one row, is another."""
    from tests.fuzzed_readers import hostile_texts

    lines = data.decode().split("\r\n")
    place = dice.randrange(len(lines))
    cells = lines[place].split(",")
    cell = dice.randrange(len(cells))
    text = hostile_texts.mutated(cells[cell], dice)
    cells[cell] = f'"{text}"' if dice.random() < 0.5 else text
    lines[place] = ",".join(cells)
    if dice.random() < 0.2:
        lines.insert(dice.randint(0, len(lines)), dice.choice(lines))
    return "\r\n".join(lines).encode("utf-8", "surrogatepass")


def spoiled_dump(data: bytes, dice: Random) -> bytes:
    """One row says something else, and the last line agrees with it: whoever alters it can count as well."""
    lines = data.decode().splitlines()[:-1]
    place = dice.randrange(len(lines))
    row = spoiled_documents.spoiled(json.loads(lines[place]), dice)
    lines[place] = json.dumps(row)
    body = "".join(f"{line}\n" for line in lines)
    last = {"rows": len(lines) - 1, "sha256": hashlib.sha256(body.encode()).hexdigest()}
    return f"{body}{json.dumps(last)}\n".encode()


_OWN_WAYS: Mapping[str, Spoiler] = {
    ".json": spoiled_json,
    ".toml": spoiled_toml,
    ".csv": spoiled_csv,
    ".dump": spoiled_dump,
}


def picture(kind: str) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (9, 7), "teal").save(file, kind)
    return file.getvalue()


def _dumped(connection: Connection) -> bytes:
    return "".join(f"{line}\n" for line in dump.lines(connection, datetime(2026, 3, 3, tzinfo=UTC))).encode()


def _clip(path: Path) -> None:
    """Some seconds of the invented recording: a whole one takes a second to read."""
    whole, invented_clip.SCENES = invented_clip.SCENES, SHORT_CLIP
    try:
        invented_clip.write(path)
    finally:
        invented_clip.SCENES = whole


def spoiled_json_lines(data: bytes, dice: Random) -> bytes:
    """One line of several is other JSON, or the bytes are spoiled."""
    first, end, rest = data.partition(b"\n")
    if dice.random() < 0.6:
        return spoiled_json(first, dice) + end + rest
    return spoiled_bytes.spoiled(data, dice)
