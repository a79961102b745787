"""Every setting has both doors: `tapewright shop set`, and a page of the settings that says it edits it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any

import pytest
from PySide6.QtWidgets import QWidget

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Permission, Person
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import people, settings_versions, shop_document, shop_settings
from core.services.proving import access_tokens
from core.store import current_settings
from core.wording.messages import knows
from gui.settings import settings_page
from gui.settings.person_form import PersonForm
from gui.settings.settings_page import SettingsPage
from tests.support.booked import Desk

ELSEWHERE = {
    "expected": "the chapter on what is expected",
    "outage": "the chapter on closed days and outages",
}
"""Tables that a chapter of Shop of their own edits, with its name."""


ONE_DOOR: list[str] = []
"""Keys that still want a page in the window. The list may only get shorter: a key that gets its page, or a
further one without, fails the test."""


def keys(content: Mapping[str, Any], path: tuple[str, ...] = ()) -> Iterator[str]:
    """Every key of the document; a list of tables counts as one."""
    for key, value in content.items():
        if isinstance(value, Mapping):
            yield from keys(value, (*path, key))
        else:
            yield ".".join((*path, key))


def page_paths(page: type[SettingsPage]) -> Sequence[str]:
    """The keys and tables a page edits; ``prices.*`` is the table ``prices``."""
    return [path.removesuffix(".*") for path in getattr(page, "paths", ())]


def offered(path: str, page: type[SettingsPage]) -> bool:
    return any(path == each or path.startswith(f"{each}.") for each in page_paths(page))


def page_of(path: str) -> SetupPage | None:
    steps = path.split(".")
    return SetupPage.PRICES if steps[0] == shop_document.PRICES else settings_versions.page_of(steps)


PAGES = settings_page.found()


def test_every_key_of_the_settings_is_on_a_page_or_in_a_chapter_of_its_own(desk: Desk) -> None:
    content = desk.shop.ask(shop_document.read)
    there = {page.page for page in PAGES if page_paths(page)}
    missing = [
        path
        for path in keys(content)
        if path.split(".")[0] not in ELSEWHERE
        and _page_is_there(path, there)
        and not any(offered(path, page) for page in PAGES)
    ]
    assert missing == ONE_DOOR


@pytest.mark.parametrize("page", SetupPage)
def test_every_page_has_its_words_for_the_list_of_what_is_missing(page: SetupPage) -> None:
    assert knows("settings", f"page-{page.value}")


def _page_is_there(path: str, there: set[SetupPage]) -> bool:
    """Whether the page the key belongs to declares what it edits; a key of no page belongs to one."""
    page = page_of(path)
    return page is None or page in there


def test_what_a_page_edits_is_a_key_of_its_own(desk: Desk) -> None:
    content = desk.shop.ask(shop_document.read)
    known = {*keys(content), *content}
    for page in PAGES:
        for path in page_paths(page):
            assert path in known, f"{page.__name__} edits {path}, which is no key"
            assert page_of(path) is page.page, path


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.__name__)
def test_what_a_page_edits_is_set_by_the_command_line_too(page: type[SettingsPage], desk: Desk) -> None:
    before = desk.shop.ask(shop_document.read)
    for path in _settable(before, page_paths(page)):
        value: Any = before
        for step in path.split("."):
            value = value[step]
        typed = value if isinstance(value, str) else _as_toml(value)
        desk.shop.run(shop_document.set_texts, [(path, typed)])
    assert desk.shop.ask(shop_document.read) == before


def _settable(content: Mapping[str, Any], paths: Sequence[str]) -> Iterator[str]:
    """The paths as they are; of the price book and of own words every text there is."""
    for path in paths:
        if path == "words":
            yield from (f"{path}.{key}" for key in content[path])
        elif path == shop_document.PRICES:
            book = content[path]
            yield from (f"{path}.{key}" for key, each in book.items() if isinstance(each, str))
        else:
            yield path


def test_every_fact_about_a_person_has_both_doors(desk: Desk, qapp: object) -> None:
    """What the window's form tells of a person changed in every field, then typed on the command line."""
    changed = Person(
        "Ada Fenwick",
        frozenset(each.value for each in Permission),
        frozenset({"bench"}),
        people.hashed("271828"),
        (OpeningHours(1, 540, 720),),
        True,
        frozenset({"load"}),
        ("ada/1000@till-1",),
        (access_tokens.new("nightly backup", desk.clock().date()).kept,),
    )
    boss = Person("Bo", frozenset({"settings"}))
    assert all(getattr(changed, each.name) != getattr(Person("Ada"), each.name) for each in fields(Person))
    form = PersonForm()
    shown = {name for name, widget in vars(form).items() if isinstance(widget, QWidget)}
    assert {each.name for each in fields(Person)} <= shown
    form.deleteLater()
    settings = replace(desk.shop.ask(current_settings.read), staff=(changed, boss))
    told = shop_settings.document(settings)["person"]
    desk.shop.run(shop_document.set_texts, [("person.Bo", _as_toml(told[1])), ("person.Ada Fenwick", "{}")])
    desk.shop.who = "Bo"
    told = {key: value for key, value in told[0].items() if key != "name"}
    typed = [
        (f"person.Ada Fenwick.{key}", each if isinstance(each, str) else _as_toml(each))
        for key, each in told.items()
    ]
    desk.shop.run(shop_document.set_texts, typed)
    assert changed in desk.shop.ask(current_settings.read).staff


def _as_toml(value: Any) -> str:
    """A value as it is typed on the command line."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(map(_as_toml, value))}]"
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key} = {_as_toml(each)}" for key, each in value.items())
        return f"{{{inner}}}"
    return f'"{value}"' if isinstance(value, str) else str(value)
