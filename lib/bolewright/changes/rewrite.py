"""The keys of a project file by their places in its text, so that one is exchanged and nothing else is touched."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

Path = tuple[str, ...]

_TOKEN = re.compile(
    r"""(?P<remark>\#[^\n]*)|(?P<line>\r?\n)|(?P<space>[ \t\r]+)
    |(?P<string>\"{3}(?:[^\\]|\\.)*?\"{3,5}|'{3}.*?'{3,5}|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')
    |(?P<mark>[\[\]{},=.])|(?P<bare>[^\s\#"'\[\]{},=.]+)""",
    re.DOTALL | re.VERBOSE,
)


@dataclass(frozen=True)
class Word:
    """A key, or a string that is a value or one of a list: where it stands in the text, and the path it belongs to.

    The path of a key ends with the key itself; tables of a list share one path.
    """

    start: int
    end: int
    path: Path
    text: str
    is_key: bool


def words(text: str) -> Iterator[Word]:
    """Every key and every string of a TOML text that can be read, in the order of the text.

    >>> [(w.path, w.text) for w in words('[post.P]\\nfoot = "held" # [no]')]
    [(('post',), 'post'), (('post', 'P'), 'P'), (('post', 'P', 'foot'), 'foot'), (('post', 'P', 'foot'), 'held')]
    """
    table: Path = ()
    within: list[
        tuple[str, Path]
    ] = []  # brackets that are open in a value, with the path that they are the value of
    key: Path = ()  # what stands of the key that is being read
    value: Path | None = None  # path of the value that is being read
    header = 0
    for token in _TOKEN.finditer(text):
        sign = token[0]
        if token["line"]:
            if not within:
                key, value, header = (), None, 0
        elif token["mark"]:
            if sign == "[" and value is None:
                header += 1
            elif sign == "]" and value is None:
                table = key
            elif sign in "[{":
                within.append((sign, value or ()))
                key, value = (), None if sign == "{" else value
            elif sign in "]}":
                value = within.pop()[1]
            elif sign == "," and within[-1][0] == "{":
                key, value = (), None
            elif sign == "=":
                value = (within[-1][1] if within else table) + key
        elif token["string"] or token["bare"]:
            read = tomllib.loads(f"x = {sign}")["x"] if token["string"] else sign
            if value is None:
                key = (*key, read)
                base = () if header else within[-1][1] if within else table
                yield Word(token.start(), token.end(), base + key, read, True)
            elif token["string"]:
                yield Word(token.start(), token.end(), value, read, False)


def exchanged(text: str, others: Any) -> str:
    """The text with another word for each for which ``others`` gives one; all the rest as it stands."""
    parts, at = [], 0
    for word in words(text):
        if (new := others(word)) != word.text:
            parts += [text[at : word.start], text[word.start : word.end].replace(word.text, new)]
            at = word.end
    return "".join([*parts, text[at:]])
