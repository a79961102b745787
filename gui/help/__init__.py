"""Find any command, and the handbook.

May use `widgets`, `tables` and `toolkit`; knows no moment. The commands are read from the actions and buttons
that a window has: there is no second list. Nothing of it is imported before the first paint.
"""
