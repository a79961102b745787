"""A change of settings or prices carried out together with the report of what it changed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from core.model import serialization
from core.model.own_shop import settings_differences
from core.model.own_shop.settings_differences import Difference
from core.services.own_shop import price_books, readiness, settings_versions, shop_document
from core.store.steps import step
from core.store.unit import Unit


@step
def carry_out(unit: Unit, change: Callable[[Unit], object]) -> dict[str, object]:
    """Carries out a step on the settings; tells ``changed`` keys, the lines ``told``, pages ``missing``.

    What holds from a later day on only is told in lines. Secrets are not shown.
    """
    settings, prices = settings_versions.number(unit), price_books.number(unit)
    before = shop_document.read(unit)
    change(unit)
    unit.session.flush()
    found = settings_differences.differences(before, shop_document.read(unit))
    told = [each.words for each in settings_versions.versions(unit) if each.number > settings]
    told += [each.words for each in price_books.versions(unit) if each.number > prices]
    missing = [page.value for page in readiness.read(unit).needed]
    changed = [difference(each) for each in found]
    report: dict[str, object] = serialization.plain({"changed": changed, "told": told, "missing": missing})
    return report


def difference(each: Difference) -> dict[str, Any]:
    """One key with what it was and is; of a secret only whether there is one."""
    was, now = map(settings_differences.without_secrets, (each.was, each.now))
    if each.is_secret:
        was, now = (value and "…" for value in (was, now))
    return {"path": each.place, "was": was, "now": now}
