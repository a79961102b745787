"""The shop's settings and prices: shown, changed, written to a file, read from one, taken back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import suppress
from decimal import Decimal
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from core.cli.invocation import Invocation, Reply, contents
from core.cli.subcommands import people_typed
from core.model import json_reader, private_files, regular_files, serialization
from core.model.errors import NoShopYet, WrongInput
from core.model.own_shop import settings_differences
from core.model.own_shop.settings_differences import Difference
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks
from core.services.own_shop import (
    price_books,
    readiness,
    reported_changes,
    setting_names,
    settings_changes,
    settings_effects,
    settings_versions,
    shop_document,
    shop_settings,
)
from core.wording import locale_figures, typed_amounts
from core.wording.messages import say

if TYPE_CHECKING:
    from core.services.records_door import Shop
    from core.store.unit import Unit


def carry_out(call: Invocation) -> Reply:
    """One action on the settings; the shop is made where it is set up for the first time."""
    action = call.asked.action
    if action not in ("set", "import", "confirm"):
        with call.open() as shop:
            return _ACTIONS[action](call, shop)
    tried = None if call.has_shop else _tried_out(call)
    if tried is not None and getattr(call.asked, "dry_run", False):
        return tried
    with call.open(create=True) as shop:
        return _ACTIONS[action](call, shop)


def _tried_out(call: Invocation) -> Reply:
    """The answer of a shop that is thrown away: none is made only to refuse what it was made for."""
    with suppress(NoShopYet):
        call.open().close()
    with TemporaryDirectory() as folder:
        trial = call.elsewhere(Path(folder) / "shop.sqlite")
        with trial.open(create=True) as shop:
            reply = _ACTIONS[call.asked.action](trial, shop)
    call.asked.read = getattr(trial.asked, "read", None)
    return reply


def _show(call: Invocation, shop: Shop) -> Reply:
    content = settings_differences.without_secrets(shop.ask(shop_document.read))
    found: Any = content
    if call.asked.path:
        path = call.asked.path.split(".")
        found = settings_differences.value_at(content, path, say("settings", "the-settings"))
    whole = found if isinstance(found, Mapping) else {call.asked.path: found}
    text = shop_settings.written(whole) if isinstance(found, Mapping) else settings_differences.spelled(found)
    return Reply(serialization.plain(whole), text.rstrip())


def _set(call: Invocation, shop: Shop) -> Reply:
    typed = call.asked.typed
    if len(typed) % 2:
        raise WrongInput(say("settings", "pairs"), " ".join(typed), say("settings", "pairs-accepted"))
    pairs = list(zip(typed[::2], typed[1::2], strict=True))
    return _carried_out(
        call, shop, partial(shop_document.set_texts, typed=pairs, valid_from=call.asked.valid_from)
    )


def _remove(call: Invocation, shop: Shop) -> Reply:
    return _carried_out(call, shop, partial(shop_document.set_texts, typed=[(call.asked.path, None)]))


def _export(call: Invocation, shop: Shop) -> Reply:
    return _written(call, "toml", shop.ask(shop_document.export))


def _import(call: Invocation, shop: Shop) -> Reply:
    text, where = _text(call), Path(call.asked.file).name
    return _carried_out(call, shop, partial(shop_document.take_over, text=text, where=where))


def _prices_out(call: Invocation, shop: Shop) -> Reply:
    return _written(call, "csv", shop.ask(shop_document.export_prices))


def _prices_in(call: Invocation, shop: Shop) -> Reply:
    text, where, day = _text(call), Path(call.asked.file).name, call.asked.valid_from
    return _changed(
        call, shop, partial(shop_document.take_over_prices, text=text, where=where, valid_from=day)
    )


def _written(call: Invocation, kind: str, text: str) -> Reply:
    """The text in the file named, or as the answer where that is ``-``."""
    if call.asked.file == "-":
        return Reply({kind: text}, text.rstrip())
    path = regular_files.expanded(call.asked.file).absolute()
    private_files.write(path, text.encode())
    return Reply({"file": str(path)}, str(path))


def _text(call: Invocation) -> str:
    """What the file says; read once, for standard input cannot be read again."""
    read: bytes | None = getattr(call.asked, "read", None)
    data = contents(call.asked.file) if read is None else read
    json_reader.refuse_size(data, call.asked.file)
    call.asked.read = data
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise WrongInput(call.asked.file, str(error), say("files", "text-file")) from None


def _confirm(call: Invocation, shop: Shop) -> Reply:
    pages = [SetupPage(name) for name in call.asked.pages]
    return _changed(call, shop, partial(shop_document.confirm, pages=pages))


def _raise(call: Invocation, shop: Shop) -> Reply:
    currency = shop.ask(decks.settings).front.currency
    rounded_to = call.asked.rounded_to or Decimal(1).scaleb(-typed_amounts.decimals(currency))
    return _changed(
        call,
        shop,
        partial(
            shop_document.raise_prices,
            percent=call.asked.percent,
            rounded_to=rounded_to,
            valid_from=call.asked.valid_from,
        ),
    )


def _history(call: Invocation, shop: Shop) -> Reply:
    timezone = shop.ask(decks.settings).front.timezone
    settings, prices = shop.ask(settings_versions.versions), shop.ask(price_books.versions)
    found = [
        ("settings", each.number, each.at, each.by, words) for each, words in settings_versions.told(settings)
    ]
    found += [("prices", each.number, each.at, each.by, each.words) for each in prices]
    found.sort(key=lambda one: one[2], reverse=True)
    lines = [
        {"part": part, "number": number, "at": at.isoformat(), "by": by, "words": words}
        for part, number, at, by, words in found
    ]
    told = [
        say("settings", "history-line", at=locale_figures.moment(at, timezone), by=by, words=words)
        for _, _, at, by, words in found
    ]
    return Reply({"versions": lines}, "\n".join(told) or say("settings", "no-history"))


def _undo(call: Invocation, shop: Shop) -> Reply:
    return _changed(
        call, shop, price_books.withdraw if call.asked.part == "prices" else settings_versions.undo
    )


def _missing(call: Invocation, shop: Shop) -> Reply:
    found = shop.ask(readiness.read)
    document = {
        "needed": [page.value for page in found.needed],
        "later": [page.value for page in found.later],
    }
    return Reply(document, "\n".join(_told(found)))


def _told(found: readiness.Readiness) -> Iterator[str]:
    for page in found.needed:
        yield say("settings", "needed-line", page=say("settings", f"page-{page.value}"), name=page.value)
    for page in found.later:
        yield say("settings", "later-line", page=say("settings", f"page-{page.value}"), name=page.value)
    if not found.needed and not found.later:
        yield say("settings", "all-set-up")


def _carried_out(call: Invocation, shop: Shop, step: Callable[..., object]) -> Reply:
    """The step, or with ``--dry-run`` what it would change and touch."""
    if not call.asked.dry_run:
        return _changed(call, shop, step)
    before = shop.ask(shop_document.read)
    changed, after = shop.rehearse(partial(_rehearsed, step))
    found = settings_differences.differences(before, after)
    effects = shop.ask(settings_effects.about, changed).answer()
    document = {
        "changed": [reported_changes.difference(each) for each in found],
        "moved": [
            {"number": each.number, "promised": each.promised, "was": each.was, "now": each.now}
            for each in effects.moved
        ],
        "drafts": effects.drafts,
        "stored": False,
    }
    told = _told_changes(shop, changed, found)
    lines = [*told, *effects.lines, say("settings", "effects-nothing-stored")]
    return Reply(serialization.plain(document), "\n".join(lines))


def _told_changes(shop: Shop, changed: ShopSettings, found: Sequence[Difference]) -> Iterator[str]:
    """What would change, settings first and then prices."""
    yield from settings_changes.lines(shop.ask(decks.settings), changed)
    yield from (setting_names.line(each) for each in found if each.path[0] == shop_document.PRICES)


def _rehearsed(step: Callable[..., object], unit: Unit) -> tuple[ShopSettings, dict[str, Any]]:
    step(unit)
    return decks.settings(unit), shop_document.read(unit)


def _changed(call: Invocation, shop: Shop, step: Callable[..., object]) -> Reply:
    """Carries one step out and tells what it changed, also where it holds from a later day on."""
    document = call.run(shop, reported_changes.carry_out, step)
    lines: Any = document["told"]
    return Reply(document, "\n".join(lines) or say("settings", "nothing-changed"))


_ACTIONS: Mapping[str, Callable[[Invocation, Shop], Reply]] = {
    "show": _show,
    "set": _set,
    "remove": _remove,
    "export": _export,
    "import": _import,
    "confirm": _confirm,
    "raise-prices": _raise,
    "prices-out": _prices_out,
    "prices-in": _prices_in,
    "history": _history,
    "undo": _undo,
    "missing": _missing,
    "pin": people_typed.set_pin,
    "who": people_typed.tell_who,
    "token": people_typed.issue,
    "revoke": people_typed.revoke,
    "system-user": people_typed.map_user,
}
