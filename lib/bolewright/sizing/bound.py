"""How much a cheaper choice of sizes could save at most: each part by itself, under gravity alone."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product

from bolewright.platform.layout.layout import LayoutError
from bolewright.sizing.candidates import Candidates
from bolewright.sizing.choices import State
from bolewright.sizing.gravity import fails_under_gravity

_COSTLESS = ("nails", "slot")
_KINDS = {"joists": "joist", "beam": "beam", "post": "post", "footing": "footing", "decking": "decking"}


@dataclass(frozen=True)
class Bound:
    """A lower bound of what was to be least, and the share of what was found that lies above it."""

    value: float
    gap: float


def find_bound(found: Candidates, state: State) -> Bound | None:
    """The worth of what was found, less the most that each part by itself can save where gravity alone is asked for.

    Joists by size and spacing, beams by size and plies, posts, and each measure of the holes by itself, all others as
    found. Knees and bolts at their cheapest, for gravity does not ask for them. It is a bound as long as lighter other
    parts ask no less of a part under gravity; lateral loads only add to what is asked.
    """
    own = found.worth(state)[0]
    if own <= 0:
        return None
    saved = sum(_saving(found, state, block) for block in _blocks(found))
    value = max(0.0, own - saved)
    return Bound(value, (own - value) / own)


def _blocks(found: Candidates) -> list[list[int]]:
    """Choices that are looked at together: size and spacing of joists, size and plies of beams that share a mark."""
    blocks: list[list[int]] = []
    for c, choice in enumerate(found.choices.all):
        marks = set(choice.parts.split(", "))
        same = None
        if choice.kind in ("joists", "beam"):
            same = next(
                (
                    block
                    for block in blocks
                    if found.choices.all[block[0]].kind == choice.kind
                    and marks & {m for b in block for m in found.choices.all[b].parts.split(", ")}
                ),
                None,
            )
        if same is None:
            blocks.append([c])
        else:
            same.append(c)
    return blocks


def _saving(found: Candidates, state: State, block: list[int]) -> float:
    """The most that a block can save; 0 where nothing cheaper passes under gravity."""
    own = found.worth(state)[0]
    if found.choices.all[block[0]].kind in _COSTLESS:
        return 0.0
    cheaper: list[tuple[float, State]] = []
    for rungs in product(*(range(len(found.choices.all[c].rungs)) for c in block)):
        one = list(state)
        for c, rung in zip(block, rungs, strict=True):
            one[c] = rung
        worth = found.worth(tuple(one))[0]
        if worth < own:
            cheaper.append((worth, tuple(one)))
    choice = found.choices.all[block[0]]
    asked = _KINDS.get("" if choice.what.startswith("bolts") else choice.kind, "")
    for worth, cheap in sorted(cheaper):
        if not asked or not _fails(found, cheap, asked):
            return own - worth
    return 0.0


def _fails(found: Candidates, state: State, asked: str) -> bool:
    try:
        fails = fails_under_gravity(found.choices.made(state), footings=asked == "footing")
    except LayoutError:
        return True
    return any(name[0].split(".")[0] == asked for name in fails)
