"""The same steps as the window, typed: subcommands, their words, and the JSON they answer.

The highest shelf: nothing in `core` may use it. It knows no Qt and holds no rule of the shop.
"""
