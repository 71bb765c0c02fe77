"""The limit states of each kind of part, as data: what is checked, by which clause, and what would change it.

Every check names its limit state by a key that stands here; :func:`limit_state` refuses any other. The lists stand
in the modules of this room by subject; a test pins them, so that none can vanish unseen.
"""

from __future__ import annotations

from bolewright.platform.limit_states.access import HATCHES, LADDERS, STAIRS
from bolewright.platform.limit_states.blocking import BLOCKING
from bolewright.platform.limit_states.guards import GUARDS
from bolewright.platform.limit_states.members import BOLTED, DECK, HANGERS, MEMBERS
from bolewright.platform.limit_states.on_deck import POINT_LOADS
from bolewright.platform.limit_states.posts import BRACES, CROSSED_RODS, FOOTINGS, POSTS
from bolewright.platform.limit_states.state import LimitState, PartKind, Topic
from bolewright.platform.limit_states.trees import BOLTS, TREES
from bolewright.platform.limit_states.trunk_braces import TRUNK_BRACES
from bolewright.platform.limit_states.trunk_room import TRUNK_ROOM
from bolewright.platform.limit_states.whole import PLATFORM, WALLS

__all__ = ["LIMIT_STATES", "LimitState", "PartKind", "Topic", "limit_state"]

_ALL = (
    *DECK,
    *BLOCKING,
    *MEMBERS,
    *BOLTED,
    *HANGERS,
    *BOLTS,
    *TREES,
    *POSTS,
    *FOOTINGS,
    *BRACES,
    *CROSSED_RODS,
    *GUARDS,
    *POINT_LOADS,
    *STAIRS,
    *LADDERS,
    *HATCHES,
    *TRUNK_BRACES,
    *TRUNK_ROOM,
    *WALLS,
    *PLATFORM,
)
LIMIT_STATES: dict[str, LimitState] = {state.key: state for state in _ALL}
if len(LIMIT_STATES) < len(_ALL):
    raise AssertionError("two limit states have one key")


def limit_state(key: str) -> LimitState:
    """The limit state of a key. Raises KeyError for a key that is not listed."""
    if key not in LIMIT_STATES:
        raise KeyError(f"{key!r} is no limit state: list it in platform/limit_states")
    return LIMIT_STATES[key]
