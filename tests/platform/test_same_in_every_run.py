"""Results are the same in every run: under other seeds of hashing, time zones, folders, numbers of threads, processors.

Nothing hangs on the order in which a set gives its marks, or on the last digits of sums that tie.
"""

import hashlib
import math
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from arrangement_files import DEMO, file_of

from bolewright.mechanics.ties import exceeds, first_least, first_most, least_of, most_of
from bolewright.paths import shipped

HERE = Path(__file__).parent / "arrangements"
RESULTS = """
import sys; from pathlib import Path
from bolewright.platform.file.reading import parse_project
from bolewright.platform.results.results import to_json
from bolewright.setting_out.complete import complete_results
for path in map(Path, sys.argv[1:]):
    text = path.read_text("utf-8")
    results = complete_results(parse_project(text, path.name))
    print(to_json(results, text))
"""
ALL_FILES = f"""{RESULTS}
from bolewright.sheets.package import files_beside
import hashlib
for name, data in files_beside(results, text).items():
    print(name, hashlib.sha256(data).hexdigest())
"""


def said(program, paths, folder=None, **environment):
    return subprocess.run(
        [sys.executable, "-c", program, *map(str, paths)],
        env={**os.environ, **environment},
        cwd=folder,
        capture_output=True,
        check=True,
    ).stdout


def test_files_of_a_package_under_other_seeds_zones_folders_and_threads(tmp_path):
    """Seeds 0 and 5 put the classes of a drawing's file in two orders, as they come from a set."""
    one = said(ALL_FILES, [file_of(DEMO)], PYTHONHASHSEED="0", TZ="America/Denver", OPENBLAS_NUM_THREADS="1")
    other = said(
        ALL_FILES,
        [file_of(DEMO)],
        tmp_path,
        PYTHONHASHSEED="5",
        TZ="Asia/Tokyo",
        OPENBLAS_NUM_THREADS="2",
        LC_ALL="C",
    )
    assert one.count(b"drawings/") > 20
    assert hashlib.sha256(one).hexdigest() == hashlib.sha256(other).hexdigest()


def test_results_under_the_arithmetic_of_other_processors():
    """The linear algebra library adds in another order for each; a library without the setting makes this vacuous."""
    demo = (
        shipped("calcsheets") / "lookout.toml"
    )  # without its guard the drift, 0.4311485, ties in the last digit said
    paths = [demo, *(HERE / f"{name}.toml" for name in ("one_tree_one_post_t_frame", "three_trees"))]
    one = said(RESULTS, paths, OPENBLAS_CORETYPE="Haswell", PYTHONHASHSEED="1")
    other = said(RESULTS, paths, OPENBLAS_CORETYPE="Prescott", PYTHONHASHSEED="2")
    assert len(one) > 100_000
    assert one == other


@pytest.mark.parametrize("noise", [0.0, 1e-13, -1e-13])
def test_of_values_that_tie_the_first_governs_whatever_the_rounding(noise):
    values = np.array([[1.0, 3.0, 3.0 * (1 + noise)], [-2.0 * (1 + noise), -2.0, -5.0]])
    assert first_most(values, axis=1).tolist() == [1, 0]
    assert first_least(-values, axis=1).tolist() == [1, 0]
    assert most_of("abc", dict(zip("abc", values[0], strict=True)).__getitem__) == "b"
    assert least_of("abc", dict(zip("abc", -values[0], strict=True)).__getitem__) == "b"
    assert not exceeds(3.0 * (1 + noise), 3.0)


def test_what_is_greater_by_more_than_rounding_governs():
    assert first_most([3.0, 3.000001]) == 1
    assert exceeds(3.000001, 3.0)
    assert exceeds(math.inf, 3.0)
    assert not exceeds(math.inf, math.inf)
    assert first_most([0.0, -0.0, 1e-300]) == 2


def test_what_is_no_number_is_not_passed_over():
    """A ratio that is no number must be seen: it can't pass."""
    assert first_most([1.0, math.nan, 2.0]) == 1
    assert first_most([1.0, math.inf, 2.0]) == 1
    assert first_most([-math.inf, -math.inf]) == 0
