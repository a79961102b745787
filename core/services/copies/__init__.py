"""Copies as work: each one that was ordered is made, checked and handed over, or its link given and deleted.

May use what the services may use, and what is agreed. A wrong step is struck out and never erased.
"""
