"""Stairs: stringers on the slope, treads, head, foot, rails' posts. IRC 2021, R301.5, R311.7; NDS 2018; ACI 318-19."""

from __future__ import annotations

from functools import cached_property
from math import atan2, ceil, cos, hypot, pi, sin

from audit import hangers, timber
from audit.footings import CONCRETE_PCF, allowed
from audit.guards import C_D as C_D_PUSH
from audit.guards import PUSH, edge_of
from audit.paper import Row, Site
from audit.quantities import read

Pair = tuple[float, float]
TREAD = 300.0  # lb on 2 x 2 in. of one tread (IRC 2021, Table R301.5, note c)
FLAT = {3.5: 1.1, 5.5: 1.15, 7.25: 1.15, 9.25: 1.2, 11.25: 1.2}  # C_fu (NDS Supplement 2018, Table 4B)


def timber_of(site: Site, piece: dict, section: str) -> timber.Timber:
    """Of the joists' species and grade where none are given."""
    own = {k: piece[k] for k in ("species", "grade", "wet") if k in piece}
    return timber.timber(site.cut_from(site.file) | own | {"section": section})


class Flight:
    def __init__(self, site: Site) -> None:
        s = self.file = site.file["stairs"]
        self.site = site
        self.rise = read(site.file["platform"]["floor_height"]) - read(s.get("foot"), 0.0)
        self.n = ceil(self.rise / read(s.get("highest_riser"), 7.75) - 1e-9)
        self.riser, self.run = self.rise / self.n, read(s.get("tread_run"), 10.0)
        # a flush top tread is a tread more than risers leave otherwise (SUPERSTRUCTURE, section 3)
        self.L = (self.n if s.get("top", "flush") == "flush" else self.n - 1) * self.run
        self.slope = atan2(self.riser, self.run)
        self.board = timber_of(site, s, s.get("section", "2x12"))
        depth = read(s.get("stringer_depth"), self.board.d)
        # cut square to the board: r u / sqrt(r^2 + u^2)
        notch = self.riser * self.run / hypot(self.riser, self.run) if s.get("cut", "cut") == "cut" else 0.0
        self.b, self.depth, self.d = self.board.b, depth, depth - notch
        self.width, self.stringers = read(s.get("width"), 36.0), s.get("stringers", 3)
        self.apart = (self.width - self.b) / (self.stringers - 1)
        self.tread = timber_of(site, s, s.get("tread_section", "2x6"))
        self.thick = read(s.get("tread"), timber.size(s.get("tread_section", "2x6"))[0])

    @cached_property
    def dead(self) -> float:
        """Psf of plan: treads, stringers on the slope, 1 psf of hardware, a rail on each side (ASCE 7-16, 3.1)."""
        if "dead" in self.file:
            return read(self.file["dead"])
        across = 12 / self.width  # per foot of width
        boards = self.thick / 12 * timber.WET_PCF
        strings = self.stringers * self.b * self.d / 144 * timber.WET_PCF / cos(self.slope) * across
        return boards + strings + read(self.site.file["loads"].get("hardware"), 1.0) + 2 * self.rail * across

    @property
    def rail(self) -> float:
        return read(self.file.get("rail"), 4.0)

    @property
    def live(self) -> float:
        """40 psf (IRC 2021, Table R301.5), 100 psf by the IBC (IBC 2021, Table 1607.1)."""
        usual = 100.0 if self.site.file["code"]["basis"] == "IBC" else 40.0
        return read(self.file.get("live"), usual)

    @property
    def snow(self) -> float:
        return read(self.site.file["site"]["ground_snow"])

    @property
    def person(self) -> float:
        return read(self.site.file["loads"].get("person"), 300.0)

    def cases(self) -> list[tuple[float, float, float]]:
        """Psf, one person's pounds, C_D (ASCE 7-16, 2.4.1; NDS 2018, 2.3.2)."""
        D, L, S = self.dead, self.live, self.snow
        uniform = [(D, 0.9), (D + L, 1.0), (D + S, 1.15), (D + 0.75 * (L + S), 1.15)]
        return [(q, 0.0, C) for q, C in uniform] + [(D, self.person, 1.0)]

    def line(self, q: float, across: float) -> float:
        """lb/in. of level length of a strip."""
        return q / 144 * across

    def moment(self, q: float, P: float) -> float:
        """Of an inner stringer: level span; the slope does not change M."""
        return self.line(q, self.apart) * self.L**2 / 8 + P * self.L / 4

    def reaction(self, q: float, P: float) -> float:
        return self.line(q, self.apart) * self.L / 2 + P

    @property
    def S(self) -> float:
        return self.b * self.d**2 / 6


def worst(pairs: list[Pair]) -> Pair:
    return max(pairs, key=lambda p: p[0] / p[1])


def stringer_bending(site: Site, row: Row) -> Pair:
    """All of the load over the width; no C_r of stringers (SUPERSTRUCTURE, section 3)."""
    f = Flight(site)
    return worst([(f.moment(q, 0) / f.S, f.board.Fb * C) for q, P, C in f.cases() if not P])


def stringer_person(site: Site, row: Row) -> Pair:
    f = Flight(site)
    return worst([(f.moment(q, P) / f.S, f.board.Fb * C) for q, P, C in f.cases() if P])


def stringer_shear(site: Site, row: Row) -> Pair:
    """R cos(slope) against 2/3 F_v b d (NDS 2018, 3.4.2): the throat, its lower fibres whole."""
    f = Flight(site)
    capacity = 2 / 3 * f.board.Fv * f.b * f.d
    return worst([(f.reaction(q, P) * cos(f.slope), capacity * C) for q, P, C in f.cases()])


def deflection(f: Flight, q: float) -> float:
    """Square to the stringer: 5 w L^4 / (384 E I cos^2) (SUPERSTRUCTURE, section 3)."""
    I = f.b * f.d**3 / 12
    return 5 * f.line(q, f.apart) * f.L**4 / (384 * f.board.E * I * cos(f.slope) ** 2)


def live_deflection(site: Site, row: Row) -> Pair:
    f = Flight(site)
    return deflection(f, max(f.live, f.snow)), f.L / cos(f.slope) / site.limit("live")


def total_deflection(site: Site, row: Row) -> Pair:
    """K_cr 2.0 on what lies there always (NDS 2018, 3.5.2, wet)."""
    f = Flight(site)
    q = max(f.live, f.snow, 0.75 * (f.live + f.snow))
    return 2 * deflection(f, f.dead) + deflection(f, q), f.L / cos(f.slope) / site.limit("total")


# ----------------------------------------------------------------------------------------------- head and foot


def head(site: Site, row: Row) -> Pair:
    f = Flight(site)
    hanger = site.file["connection"][f.file["hanger"]]
    Z = read(hanger["rated_load"])
    return worst([(f.reaction(q, P), Z * hangers.factor(hanger, C)) for q, P, C in f.cases()])


def head_rotation(site: Site, row: Row) -> Pair:
    """R on the hanger's seat, off the middle of the framing: a couple on its depth (statics).

    R is all that the hanger holds: one person at the head, or what a rail's post there brings beside D and L.
    """
    f = Flight(site)
    below = site.timber(framing(site, f))
    e = below.b / 2 + read(site.file["connection"][f.file["hanger"]].get("seat_length"), 1.5) / 2
    R = max(f.reaction(q, P) for q, P, _ in f.cases())
    if "rail_post" in f.file:
        R = max(R, rail_head(site, row)[0])
    return R * e / below.d, read(f.file["head_edge"])


def framing(site: Site, f: Flight) -> str:
    """The piece along the edge that the stringers hang on: the nearest to it."""
    (x, y), (ux, uy), _ = edge_of(site, f.file["edge"])
    along = [m for m in site.members.values() if abs(m.u[0] * uy - m.u[1] * ux) < 0.02]
    return min(
        along, key=lambda m: abs((m.start[0] - x) * uy - (m.start[1] - y) * ux) + 1e-3 * (m.kind == "beam")
    ).mark


def head_face(site: Site, row: Row) -> Pair:
    """A plumb cut of the whole stringer."""
    f = Flight(site)
    return f.d / cos(f.slope), read(f.file["face"])


def all_of_it(f: Flight) -> float:
    """Greatest reaction of the whole flight at an end; one person's 300 lb at that end too."""
    return max(f.line(q, f.width) * f.L / 2 + P for q, P, _ in f.cases())


def face_tie(site: Site, row: Row) -> Pair:
    f = Flight(site)
    return all_of_it(f), read(f.file["face_tie"])


def foot(f: Flight) -> tuple[float, float, float, float]:
    """Level cut: reaction, C_D, bearing by Hankinson (NDS 2018, 3.10.3, F_c* with C_D), length it wants."""
    found = []
    for q, P, C in f.cases():
        R, star, perp = f.reaction(q, P), f.board.Fc * C, f.board.Fcp
        theta = pi / 2 - f.slope
        F = star * perp / (star * sin(theta) ** 2 + perp * cos(theta) ** 2)
        found.append((R, C, F, R / (f.b * F)))
    return max(found, key=lambda p: p[3])


def foot_bearing(site: Site, row: Row) -> Pair:
    """The level cut is one tread long (cut stringers), or as long as the board is deep on the slope."""
    f = Flight(site)
    return foot(f)[3], min(f.run, f.depth / sin(f.slope))


def foot_shear(site: Site, row: Row) -> Pair:
    """2/3 F_v b d_n (d_n / d) at the end of the bearing (NDS 2018, 3.4.3.2), d_n square to the board there."""
    f = Flight(site)
    R, C, _, l_b = foot(f)
    d_n = f.d - l_b * sin(f.slope)
    return R * cos(f.slope), 2 / 3 * f.board.Fv * C * f.b * d_n * (d_n / f.d) ** 2


def pad_size(f: Flight) -> tuple[float, float, float]:
    return read(f.file["pad_length"]), read(f.file.get("pad_width"), f.width), read(f.file["pad_thickness"])


def soil(site: Site, row: Row) -> Pair:
    f = Flight(site)
    a, b, h = (v / 12 for v in pad_size(f))
    return (all_of_it(f) + a * b * h * CONCRETE_PCF) / (a * b), allowed(site)


def pad(site: Site, row: Row) -> Pair:
    """No thinner than it reaches out past the foot (IRC 2021, R403.1.1), than 8 in. (ACI 318-19, 14.3.2.1)."""
    f = Flight(site)
    length, _, thick = pad_size(f)
    return max(8.0, (length - min(f.run, f.depth / sin(f.slope))) / 2), thick


def frost(site: Site, row: Row) -> Pair:
    """IRC 2021, R403.1.4: below frost, 12 in. at least."""
    return max(read(site.file["site"]["frost_depth"]), 12.0) / 12, read(site.file["stairs"]["pad_depth"]) / 12


# ------------------------------------------------------------------------------------------------------ treads


def board_span(f: Flight) -> float:
    """Clear, and half the bearing each end wants of half of one person (NDS 2018, 3.2.1)."""
    clear = f.apart - f.b
    return clear + TREAD / 2 / (f.tread.d * f.tread.Fcp)


def tread_bending(site: Site, row: Row) -> Pair:
    """One board: 300 lb on 2 in. of it, M = P (l / 4 - c / 8), with its weight; or the floor's load."""
    f = Flight(site)
    l, w, S = board_span(f), f.tread.d, f.tread.d * f.thick**2 / 6
    D = f.thick / 12 * timber.WET_PCF
    Fb = f.tread.Fb * FLAT[w]
    pairs = [((D / 144 * w * l**2 / 8 + TREAD * (l / 4 - 2 / 8)) / S, Fb)]
    for q, C in ((D + f.live, 1.0), (D + f.snow, 1.15), (D + 0.75 * (f.live + f.snow), 1.15)):
        pairs.append((q / 144 * w * l**2 / 8 / S, Fb * C))
    return worst(pairs)


def tread_shear(site: Site, row: Row) -> Pair:
    f = Flight(site)
    w = f.tread.d
    V = f.thick / 12 * timber.WET_PCF / 144 * w * board_span(f) / 2 + TREAD
    return 1.5 * V / (w * f.thick), f.tread.Fv


def tread_bracket(site: Site, row: Row) -> Pair:
    """All of the 300 lb at one end of a tread of the whole run."""
    f = Flight(site)
    D = f.thick / 12 * timber.WET_PCF / 144 * f.run
    return D * (f.apart - f.b) / 2 + TREAD, read(f.file["tread_bracket"])


# -------------------------------------------------------------------------------------------------- rails' posts


class RailPost:
    """A post bolted to the outer stringer, as a guard's (SUPERSTRUCTURE, section 1), t = 0."""

    def __init__(self, site: Site) -> None:
        self.flight = f = Flight(site)
        self.t = timber_of(site, f.file, f.file["rail_post"])
        w = 50.0 if site.file["code"]["basis"] == "IBC" else 0.0
        self.P = max(PUSH, w * read(f.file.get("rail_spacing"), 60.0) / 12)
        self.H = max(read(f.file.get(k), 0.0) for k in ("guard_height", "handrail_height"))
        self.e, self.hole = 2.0, 0.5 + 1 / 16

    def block(self, arm: float) -> float:
        k, depth = self.t.b * self.t.Fcp, self.flight.d - self.e
        low, high = 0.0, k * depth
        for _ in range(80):
            C = (low + high) / 2
            low, high = (C, high) if C * (depth - C / k / 2) < self.P * arm else (low, C)
        return low


def rail_post(site: Site, row: Row) -> Pair:
    p = RailPost(site)
    return p.P * (p.H + p.e) / ((p.t.b - p.hole) * p.t.d**2 / 6), p.t.Fb * C_D_PUSH


def rail_load(site: Site, row: Row) -> Pair:
    """Pushed outward C + P at the upper bolt, inward C - P at the lower."""
    p = RailPost(site)
    outward = p.block(p.H + p.e) + p.P
    inward = p.block(p.H + p.flight.d - p.e) - p.P
    return max(outward, inward), read(p.flight.file["rail_tie"])


def rail_stringer(site: Site, row: Row) -> Pair:
    """The blocks turn the push's moment into a couple on two stringers; with all of D and L beside it, as framing.

    SUPERSTRUCTURE, section 0: what is below a guard is run for D + L + guard.
    """
    p = RailPost(site)
    f = p.flight
    couple = p.P * (p.H + f.d / 2) / f.apart
    return f.moment(f.dead + f.live, couple) / f.S, f.board.Fb * C_D_PUSH


def rail_head(site: Site, row: Row) -> Pair:
    """A post at the head: the couple comes whole on one hanger, beside D and L on an inner stringer (statics)."""
    p = RailPost(site)
    f = p.flight
    hanger = site.file["connection"][f.file["hanger"]]
    R = f.reaction(f.dead + f.live, p.P * (p.H + f.d / 2) / f.apart)
    return R, read(hanger["rated_load"]) * hangers.factor(hanger, C_D_PUSH)


def rail_head_up(site: Site, row: Row) -> Pair:
    """The same couple lifts the other hanger; 0.6 D of an outer stringer, half a bay and its own edge, holds it."""
    p = RailPost(site)
    f = p.flight
    hanger = site.file["connection"][f.file["hanger"]]
    outer = f.line(f.dead, f.apart / 2 + f.b / 2) * f.L / 2
    U = p.P * (p.H + f.d / 2) / f.apart - 0.6 * outer
    return U, read(hanger["rated_uplift"]) * hangers.factor(hanger, C_D_PUSH)


# ------------------------------------------------------------------------------------------------------ measures


def between(low: float, high: float, x: float) -> Pair:
    """A measure that has to lie between two: the lower bound and it, or it and the upper where it is over that."""
    return (low, x) if x <= high else (x, high)


def ibc(site: Site) -> bool:
    return site.file["code"]["basis"] == "IBC"


def riser(site: Site, row: Row) -> Pair:
    """7 3/4 in. (IRC 2021, R311.7.5.1), 7 in. (IBC 2021, 1011.5.2)."""
    return Flight(site).riser, 7.0 if ibc(site) else 7.75


def tread_depth(site: Site, row: Row) -> Pair:
    """10 in. (IRC 2021, R311.7.5.2), 11 in. (IBC 2021, 1011.5.2)."""
    return 11.0 if ibc(site) else 10.0, Flight(site).run


def width(site: Site, row: Row) -> Pair:
    """36 in. (IRC 2021, R311.7.1)."""
    return 36.0, Flight(site).width


def flight(site: Site, row: Row) -> Pair:
    """151 in. between landings (IRC 2021, R311.7.3), 12 ft (IBC 2021, 1011.8)."""
    return Flight(site).rise, 144.0 if ibc(site) else 151.0


def landing(site: Site, row: Row) -> Pair:
    """36 in. (IRC 2021, R311.7.6); as deep as they are wide, no more than 48 in. (IBC 2021, 1011.6)."""
    deep = max(36.0, min(48.0, Flight(site).width)) if ibc(site) else 36.0
    return deep, read(site.file["stairs"]["landing"])


def opening(site: Site, row: Row) -> Pair:
    """No 4 in. sphere through an open riser (IRC 2021, R311.7.5.1)."""
    f = Flight(site)
    return f.riser - f.thick - read(f.file.get("riser_strip"), 0.0), 4.0


def handrail(site: Site, row: Row) -> Pair:
    """One side from four risers on (IRC 2021, R311.7.8), both by IBC 2021, 1011.11."""
    there = {"none": 0, "one side": 1, "both sides": 2}[site.file["stairs"]["handrail"]]
    return (2.0 if ibc(site) else 1.0), float(there)


def handrail_height(site: Site, row: Row) -> Pair:
    """34 to 38 in. (IRC 2021, R311.7.8.1)."""
    return between(34.0, 38.0, read(site.file["stairs"]["handrail_height"]))


def guard_height(site: Site, row: Row) -> Pair:
    """34 in. over the noses (IRC 2021, R312.1.2), 42 in. (IBC 2021, 1015.3)."""
    return (42.0 if ibc(site) else 34.0), read(site.file["stairs"]["guard_height"])


def guard_opening(site: Site, row: Row) -> Pair:
    """4 3/8 in. on stairs (IRC 2021, R312.1.3, exception 2), 4 in. (IBC 2021, 1015.4)."""
    return read(site.file["stairs"]["guard_opening"]), 4.0 if ibc(site) else 4.375


AUDIT = {
    f"stairs.{name}": audit
    for name, audit in {
        "stringer_bending": stringer_bending,
        "stringer_person": stringer_person,
        "stringer_shear": stringer_shear,
        "live_deflection": live_deflection,
        "total_deflection": total_deflection,
        "head": head,
        "head_face": head_face,
        "head_rotation": head_rotation,
        "face_tie": face_tie,
        "foot_bearing": foot_bearing,
        "foot_shear": foot_shear,
        "soil": soil,
        "pad": pad,
        "frost": frost,
        "tread_bending": tread_bending,
        "tread_shear": tread_shear,
        "tread_bracket": tread_bracket,
        "rail_post": rail_post,
        "rail_load": rail_load,
        "rail_stringer": rail_stringer,
        "rail_head": rail_head,
        "rail_head_up": rail_head_up,
        "riser": riser,
        "tread_depth": tread_depth,
        "width": width,
        "flight": flight,
        "landing": landing,
        "opening": opening,
        "handrail": handrail,
        "handrail_height": handrail_height,
        "guard_height": guard_height,
        "guard_opening": guard_opening,
    }.items()
}
