"""The public API on one page, from its docstrings: ``python -m bolewright.api_page [--html] [--out FILE]``."""

from __future__ import annotations

import argparse
import dataclasses
import inspect
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from html import escape
from pathlib import Path
from typing import Any

import bolewright
from bolewright.formulas import REGISTRY

_CODE = re.compile(r"``(.+?)``|(?<![\w`])`([^`]+)`")
_EXAMPLE = re.compile(r"(?m)^>>> .*(?:\n.+)*\n?")
_ROLE = re.compile(r":[a-z]+:`~?(?:[\w.]+\.)?(\w+)`")
SUBJECTS = ("timber", "fasteners", "tree", "ground", "mechanics")


@dataclass(frozen=True)
class Entry:
    """One name: how it is written, what its docstring says, the clause of a formula."""

    name: str
    written: str
    says: str
    clause: str = ""


def door() -> tuple[Entry, ...]:
    """What ``from bolewright import ...`` gives besides the subjects."""
    return tuple(_door())


def _door() -> Iterator[Entry]:
    for name in bolewright.__all__:
        if name in SUBJECTS:
            continue
        what = getattr(bolewright, name)
        yield _entry(name, what)
        for method, inner in vars(what).items() if dataclasses.is_dataclass(what) else ():
            own = inner.fget if isinstance(inner, property) else inner
            if not method.startswith("_") and inspect.isfunction(own):
                entry = _entry(method, own)
                written = (
                    method
                    if isinstance(inner, property)
                    else entry.written.replace("self, ", "").replace("self", "")
                )
                yield Entry(method, f"{name}.{written}", entry.says)


def subject(name: str) -> tuple[Entry, ...]:
    """The engineering functions of one subject, each in a line."""
    room = getattr(bolewright, name)
    found = (_entry(each, getattr(room, each)) for each in room.__all__)
    return tuple(dataclasses.replace(entry, says=entry.says.split("\n\n")[0]) for entry in found)


def _entry(name: str, what: Any) -> Entry:
    says = _EXAMPLE.sub("", inspect.cleandoc(what.__doc__ or "")).strip()
    record = REGISTRY.get(name)
    return Entry(name, _written(name, what), _ROLE.sub(r"\1", says), record.clause if record else "")


def _written(name: str, what: Any) -> str:
    if dataclasses.is_dataclass(what):
        return f"{name}: {', '.join(field.name for field in dataclasses.fields(what))}"
    if inspect.isclass(what) and issubclass(what, Exception):
        return name
    if inspect.isclass(what) and issubclass(what, Enum):
        return f"{name}: {', '.join(member.name for member in what)}"
    try:
        given = inspect.signature(what)
    except (TypeError, ValueError):
        return name
    parts = []
    for one in given.parameters.values():
        star = {"VAR_POSITIONAL": "*", "VAR_KEYWORD": "**"}.get(one.kind.name, "")
        parts.append(f"{star}{one.name}" + ("" if one.default is inspect.Parameter.empty else "=..."))
    return f"{name}({', '.join(parts)})"


def _plain(says: str) -> str:
    """Words without the marks of code."""
    return _CODE.sub(lambda m: m[1] or m[2], says)


def _marked(says: str) -> str:
    """Words as HTML, code set as such."""
    return re.sub(r"\x00(.+?)\x01", r"<code>\1</code>", escape(_CODE.sub("\x00\\1\\2\x01", says)))


def text() -> str:
    """The page as plain text."""
    lines = [
        f"Bolewright {bolewright.__version__}",
        "",
        _plain(inspect.cleandoc(bolewright.__doc__ or "")),
        "",
    ]
    for entry in door():
        lines += [entry.written, *(f"    {line}".rstrip() for line in _plain(entry.says).splitlines()), ""]
    for name in SUBJECTS:
        lines += [f"from bolewright import {name}", ""]
        for entry in subject(name):
            clause = f" [{entry.clause}]" if entry.clause else ""
            lines.append(f"    {entry.written}: {' '.join(_plain(entry.says).split())}{clause}")
        lines.append("")
    return "\n".join(lines)


_STYLE = """
body { margin: 0 auto; padding: 1rem; max-width: 54rem; color: #1f2a30; font: 1rem/1.45 Charter, Georgia, serif; }
h1 { font-size: 1.8rem; } h2 { font-size: 1.3rem; border-top: 2px solid; padding-top: .4rem; margin-top: 2rem; }
code, pre { font: .9rem/1.4 ui-monospace, Consolas, monospace; overflow-wrap: anywhere; }
pre { white-space: pre-wrap; margin: .2rem 0 1rem 1.5rem; } dt { margin-top: 1rem; }
table { border-collapse: collapse; font-size: .94rem; width: 100%; }
summary { cursor: pointer; } @media print { details::details-content { content-visibility: visible; } }
td { border-bottom: 1px solid #aab4b9; padding: .2em .45em; vertical-align: top; }
"""


def html() -> str:
    """The page as HTML that asks for nothing from elsewhere."""
    return "\n".join(_html()) + "\n"


def _html() -> Iterator[str]:
    title = f"Bolewright {bolewright.__version__}: the functions"
    yield '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{escape(title)}</title><style>{_STYLE}</style></head><body><main>"
    yield f"<h1>{escape(title)}</h1><pre>{_marked(inspect.cleandoc(bolewright.__doc__ or ''))}</pre>"
    links = "".join(f'<li><a href="#{name}">{name}</a></li>' for name in SUBJECTS)
    yield f'<nav aria-label="Subjects"><ul>{links}</ul></nav><dl>'
    for entry in door():
        yield f"<dt><code>{escape(entry.written)}</code></dt><dd><pre>{_marked(entry.says)}</pre></dd>"
    yield "</dl>"
    for name in SUBJECTS:
        entries = subject(name)
        yield f'<h2 id="{name}">from bolewright import {name}</h2>'
        yield f"<details><summary>{len(entries)} names</summary><table>"
        for entry in entries:
            says = _marked(" ".join(entry.says.split()))
            written, clause = escape(entry.written), escape(entry.clause)
            yield f"<tr><td><code>{written}</code></td><td>{says}</td><td>{clause}</td></tr>"
        yield "</table></details>"
    yield "</main></body></html>"


def main(arguments: list[str] | None = None) -> int:
    """Print the page, or write it to a file."""
    parser = argparse.ArgumentParser(prog="python -m bolewright.api_page", description=__doc__)
    parser.add_argument("--html", action="store_true", help="HTML instead of text")
    parser.add_argument("--out", type=Path, metavar="FILE", help="file to write instead of standard output")
    given = parser.parse_args(arguments)
    made = html() if given.html else text()
    if given.out is None:
        sys.stdout.write(made)
        return 0
    try:
        given.out.write_text(made, encoding="utf-8")
    except OSError as error:
        print(f"{given.out} can't be written: {error.strerror}.", file=sys.stderr)
        return 2
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
