"""What the person acting may do. Where nobody is entered, everybody may do everything."""

from __future__ import annotations

from core.model.errors import Refused
from core.model.settings_records import Permission
from core.store import current_settings
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def may(unit: Unit, person: str, permission: Permission) -> bool:
    """Whether a person, by name, may do this; nobody outside the list may once there is one."""
    staff = current_settings.read(unit).working_staff
    return not staff or any(each.name == person and permission.value in each.may for each in staff)


def check(unit: Unit, permission: Permission) -> None:
    """Refused, with the names of those who may, when the person acting may not."""
    if may(unit, unit.who, permission):
        return
    staff = current_settings.read(unit).working_staff
    names = [each.name for each in staff if permission.value in each.may]
    key = "people-may-not" if names else "people-nobody-may"
    who_may = locale_figures.listed(names) if names else ""
    what = say("settings", f"people-to-{permission.value}")
    raise Refused(say("settings", key, who=unit.who, what=what, names=who_may))
