"""Readers that need no shop: each takes one input and answers it, or names what is wrong with it."""

from __future__ import annotations

import json
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from random import Random
from typing import Any

from core.catalogue import formats
from core.cli import argument_parser
from core.model import numbers, resource_files, serialization, shaped_toml, signature_file
from core.model.errors import TapewrightError
from core.model.quote_records import Quote
from core.model.typed_draft import TypedBox, TypedRow
from core.pricing import price_book, price_csv
from core.services import customers, inventory_file
from core.services.inventory_file import InventoryContext
from core.services.own_shop import own_sentences, secret_hashes, shop_settings
from core.store import engines
from core.store.sharing import server_address
from core.wording import message_files, record_heads, typed_amounts, typed_hours
from gui.counter import typed_box
from gui.settings import price_texts
from gui.widgets import wishes
from tests.fuzzed_readers import hostile_texts, input_files, spoiled_bytes, spoiled_documents

TODAY = date(2026, 3, 3)
READING = InventoryContext(TODAY, customer_needed=True)
LOCALES = ("en", "de", "fr", "de-CH", "hi", "ja", "en-GB")
CURRENCIES = ("USD", "EUR", "JPY", "KWD", "CHF")
Files = Mapping[str, bytes]
Feed = Callable[[Files, Random], object]
"""Feeds one input; `TapewrightError` is an answer as well."""


def inventory(files: Files, dice: Random) -> object:
    data = input_files.spoiled("box.json", files["box.json"], dice)
    return inventory_file.read(data, "box.json", READING)


def amended(files: Files, dice: Random) -> object:
    data = input_files.spoiled("amended.json", files["amended.json"], dice)
    return inventory_file.read_amended(data, "amended.json", READING)


def signature(files: Files, dice: Random) -> object:
    return signature_file.read(input_files.spoiled("pen.json", files["pen.json"], dice), "pen.json", "Ada")


def prices(files: Files, dice: Random) -> object:
    data = input_files.spoiled("prices.csv", files["prices.csv"], dice)
    return price_csv.parsed(data.decode("utf-8", "replace"), "prices.csv")


def settings(files: Files, dice: Random) -> object:
    name = dice.choice(("shop.toml", "demo"))
    whole = (
        files["shop.toml"] if name == "shop.toml" else resource_files.path("demo", "shop.toml").read_bytes()
    )
    data = input_files.spoiled("shop.toml", whole, dice)
    content = shop_settings.parsed(data.decode("utf-8", "replace"), "shop.toml")
    content.pop("price_book", None)
    return shop_settings.of_document(content, "shop.toml")


def book(_: Files, dice: Random) -> object:
    whole = tomllib.loads(resource_files.path("pricebook", "2026.toml").read_text(encoding="utf-8"))
    return price_book.of_document(spoiled_documents.spoiled(whole, dice), "book.toml")


def format_of_the_shop(_: Files, dice: Random) -> object:
    """One of the formats as a shop's own, or as it is written into its file."""
    file = dice.choice(_format_files())
    whole = tomllib.loads(file.read_text(encoding="utf-8"))
    entry = spoiled_documents.spoiled({"name": "own-one", **whole}, dice)
    made = spoiled_documents.for_toml({"format": [entry]})
    return shop_settings.of_document({**_new_shop(), **made}, "shop.toml")


def file_of_a_format(files: Files, dice: Random) -> object:
    file = dice.choice(_format_files())
    spoiled = Path("formats") / file.name
    spoiled.parent.mkdir(exist_ok=True)
    spoiled.write_bytes(input_files.spoiled("x.toml", file.read_bytes(), dice))
    try:
        return formats.load(file.parent, spoiled.parent) if dice.random() < 0.2 else shaped_toml.read(spoiled)
    finally:
        spoiled.unlink()


def wording(_: Files, dice: Random) -> object:
    """A file of sentences, as somebody who translates may leave it."""
    source = dice.choice(_wording_files())
    file = Path("words.ftl")
    file.write_bytes(spoiled_bytes.spoiled(source.read_bytes()[:6000], dice))
    return message_files.read(file, "en", None, None)


def own_sentence(_: Files, dice: Random) -> object:
    places = ("counter/booked", "paper/quote-title", "spoken/all-ready", "findings/x", "x", "", "counter/row")
    place = dice.choice(places) if dice.random() < 0.8 else hostile_texts.any_text(dice)
    text = hostile_texts.mutated(dice.choice(_SENTENCES), dice)
    return own_sentences.check([(place, text)], dice.choice(("en", "xx", "de")), "shop.toml")


_SENTENCES = (
    "Row { $row }: { $sentence }",
    "{ $n ->\n    [one] 1 tape\n   *[other] { $n } tapes\n}",
    "Order { $number } for { $name }: { $tapes }",
    '{ NUMBER($n) } { -brand } { other.attribute } { "x" }',
)


def tray(_: Files, dice: Random) -> object:
    """One box as it is typed on the Counter, cell by cell."""
    row = dice.choice(_ROWS)
    cells = {name: getattr(row, name) for name in _CELLS}
    for name in dice.sample(_CELLS, dice.choice((1, 1, 2, 3))):
        cells[name] = hostile_texts.mutated(cells[name], dice)
    box = TypedBox((TypedRow(**cells), row), name="Ada", phone="303 555 0142")
    for name in dice.sample(_FIELDS, dice.choice((0, 1, 2))):
        box = replace(box, **{name: hostile_texts.mutated(getattr(box, name) or "", dice)})
    read = typed_box.read_box(box, TODAY)
    typed_box.tidied(box.rows[0])
    return read


_CELLS = ("count", "format", "marking", "recorded_as", "speed", "tv", "findings", "label")
_FIELDS = ("name", "phone", "tv", "copies", "needed_by", "tax_exempt")
_ROWS = (
    TypedRow("6", "VHS", "T-120", speed="SP", label="winter"),
    TypedRow("1", "Hi8", "P6-120", "Digital8", "LP", "PAL", "snapped, mold", "x"),
    TypedRow("2", "8mm film", "50 ft"),
)


def wish(_: Files, dice: Random) -> object:
    text = hostile_texts.mutated(
        dice.choice(("2 × DVDs", "usb stick, DVDs", "Thu, Mar 12", "2026-03-12")), dice
    )
    return wishes.deliveries(text) if dice.random() < 0.5 else wishes.day(text, TODAY)


def figure(_: Files, dice: Random) -> object:
    """Amounts, numbers and hours as they are typed, in several locales; never an exception."""
    text = hostile_texts.mutated(dice.choice(("1,234.50", "12", "9am-5pm", "9-12:30, 13:30-18")), dice)
    locale = dice.choice(LOCALES)
    typed_amounts.minor_of(text, dice.choice(CURRENCIES), locale)
    typed_amounts.number_of(text, locale)
    price_texts.price_of(text, dice.choice(CURRENCIES))
    price_texts.percent_of(text)
    return typed_hours.spans_of(text)


def code(_: Files, dice: Random) -> object:
    """What a scanner, a caller or a receipt gives."""
    text = hostile_texts.mutated(dice.choice(("000018", "000018 001 4", "0000180014", "9f3a 77")), dice)
    name = hostile_texts.mutated("shop-20260303-093000-9f3a77c01d2e4b5a.sqlite", dice)
    record_heads.in_name(name), record_heads.stamp_in_name(name)
    return dice.choice((numbers.read_job_number, numbers.read_tape_code, _head))(text)


def phone(_: Files, dice: Random) -> object:
    """A phone number as somebody gives it: how it is dialled, and how it is compared; never an exception."""
    text = hostile_texts.mutated(
        dice.choice(("(303) 555-0142", "+49 30 123456", "00 44 20 7946 0018 x9")), dice
    )
    country = dice.choice(("US", "DE", "XX", ""))
    customers.as_dialled(text, country)
    return customers.dialled(text, country)


def _head(text: str) -> object:
    try:
        return record_heads.typed(text)
    except ValueError:  # its way of saying no; the parser of arguments names what is accepted
        return None


def argument(_: Files, dice: Random) -> object:
    """The value of one option."""
    from argparse import ArgumentTypeError

    reader = dice.choice(_VALUES)
    good = dice.choice(("2026-03-02T10:00:00-05:00", "2026-03-02", "12.5", "42", "a name", "9f3a 77"))
    try:
        return reader(hostile_texts.mutated(good, dice))
    except ArgumentTypeError:
        return None


_VALUES: tuple[Callable[[str], object], ...] = (
    *(argument_parser.text, argument_parser.moment, argument_parser.day, argument_parser.head),
    *(argument_parser.decimal, argument_parser.amount("metres", 1000.0), argument_parser.whole(1000)),
)


def stored_record(_: Files, dice: Random) -> object:
    """A record as a row or a draft keeps it: ValueError says that it is none."""
    kind, text = dice.choice(_records())
    document = spoiled_documents.spoiled(json.loads(text), dice)
    data = json.dumps(document) if dice.random() < 0.7 else _text(spoiled_bytes.spoiled(text.encode(), dice))
    try:
        return serialization.loads(kind, data)
    except ValueError:
        return None


def address(_: Files, dice: Random) -> object:
    """A database URL; nothing is connected, and what is shown of it never fails."""
    from tests.fuzzed_readers.typed_lines import URLS

    text = hostile_texts.mutated(dice.choice(URLS), dice)
    text = text if "://" in text else f"postgresql://{text}"
    server_address.shown(text)
    database = engines.open_database(text)
    database.close()
    return database


def hashed_secret(_: Files, dice: Random) -> object:
    kept = "$argon2id$v=19$m=8,t=1,p=1$c29tZXNhbHQ$iWh06vD8Fy27wf9npn6FXWiCX4K6pW6Ue1Bnzz07Z8A"
    return secret_hashes.fits(hostile_texts.mutated(kept, dice), hostile_texts.mutated("2468", dice))


def answered(feed: Feed, files: Files, dice: Random) -> str:
    """How one input was answered: taken or refused; every other exception passes."""
    try:
        feed(files, dice)
    except TapewrightError as failure:
        return str(failure.exit_code)
    return "0"


def _records() -> tuple[tuple[type[Any], str], ...]:
    box = serialization.dumps(TypedBox(_ROWS, name="Ada", copies="DVDs"))
    return ((TypedBox, box), (TypedRow, serialization.dumps(_ROWS[1])), (Quote, "{}"), (TypedBox, box))


def _new_shop() -> dict[str, Any]:
    return tomllib.loads(resource_files.path("shop", "new.toml").read_text(encoding="utf-8"))


def _format_files() -> list[Path]:
    return sorted(resource_files.path("catalogue", "formats").glob("*.toml"))


def _wording_files() -> list[Path]:
    return sorted(resource_files.path("wording", "en").rglob("*.ftl"))


def _text(data: bytes) -> str:
    return data.decode("utf-8", "surrogatepass" if data.isascii() else "replace")
