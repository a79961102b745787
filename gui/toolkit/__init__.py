"""What every screen stands on: the look, the words, the workers, and what a screen is.

May use `core`, nothing else of `gui`.
"""
