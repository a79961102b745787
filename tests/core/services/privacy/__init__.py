"""Tests of what is kept of a customer, handed out and taken out."""
