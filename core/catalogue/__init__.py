"""What is known of formats, findings, repairs and the guided look-over: one validated record a thing.

Pure. May use `model`. A gap in a file is refused when it is read, by file and key.
"""
