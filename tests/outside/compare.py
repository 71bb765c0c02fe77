"""Numbers of both models side by side, and how far apart they may be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bolewright.platform.loads.load_path import LoadPath
from outside import program
from outside.drawing import drawing_of
from outside.model import Model, Worst

SHARE = 0.01  # of the larger of the value and ...
SMALL = 0.05  # ... this share of the greatest of its kind in the arrangement


@dataclass(frozen=True)
class Pair:
    """One number by both: kind of quantity, part, which load and end of the range."""

    kind: str
    part: str
    load: str
    ours: float
    program: float
    greatest: float = 0.0

    @property
    def excess(self) -> float:
        """Difference over the tolerance."""
        size = max(abs(self.ours), abs(self.program), SMALL * self.greatest)
        return abs(self.ours - self.program) / (SHARE * size) if size > 1e-9 else 0.0

    def __str__(self) -> str:
        return f"{self.part} {self.kind} {self.load}: statics {self.ours:.6g}, program {self.program:.6g}"


def numbers(worst: Worst) -> dict[str, float]:
    """The ends of every range over the places of a part."""
    return {
        "D most": max(0.0, worst.D.max()),
        "D least": min(0.0, worst.D.min()),
        "L most": max(0.0, worst.L[0].max()),
        "L least": min(0.0, worst.L[1].min()),
        "person most": max(0.0, worst.P[0].max()),
        "person least": min(0.0, worst.P[1].min()),
        "S most": max(0.0, worst.S.max()),
        "S least": min(0.0, worst.S.min()),
        "S in patterns most": max(0.0, worst.S_half[0].max()),
        "S in patterns least": min(0.0, worst.S_half[1].min()),
    }


def pairs(path: LoadPath, model: Model | None = None) -> list[Pair]:
    model = model or Model(drawing_of(path.layout))
    found = list(_pairs(path, model))
    greatest: dict[str, float] = {}
    for pair in found:
        greatest[pair.kind] = max(greatest.get(pair.kind, 0.0), abs(pair.ours))
    return [Pair(p.kind, p.part, p.load, p.ours, p.program, greatest[p.kind]) for p in found]


def _pairs(path: LoadPath, model: Model) -> Iterator[Pair]:
    for mark in model.drawing.supports:
        yield from _of("reaction", mark, model.reaction(mark), program.reaction(path, mark))
    for i, beam in enumerate(model.drawing.beams):
        theirs = program.member(path, beam.mark)
        for kind, worst in model.member(i).items():
            yield from _of(kind, beam.mark, worst, theirs[kind])


def _of(kind: str, part: str, ours: Worst, theirs: Worst) -> Iterator[Pair]:
    a, b = numbers(ours), numbers(theirs)
    if kind == "reaction":  # of one sign or not, each end stands for itself
        a |= {
            f"{k} {end}": float(v[0]) for k, v in (("D", ours.D), ("S", ours.S)) for end in ("most", "least")
        }
        b |= {
            f"{k} {end}": float(v[0])
            for k, v in (("D", theirs.D), ("S", theirs.S))
            for end in ("most", "least")
        }
    for load in a:
        yield Pair(kind, part, load, float(a[load]), float(b[load]))


def apart(found: list[Pair]) -> list[Pair]:
    return sorted((p for p in found if p.excess > 1), key=lambda p: -p.excess)
