"""A second model of a platform, straight from the project file, in PyNiteFEA, a general-purpose library.

It shares nothing with the layout or the load path but the parsed project. Members are beams in one plane that pass
only vertical forces where they cross (a grillage without torsion); hung ends are hinged. Each joist and carrier is
loaded by what comes to it from single boards, looked at one by one along the joists: each is a simple beam on the two
members next to its load, past the last member on that one and the next in. What a member gets is a polynomial or
close to one between the places where anything changes; looks at Gauss's places in short stretches integrate it.

Plan x, y of the project are the library's X, Z; up is Y.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from Pynite import FEModel3D
from shapely import LineString, MultiPolygon, Point, Polygon, unary_union

from bolewright.platform.project import JoistField, Project
from bolewright.timber.material import density, reference_values
from bolewright.timber.sections import parse_section

NO_TORSION = 1e-6  # in^4
NO_SPIN = 1e-3  # lb·in/rad: keeps what is hinged all round from spinning about its own axis
CLOSE = 1.0
NEAR = 5.9  # a member nearer to the last one than this does not hold a board down
STEEP = (
    4.0  # rise over the joists' direction from which a board lies along a member and no lever lifts the next
)
GAUSS = (0.5 - 0.5 / math.sqrt(3), 0.5 + 0.5 / math.sqrt(3))
FACE = 3.0  # a board still lies on a member this far off its end, and on a carrier this far past its face


@dataclass
class Stick:
    """A straight member from a to b in plan, with its stiffness, weight per inch, and where it is held."""

    name: str
    a: np.ndarray
    b: np.ndarray
    E: float
    section: object
    weight: float
    under_boards: bool
    of_field: str = ""
    places: set = field(default_factory=set)  # of nodes, along it
    ends: list = field(default_factory=list)  # of the pieces between nodes

    @property
    def length(self) -> float:
        return float(np.hypot(*(self.b - self.a)))

    @property
    def u(self) -> np.ndarray:
        return (self.b - self.a) / self.length

    def at(self, x: float) -> np.ndarray:
        return self.a + x * self.u

    def along(self, point) -> float:
        return float((np.asarray(point, dtype=float) - self.a) @ self.u)

    def off(self, point) -> float:
        d = np.asarray(point, dtype=float) - self.a
        return float(abs(d[0] * self.u[1] - d[1] * self.u[0]))


def meeting(p: Stick, q: Stick):
    """Distances along two sticks to where their lines cross, None when parallel."""
    m = np.column_stack([p.u, -q.u])
    if abs(np.linalg.det(m)) < 1e-6:
        return None
    s, t = np.linalg.solve(m, q.a - p.a)
    return float(s), float(t)


class Platform:
    """The platform as sticks, nodes and supports."""

    def __init__(self, project: Project) -> None:
        self.project = project
        self.deck = Polygon(project.platform.outline, project.platform.openings)
        self.sticks: dict[str, Stick] = {}
        self.joints: list[tuple[str, float, str, float]] = []  # upper, place, lower, place
        self.props: list[tuple[str, float, str]] = []  # stick, place, support
        self._carriers()
        for joists in project.joists:
            self._joists(joists)
        self._carrier_joints()

    # -------------------------------------------------------------------------------------------------
    # geometry

    def _stick(self, name, a, b, timber, plies, under_boards, field_mark="") -> Stick:
        section = parse_section(timber.section).of_plies(plies)
        values = reference_values(timber.species, timber.grade, section)
        rho = float(density(G=values.G, m_c=28.0 if timber.wet else 12.0))
        weight = rho * section.b * section.d / 1728
        return Stick(
            name, np.array(a, float), np.array(b, float), values.E, section, weight, under_boards, field_mark
        )

    def _carriers(self) -> None:
        project = self.project
        hung_fields = any(f.bearing == "hung" for f in project.joists)
        self.layer = {c.mark: c.layer for c in project.carriers}
        for c in project.carriers:
            flush = c.layer == 0 or (c.layer == 1 and hung_fields)
            self.sticks[c.mark] = self._stick(c.mark, c.start, c.end, c, c.plies, flush)
        for s in project.supports:
            under = [
                c.mark
                for c in project.carriers
                if self.sticks[c.mark].off(s.at) <= CLOSE
                and -CLOSE <= self.sticks[c.mark].along(s.at) <= self.sticks[c.mark].length + CLOSE
            ]
            lowest = max(self.layer[m] for m in under)
            self.props += [(m, self.sticks[m].along(s.at), s.mark) for m in under if self.layer[m] == lowest]

    def _carrier_joints(self) -> None:
        """Carriers on or in carriers; a hung end is moved to the centre line it hangs from."""
        held = {(m, s) for m, _, s in self.props}
        for upper, lower in itertools.permutations([c.mark for c in self.project.carriers], 2):
            p, q = self.sticks[upper], self.sticks[lower]
            cross = meeting(p, q)
            if cross is None or not -CLOSE <= cross[1] <= q.length + CLOSE:
                continue
            s, t = cross
            if self.layer[lower] == self.layer[upper] + 1 and -CLOSE <= s <= p.length + CLOSE:
                self.joints.append((upper, s, lower, t))
            elif self.layer[lower] == self.layer[upper]:
                near = q.section.b / 2 + 1.5
                end = 0.0 if abs(s) <= near else p.length if abs(s - p.length) <= near else None
                inside = near < t < q.length - near
                common = {x for m, x in held if m == upper} & {x for m, x in held if m == lower}
                if end is None or common or not (inside or self.hung_by_name(upper, lower)):
                    continue
                point = p.at(s)
                if end == 0.0:
                    for i, (m, place, support) in enumerate(self.props):
                        if m == upper:
                            self.props[i] = (m, place - s, support)
                    self.joints = [
                        (a, x - s if a == upper else x, b, y - s if b == upper else y)
                        for a, x, b, y in self.joints
                    ]
                    p.a = point
                    self.joints.append((upper, 0.0, lower, t))
                else:
                    p.b = point
                    self.joints.append((upper, p.length, lower, t))

    def hung_by_name(self, upper: str, lower: str) -> bool:
        by_mark = {c.mark: c for c in self.project.carriers}
        return by_mark[upper].hanger is not None and by_mark[lower].hanger is None

    def _joists(self, f: JoistField) -> None:
        u, n = axes(f)
        region = self.deck if f.region is None else self.deck.intersection(Polygon(f.region))
        names = f.carriers or [m for m, layer in self.layer.items() if layer <= 1]
        places = list(np.arange(f.first, f.last + 1e-6, f.spacing))
        if f.last - places[-1] > parse_section(f.section).b:
            places.append(f.last)
        number = 0
        for t in places:
            line = LineString([u * s + n * t for s in (-4000, 4000)])
            inside = region.intersection(line)
            spans = [g for g in getattr(inside, "geoms", [inside]) if g.length > 6]
            for span in sorted(spans, key=lambda g: min(np.array(g.coords) @ u)):
                along = sorted((np.array(span.coords) @ u).tolist())
                for a, b, seats in self._cut(f, u, n, t, along[0], along[-1], names):
                    if self._in_a_carrier(f, u * (a + b) / 2 + n * t, u):
                        continue
                    number += 1
                    name = f"{f.mark}{number}"
                    self.sticks[name] = self._stick(name, u * a + n * t, u * b + n * t, f, 1, True, f.mark)
                    self.joints += [(name, s - a, m, there) for s, m, there in seats]

    def _cut(self, f, u, n, t, low, high, names):
        probe = Stick("", u * low + n * t, u * high + n * t, 0, None, 0, False)
        found = []
        for m in names:
            q = self.sticks[m]
            cross = meeting(probe, q)
            reach = q.section.b / 2 / max(0.2, abs(probe.u[0] * q.u[1] - probe.u[1] * q.u[0])) + 3
            if cross and -reach <= cross[0] <= high - low + reach and -CLOSE <= cross[1] <= q.length + CLOSE:
                found.append((low + cross[0], m, min(max(cross[1], 0.0), q.length)))
        found.sort()
        stops = [x for x in found if f.bearing == "hung" or self.layer[x[1]] == 0]
        rests = [x for x in found if x not in stops]
        cuts = [None, *stops, None]
        for a, b in itertools.pairwise(cuts):
            lo, hi = (a[0] if a else -1e9), (b[0] if b else 1e9)
            inside = [x for x in rests if lo + 3 < x[0] < hi - 3]
            inside = [x for i, x in enumerate(inside) if i == 0 or x[0] - inside[i - 1][0] >= 3]
            seats = [*([a] if a else []), *inside, *([b] if b else [])]
            if len(seats) >= 2:
                yield (
                    lo if a else min(low, inside[0][0]),
                    hi if b else max(high, inside[-1][0]),
                    seats,
                )

    def _in_a_carrier(self, f, middle, u) -> bool:
        for m in [m for m, layer in self.layer.items() if layer <= 1]:
            q = self.sticks[m]
            if (f.bearing == "hung" or self.layer[m] == 0) and abs(u[0] * q.u[1] - u[1] * q.u[0]) < 0.02:
                near = q.off(middle) < (parse_section(f.section).b + q.section.b) / 2
                if near and 0 <= q.along(middle) <= q.length:
                    return True
        return False

    # -------------------------------------------------------------------------------------------------
    # boards

    def board_loads(self, area: Polygon | MultiPolygon):
        """Load of 1 psi on ``area``: (stick, from, to, lb/in at from, lb/in at to), and single loads.

        The share of a member is found on the whole region of its field; ``area`` cuts what of it is loaded.
        """
        spread, points = [], []
        for f in self.project.joists:
            u, n = axes(f)
            region = self.deck if f.region is None else self.deck.intersection(Polygon(f.region))
            frame = lambda g, u=u, n=n: turn(g, u, n)  # noqa: E731
            whole, loaded = frame(region), frame(region.intersection(area))
            if loaded.is_empty:
                continue
            lines = self._lines(f, u, n)
            patches: list[Polygon] = []
            ends = [float(p @ u) for line in lines for p in (self.sticks[line[0]].a, self.sticks[line[0]].b)]
            for a, b in itertools.pairwise(changes(whole, loaded, lines, ends)):
                points += self._along_it(whole, loaded, lines, a, b, u, n)
                patches += self._strays(whole, loaded, lines, a, b, u, n)
                skewed = any(abs(t_2 - t_1) > 1e-6 for _, _, t_1, _, t_2 in lines)
                parts = math.ceil((b - a) / 1.0) if skewed else 1
                for low, high in itertools.pairwise(np.linspace(a, b, parts + 1).tolist()):
                    self._spread_boards(whole, loaded, lines, low, high, u, n, spread, points)
            points += self._on_nearest(patches)
        return spread, points

    def _spread_boards(self, whole, loaded, lines, a, b, u, n, spread, points):
        """What members get of the boards from a to b, as a load that changes evenly."""
        looks = [self._look(whole, loaded, lines, a + (b - a) * x) for x in GAUSS]
        for name in {k for look in looks for k in look}:
            w1, w2 = (look.get(name, 0.0) for look in looks)
            slope = (w2 - w1) / (GAUSS[1] - GAUSS[0])
            q_a, q_b = (w1 + w2) / 2 - slope / 2, (w1 + w2) / 2 + slope / 2
            stick = self.sticks[name]
            x_a, x_b = (place_along(stick, u, n, s) for s in (a, b))
            inside = [min(max(x, 0.0), stick.length) for x in (x_a, x_b)]
            if abs(inside[1] - inside[0]) < 1e-9:
                points.append((name, inside[0], (q_a + q_b) / 2 * (b - a)))
            else:
                stretch = (b - a) / abs(x_b - x_a)
                ends = sorted([(x_a, q_a * stretch), (x_b, q_b * stretch)])
                spread.append((name, ends[0][0], ends[1][0], ends[0][1], ends[1][1]))

    def _on_nearest(self, patches):
        """Patches of deck with no member under their boards, joined where they touch, on the nearest member each."""
        joined = unary_union([p.buffer(1e-7, join_style="mitre") for p in patches])
        for patch in getattr(joined, "geoms", [joined]):
            if not patch.is_empty:
                by_distance = [
                    (LineString([s.a, s.b]).distance(patch.centroid), k, s)
                    for k, s in enumerate(self._in_deck_order())
                ]
                stick = min(by_distance)[2]
                x = stick.along((patch.centroid.x, patch.centroid.y))
                yield stick.name, min(max(x, 0.0), stick.length), patch.area

    def _lines(self, f, u, n):
        """Members under the boards of a field as (name, s_1, t_1, s_2, t_2) in its axes."""
        lines = []
        for stick in self.sticks.values():
            if not stick.under_boards or stick.of_field not in ("", f.mark):
                continue
            a, b = stick.a.copy(), stick.b.copy()
            if stick.of_field:
                for upper, x, lower, _ in self.joints:
                    q = self.sticks[lower]
                    beside = upper == stick.name and q.under_boards and abs(q.u @ u) < 0.1
                    if beside and (f.bearing == "hung" or self.layer[lower] == 0):
                        past = q.section.b / 2 + FACE
                        if abs(x) < 1e-6:
                            a = a - past * stick.u
                        elif abs(x - stick.length) < 1e-6:
                            b = b + past * stick.u
            (s_1, t_1), (s_2, t_2) = sorted([(a @ u, a @ n), (b @ u, b @ n)])
            if s_2 - s_1 > 1e-6 and abs(t_2 - t_1) <= 10 * (s_2 - s_1):
                lines.append((stick.name, s_1, t_1, s_2, t_2))
        return lines

    def _under(self, lines, low, high, s):
        """Members under a board from low to high at ``s``, in order: (place, name)."""
        places = ((value(line[1:], s), line[0]) for line in lines if line[1] < s < line[3])
        return sorted((t, name) for t, name in places if low - FACE <= t <= high + FACE)

    def _steep(self, lines, name) -> bool:
        _, s_1, t_1, s_2, t_2 = next(line for line in lines if line[0] == name)
        return abs(t_2 - t_1) > STEEP * (s_2 - s_1)

    def _look(self, whole, loaded, lines, s):
        """Load on each member, per inch along the joists, of the boards under 1 psi at ``s``."""
        got: dict[str, float] = {}
        for low, high in stretches(whole, s):
            here = self._under(lines, low, high, s)
            for i, (first, second) in enumerate(itertools.pairwise([(low, ""), *here, (high, "")])):
                pair = [x for x in (first, second) if x[1]]
                if not pair:
                    continue
                if len(pair) == 1:
                    inwards = here[1:] if i == 0 else here[-2::-1]
                    pair += [x for x in inwards if abs(x[0] - pair[0][0]) >= NEAR][:1]
                    if len(pair) == 1 or self._steep(lines, pair[0][1]):
                        continue  # square to it: in patches
                (t_1, one), (t_2, two) = pair
                for a, b in stretches(loaded, s):
                    below, above = max(a, low, first[0]), min(b, high, second[0])
                    if above > below:
                        part = ((above + below) / 2 - t_1) / (t_2 - t_1)
                        got[one] = got.get(one, 0.0) + (above - below) * (1 - part)
                        got[two] = got.get(two, 0.0) + (above - below) * part
        return got

    def _along_it(self, whole, loaded, lines, a, b, u, n):
        """Loaded deck from a to b past a last member that nothing helps: (stick, place, area) square to it."""
        middle = (a + b) / 2
        at = [a + (b - a) * x for x in (1 / 3, 2 / 3)]
        for k, (low, high) in enumerate(stretches(whole, middle)):
            here = self._under(lines, low, high, middle)
            for side, row in ((0, here), (1, here[::-1])) if here else ():
                (t, name), *others = row
                if any(abs(x[0] - t) >= NEAR for x in others) and not self._steep(lines, name):
                    continue
                line = next(line for line in lines if line[0] == name)
                ends = []
                for s in at:
                    edge, member = stretches(whole, s)[k][side], value(line[1:], s)
                    ends.append(
                        (min(edge, member), max(edge, member)) if (member > edge) == (side == 0) else None
                    )
                if None in ends:
                    continue
                for first, second in zip(*(stretches(loaded, s) for s in at), strict=True):
                    cut = [
                        (max(x[0], e[0]), min(x[1], e[1])) for x, e in zip((first, second), ends, strict=True)
                    ]
                    if cut[0][1] - cut[0][0] > 1e-9 or cut[1][1] - cut[1][0] > 1e-9:
                        yield from slices(self.sticks[name], trapezoid(cut, a, b, u, n))

    def _strays(self, whole, loaded, lines, a, b, u, n):
        """Loaded deck from a to b that has no member under its boards."""
        middle = (a + b) / 2
        held = [
            (low, high)
            for low, high in stretches(whole, middle)
            for _, s_1, t_1, s_2, t_2 in lines
            if s_1 < middle < s_2
            and low - FACE <= t_1 + (t_2 - t_1) * (middle - s_1) / (s_2 - s_1) <= high + FACE
        ]
        looks = [stretches(loaded, a + (b - a) * x) for x in (1 / 3, 2 / 3)]
        for first, second in zip(*looks, strict=True):
            if any(low - 1e-9 <= sum(first + second) / 4 <= high + 1e-9 for low, high in held):
                continue
            yield trapezoid((first, second), a, b, u, n)

    # -------------------------------------------------------------------------------------------------
    # the frame

    def frame(self, cases: dict[str, tuple[list, list]]) -> FEModel3D:
        """The grillage with load cases of (spread, point) loads in lb."""
        model = FEModel3D()
        names: dict[tuple[float, float], str] = {}
        for upper, x, lower, t in self.joints:
            self.sticks[upper].places.add(round(x, 9))
            self.sticks[lower].places.add(round(t, 9))
        for name, x, _ in self.props:
            self.sticks[name].places.add(round(x, 9))

        def node(point: np.ndarray) -> str:
            for (x, y), name in names.items():
                if math.hypot(point[0] - x, point[1] - y) < 1e-6:
                    return name
            name = f"N{len(names)}"
            names[(float(point[0]), float(point[1]))] = name
            model.add_node(name, float(point[0]), 0.0, float(point[1]))
            return name

        hung = {
            (upper, round(x, 6))
            for upper, x, lower, _ in self.joints
            if abs(x) < 1e-6 or abs(x - self.sticks[upper].length) < 1e-6
        }
        for stick in self.sticks.values():
            ends = sorted({0.0, round(stick.length, 9), *stick.places})
            stick.ends = [x for i, x in enumerate(ends) if i == 0 or x - ends[i - 1] > 1e-6]
            model.add_material(stick.name, stick.E, stick.E / 16, 0.3, 0.0)
            s = stick.section
            model.add_section(stick.name, s.A, s.I, s.I, NO_TORSION)
            for i, (x, y) in enumerate(itertools.pairwise(stick.ends)):
                piece = f"{stick.name}/{i}"
                model.add_member(piece, node(stick.at(x)), node(stick.at(y)), stick.name, stick.name)
                free_start = i == 0 and (stick.name, 0.0) in hung
                free_end = i == len(stick.ends) - 2 and (stick.name, round(stick.length, 6)) in hung
                if free_start or free_end:
                    model.def_releases(piece, Ryi=free_start, Rzi=free_start, Ryj=free_end, Rzj=free_end)
        self.at_support: dict[str, list[str]] = {}
        for name, x, support in self.props:
            here = node(self.sticks[name].at(round(x, 9)))
            self.at_support.setdefault(support, [])
            if here not in self.at_support[support]:
                self.at_support[support].append(here)
        held = {n for nodes in self.at_support.values() for n in nodes}
        alone = {
            node(self.sticks[name].at(round(x, 9)))
            for name, x, _ in self.props
            if [prop[0] for prop in self.props].count(name) == 1
            and name not in {upper for upper, *_ in self.joints}
        }  # knees hold a carrier on one post against tipping
        for name in names.values():
            model.def_support(name, True, name in held, True, name in alone, True, name in alone)
            model.def_support_spring(name, "RX", NO_SPIN)
            model.def_support_spring(name, "RZ", NO_SPIN)
        for case, (spread, points) in cases.items():
            for name, a, b, q_a, q_b in spread:
                self._spread(model, case, name, a, b, q_a, q_b)
            for name, x, pounds in points:
                ends = self.sticks[name].ends
                i = min(max(int(np.searchsorted(ends, x)) - 1, 0), len(ends) - 2)
                model.add_member_pt_load(f"{name}/{i}", "FY", -pounds, x - ends[i], case)
            model.add_load_combo(case, {case: 1.0})
        model.analyze_linear(check_stability=False)
        return model

    def _spread(self, model, case, name, a, b, q_a, q_b) -> None:
        for i, (x, y) in enumerate(itertools.pairwise(self.sticks[name].ends)):
            low, high = max(a, x), min(b, y)
            if high - low > 1e-9:
                q = [q_a + (q_b - q_a) * (z - a) / (b - a) for z in (low, high)]
                model.add_member_dist_load(f"{name}/{i}", "FY", -q[0], -q[1], low - x, high - x, case)

    def reaction(self, model: FEModel3D, support: str, case: str) -> float:
        return float(sum(model.nodes[n].RxnFY[case] for n in self.at_support[support]))

    def moment(self, model: FEModel3D, name: str, x: float, case: str) -> float:
        """Bending moment of a stick at a place, sagging positive."""
        ends = self.sticks[name].ends
        i = min(max(int(np.searchsorted(ends, x, side="right")) - 1, 0), len(ends) - 2)
        return -float(
            model.members[f"{name}/{i}"].moment("Mz", min(x - ends[i], ends[i + 1] - ends[i]), case)
        )

    def largest(self, model: FEModel3D, name: str, case: str) -> tuple[float, float]:
        """Least and greatest moment of a stick, sagging positive."""
        pieces = [model.members[f"{name}/{i}"] for i in range(len(self.sticks[name].ends) - 1)]
        return (
            float(min(-p.max_moment("Mz", case) for p in pieces)),
            float(max(-p.min_moment("Mz", case) for p in pieces)),
        )

    # -------------------------------------------------------------------------------------------------
    # loads of the project file

    def dead(self):
        """Boards with hardware, own weights, guards: (spread, points)."""
        d = self.project.decking
        section = parse_section(d.section)
        values = reference_values(d.species, d.grade, section)
        rho = float(density(G=values.G, m_c=28.0 if d.wet else 12.0))
        psi = (rho * section.b / 12 + self.project.loads.hardware) / 144
        spread, points = scaled(self.board_loads(self.deck), psi)
        spread += [(s.name, 0.0, s.length, s.weight, s.weight) for s in self.sticks.values()]
        corners = self.project.platform.outline
        for edge in self.project.loads.guard_edges:
            a, b = np.array(corners[edge - 1]), np.array(corners[edge % len(corners)])
            length = float(np.hypot(*(b - a)))
            count = max(1, math.ceil(length / 12))
            for i in range(count):
                point = a + (b - a) * (i + 0.5) / count
                by_distance = [
                    (round(LineString([s.a, s.b]).distance(Point(*point)), 9), k, s)
                    for k, s in enumerate(self._in_deck_order())
                ]
                stick = min(by_distance)[2]
                x = min(max(stick.along(point), 0.0), stick.length)
                points.append((stick.name, x, self.project.loads.guard / 12 * length / count))
        return spread, points

    def _in_deck_order(self):
        flush = [s for s in self.sticks.values() if s.under_boards]
        return sorted(flush, key=lambda s: not s.of_field)

    def area_load(self, area, psf: float):
        return scaled(self.board_loads(area), psf / 144)


def axes(f: JoistField) -> tuple[np.ndarray, np.ndarray]:
    angle = math.radians(f.direction)
    u = np.array([math.cos(angle), math.sin(angle)])
    return u, np.array([-u[1], u[0]])


def scaled(loads, factor: float):
    spread, points = loads
    return (
        [(n, a, b, q_a * factor, q_b * factor) for n, a, b, q_a, q_b in spread],
        [(n, x, p * factor) for n, x, p in points],
    )


def turn(shape, u, n):
    """Shape in the axes u, n."""
    parts = [g for g in getattr(shape, "geoms", [shape]) if g.geom_type == "Polygon" and g.area > 1e-9]

    def ring(coords):
        return np.array(coords) @ np.column_stack([u, n])

    return MultiPolygon(
        [Polygon(ring(p.exterior.coords), [ring(i.coords) for i in p.interiors]) for p in parts]
    )


def rings(shape):
    for p in shape.geoms:
        yield from (p.exterior, *p.interiors)


def stretches(shape, s: float):
    """Intervals of t inside a shape along the line at s."""
    s_1, t_1, s_2, t_2 = sides(shape)
    cut = (s_1 < s) != (s_2 < s)
    places = np.sort(t_1[cut] + (t_2[cut] - t_1[cut]) * (s - s_1[cut]) / (s_2[cut] - s_1[cut])).tolist()
    return list(zip(places[::2], places[1::2], strict=True))


@lru_cache(maxsize=8)
def sides(shape):
    """Ends of all sides of a shape, as four arrays."""
    found = [(*p, *q) for ring in rings(shape) for p, q in itertools.pairwise(ring.coords)]
    return np.array(found).T


def slices(stick: Stick, patch: Polygon):
    """A patch cut square to a stick every 2 in.: (stick, place, area)."""
    along = [stick.along(corner) for corner in patch.exterior.coords]
    across = np.array([-stick.u[1], stick.u[0]]) * 1000
    for low in np.arange(min(along), max(along), 2.0):
        a, b = stick.at(low), stick.at(low + 2.0)
        piece = patch.intersection(Polygon([a - across, b - across, b + across, a + across]))
        if piece.area > 1e-12:
            x = stick.along((piece.centroid.x, piece.centroid.y))
            yield stick.name, min(max(x, 0.0), stick.length), piece.area


def trapezoid(cuts, a: float, b: float, u, n) -> Polygon:
    """Plan shape from a to b whose intervals of t at the two thirds are given."""
    lines = [(2 * t_1 - t_2, 2 * t_2 - t_1) for t_1, t_2 in zip(*cuts, strict=True)]
    corners = [
        u * s + n * t
        for line, ends in ((lines[0], (a, b)), (lines[1][::-1], (b, a)))
        for s, t in zip(ends, line, strict=True)
    ]
    return Polygon(corners)


def place_along(stick: Stick, u, n, s: float) -> float:
    """Where along a stick its s in the field's axes is."""
    return (s - float(stick.a @ u)) / float(stick.u @ u)


def changes(whole, loaded, lines, ends) -> list[float]:
    """All places along the joists where a width may change its straight line."""
    segments = [
        (p[0], p[1], q[0], q[1]) if p[0] < q[0] else (q[0], q[1], p[0], p[1])
        for shape in (whole, loaded)
        for ring in rings(shape)
        for p, q in itertools.pairwise(ring.coords)
        if abs(p[0] - q[0]) > 1e-9
    ]
    members = [line[1:] for line in lines]
    low, high = whole.bounds[0], whole.bounds[2]
    half_way = []
    for one, two in itertools.combinations(members, 2):
        a, b = max(one[0], two[0]), min(one[2], two[2])
        if b - a > 1e-9:
            at = [(value(one, s) + value(two, s)) / 2 for s in (a, b)]
            half_way.append((a, at[0], b, at[1]))
    margins = [(a, t + d, b, r + d) for a, t, b, r in segments for d in (-FACE, FACE)]
    margins += [(a, t + d, b, r + d) for a, t, b, r in members for d in (-NEAR, NEAR)]
    everything = np.array(segments + margins + members + half_way)
    places = {low, high, *ends, *everything[:, 0], *everything[:, 2]}
    s_1, t_1, s_2, t_2 = everything.T
    k = (t_2 - t_1) / (s_2 - s_1)
    c = t_1 - k * s_1
    i, j = np.triu_indices(len(everything), 1)
    slope = k[i] - k[j]
    real = np.abs(slope) > 1e-9
    cross = (c[j] - c[i])[real] / slope[real]
    i, j = i[real], j[real]
    on = (cross > np.maximum(s_1[i], s_1[j])) & (cross < np.minimum(s_2[i], s_2[j]))
    places.update(cross[on].tolist())
    ordered = sorted(s for s in places if low - 1e-9 <= s <= high + 1e-9)
    return [s for n, s in enumerate(ordered) if n == 0 or s - ordered[n - 1] > 1e-7]


def value(line, s: float) -> float:
    s_1, t_1, s_2, t_2 = line
    return t_1 + (t_2 - t_1) * (s - s_1) / (s_2 - s_1)
