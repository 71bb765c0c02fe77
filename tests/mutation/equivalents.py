"""Mutants that change nothing, each with its proof in one line (``equivalents.toml``); at most 3 % of all."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from mutation.operators import Mutant

LIST = Path(__file__).with_name("equivalents.toml")


@cache
def listed() -> dict[str, str]:
    """Proof by the mutant's key."""
    if not LIST.exists():
        return {}
    return {
        row["mutant"]: row["proof"] for row in tomllib.loads(LIST.read_text(encoding="utf-8"))["equivalent"]
    }


def is_equivalent(mutant: Mutant) -> bool:
    """Whether a mutant is on the list."""
    return mutant.key in listed()
