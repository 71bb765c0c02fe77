"""Bolts, lag screws, wood screws and nails: NDS 2018 ch. 11-12, Appendices E, I, L and AWC TR12 (ASD)."""
