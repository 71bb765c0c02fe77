"""An inspector reads the demonstration's package: answers are found fast, the brief is brief, its pages are right."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
import reader
from pypdf import PdfReader

from bolewright.paths import shipped
from bolewright.sheets.opening import results_of
from bolewright.sheets.package import make_package

DEMO = shipped("calcsheets") / "lookout.toml"
SMALL = Path(__file__).parents[1] / "platform" / "arrangements" / "one_tree_one_post.toml"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: Any) -> Any:
    out = tmp_path_factory.mktemp("read") / "build"
    make_package(DEMO, out)
    return out


@pytest.fixture(scope="module")
def answers(folder: Any) -> Any:
    return reader.read(folder)


def test_there_are_twenty_questions(answers: Any) -> None:
    assert len(answers) == 20


@pytest.mark.parametrize("number", range(20))
def test_an_answer_is_two_turns_away_at_most(answers: Any, number: Any) -> None:
    answer = answers[number]
    assert answer.turns is not None, f"nowhere: {answer.asks}"
    assert answer.turns <= 2, f"{answer.turns} turns, page {answer.page + 1}: {answer.asks}"


def test_the_brief_has_six_pages_before_its_annex(folder: Any) -> None:
    pages = [page.extract_text() for page in PdfReader(folder / "brief.pdf").pages]
    assert next(i for i, text in enumerate(pages) if "Annex to the brief" in text) == 6
    whole = PdfReader(folder / "package.pdf").pages
    assert "Code basis and loads" in whole[1].extract_text()
    assert "Sign-off" in whole[6].extract_text()


def test_every_page_of_the_brief_says_what_it_is_of(folder: Any) -> None:
    results = json.loads((folder / "results.json").read_text())
    pages = [page.extract_text() for page in PdfReader(folder / "brief.pdf").pages]
    for number, page in enumerate(pages, start=1):
        said = re.sub(r"\s+", " ", page)
        for words in ("Bur oak lookout", "2026-11-25", results["input"], f"Version {results['version']}"):
            assert words in said
        assert f"Sheet {number} of {len(pages)}" in said


def test_pages_named_in_the_brief_are_where_the_derivation_stands(folder: Any) -> None:
    """The page printed behind each governing check has the heading of its derivation, in the package."""
    whole = PdfReader(folder / "package.pdf").pages
    brief = re.sub(r"\s+", " ", "".join(p.extract_text() for p in PdfReader(folder / "brief.pdf").pages[:6]))
    table = brief[brief.index("Ten governing checks") : brief.index("What rests on ratings")]
    named = [int(number) for number in re.findall(r"p\. (\d+)", table)]
    results = results_of(DEMO)
    from bolewright.sheets.brief.ten import governing_checks

    checks = governing_checks(results)
    assert len(named) == len(checks) == 10
    for page, check in zip(named, checks, strict=True):
        said = re.sub(r"\s+", " ", whole[page - 1].extract_text()).replace("\u200b", "")
        assert f"{check.part}: {check.limit_state}" in said


def test_ten_governing_checks_are_the_ten_highest_ratios(folder: Any) -> None:
    """By results.json alone: the highest ratio of each limit state that a load enters, the ten highest of these."""
    checks = json.loads((folder / "results.json").read_text())["checks"]
    highest: dict[str, float] = {}
    for check in checks:
        if check["ratio"] is not None and check["combination"] not in (None, "", "any"):
            highest[check["key"]] = max(highest.get(check["key"], 0.0), check["ratio"])
    wanted = sorted(highest.values(), reverse=True)[:10]
    from bolewright.sheets.brief.ten import governing_checks

    found = [check.ratio for check in governing_checks(results_of(DEMO))]
    assert found == pytest.approx(wanted, rel=2e-6)


def test_a_package_made_again_names_what_it_supersedes(tmp_path: Path) -> None:
    """Made again it is the same; of a changed file it takes the place of the one before."""
    out = tmp_path / "build"
    text = SMALL.read_text().replace("date = 2026-11-25", 'date = 2026-11-25\nrevision = "A"')
    file = tmp_path / "small.toml"
    file.write_text(text)
    make_package(file, out)
    first = (out / "package.pdf").read_bytes()
    make_package(file, out)
    assert (out / "package.pdf").read_bytes() == first
    before = json.loads((out / "results.json").read_text())["input"]
    file.write_text(text.replace('revision = "A"', 'revision = "B"'))
    make_package(file, out)
    cover = PdfReader(out / "package.pdf").pages[0].extract_text()
    assert re.search(rf"Takes the place of\s+revision A of 2026-11-25,.*{before}", re.sub(r"\s+", " ", cover))
