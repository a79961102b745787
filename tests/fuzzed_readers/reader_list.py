"""Every reader, with the modules of the program it goes through and its share of the inputs.

`tests/test_fuzzed_readers.py` looks for modules that read something and stand in no list here, and for
subcommands and options without an example.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from random import Random

from tests.fuzzed_readers import file_readers, line_readers, pure_readers, shop_readers
from tests.fuzzed_readers.pure_readers import Feed
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop

Files = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class Reader:
    """One way in."""

    name: str
    share: int
    """Of some 160,000 inputs: in proportion to those of the others."""
    feed: Callable[[ThrowawayShop, Files, Random], str]
    """Feeds one input in the shop's folder, which is the working folder, and says how it was answered.
    `FaultFound` for a fault; any other exception is one as well."""
    modules: tuple[str, ...] = ()
    """Modules that read, and are read through by it."""
    limit_s: float = 0.0
    """How long one input may take by the clock on the wall, where that is not `feeding.LIMIT_S`."""


def _pure(name: str, share: int, feed: Feed, *modules: str) -> Reader:
    return Reader(name, share, lambda _, files, dice: pure_readers.answered(feed, files, dice), modules)


def _file(name: str, share: int, feed: Callable[..., object], *modules: str) -> Reader:
    def fed(shop: ThrowawayShop, files: Files, dice: Random) -> str:
        try:
            return pure_readers.answered(lambda given, rolled: feed(shop, given, rolled), files, dice)
        finally:
            shop_readers.restored(files)

    return Reader(name, share, fed, modules)


READERS = (
    _pure(
        "inventory",
        18_000,
        pure_readers.inventory,
        *("core.model.json_reader", "core.services.inventory_file", "core.services.copies.delivery_entries"),
    ),
    _pure("amended inventory", 4_000, pure_readers.amended, "core.services.inventory_file"),
    _pure("signature", 10_000, pure_readers.signature, "core.model.signature_file"),
    _pure("prices as CSV", 6_000, pure_readers.prices, "core.pricing.price_csv"),
    _pure(
        "settings as TOML",
        4_000,
        pure_readers.settings,
        *("core.services.own_shop.shop_settings", "core.services.own_shop.opening_entries"),
    ),
    _pure("price book", 3_000, pure_readers.book, "core.pricing.price_book"),
    _pure("format of the shop", 1_500, pure_readers.format_of_the_shop),
    _pure("file of a format", 1_500, pure_readers.file_of_a_format, "core.model.shaped_toml"),
    _pure(
        "file of sentences",
        1_000,
        pure_readers.wording,
        "core.wording.message_files",
        "core.wording.own_words",
    ),
    _pure("sentence of the shop", 5_000, pure_readers.own_sentence),
    _pure("tray of the Counter", 7_000, pure_readers.tray),
    _pure("one line of the Counter", 24_000, line_readers.box_line),
    _pure("pasted table", 3_000, line_readers.pasted, "core.catalogue.box_line.pasted_table"),
    _file("dropped file", 1_500, line_readers.dropped, "gui.counter.dropped_files"),
    _pure("wish", 2_000, pure_readers.wish, "gui.widgets.wishes"),
    _pure("amount, number, hours", 8_000, pure_readers.figure, "core.wording.typed_amounts"),
    _pure("number, code, check number", 7_000, pure_readers.code, "core.wording.record_heads"),
    _pure("phone number", 4_000, pure_readers.phone, "core.services.customers"),
    _pure("value of an option", 10_000, pure_readers.argument, "core.cli.argument_parser", "gui.app.startup"),
    _pure("stored record", 6_000, pure_readers.stored_record, "core.model.serialization"),
    _pure(
        "address of a server",
        3_000,
        pure_readers.address,
        "core.store.engines",
        "core.store.sharing.server_address",
    ),
    _pure("kept secret", 1_000, pure_readers.hashed_secret),
    _file("photo", 1_500, file_readers.photo, "core.services.incident_photos", "core.model.regular_files"),
    _file(
        "logo", 1_500, file_readers.logo, "core.services.own_shop.front_entries", "gui.settings.logo_field"
    ),
    _file(
        "recording",
        600,
        file_readers.recording,
        *("core.capture.decoding", "core.capture.checksums", "core.capture.examining"),
    ),
    _file("prices in the window", 1_500, file_readers.price_file, "gui.shop.prices.price_files"),
    _file(
        "copy of a shop",
        200,
        file_readers.copied_shop,
        *("core.services.backup", "core.store.shop_files.dump", "core.store.shop_files.locked_files"),
        *("core.store.shop_files.durable_files", "core.store.columns"),
    ),
    _file("journal of a restore", 2_500, file_readers.journal, "core.store.shop_files.restore_journal"),
    _file(
        "list of erased orders",
        1_000,
        file_readers.erased_orders_listed,
        "core.store.shop_files.erased_orders",
    ),
    _file("box kept on this computer", 1_500, file_readers.draft_here, "gui.counter.local_draft"),
    _file("place of the window", 1_000, file_readers.place_of_the_window, "gui.app.window_place"),
    _file("place of a counter", 1_000, file_readers.place_of_a_counter, "gui.toolkit.counter_place"),
    Reader("words of a command line", 8_000, shop_readers.parsed_line),
    Reader(
        "command line",
        5_000,
        shop_readers.quick_command,
        (
            "core.cli.proving",
            *(
                "core.cli.invocation",
                "core.cli.entry",
                "core.cli.proving",
                "core.services.own_shop.shop_document",
            ),
            *(
                "core.cli.subcommands.shop_keeping",
                "core.cli.subcommands.own_settings",
                "core.cli.terminal_text",
            ),
            *(
                "core.services.own_shop.backup_key",
                "core.services.paper_files",
                "core.cli.subcommands.handover",
            ),
        ),
    ),
    Reader("setting", 2_000, shop_readers.typed_setting, ("core.model.own_shop.settings_differences",)),
    Reader("slow command line", 250, shop_readers.slow_command),
    Reader("search line", 500, shop_readers.said_by_a_caller, ("core.store.search",)),
    Reader(
        "altered row",
        300,
        shop_readers.altered_row,
        (
            *(
                "core.store.commands",
                "core.store.history",
                "core.store.current_prices",
                "core.store.day_events",
            ),
            *("core.store.audits.audit", "core.store.audits.row_audit", "core.store.personal_columns"),
            *(
                "core.services.drafts",
                "core.services.after_ready.noted_calls",
                "core.services.own_shop.backup_places",
            ),
            *("core.services.own_shop.settings_changes", "core.services.privacy.customer_export"),
            *("core.model.own_shop.settings_records", "core.store.current_settings"),
        ),
    ),
)

_OF_RECORDS = ("command line", "setting", "slow command line", "search line")
ON_A_SERVER = tuple(reader for reader in READERS if reader.name in _OF_RECORDS)
"""Those that read the records, and what is typed at them, on any kind of database."""

OF_THE_PROGRAM = {
    "core.catalogue.amounts": "a file of the program",
    "core.pricing.bitrates": "a file of the program",
    "core.model.program_version": "the project's own file, where it lies beside the program",
    "core.services.invented_day": "the day of the invented shop, a file of the program",
    "core.services.invented_shop": "the boxes of the invented shop, files of the program",
    "core.services.shop_places.moved_files": "copies the files of a shop that is moved, by the records",
    "core.capture.invented_clip": "makes the recording of the invented shop",
    "core.cli.subcommands.desktop": "the icon of the program, and where its user keeps data",
    "core.papers.typesetting.letterhead": "the logo that was checked when it was entered",
    "gui.customer_side.shop_logo": "the logo that was checked when it was entered",
    "gui.shop.about_chapter": "the handbook of the program",
    "gui.help.handbook_pages": "the handbook of the program",
    "core.services.accounts.drawer": "a day that it wrote itself",
    "core.wording.messages": "files of the program; those of a translator are read in message_files",
    "core.wording.locale_figures": "numbers stored as they are dialed, for showing them",
    "core.model.private_files": "makes files",
    "core.store.shop_files.dump_files": "writes a copy",
}
"""Modules that read only what comes with the program, or open what they write, with the reason."""
