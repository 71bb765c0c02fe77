"""Several values at once: what single changes did to each check, added up, says which combination to look at next.

The logarithm of each check's ratio is taken to change by the sum of what each single change does to it. That is no
proof of anything: whatever it proposes is looked at with all checks, and taken only where they pass.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from bolewright.sizing.candidates import Candidates, stepped
from bolewright.sizing.choices import State
from bolewright.sizing.look import Name, Seen

_FAR = 3  # rungs either way; one is looked at, what the others do is taken to go on like it
_AT_ONCE = 4  # proposals that are looked at together, whatever the number of processes
_BLOCKED = 20.0  # logarithm of a ratio that nothing makes up for
_LEAST = 1e-3
_FAILED = 12  # proposals in a row that fail before giving up
_LEARNT = 0.5  # share of an error that is added to a check from then on


@dataclass
class _Model:
    """Around a state: rungs of each choice, their worth, and what each does to the checks' logarithms."""

    base: State
    rungs: list[tuple[int, int]]  # (choice, rung)
    worth: list[tuple[float, float]]
    names: list[Name]
    effects: np.ndarray  # names x rungs
    level: np.ndarray  # names: logarithm of the ratio at the base


def improve(found: Candidates, state: State) -> State:
    """A cheaper state that passes, from combinations of single changes; the state itself where none is found."""
    model = _model(found, state)
    if model is None:
        return state
    best, failed = state, 0
    cuts: list[State] = []
    bias = np.zeros(len(model.names))
    while failed < _FAILED:
        proposed: list[State] = []
        for _ in range(_AT_ONCE):
            one = _propose(model, found.worth(best), cuts, bias, found)
            if one is None:
                break
            cuts.append(one)
            proposed.append(one)
        if not proposed:
            return best
        seen = found.look(proposed)
        failed += len(proposed)
        for one, what in zip(proposed, seen, strict=True):
            if found.passes(what) and found.worth(one) < found.worth(best):
                best, failed = one, 0
            else:
                bias += _learnt(found, model, one, what, bias)
    return best


def _model(found: Candidates, state: State) -> _Model | None:
    singles: dict[tuple[int, int], State] = {}
    for choice in range(len(state)):
        for by in (-1, 1):
            one = stepped(state, [(choice, by)], found.choices)
            if (
                one is not None
                and not math.isinf(found.worth(one)[0])
                and found.worth(one) != found.worth(state)
            ):
                singles[choice, by] = one
    seen = dict(zip((state, *singles.values()), found.look([state, *singles.values()]), strict=True))
    logs = {key: _logs(found, seen[one]) for key, one in singles.items() if not seen[one].refused}
    base = _logs(found, seen[state])
    names = sorted({name for one in logs.values() for name, value in one.items() if value > -1.2})
    if not names:
        return None
    level = np.array([base.get(n, math.log(_LEAST)) for n in names])
    rungs, worth, columns = [], [], []
    for choice in range(len(state)):
        for by in range(-_FAR, _FAR + 1):
            one = stepped(state, [(choice, by)], found.choices)
            key = (choice, 1 if by > 0 else -1)
            if one is None or math.isinf(found.worth(one)[0]) or (by and key not in logs):
                continue
            rungs.append((choice, one[choice]))
            worth.append(found.worth(one))
            columns.append(_effects(logs[key], base, names) * abs(by) if by else np.zeros(len(names)))
    return _Model(state, rungs, worth, names, np.array(columns).T, level)


def _effects(one: dict[Name, float], base: dict[Name, float], names: list[Name]) -> np.ndarray:
    """What a single change does to each check; nothing to one that came with it and passes."""
    least = math.log(_LEAST)
    found = [one.get(n, least) - base.get(n, least) for n in names]
    new = [n not in base and one.get(n, -1.0) <= 0 for n in names]
    return np.array([0.0 if came else value for came, value in zip(new, found, strict=True)])


def _logs(found: Candidates, seen: Seen) -> dict[Name, float]:
    """Logarithms of the ratios; checks that are left out of comparisons are not in it."""
    stand = {m.name: m for m in found.blocking(seen)}
    left_out = {m.name for m in seen.misses} - stand.keys()
    logs = {
        name: math.log(min(max(ratio, _LEAST), math.exp(_BLOCKED)))
        for name, ratio in seen.ratios.items()
        if name not in left_out
    }
    logs |= {name: _BLOCKED for name, miss in stand.items() if miss.open}
    return logs


def _propose(
    model: _Model, most: tuple[float, float], cuts: list[State], bias: np.ndarray, found: Candidates
) -> State | None:
    """The combination of least worth that the sums let pass, cheaper than ``most`` and none of ``cuts``."""
    count = len(model.rungs)
    at = {pair: k for k, pair in enumerate(model.rungs)}
    base = [at[(c, r)] for c, r in enumerate(model.base)]
    which = np.array([c for c, _ in model.rungs])
    first = {c: base[c] for c in range(len(model.base))}
    main = np.array([w[0] - model.worth[first[c]][0] for w, c in zip(model.worth, which, strict=True)])
    other = np.array([w[1] - model.worth[first[c]][1] for w, c in zip(model.worth, which, strict=True)])
    value = main + 1e-4 * other if found.least != "cost" else main
    rows = [LinearConstraint(np.array([which == c for c in first], dtype=float), 1, 1)]
    shown = (model.effects.max(axis=1) + model.level + bias) > 0
    rows.append(LinearConstraint(model.effects[shown], -np.inf, -(model.level + bias)[shown] + 1e-9))
    for cut in cuts:
        row = np.zeros(count)
        row[[at[pair] for pair in enumerate(cut) if pair in at]] = 1
        rows.append(LinearConstraint(row, -np.inf, len(model.base) - 1))
    now = model.worth[base[0]]
    over = most[0] - now[0] + (1e-4 * (most[1] - now[1]) if found.least != "cost" else 0.0)
    rows.append(LinearConstraint(value, -np.inf, over - 1e-3))
    solved = milp(value, integrality=np.ones(count), bounds=Bounds(0, 1), constraints=rows)
    if solved.x is None:
        return None
    chosen = [model.rungs[k] for k in np.flatnonzero(np.asarray(solved.x) > 0.5)]
    return tuple(rung for _, rung in sorted(chosen))


def _learnt(found: Candidates, model: _Model, state: State, seen: Seen, bias: np.ndarray) -> np.ndarray:
    """What to add to each check that came out higher than the sum said."""
    added = np.zeros(len(model.names))
    if seen.refused:
        return added
    at = {pair: k for k, pair in enumerate(model.rungs)}
    said = model.level + bias + sum(model.effects[:, at[pair]] for pair in enumerate(state))
    logs = _logs(found, seen)
    for i, name in enumerate(model.names):
        now = logs.get(name, math.log(_LEAST))
        if now > 0 and now > said[i]:
            added[i] = _LEARNT * min(now - said[i], 0.5)
    return added
