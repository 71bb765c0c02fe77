"""A hanger's rating for dry wood counts 0.7 in the weather: NDS 2018, Table 11.3.3 (wet service, lateral loads)."""

from __future__ import annotations

from pathlib import Path

import pytest

from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import find_results

LOOKOUT = (Path(__file__).parents[1] / "projects" / "without_guard" / "lookout.toml").read_text(
    encoding="utf-8"
)


def capacity(text: str, key: str) -> float:
    return next(c.capacity for c in find_results(parse_project(text)).checks if c.key == key)


def test_a_rating_for_dry_wood_counts_seven_tenths_in_the_weather() -> None:
    assert "wet_included = true" in LOOKOUT
    dry = LOOKOUT.replace("wet_included = true", "wet_included = false")
    assert capacity(dry, "hanger.rated") == pytest.approx(0.7 * capacity(LOOKOUT, "hanger.rated"))
