"""What the auditor reads: the project file, and the rows of the results with the forces that stand on the sheets.

``Row.printed`` are the steps that the sheet prints for the row: name of the step, numbers that went in, result. The
audit takes from them only what its table calls given (:mod:`audit.kinds`): forces of the lateral model, geometry that
wants the drawing. ``Path`` are the greatest and least effects of each load on members and supports, by the load path,
which :mod:`outside` holds to statics.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from audit import timber
from audit.quantities import read

Step = tuple[str, dict[str, float], float]


@dataclass(frozen=True)
class Row:
    part: str
    key: str
    at: str
    status: str
    demand: float
    capacity: float
    ratio: float
    combination: str
    where: str
    limit_state: str
    printed: tuple[Step, ...] = ()

    def result(self, name: str, n: int = -1) -> float:
        return [r for step, _, r in self.printed if step == name][n]

    def argument(self, name: str, argument: str, n: int = -1) -> float:
        return [a for step, a, _ in self.printed if step == name][n][argument]

    def has(self, name: str) -> bool:
        return any(step == name for step, _, _ in self.printed)

    @property
    def by_frame(self) -> float:
        """Factor by which the second model's force is greater, where the row says it was taken."""
        taken = next((name for name in ("demand_by_frame", "stress_by_frame") if self.has(name)), None)
        return self.argument(taken, "f_m") if taken else 1.0

    @property
    def C_D(self) -> float:
        """Load duration factor of its combination, by the shortest load in it (NDS 2018, 2.3.2)."""
        words = self.combination
        if "W" in words or "guard" in words:  # a push on a guard: ten minutes (common practice)
            return 1.6
        if "S" in words:
            return 1.15
        return 1.0 if "L" in words or "person" in words else 0.9


@dataclass(frozen=True)
class Range:
    """An effect at places along a member (or one place): dead, live, one person, snow, a guard; most and least."""

    D: np.ndarray
    L: tuple[np.ndarray, np.ndarray]
    P: tuple[np.ndarray, np.ndarray]
    S: tuple[np.ndarray, np.ndarray]
    G: tuple[np.ndarray, np.ndarray]

    def cases(self, sign: int = 1) -> dict[str, tuple[np.ndarray, float]]:
        """Sums by ASCE 7-16, 2.4.1, in the direction of ``sign``, each with its C_D; never less than 0.

        The push on a guard beside all of the live load, for ten minutes: common practice.
        """
        k = 0 if sign > 0 else 1
        D, L, P, S, G = (sign * x for x in (self.D, self.L[k], self.P[k], self.S[k], self.G[k]))
        sums = {
            "D": (D, 0.9),
            "D + L": (D + L, 1.0),
            "D + one person": (D + P, 1.0),
            "D + S": (D + S, 1.15),
            "D + 0.75L + 0.75S": (D + 0.75 * L + 0.75 * S, 1.15),
            "D + L + guard": (D + L + G, 1.6),
        }
        return {name: (np.maximum(x, 0.0), C_D) for name, (x, C_D) in sums.items()}

    def most(self, sign: int = 1) -> float:
        return max(float(np.max(x)) for x, _ in self.cases(sign).values())

    def most_over_C_D(self, sign: int = 1) -> tuple[float, float]:
        """Greatest effect over C_D: the effect and that C_D (NDS 2018, 2.3.2; wood members)."""
        x, C_D = max(
            ((float(np.max(x)), C_D) for x, C_D in self.cases(sign).values()), key=lambda p: p[0] / p[1]
        )
        return x, C_D


@dataclass(frozen=True)
class Seat:
    below: str
    bearing: str
    at: float
    make: Callable[[], Range]

    @cached_property
    def reaction(self) -> Range:
        return self.make()


@dataclass(frozen=True)
class Member:
    mark: str
    kind: str
    section: str
    length: float
    start: np.ndarray
    u: np.ndarray
    field: str
    seats: tuple[Seat, ...]
    x: np.ndarray
    make: Callable[[str], Range]

    @cached_property
    def moment(self) -> Range:
        return self.make("moment")

    @cached_property
    def shear(self) -> tuple[Range, Range]:
        """Left and right of each place."""
        return self.make("shear_left"), self.make("shear_right")

    @cached_property
    def deflection(self) -> Range:
        return self.make("deflection")


@dataclass(frozen=True)
class Site:
    """A project file with what the load path says of it."""

    text: str
    members: dict[str, Member]
    reactions: dict[str, Range]
    actions: tuple[dict, ...] = ()  # what the parts hand on, with their places (results.json)

    @cached_property
    def file(self) -> dict:
        return tomllib.loads(self.text)

    def is_bolt(self, mark: str) -> bool:
        """Whether a mark is that of a tree bolt."""
        return any(s["mark"] == mark and s["kind"] == "tree bolt" for s in self.file["support"])

    def support(self, mark: str) -> dict:
        return next(s for s in self.file["support"] if s["mark"] == mark)

    def tree(self, mark: str) -> dict:
        return next(t for t in self.file["tree"] if t["mark"] == mark)

    def post(self, mark: str) -> dict:
        return self.file["post"][self.support(mark)["post"]]

    def footing(self, mark: str) -> dict:
        return self.file["footing"][self.support(mark)["footing"]]

    def brace(self, mark: str) -> dict:
        return next(b for b in self.file["brace"] if b["mark"] == mark)

    def piece(self, mark: str) -> dict:
        """The part of the file that a joist or beam comes from."""
        member = self.members[mark]
        if member.field:
            return next(f for f in self.file["joists"] if f.get("mark", "J") == member.field)
        if mark in ("HT1", "HT2", "HH1", "HH2"):
            return self.of_hatch(mark)
        if member.kind == "blocking":
            return next(
                self.cut_from(b) | b for b in self.file["blocking"] if mark.removeprefix(b["mark"]).isdigit()
            )
        return next(c for c in self.file["beam"] if c["mark"] == mark)

    def cut_from(self, piece: dict) -> dict:
        """Section, species and grade of the field of joists that a hatch or blocking is of (the first)."""
        fields = self.file["joists"]
        field = next((f for f in fields if f.get("mark", "J") == piece.get("joists")), fields[0])
        return {k: field[k] for k in ("section", "species", "grade", "wet") if k in field}

    def of_hatch(self, mark: str) -> dict:
        """Trimmers and headers of a hatch: of its joists' boards, with the ties and hangers typed for it."""
        hatch = self.file["hatch"]
        given = {k: v for k, v in hatch.items() if k not in ("length", "width", "at")}
        plies = hatch.get("trimmer_plies", 2) if mark[1] == "T" else hatch.get("header_plies", 1)
        return self.cut_from(hatch) | given | {"mark": mark, "plies": plies}

    def timber(self, mark: str) -> timber.Timber:
        piece = self.piece(mark)
        return timber.timber(piece, piece.get("plies", 1))

    def limit(self, name: str) -> float:
        usual = {"live": 360, "total": 240, "deck_live": 180, "drift": 200}
        return read(self.file.get("limits", {}).get(name, usual[name]))

    # ------------------------------------------------------------------------------------------ levels

    @cached_property
    def deck_thickness(self) -> float:
        return timber.size(self.file["decking"]["section"])[0]

    def top(self, mark: str) -> float:
        """Level of a member's top: under the boards, or by what sits or hangs on it; as the file says where it does."""
        floor = read(self.file["platform"]["floor_height"]) - self.deck_thickness
        member = self.members[mark]
        if member.field:
            return floor
        piece = self.piece(mark)
        if "top" in piece:
            return read(piece["top"])
        if "drop" in piece:
            return floor - read(piece["drop"])
        for other in self.members.values():
            for seat in other.seats:
                if seat.below == mark:
                    resting = seat.bearing != "hangs from"
                    return self.bottom(other.mark) if resting else self.top(other.mark)
        return floor

    def bottom(self, mark: str) -> float:
        return self.top(mark) - self.timber(mark).d

    def on(self, mark: str) -> list[tuple[Member, Seat]]:
        """Members and seats that bear on a support or beam."""
        return [(m, s) for m in self.members.values() for s in m.seats if s.below == mark]

    def post_top(self, mark: str) -> float:
        return min(self.bottom(m.mark) for m, _ in self.on(mark)) - read(self.post(mark).get("cap_seat"), 0.0)
