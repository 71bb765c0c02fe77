"""Ratings that a project file has taken alone (``rated_alone``), in a sentence for the summary."""

from __future__ import annotations

from collections.abc import Iterator

from bolewright.platform.analysis.lateral_supports import BoltFrame, PostFrame
from bolewright.platform.layout.parts import Kind
from bolewright.platform.limit_states import Topic, limit_state
from bolewright.platform.project import Beam
from bolewright.platform.results.results import Results
from bolewright.take_off.cut_list import run_of

# What is rated alone, and the limit state in which it would count together, whose sheet is named.
EDGES = "the edges of the connections of {marks}"
EDGES_OF = {
    Kind.JOIST: "joist.edge_together",
    Kind.BLOCKING: "blocking.edge_together",
    Kind.BEAM: "beam.edge_together",
}
ANGLES = "the angles of {marks} on other beams (down, lateral, up and against rotation)"
BRACKETS = "the brackets of {marks} (down, lateral and up)"
CAPS = "the caps of {marks} (lateral, up and against rotation)"


def rated_alone_sentences(results: Results, sheets: dict[Topic, str]) -> tuple[str, ...]:
    """What is rated alone, with marks and sheets; nothing where no rating is."""
    found: dict[tuple[str, str], list[str]] = {}
    for words, key, mark in _alone(results):
        marks = found.setdefault((words, key), [])
        marks += [mark] if mark not in marks else []
    if not found:
        return ()
    said = "; ".join(
        f"{words.format(marks=run_of(marks))}, sheet {sheets[limit_state(key).topic]}"
        for (words, key), marks in found.items()
    )
    return (
        "Ratings taken alone, in full while others of the same piece act too, because the file says so "
        f"(rated_alone): {said}. If the maker does not allow that, these checks do not hold.",
    )


def _alone(results: Results) -> Iterator[tuple[str, str, str]]:
    for member in results.path.layout.members:
        if not getattr(member.timber, "rated_alone", False):
            continue
        if getattr(member.timber, "edge_load", None) is not None:
            yield EDGES, EDGES_OF[member.kind], member.mark
        if isinstance(member.timber, Beam):
            yield ANGLES, "beam.together", member.mark
    for frame in results.lateral.frames:
        if isinstance(frame, BoltFrame) and frame.placed.bolt.rated_alone:
            yield BRACKETS, "tree_bolt.together", frame.support.mark
        if isinstance(frame, PostFrame) and frame.post.rated_alone:
            yield CAPS, "post.cap_together", frame.support.mark
