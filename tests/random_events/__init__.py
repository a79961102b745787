"""Random events of keys, mouse and scanner at the real window, screen by screen.

``python -m tests.random_events`` sends them and tells the shortest list of them that leads to a fault: an
exception, or a draft, a tick or ink that is lost by a slip.
"""
