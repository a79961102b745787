"""The box on the Counter kept on this computer, for as long as the shop's server cannot be reached."""

from __future__ import annotations

import hashlib
import os
from contextlib import suppress
from pathlib import Path

from core.model import private_files, regular_files, serialization
from core.model.errors import WrongInput
from core.model.typed_draft import TypedBox


class LocalDraft:
    """One file, read and written on the thread of papers; without a ``folder`` nothing is kept."""

    def __init__(self, folder: Path | None, key: str) -> None:
        """``key``: of the counter, as the records know its draft; it may hold what no file name may."""
        name = hashlib.sha256(key.encode()).hexdigest()[:32]
        self._file = None if folder is None else folder / f"{name}.json"

    @property
    def can_keep(self) -> bool:
        return self._file is not None

    def keep(self, box: TypedBox) -> None:
        """The box as it is typed now, whole or as before; OSError where the disk does not take it."""
        if self._file is None:
            return
        private_files.make_folder(self._file.parent)
        growing = private_files.write(self._file.with_suffix(".new"), serialization.dumps(box).encode())
        os.replace(growing, self._file)

    def kept(self) -> TypedBox | None:
        """The box as it was last kept; None where there is none that can be read."""
        if self._file is None:
            return None
        with suppress(OSError, ValueError, WrongInput):
            regular_files.check(self._file, self._file.name, "")
            return serialization.loads(TypedBox, self._file.read_text(encoding="utf-8"))
        return None

    def drop(self) -> None:
        """The records hold it again."""
        if self._file is not None:
            with suppress(OSError):
                self._file.unlink(missing_ok=True)
