"""What would help, as lines for the command line, and one of the changes written into the file."""

from __future__ import annotations

import difflib
import sys
from collections.abc import Iterator
from pathlib import Path

from bolewright.changes.advice import Help, find_help
from bolewright.changes.trials import Trials
from bolewright.platform.results.results import Results, fingerprint
from bolewright.setting_out.complete import complete_results
from bolewright.status import Status
from bolewright.workbook.draft import Draft
from bolewright.workbook.storage import last_good_path, save

HEADING = "What would help, each change tried on the whole platform (--apply N writes it into the file):"
NOBODY = (
    "These are sizes that pass the checks made here. Nobody has approved them: look at the whole again after each, "
    "and have it looked at."
)


def help_for(text: str, name: str, results: Results) -> Help:
    """What would help every check of a file that fails or is open; tells on the error stream how far it is."""
    trials = Trials(Draft(text, name).data, results, complete_results)

    def say(done: int, of: int) -> None:
        if sys.stderr.isatty():
            print(
                f"\r  trying what would help: check {done + 1} of {of} ", end="", file=sys.stderr, flush=True
            )

    found = find_help(trials, say=say)
    if sys.stderr.isatty():
        print("\r" + " " * 60 + "\r", end="", file=sys.stderr)
    return found


def help_lines(found: Help) -> Iterator[str]:
    """The advice in lines."""
    if not found.advice:
        yield "Nothing fails or is open: nothing to change."
        return
    yield HEADING
    if found.ratings:
        yield f"{found.ratings.number:3d}  {found.ratings.outcome.change.words}."
    for one in found.advice:
        mark = "FAIL" if one.check.status is Status.FAILS else "OPEN"
        ratio = f" {one.check.shown_ratio}" if one.check.status is Status.FAILS else ""
        yield f"{mark} {one.check.part}, {one.check.limit_state}{ratio}"
        yield from (f"  {sentence}" for sentence in one.sentences)
    yield NOBODY


def apply(path: Path, text: str, number: int, found: Help) -> list[str]:
    """Write a change into the file, remarks kept and its last good text beside it; what was done, in lines.

    Raises KeyError for a number that is not in the list, StorageError where the file can't be written.
    """
    change = found.offers[number].outcome.change
    draft = Draft(text, path.name)
    draft.take(change.made(draft.data), change.words)
    save(path, draft.text, fingerprint(text))
    lines = difflib.unified_diff(text.splitlines(), draft.text.splitlines(), lineterm="", n=0)
    changed = [line for line in lines if line[:1] in "+-" and line[:3] not in ("+++", "---")]
    return [
        f"{path.name}: {change.words}.",
        *(f"  {line}" for line in changed),
        f"The text before is kept as {last_good_path(path).name}.",
    ]
