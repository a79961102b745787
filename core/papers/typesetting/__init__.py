"""The sheet, its lettering and its pieces: what every paper is set with.

Pure. Measures text, breaks pages, draws codes, band, dots and signatures; knows the shop by its voice alone.
"""
