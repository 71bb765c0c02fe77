"""The search: a start that passes, smaller one value at a time, then several values at once."""

from __future__ import annotations

from bolewright.sizing.candidates import Candidates, stepped
from bolewright.sizing.choices import Choice, State
from bolewright.sizing.look import Seen

_STUCK = 40  # rounds of mending at most
_WORST = 3  # misses that are mended at a time

# What to start from: large but no stiffer than needed (a trial on 23 requirements: stiffness draws load).
_LARGE = {
    ("joists", "size"): "2x10",
    ("joists", "spacing"): "16 in. apart",
    ("beam", "size"): "2x12",
    ("beam", "plies"): "3 plies",
    ("knee", "size"): "2x6",
    ("knee", "plies"): "2 plies",
    ("knee", "bolts at each end"): '2 of 3/4"',
    ("post", "bolts in the foot"): '1 of 5/8"',
    ("decking", "size"): "2x6",
}
_LONG = {
    "width of the hole": 28.0,
    "width": 28.0,
    "depth": 72.0,
    "concrete under the post": 8.0,
    "legs": 36.0,
}


def large_start(found: Candidates) -> State:
    """Large sizes, where a choice has them; else the file's own."""
    held = bool(found.choices.data.get("tree") or found.choices.data.get("crossed_rods"))
    return tuple(_large(choice, held=held) for choice in found.choices.all)


def _large(choice: Choice, *, held: bool) -> int:
    words = [rung.words for rung in choice.rungs]
    wanted = _LARGE.get((choice.kind, choice.what), "")
    if (choice.kind, choice.what) == ("post", "size"):
        wanted = "8x8" if held else "10x10"
    if wanted in words:
        return words.index(wanted)
    if choice.what in _LONG:
        return min(range(len(words)), key=lambda k: abs(choice.rungs[k].size - _LONG[choice.what]))
    return choice.start


def mend(found: Candidates, state: State) -> State | None:
    """From a state to one that passes, a change at a time that brings it nearest; None where none helps."""
    for _ in range(_STUCK):
        (seen,) = found.look([state])
        if found.passes(seen):
            return state
        now = found.penalty(seen)
        nearer = _best_of(found, _asked(found, state, seen), now)
        if nearer is None:
            nearer = _best_of(found, _all_round(found, state, (1, -1)), now)
        if nearer is None:
            nearer = _best_of(found, _all_round(found, state, (2, -2)), now)
        if nearer is None:
            return None
        state = nearer
    return None


def _best_of(found: Candidates, states: list[State], now: float) -> State | None:
    seen = found.look(states)
    order = sorted(
        (round(found.penalty(s), 6), found.worth(state), state) for s, state in zip(seen, states, strict=True)
    )
    return order[0][2] if order and order[0][0] < now - 1e-6 else None


def _asked(found: Candidates, state: State, seen: Seen) -> list[State]:
    """States that the worst misses ask for: each with one choice a rung or two further their way."""
    worst = sorted(found.blocking(seen), key=lambda m: (-m.severity, m.name))[:_WORST]
    moved: dict[State, None] = {}
    many: dict[int, int] = {}
    for miss in worst:
        far = 2 if miss.severity > 1.3 else 1
        for where, value in miss.helps:
            choice = found.by_place.get(where)
            if choice is None:
                continue
            way = _way(found, state, choice, where, value)
            if one := stepped(state, [(choice, way * far)], found.choices):
                moved.setdefault(one)
                if way > 0:
                    many.setdefault(choice, far)
    if len(worst) > 1 and len(many) > 1 and (both := stepped(state, list(many.items()), found.choices)):
        moved.setdefault(both)
    return list(moved)


def _way(found: Candidates, state: State, choice: int, where: object, value: object) -> int:
    """Up or down the ladder, as a change goes that may help."""
    rungs = found.choices.all[choice].rungs
    for k, rung in enumerate(rungs):
        if any(w == where and v == value for w, v in rung.values):
            return 1 if k > state[choice] else -1
    return 1


def _all_round(found: Candidates, state: State, by: tuple[int, ...]) -> list[State]:
    moves = [(c, step) for c in range(len(state)) for step in by]
    return [one for move in moves if (one := stepped(state, [move], found.choices)) is not None]


def shrink(found: Candidates, state: State) -> State:
    """Smaller one value at a time, round and round, until no single smaller step passes and saves."""
    stride = [2] * len(state)
    while True:
        tried: list[tuple[int, State]] = []
        for choice, far in enumerate(stride):
            less = _smaller(found, state, choice, far)
            if less is not None:
                tried.append((choice, less))
        if not tried:
            return state
        seen = found.look([s for _, s in tried])
        good = [(c, s) for (c, s), one in zip(tried, seen, strict=True) if found.passes(one)]
        for choice, _ in tried:
            if not any(choice == c for c, _ in good):
                stride[choice] = 1 if stride[choice] > 1 else 0
        if not good:
            if not any(stride):
                return state
            continue
        good.sort(key=lambda one: (found.worth(one[1]), one[0]))
        state = _together(found, state, good)
        stride = [2 if s == 2 else 1 for s in stride]


def _smaller(found: Candidates, state: State, choice: int, far: int) -> State | None:
    """The state with a choice some rungs smaller; fewer where the ladder ends; None where that saves nothing."""
    for by in range(min(far, state[choice]), 0, -1):
        less = stepped(state, [(choice, -by)], found.choices)
        if less is not None and found.worth(less) < found.worth(state):
            return less
    return None


def _together(found: Candidates, state: State, good: list[tuple[int, State]]) -> State:
    """All steps that pass by themselves at once, if that passes; else as many as do, the most saving first."""
    whole = list(state)
    for choice, one in good:
        whole[choice] = one[choice]
    if len(good) == 1 or found.passes(found.look([tuple(whole)])[0]):
        return tuple(whole)
    now = good[0][1]
    for choice, one in good[1:]:
        rungs = list(now)
        rungs[choice] = one[choice]
        both = tuple(rungs)
        if found.passes(found.look([both])[0]):
            now = both
    return now


def next_smaller(found: Candidates, state: State) -> list[tuple[int, State]]:
    """For each choice its next smaller size, where that saves anything."""
    steps = ((c, _smaller(found, state, c, 1)) for c in range(len(state)))
    return [(c, less) for c, less in steps if less is not None]
