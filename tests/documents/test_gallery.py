"""The static pages: each kind and project once, nothing asked of the network; README's pictures are the program's."""

import os
import re
import shutil
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import numpy as np
import pytest
from PIL import Image

from bolewright.gallery import PICTURES, make, project_files, readme_pictures
from bolewright.part_sheets.kinds import KINDS
from bolewright.paths import shipped
from bolewright.sheets.equation_cells import CELLS

KEPT = os.environ.get("BOLEWRIGHT_PAGES")


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where BOLEWRIGHT_PAGES names a folder, as in the gate, the pages stay there, with the demonstration's package."""
    if KEPT:
        shutil.rmtree(KEPT, ignore_errors=True)
        return make(Path(KEPT), packages=["lookout"])
    return make(tmp_path_factory.mktemp("gallery"))


class _Places(HTMLParser):
    """What a page links to and loads, and the places in it that can be linked to."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[str] = []
        self.names: set[str] = set()
        self.pictures = 0
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self.found += [
            v for n in ("href", "src", "srcset", "action", "poster", "data") if (v := given.get(n))
        ]
        self.names |= {v for n in ("id", "name") if (v := given.get(n))}
        self.pictures += tag == "img" and bool(given.get("alt"))


def _broken(root: Path) -> list[str]:
    """Links of all pages under a folder that lead nowhere, and whatever they would ask of the network."""
    wrong = []
    texts = {
        p: p.read_text(encoding="utf-8") for p in sorted(root.rglob("*")) if p.suffix in (".html", ".svg")
    }
    read = {path: _Places(text) for path, text in texts.items()}
    for path, text in texts.items():
        here = path.relative_to(root)
        wrong += [
            f"{here}: {asked}" for asked in re.findall(r"(?:url\(|@import)\s*[\"']?(?!data:|#)[^)\s;]+", text)
        ]
        for place in read[path].found:
            if place.startswith("data:"):
                continue
            target, _, name = place.partition("#")
            where = (path.parent / unquote(target)).resolve() if target else path
            there = where.is_file() and where.stat().st_size > 0
            named = not name or where not in read or unquote(name) in read[where].names
            if re.match(r"\w+:|//", place) or not there or not named:
                wrong.append(f"{here}: {place}")
    return wrong


def test_every_link_and_picture_is_there_and_nothing_is_asked_for_elsewhere(pages: Path) -> None:
    first = _Places(pages.read_text(encoding="utf-8"))
    assert first.pictures == len(KINDS) + len(project_files()) + len(CELLS)
    assert {path.name for path in pages.parent.glob("*.html")} == {"index.html", "functions.html"}
    assert len(list(pages.parent.rglob("*.html"))) == 2 + len(KINDS) + bool(KEPT)
    assert _broken(pages.parent.resolve()) == []


def test_a_link_to_nothing_and_a_request_are_found(tmp_path: Path) -> None:
    """The check above sees each kind of fault."""
    faults = (
        '<a href="gone.html">',
        '<a href="#gone">',
        '<a href="b.html#gone">',
        '<img src="//x.org/a.png">',
        '<script src="https://x.org/a.js">',
        "<style>@import 'a.css';</style>",
        "<style>p { background: url(a.png) }</style>",
    )
    (tmp_path / "b.html").write_text('<p id="here"><a href="#here">', encoding="utf-8")
    (tmp_path / "a.html").write_text('<a href="b.html#here">', encoding="utf-8")
    assert _broken(tmp_path) == []
    for fault in faults:
        (tmp_path / "a.html").write_text(fault, encoding="utf-8")
        assert len(_broken(tmp_path)) == 1, fault


def test_each_picture_is_one_click_from_its_source(pages: Path) -> None:
    """The project's file as it ships, and the notebook of each kind."""
    links = _Places(pages.read_text(encoding="utf-8")).found
    notebooks = [*(f"parts/{kind}" for kind in KINDS), *CELLS]
    for source in (*project_files(), *(shipped("calcsheets") / f"{name}.ipynb" for name in notebooks)):
        (place,) = {link for link in links if link.endswith("/" + source.name)}
        assert (pages.parent / place).read_bytes() == source.read_bytes()


def test_a_verdict_stands_under_each_picture_and_the_failing_project_says_so(pages: Path) -> None:
    said = re.findall(r"<figcaption>.*?</figcaption>", pages.read_text(encoding="utf-8"))
    assert len(said) == len(KINDS) + len(project_files()) + len(CELLS)
    assert all(
        re.search(r"\d+ checks, none over what is allowed", words)
        for words in said
        if "calculation sheet<" in words
    )
    assert all("not an approval" in words for words in said if "project file" in words)
    assert any("checks fail" in words for words in said if "too small" in words)
    assert all("under the loads typed" in words for words in said if ">notebook<" in words)


def test_pictures_of_the_readme_are_what_the_program_makes(tmp_path: Path) -> None:
    """The plan to the byte; the page, whose pixels hang on the rasterizer, but for a grey here and there."""
    stored = shipped("calcsheets") / PICTURES
    plan, page = readme_pictures(tmp_path)
    assert (stored / plan.name).read_bytes() == plan.read_bytes()
    before, now = (np.asarray(Image.open(p), dtype=float) for p in (stored / page.name, page))
    assert before.shape == now.shape
    assert np.abs(before - now).mean() < 1.0
    readme = (shipped("calcsheets").parent / "README.md").read_text(encoding="utf-8")
    assert all(f"calcsheets/{PICTURES}/{p.name}" in readme for p in (plan, page))
