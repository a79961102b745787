"""The user of this computer who runs the program, as its operating system knows them.

Never from the environment: ``LOGNAME`` and ``USER`` say what somebody wrote there.
"""

from __future__ import annotations

import os
import platform

from core.model.own_shop.access_records import SystemUser


def current() -> SystemUser:
    """Whoever runs this process, by its real user id; on Windows by the name of its access token's user."""
    return _posix(os.getuid()) if hasattr(os, "getuid") else _windows()


def of_login(login: str) -> SystemUser | None:
    """A user of this computer by name; None where there is none of that name."""
    if not hasattr(os, "getuid"):
        return SystemUser(login, login.casefold(), machine())
    import pwd

    try:
        return _posix(pwd.getpwnam(login).pw_uid)
    except KeyError:
        return None


def machine() -> str:
    """What this computer calls itself."""
    return platform.node() or "localhost"


def _posix(number: int) -> SystemUser:
    import pwd

    try:
        login = pwd.getpwuid(number).pw_name
    except KeyError:  # as in a container: a number without a name
        login = str(number)
    return SystemUser(login, str(number), machine())


def _windows() -> SystemUser:
    """``os.getlogin`` asks GetUserNameW there, which nobody can write into."""
    login = os.getlogin()
    return SystemUser(login, login.casefold(), machine())
