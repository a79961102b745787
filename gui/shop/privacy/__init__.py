"""The chapter on privacy: what is kept and for how long; one customer given out or erased."""

from __future__ import annotations

from gui.shop.privacy.privacy_chapter import PrivacyChapter

CHAPTER = PrivacyChapter
