"""On which line of a TOML text a key, a table or an item of a list stands."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

Location = tuple[str | int, ...]

_NAME = r"[\w-]+|\"[^\"]*\"|'[^']*'"
_LIST_HEADER = re.compile(rf"\s*\[\[\s*({_NAME})\s*\]\]")
_HEADER = re.compile(rf"\s*\[\s*((?:{_NAME})(?:\s*\.\s*(?:{_NAME}))*)\s*\]\s*(?:#.*)?$")
_KEY = re.compile(rf"\s*({_NAME})\s*=(.*)")
_TEXT_OR_REMARK = re.compile(r"\"(?:[^\"\\]|\\.)*\"|'[^']*'|#.*")
_PIECE = re.compile(r"[\[\],]|[^\[\],\s]+")


class FileLines:
    """Lines of the places in a file's data."""

    def __init__(self, text: str) -> None:
        self._found: dict[Location, int] = {}
        for where, number in _places(text):
            self._found.setdefault(where, number)

    def of(self, where: Location) -> int | None:
        """Line of a place, or of the nearest place round it that the text names."""
        for length in range(len(where), 0, -1):
            if where[:length] in self._found:
                return self._found[where[:length]]
        return None


def _places(text: str) -> Iterator[tuple[Location, int]]:
    """Headers and keys with their lines; a list written over several lines also by its items."""
    counts: Counter[str] = Counter()
    prefix: Location = ()
    open_list: list[int] = []  # how many items each open bracket holds so far
    key: Location = ()
    for number, line in enumerate(text.splitlines(), start=1):
        rest = line
        if not open_list:
            if match := _LIST_HEADER.match(line):
                name = _bare(match[1])
                prefix = (name, counts[name])
                counts[name] += 1
                yield prefix, number
                yield (name,), number
                continue
            if match := _HEADER.match(line):
                prefix = tuple(_bare(piece) for piece in re.findall(_NAME, match[1]))
                yield prefix, number
                continue
            match = _KEY.match(line)
            if match is None:
                continue
            key = (*prefix, _bare(match[1]))
            yield key, number
            rest = match[2]
        for piece in _PIECE.findall(_TEXT_OR_REMARK.sub(_without_signs, rest)):
            if open_list and piece not in ("]", ","):
                yield (*key, *open_list), number
            if piece == "[":
                open_list.append(0)
            elif piece == "]" and open_list:
                open_list.pop()
            elif piece == "," and open_list:
                open_list[-1] += 1


def _without_signs(match: re.Match[str]) -> str:
    """A text as one word without brackets or commas; nothing for a remark."""
    return "" if match[0].startswith("#") else "text"


def _bare(name: str) -> str:
    return name.strip("\"'")
