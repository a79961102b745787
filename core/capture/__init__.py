"""Captured files: what a recorded file really holds, so that nobody has to watch it to its end.

Pure but for the file it reads. May use `catalogue` and `model`; only `decoding` imports PyAV, when it reads.
"""
