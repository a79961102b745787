"""Every sentence, day, time, figure and amount that a person reads, in the reader's language and locale.

May use the files under ``resources/wording`` and nothing else of ``core``. Promises one way of writing each
thing in the whole house, and an error instead of a sentence nobody wrote.
"""
