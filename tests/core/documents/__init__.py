"""The papers, read back with tools other than those that made them."""
