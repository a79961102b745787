"""The chapter on backups: what each place holds, one made or tried out now, a locked one with its key."""

from __future__ import annotations

from gui.shop.backups.backups_chapter import BackupChapter

CHAPTER = BackupChapter
