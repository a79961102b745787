"""What a box costs, charge by charge with the reason, and what its copies take up.

Pure. May use the shelves below. Charges add up exactly in every column.
"""
