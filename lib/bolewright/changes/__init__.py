"""What would help a check that fails or is open: changes of the file, tried for real on the whole platform."""
