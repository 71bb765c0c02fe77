"""Results are the same in every run: nothing hangs on the order in which a set happens to give its marks."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = (
    "import sys; from pathlib import Path; from bolewright.platform.reading import parse_project; "
    "from bolewright.platform.results import find_results, to_json; text = Path(sys.argv[1]).read_text('utf-8'); "
    "print(to_json(find_results(parse_project(text)), text))"
)


@pytest.mark.parametrize("name", ["three_trees", "one_tree_one_post_knee"])
def test_two_seeds_of_hashing_give_the_same_bytes(name: str) -> None:
    path = Path(__file__).parent / "arrangements" / f"{name}.toml"
    runs = [
        subprocess.run(
            [sys.executable, "-c", PROGRAM, str(path)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("0", "1", "2")
    ]
    assert len(runs[0]) > 1000
    assert runs[0] == runs[1] == runs[2]
