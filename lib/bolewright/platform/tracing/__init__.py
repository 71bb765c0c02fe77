"""Which part of a load goes where, for pictures and questions."""
