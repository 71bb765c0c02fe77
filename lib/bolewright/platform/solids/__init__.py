"""Parts as bodies in space, and where two of them clash."""
