"""The command ``bolewright propose``: requirements in, project files that pass their checks out."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from bolewright.platform.file.reading import ProjectError, read_text
from bolewright.usage import refuse


def add(commands: Any) -> None:
    """Add the command to the command line."""
    parser = commands.add_parser("propose", help="from requirements to project files that pass their checks")
    parser.add_argument("file", type=Path, metavar="FILE", help="requirements (.toml)")
    parser.add_argument(
        "--out",
        type=Path,
        default=Path("proposal.toml"),
        metavar="FILE",
        help="project file of the best proposal; others beside it (default: proposal.toml)",
    )
    parser.add_argument(
        "--budget", type=_count, metavar="N", help="how many sets of checks may be run (default: 400)"
    )
    parser.set_defaults(run=run)


def _count(text: str) -> int:
    if not (text.isdecimal() and 1 <= int(text) <= 100_000):
        raise argparse.ArgumentTypeError(f"{text!r} is no budget: a whole number from 1 to 100000 is wanted")
    return int(text)


def run(given: argparse.Namespace) -> int:
    """Search, write the proposals, print them side by side; 0 where one passes, 1 where none does."""
    from bolewright.proposing.blockers import blockers
    from bolewright.proposing.effects import asked_for, effects, not_measured
    from bolewright.proposing.fit import Bench
    from bolewright.proposing.reading import parse_needs
    from bolewright.proposing.search import BUDGET, search
    from bolewright.proposing.sketch import plans
    from bolewright.proposing.told import (
        NOT_APPROVED,
        neighbours,
        not_proposed,
        proposal_text,
        shopping,
        side_by_side,
    )
    from bolewright.proposing.told import permit as permit_words

    try:
        needs = parse_needs(read_text(given.file), given.file.name)
    except ProjectError as error:
        return refuse(*error.sentences)
    if not given.out.parent.is_dir():
        return refuse(f"There is no folder {given.out.parent}.")
    taken = [path for path in (beside(given.out, i) for i in range(3)) if path.exists()]
    if taken:
        return refuse(f"{taken[0]} exists: name another file with --out, or move it away.")

    def say(words: str) -> None:
        print(words, file=sys.stderr)

    found = search(needs, budget=given.budget or BUDGET, say=say)
    if found.stopped:
        say(found.stopped)
    if not found.best:
        print(f"No arrangement passed; {found.count} sets of checks were run.")
        print(*blockers(needs, found, say=say), *neighbours(found.ground), sep="\n")
        return 1
    shown = found.best
    for i, one in enumerate(shown):
        list_ = effects(one, found.ground, Bench(64))
        if i == 0:
            print(not_measured(list_, asked_for(one, found.ground)), "", sep="\n")
        path = beside(given.out, i)
        try:
            path.write_text(proposal_text(one, found.ground, list_), encoding="utf-8")
        except OSError as error:
            return refuse(f"{path} can't be written: {error.strerror}.")
        say(f"{path} written")
    print(*side_by_side(shown), "", *plans([one.results for one in shown]), "", sep="\n")
    print("To be bought for proposal 1:", *(f"  {line}." for line in shopping(shown[0])), sep="\n")
    print(*not_proposed(found.failed), sep="\n")
    print(
        "",
        permit_words(found.ground),
        *neighbours(found.ground),
        NOT_APPROVED,
        f"{found.count} sets of checks were run.",
        sep="\n",
    )
    return 0


def beside(out: Path, number: int) -> Path:
    """File of a proposal: the one that was asked for, and numbered ones beside it."""
    return out if not number else out.with_name(f"{out.stem}-{number + 1}{out.suffix}")
