"""Kinds of support are an enumeration that the type checker sees: no file of the library compares one with a text."""

from __future__ import annotations

import re
from pathlib import Path

import bolewright
from bolewright.platform.file.reading import find_faults, parse_toml
from bolewright.platform.project.bearing import SupportKind
from bolewright.workbook.schema import section

LIBRARY = Path(bolewright.__file__).parent
COMPARED = re.compile(rf'\.kind (?:==|!=) "(?:{"|".join(SupportKind)})"')
LOOKOUT = (Path(__file__).parent / "projects" / "lookout_gravity.toml").read_text(encoding="utf-8")


def test_no_kind_of_support_is_compared_with_a_text() -> None:
    found = [p.name for p in LIBRARY.rglob("*.py") if COMPARED.search(p.read_text(encoding="utf-8"))]
    assert found == []


def test_the_file_writes_a_kind_as_before_and_another_is_refused_in_words() -> None:
    project, _ = find_faults(parse_toml(LOOKOUT, "file"))
    assert project is not None
    assert [f"{s.kind}" for s in project.supports] == ["tree bolt", "tree bolt", "post", "post"]
    _, faults = find_faults(parse_toml(LOOKOUT.replace('kind = "post"', 'kind = "pile"', 1), "file"))
    (fault,) = faults
    assert fault.message == "'pile' is not allowed; choose 'tree bolt', 'post' or 'knee brace'."


def test_the_form_offers_the_kinds() -> None:
    kind = next(field for field in section("support").fields if field.key == "kind")
    assert kind.choices == ("tree bolt", "post", "knee brace")
    assert not any(isinstance(choice, SupportKind) for choice in kind.choices)
