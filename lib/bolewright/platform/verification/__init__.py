"""The frame model solved apart from the hand calculation, and the comparison of the two."""
