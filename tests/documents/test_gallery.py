"""The static pages: each kind and project once, nothing asked of the network; README's pictures are the program's."""

import re
from html.parser import HTMLParser
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from bolewright.gallery import PICTURES, make, project_files, readme_pictures
from bolewright.part_sheets.kinds import KINDS
from bolewright.paths import shipped


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return make(tmp_path_factory.mktemp("gallery"))


class _Places(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []
        self.pictures = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value for name, value in attrs if name in ("href", "src") and value]
        self.pictures += tag == "img" and bool(dict(attrs).get("alt"))


def test_every_link_and_picture_is_there_and_nothing_is_asked_for_elsewhere(pages: Path) -> None:
    places = _Places()
    places.feed(pages.read_text(encoding="utf-8"))
    assert places.pictures == len(KINDS) + len(project_files())
    for place in places.found:
        assert not re.match(r"\w+:|//", place), place
        assert (pages.parent / place).stat().st_size > 0, place


def test_a_verdict_stands_under_each_picture_and_the_failing_project_says_so(pages: Path) -> None:
    said = re.findall(r"<figcaption>.*?</figcaption>", pages.read_text(encoding="utf-8"))
    assert len(said) == len(KINDS) + len(project_files())
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
