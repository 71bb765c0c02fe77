"""A project file read: lines, words, faults of input, what is plausible."""
