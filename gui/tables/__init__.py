"""The one rows model and the way a table is filled by keyboard.

May use `toolkit`. Knows no record of the shop: columns are told what a row is.
"""
