"""The chapter on money: the drawer counted, what was taken and invoiced, the journal as a file."""

from __future__ import annotations

from gui.shop.accounts.accounts_chapter import AccountsChapter

CHAPTER = AccountsChapter
