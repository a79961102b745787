"""The check of copied files before a tape is ready: what was found, and who signed it off by name.

May use: `tape_facts`, the people of the shop, `core.store` and below. Promises: a tape with files is ready
only with a sign-off that covers every file and every finding; none is changed, only withdrawn with a reason.
"""
