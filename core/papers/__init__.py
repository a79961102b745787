"""One paper a file: records in, PDF bytes out; each kind in a folder of its own.

Pure. May use the pure shelves, never the store. The same record gives the same bytes.
"""
