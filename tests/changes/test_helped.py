"""What helps a limit state is found by its key: no word of a label decides, and no limit state is left out unseen."""

from __future__ import annotations

from bolewright.changes.ways import WAYS
from bolewright.changes.ways_timber import LADDERS
from bolewright.platform.limit_states import LIMIT_STATES, Topic
from bolewright.platform.limit_states.helped import HELPED, Help, help_of
from bolewright.proposing.sizes import POSTS

# Settled by no size that the program tries: by what the ground, the tree or the code is, or by a sentence of its own.
BY_NONE = {
    "platform.guard",
    "platform.seismic",
    *("tree.place", "tree.condition", "tree.sway"),
    *(f"trunk_opening.{name}" for name in ("sphere", "growth", "travel", "load")),
}
NO_WAYS = {Topic.GUARDS, Topic.ACCESS}  # their sentences say what to enter


def test_every_limit_state_is_helped_or_named_as_helped_by_nothing() -> None:
    bare = {k for k, state in LIMIT_STATES.items() if help_of(k) is None and state.topic not in NO_WAYS}
    assert bare == BY_NONE


def test_every_key_is_a_limit_state_s() -> None:
    assert {key for keys in HELPED.values() for key in keys} <= set(LIMIT_STATES)


def test_every_way_of_helping_is_there_and_serves_something() -> None:
    assert set(WAYS) == set(Help) == set(HELPED)


def test_a_post_is_offered_in_every_size_that_a_proposal_has() -> None:
    """A proposal on 12x12 whose posts were made 8x8 came to no pass: the list of sizes ended at 10x10."""
    assert any(set(POSTS) <= set(ladder) for ladder in LADDERS)
