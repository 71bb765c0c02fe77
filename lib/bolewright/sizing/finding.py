"""The choices of a project file, by kind of part, with the sizes that can be bought."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from bolewright.changes.change import Data
from bolewright.changes.ways_case import inches
from bolewright.platform.file.reading import Location
from bolewright.platform.project import Project
from bolewright.sizing.choices import Choice, Choices, Rung
from bolewright.sizing.stock import Stock, StockError
from bolewright.timber.material import MaterialError
from bolewright.timber.sections import SectionError, parse_section
from bolewright.units import feet_inches

# Rows of nails between two plies and their spacing along each (in), the fewest first (common practice).
_NAILS = ((2, 16.0), (2, 12.0), (3, 12.0), (3, 8.0), (4, 8.0), (4, 6.0), (4, 4.0), (6, 4.0))


def find_choices(data: Data, project: Project, stock: Stock, keep: Iterable[str] = ()) -> Choices:
    """Choices of a file: parts that the file gives alike stay alike; parts or choices named in ``keep`` stay.

    Raises StockError for a name in ``keep`` that nothing has.
    """
    kept = set(keep)
    names = _names(data)
    for support in project.supports:
        if support.mark in kept:
            kept |= {kind for kind in (support.post, support.footing, support.bolt) if kind}
    found = _Finder(data, project, stock, frozenset(kept))
    every = (
        *found.joists(),
        *found.beams(),
        *found.posts(),
        *found.footings(),
        *found.knees(),
        *found.rods(),
        *found.bolts(),
        *found.boards(),
        *found.nailed(),
        *found.slots(),
    )
    names |= {c.name for c in every} | {"decking"}
    if unknown := sorted(kept - names):
        raise StockError(
            f"--keep: nothing in the file is called {unknown[0]!r}: a mark such as C1, or a kind, is wanted."
        )
    return Choices(data, tuple(c for c in every if len(c.rungs) > 1 and c.name not in kept))


def _names(data: Data) -> set[str]:
    """Marks of the parts of a file and names of its kinds."""
    found: set[str] = set()
    for value in data.values():
        if isinstance(value, list):
            found |= {str(part.get("mark", "J")) for part in value if isinstance(part, dict)}
        elif isinstance(value, dict):
            found |= {name for name, part in value.items() if isinstance(part, dict)}
    return found


@dataclass(frozen=True)
class _Finder:
    data: Data
    project: Project
    stock: Stock
    kept: frozenset[str]

    def joists(self) -> Iterator[Choice]:
        fields = [(i, f) for i, f in enumerate(self.project.joists) if f.mark not in self.kept]
        for section in dict.fromkeys(f.section for _, f in fields):
            own = [(("joists", i), f.mark) for i, f in fields if f.section == section]
            level = [(("beam", i), c.mark) for i, c in self._beside_joists(section)]
            rims = [
                (("blocking", i), entry.get("mark", "BL"))
                for i, entry in enumerate(self.data.get("blocking", ()))
                if _same(entry.get("section", ""), section) and entry.get("mark", "BL") not in self.kept
            ]
            yield self._sections([*own, *level, *rims], section, "joists")
        for i, field in fields:
            spacings = tuple(sorted({*self.stock.spacings, round(field.spacing, 3)}, reverse=True))
            rungs = [
                Rung(f"{s:g} in. apart", ((("joists", i, "spacing"), f"{s:g} in"),))
                if abs(s - field.spacing) > 1e-3
                else Rung(f"{s:g} in. apart")
                for s in spacings
            ]
            start = next(k for k, s in enumerate(spacings) if abs(s - field.spacing) <= 1e-3)
            yield Choice(field.mark, "spacing", "joists", tuple(rungs), start)

    def _beside_joists(self, section: str) -> list[tuple[int, Any]]:
        """Trimmers and headers in the layer of joists that rest: they go with their size."""
        return [
            (i, c)
            for i, c in enumerate(self.project.beams)
            if c.layer == 0 and _same(c.section, section) and c.mark not in self.kept
        ]

    def beams(self) -> Iterator[Choice]:
        beams = [(i, c) for i, c in enumerate(self.project.beams) if c.mark not in self.kept]
        of_joists = {f.section for f in self.project.joists if f.mark not in self.kept}
        alike: dict[tuple[int, str], list[tuple[int, Any]]] = {}
        for i, beam in beams:
            if not (beam.layer == 0 and any(_same(beam.section, s) for s in of_joists)):
                alike.setdefault((beam.layer, beam.section), []).append((i, beam))
        for (_, section), some in alike.items():
            yield self._sections([(("beam", i), b.mark) for i, b in some], section, "beam")
        by_plies: dict[tuple[int, str, int], list[tuple[int, Any]]] = {}
        for i, beam in beams:
            if parse_section(beam.section).ply_thickness <= 2:
                by_plies.setdefault((beam.layer, beam.section, beam.plies), []).append((i, beam))
        for (_, _, plies), some in by_plies.items():
            rungs = [
                Rung(
                    f"{n} {'ply' if n == 1 else 'plies'}",
                    () if n == plies else tuple((("beam", i, "plies"), n) for i, _ in some),
                )
                for n in range(1, max(4, plies) + 1)
            ]
            yield Choice(_listed(b.mark for _, b in some), "plies", "beam", tuple(rungs), plies - 1)

    def nailed(self) -> Iterator[Choice]:
        """Nails between the plies of built-up beams, more than the file's where a check asks for more."""
        alike: dict[tuple[int, float], list[tuple[int, str]]] = {}
        for i, beam in enumerate(self.project.beams):
            if beam.plies > 1 and beam.plies_fastened and beam.mark not in self.kept:
                alike.setdefault((beam.ply_rows, beam.ply_spacing), []).append((i, beam.mark))
        for (rows, spacing), some in alike.items():
            denser = [s for s in _NAILS if s[0] / s[1] > rows / spacing + 1e-6]
            rungs = [Rung(f"{rows} rows at {feet_inches(spacing)}")]
            for count, apart in denser:
                keys = (("ply_rows", count), ("ply_spacing", inches(apart)))
                values = tuple((("beam", i, k), v) for i, _ in some for k, v in keys)
                rungs.append(Rung(f"{count} rows at {feet_inches(apart)}", values))
            yield Choice(
                _listed(mark for _, mark in some), "nails between the plies", "nails", tuple(rungs), 0
            )

    def slots(self) -> Iterator[Choice]:
        """Slots of bearings that slide, longer than the file's where a check asks."""
        for i, support in enumerate(self.project.supports):
            if support.slot is not None and support.mark not in self.kept:
                ladder = [support.slot + 0.5 * n for n in range(13)]
                place: Location = ("support", i)
                yield _lengths(support.mark, "slot", "slot", [place], ("slot",), ladder, support.slot)

    def posts(self) -> Iterator[Choice]:
        for name, post in self.project.posts.items():
            if name in self.kept:
                continue
            yield self._sections([(("post", name), name)], post.section, "post", self.stock.square())
            if post.foot_bolts is not None:
                own = (post.foot_bolts, post.foot_bolt_diameter or 0.5)
                steps = ((1, 0.5), (1, 0.625), (1, 0.75), (2, 0.5), (2, 0.625), (2, 0.75), (3, 0.75))
                yield self._bolted(name, "bolts in the foot", "post", steps, own, [("post", name)], "foot_")

    def footings(self) -> Iterator[Choice]:
        for name, footing in self.project.footings.items():
            if name in self.kept:
                continue
            for key, what, ladder in (
                (
                    "width",
                    "width of the hole" if footing.shape == "round" else "width",
                    self.stock.hole_widths,
                ),
                ("depth", "depth", self.stock.hole_depths),
                ("pad", "concrete under the post", (8.0, 10.0, 12.0)),
            ):
                yield _lengths(
                    name, what, "footing", [("footing", name)], (key,), ladder, getattr(footing, key)
                )

    def knees(self) -> Iterator[Choice]:
        alike: dict[tuple[Any, ...], list[int]] = {}
        for i, brace in enumerate(self.project.braces):
            if brace.mark not in self.kept:
                key = (brace.section, brace.plies, brace.bolts, brace.bolt_diameter, brace.rise, brace.run)
                alike.setdefault(key, []).append(i)
        for (section, plies, bolts, diameter, rise, run), rows in alike.items():
            marks = _listed(self.project.braces[i].mark for i in rows)
            rungs = [Rung("left out", (), tuple(("brace", i) for i in rows))]
            legs = tuple(sorted({*self.stock.legs, round(run, 3)}))
            for leg in legs:
                same = abs(leg - run) < 1e-3
                up = leg if abs(rise - run) < 1e-3 else max(12.0, rise + leg - run)
                both = (("rise", inches(up)), ("run", inches(leg)))
                values = () if same else tuple((("brace", i, k), v) for i in rows for k, v in both)
                rungs.append(Rung(f"legs {feet_inches(up)} and {feet_inches(leg)}", values, size=leg))
            start = 1 + next(k for k, leg in enumerate(legs) if abs(leg - run) < 1e-3)
            yield Choice(marks, "legs", "knee", tuple(rungs), start)
            places: list[tuple[Location, str]] = [(("brace", i), self.project.braces[i].mark) for i in rows]
            yield self._sections(places, section, "knee", marks=marks)
            two = [
                Rung(
                    "1 ply" if n == 1 else "2 plies",
                    () if n == plies else tuple((("brace", i, "plies"), n) for i in rows),
                )
                for n in (1, 2)
            ]
            yield Choice(marks, "plies", "knee", tuple(two), plies - 1)
            if bolts is not None:
                thick = (0.5, 0.625, 0.75, 0.875, 1.0)
                steps = tuple(
                    sorted(((n, d) for n in (1, 2, 3) for d in thick), key=lambda s: s[0] * s[1] ** 2)
                )
                own = (bolts, diameter or 0.5)
                yield self._bolted(marks, "bolts at each end", "knee", steps, own, [p for p, _ in places])

    def rods(self) -> Iterator[Choice]:
        """Crossed rods, by how thick they are, or left out."""
        alike: dict[float, list[int]] = {}
        for i, rods in enumerate(self.project.crossed_rods):
            if rods.mark not in self.kept:
                alike.setdefault(rods.diameter, []).append(i)
        for diameter, rows in alike.items():
            marks = _listed(self.project.crossed_rods[i].mark for i in rows)
            places: list[Location] = [("crossed_rods", i) for i in rows]
            thick = _lengths(
                marks, "thickness", "rods", places, ("diameter",), (0.5, 0.625, 0.75, 0.875, 1.0), diameter
            )
            rungs = (Rung("left out", (), tuple(("crossed_rods", i) for i in rows)), *thick.rungs)
            yield Choice(marks, "thickness", "rods", rungs, thick.start + 1)

    def bolts(self) -> Iterator[Choice]:
        """Tree bolts, as far as their rating covers another: none typed covers all that is calculated."""
        used = {s.bolt for s in self.project.supports if s.bolt}
        for name, bolt in self.project.bolts.items():
            if name in self.kept or name not in used:
                continue
            rated = bolt.rated_load is not None or bolt.rated_lateral is not None
            if not rated:
                ladder = _steps(1.0, 3.0, 0.25)
                yield _lengths(
                    name, "bolt thickness", "bolt", [("bolt", name)], ("diameter",), ladder, bolt.diameter
                )
            elif bolt.rated_bolt is not None and abs(bolt.rated_bolt - bolt.diameter) > 1e-6:
                pair = tuple(sorted((bolt.rated_bolt, bolt.diameter)))
                yield _lengths(
                    name, "bolt thickness", "bolt", [("bolt", name)], ("diameter",), pair, bolt.diameter
                )
            least = bolt.embedment if rated else 3.0
            ladder = tuple(e for e in _steps(3.0, 14.0, 0.5) if e >= least - 1e-6)
            yield _lengths(
                name, "embedment", "bolt", [("bolt", name)], ("embedment",), ladder, bolt.embedment
            )

    def boards(self) -> Iterator[Choice]:
        deck = self.project.decking
        known = any(_same(deck.section, s) for s in self.stock.boards)
        if deck.span_limit is None and known and "decking" not in self.kept:
            yield self._sections([(("decking",), "boards")], deck.section, "decking", self.stock.boards)

    # -- ladders ------------------------------------------------------------------------------------------

    def _sections(
        self,
        places: Sequence[tuple[Location, str]],
        section: str,
        kind: str,
        sizes: tuple[str, ...] | None = None,
        marks: str = "",
    ) -> Choice:
        offered = self.stock.like(section) if sizes is None else sizes
        if kind != "knee":
            offered = tuple(s for s in offered if s != "2x4")
        ladder = [s for s in offered if all(self._graded(where, s) for where, _ in places)]
        if not ladder:
            ladder = [section]
        start = next((k for k, s in enumerate(ladder) if _same(s, section)), None)
        rungs = [
            Rung(s, () if k == start else tuple(((*where, "section"), s) for where, _ in places))
            for k, s in enumerate(ladder)
        ]
        if start is None:  # a size that can't be bought: start at the next larger
            deeper = (k for k, s in enumerate(ladder) if _depth(s) >= _depth(section) - 1e-6)
            start = next(deeper, len(ladder) - 1)
        return Choice(marks or _listed(mark for _, mark in places), "size", kind, tuple(rungs), start)

    def _graded(self, where: Location, section: str) -> bool:
        """Whether there are design values for the piece's species and grade in a size."""
        key, which = where[0], where[-1]
        if key == "decking":
            timber: Any = self.project.decking
        elif key == "post":
            timber = self.project.posts[str(which)]
        else:
            rows: Any = {
                "joists": self.project.joists,
                "beam": self.project.beams,
                "brace": self.project.braces,
                "blocking": self.project.blocking,
            }[str(key)]
            timber = rows[int(which)]
        try:
            timber.values(parse_section(section))
        except (MaterialError, SectionError):
            return False
        return True

    def _bolted(
        self,
        parts: str,
        what: str,
        kind: str,
        steps: Sequence[tuple[int, float]],
        own: tuple[int, float],
        places: Sequence[Location],
        before: str = "",
    ) -> Choice:
        ladder = sorted({*steps, own}, key=lambda s: (s[0] * s[1] ** 2, s[0]))
        rungs = []
        for step in ladder:
            count, thick = step
            keys = ((f"{before}bolts", count), (f"{before}bolt_diameter", f"{thick:g} in"))
            values = tuple(((*where, k), v) for where in places for k, v in keys)
            rungs.append(Rung(f"{count} of {feet_inches(thick)}", () if step == own else values))
        return Choice(parts, what, kind, tuple(rungs), ladder.index(own))


def _lengths(
    parts: str,
    what: str,
    kind: str,
    places: Sequence[Location],
    keys: Sequence[str],
    ladder: Iterable[float],
    own: float,
) -> Choice:
    steps = sorted({*(s for s in ladder if abs(s - own) > 1e-3), own})
    rungs = [
        Rung(
            feet_inches(step),
            () if step == own else tuple(((*where, key), inches(step)) for where in places for key in keys),
            size=step,
        )
        for step in steps
    ]
    return Choice(parts, what, kind, tuple(rungs), steps.index(own))


def _steps(low: float, high: float, by: float) -> tuple[float, ...]:
    count = round((high - low) / by)
    return tuple(low + by * k for k in range(count + 1))


def _same(one: str, other: str) -> bool:
    try:
        a, b = parse_section(one), parse_section(other)
    except SectionError:
        return one == other
    return abs(a.b - b.b) < 1e-6 and abs(a.d - b.d) < 1e-6


def _depth(section: str) -> float:
    return parse_section(section).d


def _listed(marks: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(marks))
