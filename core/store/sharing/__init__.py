"""Several shops in one database of a server: how they are named, and how no statement touches another's rows.

The tables and the steps know of one shop; what keeps it apart from the others is added to each statement
here.
"""
