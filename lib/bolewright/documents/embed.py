"""Makes an SVG fit for a PDF or an HTML page: no scripts, nothing from elsewhere, a font that is there."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET

from bolewright.documents.content import PackageError

_SVG = "http://www.w3.org/2000/svg"
_XLINK = "http://www.w3.org/1999/xlink"
_DROPPED = {"script", "foreignObject", "metadata", "iframe", "animate", "set"}
_FAMILY = re.compile(r"font-family\s*:\s*[^;]+")
_SHORTHAND = re.compile(r"(?<![\w-])font\s*:\s*([^;]*?[\d.]+(?:px|pt|em|mm|%)(?:\s*/\s*[\w.]+)?)\s+[^;]+")
_ELSEWHERE = re.compile(r"url\(\s*['\"]?(?!#)[^)]*\)|@import[^;]*;?")
_COLOUR = re.compile(r"#([0-9a-fA-F]{6})\b")
_SERIF, _MONO = "Libertinus Serif", "DejaVu Sans Mono"

for _prefix, _uri in (("", _SVG), ("xlink", _XLINK)):
    ET.register_namespace(_prefix, _uri)


def svg_for_pdf(svg: str, name: str) -> str:
    """SVG whose texts are set in the fonts the typesetter carries."""
    root = _cleaned(svg, name)
    for element in root.iter():
        if "font-family" in element.attrib:
            element.set("font-family", _face(element.attrib["font-family"]))
        if "style" in element.attrib:
            style = _FAMILY.sub(lambda m: f"font-family: '{_face(m[0])}'", element.attrib["style"])
            element.set("style", _SHORTHAND.sub(lambda m: f"font: {m[1]} '{_face(m[0])}'", style))
        if _tag(element) == "style" and element.text:
            element.text = _FAMILY.sub(lambda m: f"font-family: '{_face(m[0])}'", element.text)
    if "font-family" not in root.attrib:
        root.set("font-family", _SERIF)
    return ET.tostring(root, encoding="unicode")


def greyed(words: str) -> str:
    """A text with every ``#rrggbb`` in it as the grey of its luminance (ITU-R BT.709, 3.2).

    >>> greyed("#ff0000 #efe6d6")
    '#363636 #e7e7e7'
    """

    def grey(match: re.Match[str]) -> str:
        red, green, blue = (int(match[1][i : i + 2], 16) for i in (0, 2, 4))
        return "#" + f"{round(0.2126 * red + 0.7152 * green + 0.0722 * blue):02x}" * 3

    return _COLOUR.sub(grey, words)


def svg_for_html(svg: str, alt: str, key: str) -> str:
    """SVG to stand inline in HTML: ids made unique by ``key``, title and description for readers."""
    root = _cleaned(svg, alt)
    ids = {element.attrib["id"] for element in root.iter() if "id" in element.attrib}
    for element in root.iter():
        for attribute, value in list(element.attrib.items()):
            if attribute == "id":
                element.set("id", f"{key}-{value}")
            elif value.startswith("#") and value[1:] in ids:
                element.set(attribute, f"#{key}-{value[1:]}")
            elif "url(#" in value:
                element.set(attribute, re.sub(r"url\(#([^)]+)\)", rf"url(#{key}-\1)", value))
    for old in [child for child in root if _tag(child) in {"title", "desc"}]:
        root.remove(old)
    description = ET.Element(f"{{{_SVG}}}title", {"id": f"{key}-title"})
    description.text = alt
    root.insert(0, description)
    root.attrib.pop("aria-label", None)
    root.set("role", "img")
    root.set("aria-labelledby", f"{key}-title")
    return ET.tostring(root, encoding="unicode").strip()


def _cleaned(svg: str, name: str) -> ET.Element:
    try:
        root = ET.fromstring(re.sub(r"<!DOCTYPE[^>\[]*(\[[^\]]*\])?\s*>", "", svg))
    except ET.ParseError as error:
        raise PackageError(f"the drawing {name!r} is not well-formed SVG: {error}") from error
    if _tag(root) != "svg":
        raise PackageError(f"the drawing {name!r} is not SVG but {_tag(root)!r}")
    for element in list(root.iter()):
        for child in [child for child in element if _tag(child) in _DROPPED]:
            element.remove(child)
    for element in root.iter():
        for attribute, value in list(element.attrib.items()):
            local = attribute.rpartition("}")[2]
            fetched = local in {"href", "src"} and not value.startswith(("#", "data:image/"))
            if fetched or local.startswith("on"):
                del element.attrib[attribute]
            elif _ELSEWHERE.search(value):
                element.set(attribute, _ELSEWHERE.sub("none", value))
        if _tag(element) == "style" and element.text:
            element.text = _ELSEWHERE.sub("none", element.text)
    return root


def _tag(element: ET.Element) -> str:
    return str(element.tag).rpartition("}")[2]


def _face(words: str) -> str:
    return _MONO if "mono" in words.lower() or "courier" in words.lower() else _SERIF
