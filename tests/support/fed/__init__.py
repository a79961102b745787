"""Invented shops whose records are fed to the program, and what it promised them."""
