"""Adds, copies and takes out one table of a project file's text, so that every comment of the rest stays."""

from __future__ import annotations

import re
from dataclasses import dataclass

_HEADER = re.compile(r"\s*(?P<open>\[\[?)\s*(?P<name>[^\[\]\n]+?)\s*\]")
_KEY = re.compile(r"\s*(?P<key>[\w-]+|\"[^\"]*\")\s*=")


@dataclass(frozen=True)
class Span:
    """Lines of one table: its header at ``start``, its last key before ``body_end``, the next header at ``end``.

    What stands between ``body_end`` and ``end`` are comments and empty lines, which speak of what follows.
    """

    name: str
    start: int
    body_end: int
    end: int


def spans(text: str) -> list[Span]:
    """Tables of a text in order. A caller must read the result of an edit again: this looks at lines only."""
    lines = text.splitlines(keepends=True)
    heads = [(i, m["name"].replace(" ", "")) for i, line in enumerate(lines) if (m := _HEADER.match(line))]
    heads = [(i, name) for i, name in heads if not _inside_array(lines, i)]
    ends = [*(i for i, _ in heads[1:]), len(lines)]
    found = []
    for (start, name), end in zip(heads, ends, strict=True):
        body_end = end
        while body_end > start + 1 and _idle(lines[body_end - 1]):
            body_end -= 1
        found.append(Span(name, start, body_end, end))
    return found


def _inside_array(lines: list[str], at: int) -> bool:
    """Whether a line such as ``["-24 in", "18 in"],`` only looks like a header."""
    return not re.match(
        r"\s*\[\[?\s*[\w.\"-]+(\s*\.\s*[\w\"-]+)*\s*\]\]?\s*(#.*)?$", lines[at].rstrip("\r\n")
    )


def _idle(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def without(text: str, span: Span) -> str:
    """Text without a table; the comments that lead to the next one stay."""
    lines = text.splitlines(keepends=True)
    tail = lines[span.body_end : span.end]
    while tail and not tail[0].strip():
        tail.pop(0)
    return "".join([*lines[: span.start], *tail, *lines[span.end :]])


def inserted(text: str, after: Span | None, block: str) -> str:
    """Text with a block of lines after a table, or at its end."""
    block = block.strip("\n") + "\n"
    lines = text.splitlines(keepends=True)
    if after is None:
        head = text.rstrip("\n")
        return f"{head}\n\n{block}" if head else block
    before = "".join(lines[: after.body_end])
    if not before.endswith("\n"):
        before += "\n"
    rest = "".join(lines[after.body_end :])
    return f"{before}\n{block}{rest}"


def body(text: str, span: Span) -> str:
    """Header and keys of a table, as they stand."""
    return "".join(text.splitlines(keepends=True)[span.start : span.body_end])


def with_key(block: str, key: str, line: str) -> str:
    """A table's block with the line of one key replaced, or set under the header."""
    lines = block.splitlines(keepends=True)
    for i, old in enumerate(lines):
        if (match := _KEY.match(old)) and match["key"] == key:
            lines[i] = f"{line}\n"
            return "".join(lines)
    return "".join([lines[0], f"{line}\n", *lines[1:]])
