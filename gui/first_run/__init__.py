"""The first start: set up a shop of one's own, or practise in an invented one.

May use the settings pages, widgets, tables and toolkit; no other moment knows it.
"""
