"""The command ``size``: sizes for a project file."""

from __future__ import annotations

import argparse
import os
import signal
import sys
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path

from bolewright.sizing.amounts import Amounts


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Arguments of the command."""
    parser.add_argument("file", type=Path, metavar="FILE", help="project file (.toml); it is not changed")
    parser.add_argument(
        "--out", type=Path, metavar="FILE", help="write the file with the sizes here, remarks kept"
    )
    parser.add_argument(
        "--least",
        choices=("cost", "wood", "concrete"),
        default="cost",
        help="what is to be least (default: cost)",
    )
    parser.add_argument(
        "--only",
        action="append",
        default=[],
        metavar="SIZE",
        help="of this thickness buy only this size, as 2x8",
    )
    parser.add_argument(
        "--keep",
        action="append",
        default=[],
        metavar="MARK",
        help="leave this part, or kind of part, as it is",
    )
    parser.add_argument(
        "--budget", type=_count, default=400, metavar="N", help="sets of checks at most (default: 400)"
    )
    parser.add_argument(
        "--free-ratings",
        action="store_true",
        help="let no rating of the file bind: say what has to be bought",
    )
    parser.add_argument(
        "--write-ratings",
        action="store_true",
        help="write ratings that are required into the file given by --out",
    )
    parser.add_argument(
        "--progress",
        action="store_true",
        help="tell on the error stream how far it is, a line for every ten sets of checks",
    )
    parser.add_argument("--jobs", type=_count, metavar="N", help="processes (default: all cores)")


def run(given: argparse.Namespace) -> int:
    """Run the command: 0 where everything passes, 1 where not, 2 for a file that can't be used."""
    from bolewright.platform.file.reading import ProjectError, read_text
    from bolewright.sizing.report import report
    from bolewright.sizing.size import size
    from bolewright.sizing.stock import StockError
    from bolewright.usage import refuse

    if given.out is not None and given.out.is_dir():
        return refuse(
            f"bolewright size: --out: {given.out} is a folder, a file such as sized.toml is wanted."
        )
    try:
        text = read_text(given.file)
        with _executor(given.jobs or os.cpu_count() or 1) as executor:
            found = size(
                text,
                given.file.name,
                least=given.least,
                only=given.only,
                keep=given.keep,
                budget=given.budget,
                executor=executor,
                free_ratings=given.free_ratings,
                write_ratings=given.write_ratings,
                say=_line if given.progress else _say,
            )
            executor.shutdown(cancel_futures=True)
    except ProjectError as error:
        return refuse(*error.sentences)
    except StockError as error:
        return refuse(f"bolewright size: {error}")
    if sys.stderr.isatty():
        print("\r" + " " * 70 + "\r", end="", file=sys.stderr)
    print(*report(found), sep="\n")
    if given.out is not None:
        try:
            given.out.write_text(found.text, encoding="utf-8")
        except OSError as error:
            return refuse(f"bolewright size: --out: {given.out} can't be written: {error.strerror}.")
        print(f"Written: {given.out}.")
    return 0 if found.passes and (found.ratings_written or not found.needs) else 1


def _executor(jobs: int) -> ProcessPoolExecutor:
    """Processes that leave Ctrl+C to this one."""
    return ProcessPoolExecutor(jobs, get_context("spawn"), signal.signal, (signal.SIGINT, signal.SIG_IGN))


def _say(count: int, budget: int, best: Amounts | None) -> None:
    if sys.stderr.isatty():
        print(f"\r  {_far(count, budget, best)}   ", end="", file=sys.stderr, flush=True)


def _line(count: int, budget: int, best: Amounts | None) -> None:
    if count % 10 == 0:
        print(_far(count, budget, best), file=sys.stderr, flush=True)


def _far(count: int, budget: int, best: Amounts | None) -> str:
    so_far = f", best so far costs {best.cost:,.0f}" if best else ", nothing passes yet"
    return f"{count} of at most {budget} sets of checks{so_far}"


def _count(text: str) -> int:
    if not (text.isdecimal() and int(text) > 0):
        raise argparse.ArgumentTypeError(f"{text!r} is no number: a whole number from 1 is wanted")
    return int(text)
