"""Readers of whole files and folders: photos, logos, recordings, copies of the shop, what lies beside it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from random import Random

from PySide6.QtCore import QRect

from core.capture import examining
from core.model.errors import TapewrightError
from core.model.typed_draft import TypedBox, TypedRow
from core.services import backup, incident_photos
from core.services.own_shop import front_entries
from core.store.shop_files import erased_orders, restore_journal
from gui.app import window_place
from gui.counter.local_draft import LocalDraft
from gui.settings import logo_field
from gui.shop.prices import price_files
from gui.toolkit import counter_place
from tests.fuzzed_readers import hostile_files, input_files, spoiled_bytes
from tests.fuzzed_readers.fault_found import FaultFound
from tests.fuzzed_readers.fed_commands import put
from tests.fuzzed_readers.throwaway_shop import ThrowawayShop
from tests.support.booked import MORNING

Files = Mapping[str, bytes]


def photo(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """Nothing is left in the folder of photos of what is none."""
    file, folder = _pictured(files, dice), Path("photos")
    try:
        return incident_photos.keep(file, folder)
    except TapewrightError:
        if folder.exists() and any(folder.iterdir()):
            raise FaultFound("a photo that was refused is kept", str(list(folder.iterdir()))) from None
        raise
    finally:
        hostile_files.clear(folder)


def logo(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    import base64

    file = _pictured(files, dice)
    if file.is_file() and not file.is_symlink() and dice.random() < 0.5:
        return front_entries._is_logo(base64.b64encode(file.read_bytes()[:2_000_000]).decode())
    return logo_field.encoded(file)


def recording(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    return examining.examine(_odd_file("clip.avi", files, dice, 0.3))


def price_file(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """As the window reads it; the command line's way is among the command lines."""
    return price_files.content(_odd_file("prices.csv", files, dice, 0.3))


def copied_shop(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """A backup, rehearsed; of a copy that is refused nothing may be left in the scratch folder."""
    name = dice.choice(("copy.dump", "copy.dump", "copy.dump", "copy.sqlite", "copy.age"))
    file = _odd_file(name, files, dice, 0.05)
    key = files["key.txt"].decode()
    if dice.random() < 0.1:
        key = input_files.spoiled("key.txt", files["key.txt"], dice).decode("utf-8", "replace")
    return backup.check(file, MORNING, key)


def journal(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """What lies beside a shop after a restore that was cut off; the shop itself stays."""
    place = Path("cut-off/shop.sqlite")
    place.parent.mkdir(exist_ok=True)
    place.write_bytes(b"a shop")
    lies = restore_journal.place(place.absolute())
    good = b'[".restoring-0", "shop-before.sqlite"]\n' + dice.choice((b"", b"decided\n"))
    if dice.random() < 0.2:
        hostile_files.put(lies, hostile_files.any_kind(dice))
    else:
        put(lies, input_files.spoiled_json_lines(good, dice))
    try:
        restore_journal.settle(place.absolute())
    finally:
        is_there = place.exists() and place.read_bytes() == b"a shop"
        hostile_files.clear(place.parent)
    if not is_there:
        raise FaultFound("a journal takes the shop away", repr(good))
    return None


def erased_orders_listed(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """The list beside the backups: what is no order on it is none, never an exception."""
    folder = Path("list")
    folder.mkdir()
    if dice.random() < 0.3:
        hostile_files.put(folder / erased_orders.NAME, hostile_files.any_kind(dice))
    else:
        marks = "".join(f"{erased_orders.mark(f'{n:06d}', '2026')}\n" for n in range(20))
        put(folder / erased_orders.NAME, spoiled_bytes.spoiled(marks.encode(), dice))
    try:
        return erased_orders.listed(folder)
    finally:
        hostile_files.clear(folder)


def draft_here(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """A box kept on this computer: None where it cannot be read, never an exception."""
    kept = LocalDraft(Path("drafts"), "counter 1")
    kept.keep(TypedBox((TypedRow("6", "VHS"),), name="Ada"))
    (file,) = Path("drafts").glob("*.json")
    data = file.read_bytes()
    if dice.random() < 0.2:
        hostile_files.put(file, hostile_files.any_kind(dice))
    else:
        put(file, input_files.spoiled("x.json", data, dice))
    try:
        return kept.kept()
    finally:
        hostile_files.clear(Path("drafts"))


def place_of_a_counter(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """The name of this computer: whatever lies there, a window finds a place."""
    folder = Path("places")
    counter_place.take(folder).release()
    file = folder / "counter-id"
    if dice.random() < 0.3:
        hostile_files.put(file, hostile_files.any_kind(dice))
    else:
        put(file, spoiled_bytes.spoiled(file.read_bytes(), dice))
    try:
        taken = counter_place.take(folder)
        taken.release()
    finally:
        hostile_files.clear(folder)
    if not 0 < len(taken.name) <= 72:
        raise FaultFound("a place without a name that fits", repr(taken.name))
    return taken.name


def place_of_the_window(shop: ThrowawayShop, files: Files, dice: Random) -> object:
    """Where the window was left: whatever stands there, it opens on the screen."""
    folder, screen = Path("window"), QRect(0, 0, 1366, 728)
    folder.mkdir(exist_ok=True)
    file = folder / "window-place"
    if dice.random() < 0.3:
        hostile_files.put(file, hostile_files.any_kind(dice))
    else:
        put(file, spoiled_bytes.spoiled(b"86 80 1280 640 0\n", dice))
    try:
        place = window_place.fitted(window_place.read(file), [screen])
    finally:
        hostile_files.clear(folder)
    if not screen.contains(place.rect) and not place.rect.isEmpty():
        raise FaultFound("a window beyond the edge of the screen", repr(place))
    return place.rect.getRect()


def _pictured(files: Files, dice: Random) -> Path:
    if dice.random() < 0.5:
        return _odd_file("photo.png", files, dice, 0.2)
    file = Path("photo.png")
    put(
        file,
        spoiled_bytes.spoiled(input_files.picture(dice.choice(("PNG", "JPEG", "GIF", "BMP", "TIFF"))), dice),
    )
    return file


def _odd_file(name: str, files: Files, dice: Random, no_file: float) -> Path:
    """The good file with faults, or with this share what is no file."""
    file = Path(name)
    if dice.random() < no_file:
        hostile_files.put(file, hostile_files.any_kind(dice))
    else:
        put(file, input_files.spoiled(name, files[name], dice))
    return file
