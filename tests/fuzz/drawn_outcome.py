"""What the program makes of a file: sentences, or results of which every number is one."""

from __future__ import annotations

import json
import math
import time
import warnings
from collections import Counter
from dataclasses import dataclass

import numpy as np

from bolewright.platform.file.reading import ProjectError, parse_project
from bolewright.platform.layout.layout import LayoutError
from bolewright.platform.results.results import to_json
from bolewright.platform.results.summary import summary_lines
from bolewright.setting_out.complete import complete_results
from bolewright.sheets.package import files_beside
from bolewright.status import Status

BEYOND_PAPER = 20


@dataclass(frozen=True)
class Outcome:
    """What became of one file: ``kind`` faults, layout or results; how long it took, how many members it has."""

    kind: str
    seconds: float
    members: int = 0


class Wrong(AssertionError):
    """What the program should never do, said of one file."""


def outcome_of(text: str, *, everything: bool) -> Outcome:
    """Run a file as ``check`` does, ``everything`` as ``package`` does up to the sheets; Wrong for what may not be."""
    start = time.process_time()
    with warnings.catch_warnings(), np.errstate(all="warn"):
        warnings.simplefilter("error")
        try:
            results = complete_results(parse_project(text, "file.toml"))
        except ProjectError as error:
            _sentences(error.sentences)
            return Outcome("faults", time.process_time() - start)
        except LayoutError as error:
            _sentences([str(error)])
            return Outcome("layout", time.process_time() - start)
        spent = time.process_time() - start
        for check in results.checks:
            numbers = (check.demand, check.capacity, check.ratio)
            if check.status is Status.FAILS and check.capacity <= 0 and math.isnan(check.ratio):
                numbers = (check.demand, check.capacity)  # nothing is left to bear it: said without a ratio
            if check.status is not Status.NOT_CHECKED and not all(map(math.isfinite, numbers)):
                raise Wrong(f"{check.part}, {check.limit_state}: {numbers} is not finite")
            _sentences([check.sentence])
        json.loads(to_json(results, text))
        if any(word in line.split() for line in summary_lines(results) for word in ("nan", "inf", "-inf")):
            raise Wrong("the summary shows what is no number")
        for name, (laid, carried) in results.path.balance().items():
            if not math.isclose(laid, carried, rel_tol=1e-6, abs_tol=1e-6):
                raise Wrong(f"{name}: {laid} lb applied, {carried} lb carried")
        if everything:
            for name, data in files_beside(results, text).items():
                if not data:
                    raise Wrong(f"{name} is empty")
    return Outcome("results", spent, len(results.path.layout.members))


def _sentences(said: list[str]) -> None:
    for sentence in said:
        if not sentence.endswith((".", ".)")) or not sentence.isprintable():
            raise Wrong(f"{sentence!r} is no sentence")


def tally(outcomes: list[Outcome]) -> Counter[str]:
    """How many files ended in which way."""
    return Counter(outcome.kind for outcome in outcomes)
