"""The few colours of sheets, drawings and widgets; each text colour has 4.5:1 contrast on white, or more.

Colour never carries a meaning alone: a status is always a word and a mark too, and reads in grey.
"""

from __future__ import annotations

from bolewright.status import Status as Status

INK = "#1f2a30"
SOFT_INK = "#55626a"
RULE = "#aab4b9"
WASH = "#f1f4f3"
PAPER = "#ffffff"
ACCENT = "#1c5a6b"
HIGHLIGHT = "#b4561a"
