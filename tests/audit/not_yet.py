"""Kinds of limit state that nobody has audited yet. Lines only come out: what is audited or not met must go."""

from __future__ import annotations

NOT_YET: frozenset[str] = frozenset()
# Answered in words, without a demand and a capacity to audit: what is asked of the user.
IN_WORDS: frozenset[str] = frozenset(
    {
        "gate.closing",
        "gate.posts",
        "gate.swing",
        "guard.height",
        "guard.receiver",
        "hatch.fall",
        "ladder.closed",
        "ladder.foot",
        "ladder.place",
        "platform.board_ends",
        "platform.guard",
        "platform.lateral",
        "post.lateral",
        "stairs.head_room",
        "stairs.place",
        "tree.condition",
        "tree.sway",
        "trunk_brace.tie",
    }
)
