"""A reader of a package's PDF who turns pages and follows links; how many of both until an answer is seen.

The reader starts on the first page. A move is a page turned, forward or back, or a link followed whose row says one of
the words that the reader seeks. The fewest moves to a page that shows the whole answer count.
"""

from __future__ import annotations

import json
import math
import re
import sys
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pypdfium2
from pypdf import PdfReader
from pypdf.generic import Destination

QUESTIONS = Path(__file__).with_name("questions.toml")


@dataclass(frozen=True)
class Link:
    """A link of a page: the words of its row, and the page it leads to."""

    words: str
    to: int


@dataclass(frozen=True)
class Leaf:
    """One page: its text in a line, and its links."""

    text: str
    links: tuple[Link, ...]


@dataclass(frozen=True)
class Answer:
    """A question, the page (from 0) where its answer was seen, and the moves until then; None when it is nowhere."""

    asks: str
    page: int | None
    turns: int | None


def leaves(pdf: Path) -> list[Leaf]:
    """Pages of a package with their links."""
    reader = PdfReader(pdf)
    places = {page.indirect_reference.idnum: i for i, page in enumerate(reader.pages)}  # type: ignore[union-attr]
    document = pypdfium2.PdfDocument(pdf)
    found = []
    for page, drawn in zip(reader.pages, document, strict=True):
        text = drawn.get_textpage()
        links = []
        for annotation in page.get("/Annots") or ():
            link = annotation.get_object()
            if link.get("/Subtype") != "/Link" or (to := _place(reader, link, places)) is None:
                continue
            _, low, _, high = (float(x) for x in link["/Rect"])
            words = text.get_text_bounded(bottom=low - 1, top=high + 1)
            links.append(Link(_line(words), to))
        found.append(Leaf(_line(text.get_text_bounded()), tuple(links)))
    document.close()
    return found


def _place(reader: PdfReader, link: Any, places: dict[int, int]) -> int | None:
    target = link.get("/Dest") or link.get("/A", {}).get("/D")
    if target is None:
        return None
    target = target.get_object()
    if isinstance(target, str):
        target = reader.named_destinations[target]
    page = target.raw_get("/Page") if isinstance(target, Destination) else target[0]
    return places.get(getattr(page, "idnum", -1))


def _line(words: str) -> str:
    return re.sub(r"\s+", " ", words.replace("\ufffe", "-").replace("’", "'").replace("′", "'"))


def questions(results: dict[str, Any]) -> list[dict[str, Any]]:
    """The questions with the numbers of this project's results in their answers."""
    numbers = numbers_of(results)
    asked = tomllib.loads(QUESTIONS.read_text(encoding="utf-8"))["question"]
    for question in asked:
        question["answer"] = [_filled(words, numbers) for words in question["answer"]]
    return asked  # type: ignore[no-any-return]


def numbers_of(results: dict[str, Any]) -> dict[str, str]:
    """Names that the answers use, from results.json: what the page must agree with."""
    near = max((c for c in results["checks"] if c["key"] == "beam.shear_at_bolts"), key=lambda c: c["ratio"])
    soil = max((c for c in results["checks"] if c["key"] == "footing.soil_lateral"), key=lambda c: c["ratio"])
    clearance = next(c for c in results["checks"] if c["key"] == "tree.clearance")
    bracket = max(
        (c for c in results["checks"] if c["key"] == "tree_bolt.rated_lateral"), key=lambda c: c["ratio"]
    )
    found = {"input": results["input"], "version": re.escape(results["version"])}
    for mark, of in results["reactions"].items():
        found[f"most_{mark}"] = _four(of["most"]["lb"])
        found[f"lateral_{mark}"] = _four(math.hypot(of["lateral"]["x_lb"], of["lateral"]["y_lb"]))
    return found | {
        "ratio_near": f"{math.ceil(100 * near['ratio'] - 1e-9) / 100:.2f}",
        "near": _four(near["demand"]),
        "soil_pressure": _four(soil["demand"]),
        "clearance": _four(clearance["capacity"]),
        "ask_bracket": _four(bracket["demand"]),
    }


def _four(value: float) -> str:
    """Four significant digits, as sheets print; a closing zero may be there or not."""
    digits = max(0, 3 - math.floor(math.log10(abs(value)))) if value else 0
    text = f"{value:,.{digits}f}"
    if "." not in text:
        return re.escape(text).replace(r"\,", ",")
    least = text.rstrip("0").rstrip(".")
    return re.escape(least) + ("0*" if "." in least else r"(\.0*)?")


def _filled(words: str, numbers: dict[str, str]) -> str:
    return re.sub(r"\{([a-zA-Z]\w*)\}", lambda name: numbers[name[1]], words)


def turns(pages: list[Leaf], question: dict[str, Any]) -> Answer:
    """The fewest moves from the first page to one that shows the whole answer."""
    wanted = [re.compile(words) for words in question["answer"]]
    good = {i for i, page in enumerate(pages) if all(one.search(page.text) for one in wanted)}
    seek = [word.lower() for word in question["seek"]]
    seen, front = {0: 0}, [0]
    while front:
        at = front.pop(0)
        if at in good:
            return Answer(question["asks"], at, seen[at])
        followed = [x.to for x in pages[at].links if any(word in x.words.lower() for word in seek)]
        for to in (*followed, at + 1, at - 1):
            if 0 <= to < len(pages) and to not in seen:
                seen[to] = seen[at] + 1
                front.append(to)
    return Answer(question["asks"], None, None)


def read(folder: Path) -> list[Answer]:
    """All questions asked of the package in a folder."""
    results = json.loads((folder / "results.json").read_text(encoding="utf-8"))
    pages = leaves(folder / "package.pdf")
    return [turns(pages, question) for question in questions(results)]


if __name__ == "__main__":
    for answer in read(Path(sys.argv[1])):
        where = "nowhere" if answer.page is None else f"page {answer.page + 1}, {answer.turns} moves"
        print(f"{where:24} {answer.asks}")
