"""Widgets that two or more moments share: the slip, the tray, the drawings, the forms.

May use `tables` and `toolkit`. Shows frozen records and reports what was done; asks nothing of the shop.
"""
