"""Captured files: what a recorded file really holds, so that nobody has to watch it to its end."""
