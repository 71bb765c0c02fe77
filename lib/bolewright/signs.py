"""Signs in a text that can't be printed as they are: control signs, and those that turn or hide what is read."""

from __future__ import annotations

import unicodedata

# Control (C0 and C1), format (they turn the reading direction or are not seen), private, surrogate, unassigned, and the
# separators of lines and paragraphs. The two joiners are part of how some scripts and emoji are spelt.
_HIDDEN = frozenset({"Cc", "Cf", "Co", "Cs", "Cn", "Zl", "Zp"})
_SPELT = frozenset("\u200c\u200d")


def hidden_sign(text: str, allowed: str = "") -> str:
    """The first sign of a text that can't be printed as it is; empty when all can.

    >>> hidden_sign("oak, 7' 2 1/2\\""), hidden_sign("a\\u202eb") == "\\u202e", hidden_sign("a\\nb", "\\n")
    ('', True, '')
    """
    for sign in text:
        if unicodedata.category(sign) in _HIDDEN and sign not in _SPELT and sign not in allowed:
            return sign
    return ""


def turning_sign(text: str) -> str:
    """The first sign that turns the reading direction of what follows, or is a control sign beyond the keyboard's."""
    for sign in text:
        turns = sign in "\u061c\u200e\u200f" or "\u202a" <= sign <= "\u202e" or "\u2066" <= sign <= "\u2069"
        if turns or "\x7f" <= sign <= "\x9f":
            return sign
    return ""


def plain(text: str, allowed: str = "") -> str:
    """A text with every sign that can't be printed as its number, to stand in a message.

    >>> print(plain("a\\u202eb"))
    a\\u202eb
    """
    return "".join(f"\\u{ord(sign):04x}" if hidden_sign(sign, allowed) else sign for sign in text)


def sentence(words: str) -> str:
    """Words closed by one full stop; a sign that can't be printed, or turns the reading direction, as its number."""
    return plain(words).rstrip(" .") + "."


def begun_small(words: str) -> str:
    """Words that go on a sentence: their first letter small, but for a symbol or an abbreviation.

    >>> begun_small("Height of the floor"), begun_small("B among trees"), begun_small("NDS 2018, 3.7")
    ('height of the floor', 'B among trees', 'NDS 2018, 3.7')
    """
    return f"{words[0].lower()}{words[1:]}" if words[1:2].islower() else words
