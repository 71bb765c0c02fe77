"""Bolewright: calculation sheets for raised timber platforms on tree bolts and posts."""

__version__ = "0.1.0"
