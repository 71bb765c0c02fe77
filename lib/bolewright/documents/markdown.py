"""Cleans pandoc's syntax tree of the markdown and HTML that users write.

What comes out can neither break nor leave the package: no raw HTML, no picture from elsewhere, headings one
below the other, links to the web only.
"""

from __future__ import annotations

import base64
import hashlib
import re
from html import escape
from html.parser import HTMLParser
from typing import Any

from bolewright.documents.content import Picture
from bolewright.documents.latex import normalised, spoken

_WEB = re.compile(r"(https?://|mailto:)", re.I)
_LONG_WORD = re.compile(r"[^\s\u200b]{25,}")


def typst_string(text: str) -> str:
    """``text`` as a Typst string literal."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


class Cleaner:
    """Cleans pandoc's tree of a user's markdown, so that it can neither break nor leave the package."""

    def __init__(self) -> None:
        self.pictures: dict[str, bytes] = {}
        self._attachments: dict[str, Picture] = {}
        self._sheet = -1
        self._level = 1

    def clean(self, blocks: list[Any], sheet: int, attachments: dict[str, Picture]) -> list[Any]:
        """Cleaned blocks of one text; heading levels follow on within a sheet."""
        self._attachments = attachments
        if sheet != self._sheet:
            self._sheet, self._level = sheet, 1
        cleaned: list[Any] = self._walk(blocks)
        return cleaned

    def _walk(self, node: Any) -> Any:
        if isinstance(node, list):
            walked: list[Any] = []
            for child in node:
                if isinstance(child, dict) and "t" in child:
                    walked += self._element(child)
                else:
                    walked.append(self._walk(child))
            return walked
        return node

    def _element(self, node: dict[str, Any]) -> list[Any]:
        content: Any = node.get("c")
        match node["t"]:
            case "Header":
                level, _, inlines = content
                self._level = min(max(level, 2), self._level + 1, 5)
                return [{"t": "Header", "c": [self._level, _NO_ATTRIBUTES, self._walk(inlines)]}]
            case "Math":
                kind, latex = content
                clean = {"t": "Math", "c": [kind, normalised(latex)]}
                return [_raw("typst", f"#eq({typst_string(spoken(latex))})["), clean, _raw("typst", "]")]
            case "Image":
                _, inlines, (target, _) = content
                return [self._picture(target, _words(inlines))] if target else []
            case "Link":
                _, inlines, (target, _) = content
                kept = self._walk(inlines)
                return (
                    [{"t": "Link", "c": [_NO_ATTRIBUTES, kept, [target, ""]]}] if _WEB.match(target) else kept
                )
            case "RawInline":
                return _inline_html(content[1])
            case "RawBlock":
                words = _text_of_html(content[1])
                return [{"t": "Para", "c": [{"t": "Str", "c": words}]}] if words else []
            case "Div":
                blocks: list[Any] = self._walk(content[1])
                return blocks
            case "Span":
                inner: list[Any] = self._walk(content[1])
                return inner
            case "Figure":
                body: list[Any] = self._walk(content[2])
                return body
            case "CodeBlock":
                return [{"t": "CodeBlock", "c": [_NO_ATTRIBUTES, content[1]]}]
            case "Table":
                return [{"t": "Table", "c": [_NO_ATTRIBUTES, *self._walk(content[1:])]}]
            case _:
                return [node if content is None else {"t": node["t"], "c": self._walk(content)}]

    def _picture(self, target: str, alt: str) -> Any:
        picture = self._attachments.get(target.removeprefix("attachment:"))
        said = alt or "picture"
        if picture is None:
            return {"t": "Str", "c": f"[{said}: picture not carried into the package]"}
        name = picture_name(picture)
        self.pictures[name] = picture.data
        html = f'<img src="{data_uri(picture)}" alt="'
        return {
            "t": "Span",
            "c": [
                _NO_ATTRIBUTES,
                [
                    _raw("typst", f"#picture({typst_string(name)}, {typst_string(said)})"),
                    _raw("html", html + escape(said) + '">'),
                ],
            ],
        }


_NO_ATTRIBUTES: list[Any] = ["", [], []]


class _TextOfHtml(HTMLParser):
    """Collects the text of an HTML fragment, without scripts and styles."""

    def __init__(self) -> None:
        super().__init__()
        self.words: list[str] = []
        self._silent = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._silent += tag in {"script", "style"}

    def handle_endtag(self, tag: str) -> None:
        self._silent -= tag in {"script", "style"}

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self.words += data.split()


def _text_of_html(fragment: str) -> str:
    parser = _TextOfHtml()
    parser.feed(fragment)
    parser.close()
    return " ".join(parser.words)


def _inline_html(tag: str) -> list[Any]:
    """A known tag is dropped, ``<br>`` breaks the line, and ``<anything else>`` is the writer's own text."""
    name = re.match(r"</?([A-Za-z0-9]+)|<!--", tag)
    if name is None or name[1] is None or name[1].lower() in _KNOWN_TAGS:
        return [{"t": "LineBreak"}] if name and (name[1] or "").lower() == "br" else []
    return [{"t": "Str", "c": tag}]


_KNOWN_TAGS = frozenset(
    {
        "a",
        "b",
        "br",
        "center",
        "code",
        "del",
        "div",
        "em",
        "font",
        "hr",
        "i",
        "img",
        "ins",
        "kbd",
        "mark",
        "p",
    }
    | {"s", "small", "span", "strong", "sub", "sup", "u"}
)


def _raw(target: str, text: str) -> dict[str, Any]:
    return {"t": "RawInline", "c": [target, text]}


def _words(inlines: list[Any]) -> str:
    return "".join(
        node["c"] if node["t"] == "Str" else " " for node in inlines if isinstance(node, dict)
    ).strip()


def picture_name(picture: Picture) -> str:
    """File name of a picture inside the typesetter's folder, from its content."""
    return f"picture-{hashlib.sha256(picture.data).hexdigest()[:16]}.{picture.suffix}"


def data_uri(picture: Picture) -> str:
    """The picture as a data URI, for HTML."""
    mime = {"png": "image/png", "jpg": "image/jpeg"}[picture.suffix]
    return f"data:{mime};base64,{base64.b64encode(picture.data).decode('ascii')}"


def softened(node: Any) -> Any:
    """The tree with places to break in very long words; the typesetter breaks nowhere else."""
    if isinstance(node, list):
        return [softened(child) for child in node]
    if isinstance(node, dict):
        if node.get("t") == "Str":
            return {"t": "Str", "c": soft(node["c"])}
        if node.get("t") in {"Code", "CodeBlock"}:
            attributes, text = node["c"]
            return {"t": node["t"], "c": [attributes, soft(text)]}
        return {key: softened(child) for key, child in node.items()}
    return node


def soft(text: str) -> str:
    """``text`` with places to break in very long words."""
    return _LONG_WORD.sub(_soft_word, text)


def _soft_word(match: re.Match[str]) -> str:
    word = match[0]
    return "\u200b".join(word[at : at + 12] for at in range(0, len(word), 12))
