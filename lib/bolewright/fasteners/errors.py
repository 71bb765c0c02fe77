"""Errors of a connection that a user can cause; each message is one sentence."""

from __future__ import annotations


class FastenerError(ValueError):
    """Connection outside what NDS 2018 allows; one sentence with the value and what is allowed."""


class PenetrationError(FastenerError):
    """Fastener that reaches too little into the member that holds it."""


class GeometryError(FastenerError):
    """End distance, edge distance or spacing below the least that Tables 12.5.1A to 12.5.1E allow."""
