"""The frame model under weight: its own boards on its own grillage, and the envelope of every effect.

Dead load, live load and snow in the worst pattern, and one heavy person at the worst place, each found anew from what a
pound on each node of the grillage does.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from bolewright.mechanics.loads import CoupleLoad, SpreadLoad, UnitLoad
from bolewright.platform.layout.actions import ActionKind, shares_of
from bolewright.platform.layout.influence import Array, Integers
from bolewright.platform.layout.parts import Layout
from bolewright.platform.loads.balance import middle
from bolewright.platform.loads.combine import Envelope
from bolewright.platform.loads.either import HALF_SNOW, More, more_on_either, on_either
from bolewright.platform.loads.load_path import deck_dead, line_weight
from bolewright.platform.verification.frame_boards import Parts
from bolewright.platform.verification.frame_grillage import Grillage, grillage
from bolewright.platform.verification.frame_strips import (
    board_ends,
    fields_of,
    guard_points,
    load_on,
    rows_of,
    strips_of,
)

ON_DECK = (
    1.05  # in: a node this near the deck can be stood on (not a round number, which rounding would part)
)


@dataclass(frozen=True)
class FrameGravity:
    """Grillage, boards and loads.

    ``lever`` is what a pound at each end of the pieces brings to the nodes, by node, ``tips`` the same at the ends of
    boards past the last member; ``dead``, ``live`` and ``snow`` pounds on each piece; ``weight`` pounds on each node,
    of members and guards; ``stood_on`` whether a person can stand on each node; ``acts`` what the action of each part
    brings to the nodes, of its kind in ``kinds``; ``portion`` of each is its share in the mean over the stretches of
    deck that it may stand on.
    """

    layout: Layout
    frame: Grillage
    lever: Lever
    tips: Lever
    dead: Array
    live: Array
    snow: Array
    weight: Array
    stood_on: npt.NDArray[np.bool_]
    acts: Lever
    kinds: tuple[ActionKind, ...]
    portion: Array

    def _acting(self, rows: Array, columns: Integers) -> tuple[dict[ActionKind, Array], Array, More]:
        """Effects of the actions of parts, one by one (rows, actions): those of each kind; the pushes apart.

        Of a thing that may stand on either of some stretches of deck the mean, and what its worse stretch is beyond.
        """
        found, levers = self.acts.of(columns)
        effects = np.zeros((len(rows), len(self.kinds)))
        effects[:, found] = rows @ levers[0]
        more = more_on_either(on_either(self.layout.actions), effects)
        effects *= self.portion
        of = {kind: effects[:, [k is kind for k in self.kinds]] for kind in ActionKind}
        return of, of[ActionKind.PUSH], more

    def envelope(self, rows: Array, columns: Integers) -> Envelope:
        """Envelope of effects (rows) of a pound on each of some nodes (columns); other nodes do nothing to them."""
        pieces, levers = self.lever.of(columns)
        _, ends = self.tips.of(columns)
        one, other = rows @ levers[0], rows @ levers[1]
        whole = (one + other) / 2
        person = self.layout.project.loads.person
        on_nodes = rows[:, self.stood_on[columns]]
        up = _positive(one, other)
        live, raised = up @ self.live[pieces], up @ self.snow[pieces]
        snow = whole @ self.snow[pieces]
        at_tips = rows @ ends[0]
        most = [v.max(axis=1, initial=0.0) for v in (at_tips, on_nodes)]
        least = [v.min(axis=1, initial=0.0) for v in (at_tips, on_nodes)]
        acting, pushes, worse = self._acting(rows, columns)
        dead, more, drift = (
            acting[kind].sum(axis=1) for kind in (ActionKind.DEAD, ActionKind.LIVE, ActionKind.SNOW)
        )
        live = live + np.maximum(acting[ActionKind.LIVE], 0.0).sum(axis=1)
        raised = raised + np.maximum(acting[ActionKind.SNOW], 0.0).sum(axis=1)
        snow = snow + drift
        D = whole @ self.dead[pieces] + rows @ self.weight[columns] + dead
        return Envelope(
            D=D + worse.most[ActionKind.DEAD],
            D_least=D + worse.least[ActionKind.DEAD],
            L_most=live + worse.most[ActionKind.LIVE],
            L_least=whole @ self.live[pieces] + more - live + worse.least[ActionKind.LIVE],
            S=snow,
            S_most=raised + HALF_SNOW * (snow - raised) + worse.most[ActionKind.SNOW],
            S_least=HALF_SNOW * raised + (snow - raised) + worse.least[ActionKind.SNOW],
            person_most=np.max(most, axis=0) * person,
            person_least=np.min(least, axis=0) * person,
            guard_most=pushes.max(axis=1, initial=0.0),
            guard_least=pushes.min(axis=1, initial=0.0),
        )


@dataclass(frozen=True)
class Lever:
    """Shares of a pound at the ends of pieces, sorted by node; those of node n from ``starts[n]`` on."""

    starts: Integers
    ends: Integers
    shares: Array
    pieces: int

    def of(self, nodes: Integers) -> tuple[Integers, tuple[Array, Array]]:
        """Pieces that some nodes bear, and what these get of a pound at their first and second ends (nodes, pieces)."""
        counts = self.starts[nodes + 1] - self.starts[nodes]
        at = np.repeat(self.starts[nodes] - np.cumsum(counts) + counts, counts) + np.arange(counts.sum())
        row, end = np.repeat(np.arange(len(nodes)), counts), self.ends[at]
        found, column = np.unique(end % self.pieces, return_inverse=True)
        levers = np.zeros((2, len(nodes), len(found)))
        np.add.at(levers, (end // self.pieces, row, column), self.shares[at])
        return found, (levers[0], levers[1])


def _lever(
    ends: list[Parts], place: dict[int, Array], first: dict[int, int], nodes: int, pieces: int
) -> Lever:
    columns, rows, shares = rows_of(ends, place, first)
    order = np.argsort(rows, kind="stable")
    starts = np.searchsorted(rows[order], np.arange(nodes + 1))
    return Lever(starts, columns[order], shares[order], pieces)


def _positive(one: Array, other: Array) -> Array:
    """Mean of the positive part of what runs in a straight line from one value to the other."""
    high, low = np.maximum(one, other), np.minimum(one, other)
    cut = np.maximum(high, 0.0) ** 2 / np.where(high > low, 2 * (high - low), 1.0)
    return np.where(low >= 0, (one + other) / 2, cut)


def frame_gravity(layout: Layout) -> FrameGravity:
    """The frame model of a layout. Raises numpy's LinAlgError where its members do not hold each other up."""
    frame = grillage(layout)
    bars = [frame.bars[m.mark] for m in layout.members]
    place = {i: bar.x for i, bar in enumerate(bars)}
    first = {i: bar.first for i, bar in enumerate(bars)}
    fields = fields_of(layout)
    strips = strips_of(fields)
    ends = [pair[0] for pair in strips.ends] + [pair[1] for pair in strips.ends]
    lever = _lever(ends, place, first, frame.count, len(strips.ends))
    past = board_ends(fields)
    weight = np.zeros(frame.count)
    for bar in bars:
        half = np.diff(bar.x) / 2 * line_weight(bar.member)
        weight[bar.first : bar.first + len(half)] += half
        weight[bar.first + 1 : bar.first + 1 + len(half)] += half
    guards = list(guard_points(layout, fields))
    if guards:
        columns, rows, shares = rows_of([parts for parts, _ in guards], place, first)
        np.add.at(weight, rows, shares * np.array([pounds for _, pounds in guards])[columns])
    project = layout.project
    return FrameGravity(
        layout=layout,
        frame=frame,
        lever=lever,
        tips=_lever(past, place, first, frame.count, max(len(past), 1)),
        dead=strips.area / 144 * (deck_dead(layout) + load_on(strips, layout, "dead")),
        live=strips.area / 144 * (project.loads.live + load_on(strips, layout, "live")),
        snow=strips.area / 144 * (project.site.ground_snow + load_on(strips, layout, "snow")),
        weight=weight,
        stood_on=_stood_on(layout, frame),
        acts=_acts(layout, frame),
        kinds=tuple(action.kind for action in layout.actions),
        portion=np.array([1 / action.ways for action in layout.actions]),
    )


def _acts(layout: Layout, frame: Grillage) -> Lever:
    """What the action of each part brings to the nodes: pounds between two of them, couples on one."""
    marks = {m.mark: i for i, m in enumerate(layout.members)}
    bars = [frame.bars[m.mark] for m in layout.members]
    found: list[tuple[int, int, float]] = []
    for number, action in enumerate(layout.actions):
        for share in shares_of(layout, action):
            bar = bars[marks[share.member]]
            if isinstance(share.load, CoupleLoad):
                node = int(np.argmin(np.abs(bar.x - share.load.x)))
                found.append((number, bar.first + len(bar.x) + bar.turned.index(node), share.part))
                continue
            for x, part in _points(share.load):
                after = int(np.clip(np.searchsorted(bar.x, x), 1, len(bar.x) - 1))
                f = (x - bar.x[after - 1]) / (bar.x[after] - bar.x[after - 1])
                found.append((number, bar.first + after - 1, share.part * part * (1 - f)))
                found.append((number, bar.first + after, share.part * part * f))
    columns, rows = (np.array([one[k] for one in found], dtype=np.int64) for k in (0, 1))
    shares = np.array([one[2] for one in found])
    order = np.argsort(rows, kind="stable")
    starts = np.searchsorted(rows[order], np.arange(frame.count + 1))
    return Lever(starts, columns[order], shares[order], max(len(layout.actions), 1))


def _points(load: UnitLoad) -> list[tuple[float, float]]:
    """A load as point loads: a spread one in eight."""
    if isinstance(load, SpreadLoad):
        return [(load.start + (k + 0.5) / 8 * (load.end - load.start), 1 / 8) for k in range(8)]
    return [(middle(load), 1.0)]


def _stood_on(layout: Layout, frame: Grillage) -> npt.NDArray[np.bool_]:
    found = np.zeros(frame.count, dtype=bool)
    for member in layout.flush:
        bar = frame.bars[member.mark]
        points = np.array(member.line.start) + bar.x[:, None] * np.array(member.line.u)
        near = shapely.distance(shapely.points(points), layout.deck) < ON_DECK
        found[bar.first : bar.first + len(bar.x)] = near
    return found
