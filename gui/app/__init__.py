"""Start: the first paint, the window around the moments, and what is composed after the first paint.

May use all of `gui`; nothing of `gui` may use it.
"""
