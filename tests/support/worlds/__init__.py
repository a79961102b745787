"""Simulated shops, customers and tapes that share no rule with the program."""
