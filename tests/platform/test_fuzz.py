"""Whatever a file holds, the answer is a project, its results, or sentences; never another exception."""

from __future__ import annotations

import copy
import math
import re
import tomllib
from collections.abc import Callable
from typing import Any

import pytest
from arrangement_files import ARRANGEMENTS, DEMO, file_of
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from bolewright.platform.file.reading import ProjectError, find_faults, parse_project
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import find_results
from bolewright.units import DEGREE, INCH, MPH, NONE, PLF, POUND, PSF, PSI, ReadError, read

UNITS = (INCH, PSF, POUND, PSI, PLF, MPH, DEGREE, NONE)
PIECES = [
    "7",
    "1/2",
    "2 1/2",
    "0",
    "-",
    "+",
    ".",
    "/",
    "'",
    '"',
    "ft",
    "in",
    "psf",
    "psi",
    "e9",
    "**",
    "nan",
    "inf",
    " ",
    "½",
    "%",
    "mm",
]
RAW = {name: tomllib.loads(file_of(name).read_text(encoding="utf-8")) for name in (DEMO, *ARRANGEMENTS)}


def tried(error: type[ValueError], call: Callable[..., Any], *given: Any) -> Any:
    """What a call gives, or its sentences when it raises ``error``; any other exception goes through."""
    try:
        return call(*given)
    except error as caught:
        return str(caught)


def is_number_or_sentence(found: Any) -> bool:
    return bool(found) if isinstance(found, str) else math.isfinite(found)


@given(
    st.one_of(st.text(max_size=60), st.lists(st.sampled_from(PIECES), max_size=8).map("".join)),
    st.sampled_from(UNITS),
)
@example("1/0 in", INCH)
@example("9**9**9 ft", INCH)
@example("1e400 ft", INCH)
@example("٣ ft", INCH)
@example("²", NONE)
@example("1" * 400 + " in", INCH)
@settings(max_examples=600, deadline=None)
def test_any_text_is_a_finite_number_or_one_sentence(text: str, unit: Any) -> None:
    assert is_number_or_sentence(tried(ReadError, read, text, unit))


@given(
    st.one_of(
        st.none(),
        st.booleans(),
        st.integers(),
        st.floats(),
        st.lists(st.integers(), max_size=2),
        st.binary(max_size=5),
    )
)
def test_what_is_no_text_is_a_finite_number_or_one_sentence(value: Any) -> None:
    for unit in (INCH, NONE):
        assert is_number_or_sentence(tried(ReadError, read, value, unit))


GARBAGE = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-1000, 100_000),
    st.floats(),
    st.text(max_size=12),
    st.sampled_from(
        [
            "0 in",
            "-1 in",
            "nan in",
            "400 ft",
            "40 psf",
            "",
            "2x99",
            "x",
            "No.9",
            "T1",
            "S1",
            "C1",
            "J1",
            "hung",
        ]
    ),
    st.lists(st.sampled_from(["0 in", "12 in", "x"]), max_size=3),
    st.dictionaries(st.text(max_size=4), st.integers(), max_size=2),
)
# Values that a slip of the pen may give: these come through the door and try the geometry.
SLIPS = {
    "section": ["2x4", "2x12", "6x6", "4x12", "1x4", "30x30 in", "0.3x0.3 in", "100x300 mm"],
    "grade": ["No.1", "Stud", "Construction", "Select Structural"],
    "species": ["Southern Pine", "Douglas Fir-Larch", "white oak"],
    "bearing": ["hung", "resting"],
    "layer": [0, 1, 2, 3],
    "plies": [1, 2, 5],
    "kind": ["post", "tree bolt"],
}
LENGTHS = st.one_of(
    st.sampled_from([0.0, 1.0, -1.0, 6.0, 24.0, 60.0, 100.0, 1e-3, 480.0, 1000.0]), st.floats(-1100, 1100)
)


def places(node: Any, at: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    return [place for key, value in items for place in [(*at, key), *places(value, (*at, key))]]


def parent(raw: Any, place: tuple[str | int, ...]) -> Any:
    for key in place[:-1]:
        raw = raw[key]
    return raw


def slipped(value: Any, key: str | int, draw: Any) -> Any:
    if key in SLIPS:
        return draw(st.sampled_from(SLIPS[key]))
    if isinstance(value, str) and re.match(r"-?[\d.]", value):
        unit = re.sub(r"^[-\d. /']+", "", value) or "in"
        return f"{draw(LENGTHS):.4f} {unit}"
    if isinstance(value, int) and not isinstance(value, bool):
        return draw(st.sampled_from([0, 1, 2, 60, 1000]))
    return value


@st.composite
def mutated(draw: Any) -> dict[str, Any]:
    raw = copy.deepcopy(RAW[draw(st.sampled_from(sorted(RAW)))])
    for _ in range(draw(st.integers(1, 3))):
        place = draw(st.sampled_from(places(raw)))
        node, key = parent(raw, place), place[-1]
        what = draw(st.sampled_from(["slip", "slip", "slip", "delete", "garbage"]))
        if what == "delete":
            del node[key]
        elif what == "garbage":
            node[key] = draw(GARBAGE)
        else:
            node[key] = slipped(node[key], key, draw)
    return raw


@given(mutated())
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
def test_mutated_files_give_results_or_sentences(raw: dict[str, Any]) -> None:
    project, faults = find_faults(raw)
    if project is None:
        assert faults
        for fault in faults:
            assert fault.message.endswith(".")
            assert "\n" not in fault.message
        return
    results = tried(LayoutError, find_results, project)
    if isinstance(results, str):
        assert results.endswith(".")
        assert "\n" not in results
        return
    for laid, carried in results.path.balance().values():
        assert carried == pytest.approx(laid, rel=1e-6, abs=1e-6)


@given(st.data())
@settings(max_examples=100, deadline=None)
def test_cut_and_scrambled_text_gives_sentences(data: Any) -> None:
    text = file_of(DEMO).read_text(encoding="utf-8")
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, min(len(text), start + 300)))
    filler = data.draw(st.one_of(st.just(""), st.text(max_size=20)))
    found = tried(ProjectError, parse_project, text[:start] + filler + text[end:])
    assert not isinstance(found, str) or all(line.strip() for line in found.split("\n"))
