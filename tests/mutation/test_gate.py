"""The gate: planted faults have to be found by tests; ``python -m mutation`` runs those of the day and drawn ones."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from mutation.covering import covering, unknown
from mutation.faults import FAULTS, HELD, fault
from mutation.operators import FORMULAS, GLUING, modules, mutants

TESTS = Path(__file__).parents[1]


@pytest.mark.parametrize("name", FAULTS)
def test_every_named_fault_can_be_planted_and_is_covered(name: str) -> None:
    """The program still says what the fault changes, and tests run that line."""
    planted = fault(name)
    assert planted.before != planted.after
    compile(planted.source(), planted.path, "exec")
    assert covering(planted), f"no test runs {planted.path}:{planted.first}: make the map again"


def test_the_map_of_covering_tests_is_not_stale() -> None:
    """One function in ten may be newer than it; then it is made again: python -m mutation --map."""
    whole = sum(1 for room in (*FORMULAS, *GLUING) for path in modules(room) for _ in mutants(path)[:1])
    assert whole > 200
    assert len(unknown()) < 700


def test_named_faults_are_found() -> None:
    """Four of those held, the same on every day; drawn mutants are only told of, which is for a person to ask for."""
    run = subprocess.run(
        [sys.executable, "-m", "mutation", "--named", *HELD[4:8], "--budget", "8"],
        cwd=TESTS,
        env={**os.environ, "PYTHONPATH": f"{TESTS.parent / 'lib'}{os.pathsep}{TESTS}"},
        capture_output=True,
        text=True,
        timeout=900,
        check=False,
    )
    assert run.returncode == 0, run.stdout[-4000:] + run.stderr[-2000:]
