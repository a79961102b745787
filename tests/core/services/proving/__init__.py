"""Tests of who is proven, not typed: tokens, users of computers, and what is asked without either."""
