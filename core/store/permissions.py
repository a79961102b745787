"""What the person acting may do. Where nobody is entered, everybody may do everything."""

from __future__ import annotations

from core.model.errors import NotPermitted
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.store import current_settings
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def may(unit: Unit, person: str, permission: Permission) -> bool:
    """Whether a person, by name, may do this; nobody outside the list may once there is one."""
    return not refusals(current_settings.read(unit), person, permission)


def check(unit: Unit, permission: Permission) -> None:
    """NotPermitted, with the names of those who may, when the person acting may not."""
    for refusal in refusals(current_settings.read(unit), unit.who, permission):
        raise refusal


def check_strike(unit: Unit, entered_by: str) -> None:
    """Whoever entered something may strike it out; what somebody else entered takes the right to override."""
    if unit.who != entered_by:
        check(unit, Permission.OVERRIDE)


def refusals(settings: ShopSettings, who: str, permission: Permission) -> tuple[NotPermitted, ...]:
    """Why ``who`` may not do this by these settings; nothing where they may."""
    if settings.permits(who, permission):
        return ()
    names = settings.permitted(permission)
    what = say("settings", f"people-to-{permission.value}")
    if any(each.name == who and permission.value in each.rights for each in settings.working_staff):
        return (NotPermitted(say("access", "once-proven", who=who, what=what), names),)
    key = "people-may-not" if names else "people-nobody-may"
    who_may = locale_figures.listed(names) if names else ""
    sentence = say("settings", key, who=who, what=what, names=who_may, n=len(names))
    return (NotPermitted(sentence, names),)
