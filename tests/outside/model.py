"""The tests' own model of a platform: drawing, boards in strips, grillage, and the worst of each kind of load."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from shapely import Point, prepare

from outside.boards import Deck, Share
from outside.drawing import Drawing
from outside.edges import Edges
from outside.grillage import Grillage, Loads

PIECE = 0.5  # in: pieces of a member's own weight
ON_EDGE = 0.125  # in: pieces of a guard; one right over a rim's seat is no shear of the rim: 1/2 in. of it was 0.65 lb


@dataclass
class Worst:
    """Greatest and least of an effect under each kind of load; places along the first axis."""

    D: np.ndarray
    L: tuple[np.ndarray, np.ndarray]
    P: tuple[np.ndarray, np.ndarray]
    S: np.ndarray
    S_half: tuple[np.ndarray, np.ndarray]  # full where it makes it greater (less), half elsewhere


@dataclass
class Laid:
    """Unit loads, and the pounds that each kind of load puts on them."""

    points: list[list[Share]] = field(default_factory=list)  # both ends of every cell
    dead: list[float] = field(default_factory=list)
    live: list[float] = field(default_factory=list)  # of every cell
    snow: list[float] = field(default_factory=list)
    spots: list[list[Share]] = field(default_factory=list)  # more places for one person
    always: list[Share] = field(default_factory=list)  # dead load beside the boards: places and pounds


class Model:
    """All effects on a platform by statics."""

    def __init__(self, drawing: Drawing) -> None:
        self.drawing = drawing
        self.deck = Deck(drawing)
        self.edges = Edges(self.deck)
        self.grillage = Grillage(drawing.beams)
        laid = Laid()
        self._boards(laid)
        self._covers(laid)
        self._hung(laid)
        laid.spots += self.edges.places(self.grillage.nodes)
        self._guards(laid)
        self._own(laid)
        self.dead = np.array([*laid.dead, *[0.0] * len(laid.spots), 1.0])
        self.people = slice(
            len(laid.points), len(laid.points) + len(laid.spots)
        )  # one person may stand there
        self.points, self.always = [*laid.points, *laid.spots], laid.always
        self.loads = Loads(self.grillage, [*self.points, self.always])
        self.live, self.snow = np.array(laid.live), np.array(laid.snow)

    def _boards(self, laid: Laid) -> None:
        drawing = self.drawing
        for _, area, _ in drawing.areas:
            prepare(area)
        for size, a, b, inside in self.deck.cells():
            psi = {"dead": drawing.dead, "live": drawing.live, "snow": drawing.snow}
            for kind, area, q in drawing.areas:
                if area.contains(Point(*inside)):
                    psi[kind] += q
            laid.points += [a, b]
            laid.dead += [size * psi["dead"] / 2] * 2
            laid.live.append(size * psi["live"])
            laid.snow.append(size * psi["snow"])

    def _covers(self, laid: Laid) -> None:
        """Covers of hatches in strips: each a simple span from trimmer to trimmer."""
        for cover in self.drawing.covers:
            count = int(np.ceil(cover.length / PIECE))
            size = cover.length * cover.width / count
            for k in range(count):
                aside = ((k + 0.5) / count - 0.5) * cover.length
                for i in cover.trimmers:
                    beam = self.drawing.beams[i]
                    x = float(np.clip((cover.at - beam.start) @ beam.u + aside, 0.0, beam.length))
                    laid.points.append([(i, x, 1.0)])
                    laid.dead.append(size * cover.dead / 2)
                laid.live.append(size * cover.live)
                laid.snow.append(size * cover.snow)

    def _hung(self, laid: Laid) -> None:
        """What hangs from a beam, at all its places at once; what lifts is pounds of the other sign."""
        for load in self.drawing.hung:
            ends = [(load.beam, x, 1.0 if load.down >= 0 else -1.0) for x in load.at]
            pounds = {kind: abs(load.down) * (kind == load.kind) for kind in ("dead", "live", "snow")}
            laid.points += [ends, ends]
            laid.dead += [pounds["dead"] / 2] * 2
            laid.live.append(pounds["live"])
            laid.snow.append(pounds["snow"])

    def _guards(self, laid: Laid) -> None:
        for a, b, q in self.drawing.guards:
            length = float(np.hypot(*(b - a)))
            count = int(np.ceil(length / ON_EDGE))
            u = (b - a) / length
            inward = np.array([-u[1], u[0]])
            probe = (a + b) / 2 + 1e-3 * inward
            if not self.drawing.deck.contains(Point(*probe)):
                inward = -inward
            for k in range(count):
                at = a + (k + 0.5) / count * (b - a) + 1e-5 * inward
                self._always(laid, self.edges.point(at), q * length / count)

    def _own(self, laid: Laid) -> None:
        for i, beam in enumerate(self.drawing.beams):
            count = int(np.ceil(beam.length / PIECE))
            for k in range(count):
                x = (k + 0.5) / count * beam.length
                self._always(laid, [(i, x, 1.0)], beam.weight * beam.length / count)

    def _always(self, laid: Laid, shares: list[Share], pounds: float) -> None:
        """Dead load at a point, all of it in one column."""
        laid.always += [(i, x, part * pounds) for i, x, part in shares]

    # -------------------------------------------------------------------------------------------------

    def worst(self, influence: np.ndarray) -> Worst:
        """Worst of effects (rows) whose influence by every point (columns) is given."""
        cells = 2 * self.live.size
        a, b = influence[:, 0:cells:2], influence[:, 1:cells:2]
        mean = a + b
        mean /= 2
        people = influence[:, self.people] * self.drawing.person
        # Positive part of the straight lines from a to b: whole ones, and triangles where a line changes its sign.
        rows, columns = np.nonzero(a * b < 0)
        one, other = a[rows, columns], b[rows, columns]
        high, low = np.maximum(one, other), np.minimum(one, other)
        triangle = high**2 / (high - low) / 2 - np.maximum(mean[rows, columns], 0.0)
        positive = np.maximum(mean, 0.0)

        def parts(pounds: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
            more = np.bincount(rows, triangle * pounds[columns], minlength=len(influence))
            return mean @ pounds, positive @ pounds + more

        L, L_up = parts(self.live)
        S, S_up = parts(self.snow)
        return Worst(
            influence @ self.dead,
            (L_up, L - L_up),
            (np.maximum(people.max(axis=1), 0.0), np.minimum(people.min(axis=1), 0.0)),
            S,
            ((S + S_up) / 2, S - S_up / 2),
        )

    def reaction(self, mark: str) -> Worst:
        return self.worst(self.loads.on_support(mark)[None, :])

    def member(self, i: int) -> dict[str, Worst]:
        M, left, right = self.loads.moment_and_shear(i, self._under_people(i))
        return {
            "moment": self.worst(M),
            "shear": self.worst(np.concatenate([left, right])),
            "deflection": self.worst(self.loads.deflection(i)),
        }

    def _under_people(self, i: int) -> np.ndarray:
        """Places of a member that one person loads or lifts: moments have their peaks there."""
        places = [x for shares in self.points[self.people] for k, x, _ in shares if k == i]
        return np.unique(np.round(places, 1).clip(0.0, self.drawing.beams[i].length))
