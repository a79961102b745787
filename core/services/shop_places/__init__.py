"""Where the records of a shop lie: moved whole from a file to a server, or back.

May use the store and what lies below it. Promises that at any moment a shop is whole in one
place or the other.
"""
