"""The shop's own settings and prices: read, changed as dated versions, checked, told what a change touches.

May use what the services may use. Whatever is settled here never reaches back to what was quoted or promised.
"""
