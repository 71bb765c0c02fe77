"""What ``results.json`` holds: one model, from which its JSON Schema is made.

``python -m bolewright.platform.results.results_schema --write`` stores the schema in the package; a test holds it to
the model, and the results of every shipped project and case to both. How the number in ``schema`` rises is in
DEVELOPERS.md.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from bolewright.platform.results.coverage import Cover
from bolewright.status import Status

STORED = Path(__file__).with_name("results.schema.json")
Number = float | None  # null: no such number


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True, use_attribute_docstrings=True)


class Rating(_Part):
    """A rating that was typed into the project file."""

    table: str
    """table of the project file"""
    part: str
    """mark or name in that table"""
    key: str
    lb: Number
    """load (lb)"""
    source: str
    """what the file says of it; empty where it says nothing"""


class Unconfirmed(_Part):
    """A value that equals one which the demonstration invented, and that the file does not confirm."""

    path: str
    """as the file lists it under confirmed"""
    value: str
    """as it is written in the demonstration"""


class NotCalculated(_Part):
    """A matter that this program does not calculate."""

    what: str
    who: str
    """who decides"""
    why: str


class LimitStateCover(_Part):
    """What became of a limit state."""

    key: str
    outcome: Cover = Field(strict=False)
    parts: int
    """number of parts it was asked of"""
    why: str
    """why it does not apply, or is open"""


class Governing(_Part):
    """The governing check."""

    part: str
    limit_state: str
    ratio: Number


class Summary(_Part):
    """Checks by status."""

    passes: int
    """by a calculation, by a rating, or because nothing is asked"""
    nothing_asked: int
    """of those that pass, the rows without a calculation, of which nothing is asked"""
    fails: int
    not_checked: int = Field(alias="not checked")
    governing: Governing


class Carried(_Part):
    """A load all over the platform (lb)."""

    laid_on_lb: Number
    carried_lb: Number


class Extreme(_Part):
    """The most or least of a support over all combinations of weight (lb, down positive)."""

    lb: Number
    combination: str


class Lateral(_Part):
    """Greatest lateral force of a support along x and y of the plan (lb)."""

    x_lb: Number
    y_lb: Number
    combination: str


class Reaction(_Part):
    """A support's reaction (lb, down positive)."""

    D: Number
    """dead load"""
    L: Number
    """live load everywhere"""
    L_most: Number
    """live load where it adds"""
    L_least: Number
    """live load where it relieves"""
    S: Number
    """snow everywhere"""
    S_most: Number
    S_least: Number
    person_most: Number
    """one person where he or she adds most"""
    person_least: Number
    most: Extreme
    least: Extreme
    lateral: Lateral | None
    """null where nothing is held"""


class Sum(_Part):
    """The supports' sum beside what was put on (lb)."""

    carried_lb: Number
    put_on_lb: Number


class ActionOfResults(_Part):
    """What a part brings to the framing at one place."""

    part: str
    what: str
    kind: Literal["dead", "live", "snow", "wind", "push"]
    """when it is there; push: of a guard, one place at a time"""
    at_in: list[Number]
    """place in plan (in)"""
    member: str | None
    """member that takes it; null: through the boards"""
    down_lb: Number
    """minus lifts"""
    level_lb: list[Number]
    """along x and y of the plan"""
    height_in: Number
    """of the lateral force, above grade"""
    moment_lbin: list[Number]
    """vector along x and y, by the right hand"""
    also: list[ActionOfResults] | None = None
    """what the same load brings to other places at once: down and moment"""


class Seat(_Part):
    """Where a member bears."""

    below: str
    bearing: str
    at_in: Number
    """from the member's start (in)"""


class Mark(_Part):
    """A piece or support with its mark; a member has section, length and seats, a support its place."""

    mark: str
    kind: str
    section: str | None = None
    length_in: Number = None
    seats: list[Seat] | None = None
    at_in: list[float] | None = None
    """place in plan (in)"""


class Pattern(_Part):
    """Worst place of the live load: the numbers of the loaded panels, and where one person stands (in)."""

    panels: list[int]
    person_in: list[float] | None


class CheckOfResults(_Part):
    """One check of one part."""

    part: str
    key: str
    """limit state's key, never changed again"""
    topic: str
    limit_state: str
    status: Status = Field(strict=False)
    demand: Number
    capacity: Number
    unit: str
    """of demand and capacity"""
    ratio: Number
    """demand over capacity, six digits, rounded up; null where there is none"""
    combination: str
    clause: str
    sentence: str
    where: str
    notes: list[str]
    asks_nothing: bool
    """whether nothing is asked of the part, so that it passes without a calculation"""
    pattern: Pattern | None = None
    """of the governing check of each topic and limit state"""


class Panel(_Part):
    """A panel of the deck."""

    corners_in: list[list[float]]
    area_sqft: Number
    member: str
    """mark of the member that carries it"""


class Compared(_Part):
    """One effect by hand calculation and by the frame model."""

    part: str
    quantity: str
    unit: str
    by_hand: Number
    by_frame: Number


class ResultsFile(_Part):
    """Results of Bolewright for one project file. Numbers for review: nothing here approves a structure."""

    model_config = ConfigDict(title="Bolewright results")

    schema_: Literal["bolewright results 2"] = Field(alias="schema")
    version: str
    """of the program"""
    input: str = Field(pattern="^[0-9a-f]{16}$")
    """fingerprint of the project file"""
    project: str
    code: str
    """building code that the file names"""
    demonstration: bool
    verdict: list[str]
    beside_verdict: list[str]
    """what must be said with the verdict"""
    ratings: list[Rating]
    unconfirmed: list[Unconfirmed]
    """none in a demonstration itself"""
    not_calculated: list[NotCalculated]
    limit_states: list[LimitStateCover]
    summary: Summary
    loads: dict[str, Carried]
    reactions: dict[str, Reaction]
    """by the support's mark"""
    sum: dict[str, Sum]
    actions: list[ActionOfResults] | None = None
    """what parts bring to places of the framing; only where some do"""
    marks: list[Mark]
    checks: list[CheckOfResults]
    panels: list[Panel]
    independent_check: list[Compared]
    """the independent check"""


def results_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of ``results.json``.

    >>> results_schema()["properties"]["schema"]["const"]
    'bolewright results 2'
    """
    schema = ResultsFile.model_json_schema(by_alias=True)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def stored_text() -> str:
    """The schema as it is stored."""
    return json.dumps(results_schema(), indent=1, ensure_ascii=False) + "\n"


def main(arguments: list[str] | None = None) -> int:
    """Print the schema, or store it."""
    parser = argparse.ArgumentParser(description="JSON Schema of results.json")
    parser.add_argument("--write", action="store_true", help=f"store it as {STORED.name}")
    if parser.parse_args(arguments).write:
        STORED.write_text(stored_text(), encoding="utf-8")
    else:
        sys.stdout.write(stored_text())
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
