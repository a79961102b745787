"""A backup put back in the place of a shop: all of it or nothing, with what was there kept.

May use the backups of `core.services.backup` and the store. Promises that no shop is replaced under its
users, that a power cut leaves the old shop or the new one, and that no order number is given a second time.
"""
