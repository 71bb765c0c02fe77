"""Mutants on demand, from the folder ``tests``:

    python -m mutation                     ten of today: named faults and drawn ones in turn
    python -m mutation --named             every named fault
    python -m mutation --drawn 100 --gluing --seed 3
    python -m mutation --room timber       every mutant of one room (hours), --all of all
    python -m mutation --map               the map of covering tests, made again (about half an hour)
    python -m mutation --map platform/test_stairs.py audit    ... taught the functions it does not know, by these

Ends with 1 if a named fault survives; of drawn ones it tells which live, each a test that is wanted.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
import time
from collections import Counter
from itertools import islice
from pathlib import Path

from mutation.covering import LEFT_OUT, MAP, RECORDED, is_mapped, store, unknown
from mutation.equivalents import is_equivalent
from mutation.faults import FAULTS, HELD, fault
from mutation.operators import FORMULAS, GLUING, Mutant, modules, mutants
from mutation.running import Outcome, run

TESTS = Path(__file__).parents[1]
NAMED_A_DAY, DRAWN_A_DAY = 4, 6


def drawn(rooms: tuple[str, ...], count: int, seed: int) -> list[Mutant]:
    """Mutants of some rooms without the known equivalents, the same for the same seed and source."""
    every = [m for room in rooms for path in modules(room) for m in mutants(path) if not is_equivalent(m)]
    random.Random(seed).shuffle(every)
    return list(islice((m for m in every if is_mapped(m)), count))


def of_the_day(day: int) -> tuple[list[Mutant], list[Mutant]]:
    """Named faults in turn, so that each comes about once a week, and drawn ones half from each group."""
    names = [HELD[(day * NAMED_A_DAY + i) % len(HELD)] for i in range(NAMED_A_DAY)]
    half = DRAWN_A_DAY // 2
    return [fault(name) for name in names], [*drawn(FORMULAS, half, day), *drawn(GLUING, half, day)]


def _say(one: Outcome, quiet: bool) -> None:
    if not quiet or not one.caught:
        name = f"{one.mutant.name}: " if one.mutant.name else ""
        by = f" by {one.by}" if one.by else f" ({one.tests} tests)"
        print(
            f"{one.fate:9} {name}{one.mutant.path}:{one.mutant.first} {one.mutant.key}{by} {one.seconds:.0f} s",
            flush=True,
        )


def _table(found: list[Outcome]) -> None:
    killed, all_ = Counter(), Counter()
    for one in found:
        all_[one.mutant.room] += 1
        killed[one.mutant.room] += one.caught
    for room, count in all_.items():
        print(f"{room:12} {killed[room]:4} of {count:4} killed")
    if found:
        print(f"{'together':12} {sum(killed.values()):4} of {len(found):4} killed")


def make_map(of: list[str]) -> None:
    """Run all counted tests once under coverage.py, or only some for what is new, and store which run what."""
    data, uses = TESTS.parent / ".coverage-map", TESTS.parent / ".coverage-uses.json"
    whole = [TESTS / room for room in RECORDED if (TESTS / room).is_dir()] + sorted(TESTS.glob("test_*.py"))
    tests = [TESTS / name for name in of] or whole
    subprocess.run(
        [
            *(sys.executable, "-m", "coverage", "run", f"--data-file={data}", "--source=lib/bolewright"),
            *("-m", "pytest", "-p", "mutation.recording", "-p", "no:cacheprovider", "-q"),
            *(f"--ignore={TESTS / file}" for file in LEFT_OUT),
            *map(str, tests),
        ],
        cwd=TESTS.parent,
        env={**os.environ, "PYTHONPATH": f"{TESTS.parent / 'lib'}{os.pathsep}{TESTS}"},
        check=False,
    )
    store([(data, uses)], keep=bool(of))
    data.unlink()
    uses.unlink()


def main() -> int:
    """The command."""
    parser = argparse.ArgumentParser(
        prog="python -m mutation", description="Faults that the tests have to find."
    )
    parser.add_argument("--named", nargs="*", metavar="NAME", help="named faults: all, or these")
    parser.add_argument("--drawn", type=int, default=0, metavar="COUNT", help="so many drawn mutants")
    parser.add_argument("--formulas", action="store_true", help="drawn from the formula rooms")
    parser.add_argument("--gluing", action="store_true", help="drawn from platform, setting_out and take_off")
    parser.add_argument(
        "--room", action="append", help="every mutant of a room (with --drawn: so many of it)"
    )
    parser.add_argument("--all", action="store_true", help="every mutant")
    parser.add_argument(
        "--only", default="", metavar="TEXT", help="of those, the ones whose name holds this text"
    )
    parser.add_argument("--seed", type=int, help="of the draw; else the day's number")
    parser.add_argument("--budget", type=float, default=60.0, help="seconds of tests for one mutant")
    parser.add_argument("--quiet", action="store_true", help="survivors only")
    parser.add_argument(
        "--map",
        nargs="*",
        metavar="TESTS",
        help="make the map of covering tests again, or teach it what is new",
    )
    given = parser.parse_args()
    if given.map is not None:
        make_map(given.map)
        return 0
    if not MAP.exists():
        parser.error("no map of covering tests: run with --map first")
    seed = int(time.time() // 86_400) if given.seed is None else given.seed
    rooms = tuple(given.room or ((FORMULAS if given.formulas else ()) + (GLUING if given.gluing else ())))
    names: list[Mutant] = []
    picked: list[Mutant] = []
    if given.named is not None:
        names = [fault(name) for name in given.named or FAULTS]
    if given.drawn:
        picked = drawn(rooms or (*FORMULAS, *GLUING), given.drawn, seed)
    elif given.room or given.all:
        picked = drawn(rooms or (*FORMULAS, *GLUING), sys.maxsize, seed)
    elif given.named is None:
        names, picked = of_the_day(seed)
        print(
            f"day {seed}: {len(names)} named faults, {len(picked)} drawn mutants; {len(unknown())} functions are new"
        )
    picked = [mutant for mutant in picked if given.only in mutant.key]
    found = run([*names, *picked], given.budget, lambda one: _say(one, given.quiet))
    _table(found)
    return int(any(one.mutant.name and not one.caught for one in found))


if __name__ == "__main__":
    sys.exit(main())
