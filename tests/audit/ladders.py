"""Ladders, ship's ladders, hatches. ASCE 7-16, 4.5.4, 26, 29; OSHA 1910.23, .28; IRC 2021, R311.7.12; NDS 2018."""

from __future__ import annotations

from math import ceil, cos, hypot, radians, sin, tan

from audit import timber
from audit.footings import CONCRETE_PCF, allowed
from audit.paper import Row, Site
from audit.quantities import read
from audit.stairs import FLAT, between, timber_of, worst

Pair = tuple[float, float]
P = 300.0  # lb at any point; one more for every full 10 ft (ASCE 7-16, 4.5.4)


class Ladder:
    def __init__(self, site: Site) -> None:
        s = self.file = site.file["ladder"]
        self.ship = s.get("kind", "ladder") == "ship's ladder"
        self.height = read(site.file["platform"]["floor_height"]) - read(s.get("foot"), 0.0)
        usual = (20.0, 60.0, 9.5, "2x10") if self.ship else (16.0, 75.0, 12.0, "2x4")
        self.clear = read(s.get("clear"), usual[0])
        self.pitch = radians(read(s.get("pitch"), usual[1]))
        self.n = ceil(self.height / read(s.get("spacing"), usual[2]) - 1e-9)
        self.step = self.height / self.n
        self.section = s.get("step", usual[3])
        self.rail = timber_of(site, s, s.get("section", "2x6"))
        self.tread = timber_of(site, s, self.section)
        self.over = read(s.get("rails_over"), 0.0)
        self.length = self.height / sin(self.pitch)
        self.people = P + P * int(self.height // 120)

    @property
    def span(self) -> float:
        """Rail to rail, middle to middle (SUPERSTRUCTURE [L1])."""
        return self.clear + self.rail.b

    @property
    def step_dead(self) -> float:
        """lb/in. of a rung or tread, wet."""
        return self.tread.A / 1728 * timber.WET_PCF

    @property
    def weight(self) -> float:
        """Both rails, over the floor too, and all treads, wet."""
        rails = 2 * self.rail.A * (self.length + self.over / sin(self.pitch))
        return rails / 1728 * timber.WET_PCF + (self.n - 1) * self.step_dead * self.clear


def step_bending(site: Site, row: Row) -> Pair:
    """One person in the middle of a rung laid flat, and its weight."""
    l = Ladder(site)
    b, d = l.tread.b, l.tread.d
    M = P * l.span / 4 + l.step_dead * l.span**2 / 8
    return M / (d * b**2 / 6), l.tread.Fb * FLAT[d]


def stairs_load(site: Site, row: Row) -> Pair:
    """40 psf by the IRC (Table R301.5), else 100 (ASCE 7-16, Table 4.3-1): a rail's half of the width over both."""
    l = Ladder(site)
    psf = 40.0 if site.file["code"]["basis"] == "IRC" else 100.0
    return psf * (l.clear + 2 * l.rail.b) / 12 * l.height / tan(l.pitch) / 12 / 2 / 2, l.people


def step_fixing(site: Site, row: Row) -> Pair:
    """The whole person at one end (SUPERSTRUCTURE, section 4: the foot at the rail)."""
    l = Ladder(site)
    return P + l.step_dead * l.span / 2, read(l.file["step_fixing"])


def rail(site: Site, row: Row) -> Pair:
    """All of the people at the middle of one rail, and half the ladder's weight along it: NDS 2018, (3.9-3).

    Weak way held by rungs and treads; C_L = 1 by 4.4.1.2: no deeper than four times its breadth, ends held.
    """
    l, t = Ladder(site), Ladder(site).rail
    W = l.weight / 2
    M = l.people * cos(l.pitch) * l.length / 4 + W * cos(l.pitch) * l.length / 8
    f_b, f_c = M / t.S, (l.people + W) * sin(l.pitch) / t.A
    between_steps = l.step / sin(l.pitch)
    E_1 = 0.822 * t.Emin / (l.length / t.d) ** 2
    E_2 = 0.822 * t.Emin / (between_steps / t.b) ** 2
    F_c = t.Fc * timber.C_P(t.Fc, min(E_1, E_2))
    return (f_c / F_c) ** 2 + f_b / (t.Fb * (1 - f_c / E_1)), 1.0


def rail_slenderness(site: Site, row: Row) -> Pair:
    """l_e / d at most 50 (NDS 2018, 3.7.1.4)."""
    l = Ladder(site)
    return max(l.length / l.rail.d, l.step / sin(l.pitch) / l.rail.b), 50.0


def rail_over(site: Site, row: Row) -> Pair:
    """100 lb in any direction at the top of a rail over the floor (ASCE 7-16, 4.5.4), flatwise; C_D 1.6 [L2].

    Across the slope its lever is the rail's own length.
    """
    l = Ladder(site)
    t = l.rail
    return 100.0 * (l.over / sin(l.pitch)) / (t.d * t.b**2 / 6), t.Fb * FLAT[t.d] * 1.6


def grip(site: Site, row: Row) -> Pair:
    """250 lb in any direction on a grab bar (ASCE 7-16, 4.5.2, from memory)."""
    return 250.0, read(Ladder(site).file["grip_rating"])


def head(site: Site, row: Row) -> Pair:
    """One rail's head takes all people and half the weight, and P / tan(pitch) level (SUPERSTRUCTURE, section 4)."""
    l = Ladder(site)
    return hypot(l.people + l.weight / 2, l.people / tan(l.pitch)), read(l.file["head_fixing"])


def soil(site: Site, row: Row) -> Pair:
    """Foot: people and all of the weight (SUPERSTRUCTURE, section 4, [L3]), on one pad of 8 in. of concrete."""
    l = Ladder(site)
    a = (read(l.file["pad"]) / 12) ** 2
    return (l.people + l.weight + a * 8 / 12 * CONCRETE_PCF) / a, allowed(site)


def over(site: Site, row: Row) -> Pair:
    """36 in. over the floor (common practice; 42 in. by OSHA 1910.23)."""
    return 36.0, Ladder(site).over


def spacing(site: Site, row: Row) -> Pair:
    """9 1/2 in. from tread to tread (IRC 2021, R311.7.12), 14 in. from rung to rung (OSHA 1910.23)."""
    l = Ladder(site)
    return l.step, 9.5 if l.ship else 14.0


def clear(site: Site, row: Row) -> Pair:
    """20 in. (IRC 2021, R311.7.12), 16 in. (OSHA 1910.23)."""
    l = Ladder(site)
    return (20.0 if l.ship else 16.0), l.clear


def pitch(site: Site, row: Row) -> Pair:
    """75 to 90 degrees (OSHA 1910.23)."""
    l = Ladder(site)
    return 75.0, read(l.file.get("pitch"), 75.0)


def height(site: Site, row: Row) -> Pair:
    """24 ft without fall arrest (OSHA 1910.28)."""
    return Ladder(site).height, 288.0


def handrail(site: Site, row: Row) -> Pair:
    """30 to 34 in. (IRC 2021, R311.7.12.2)."""
    return between(30.0, 34.0, read(site.file["ladder"]["handrail_height"]))


def tread_run(site: Site, row: Row) -> Pair:
    """5 in. from nosing to nosing (IRC 2021, R311.7.12.1)."""
    l = Ladder(site)
    return 5.0, l.step / tan(l.pitch)


def tread_depth(site: Site, row: Row) -> Pair:
    """8 1/2 in. of tread and nosing (IRC 2021, R311.7.12.1)."""
    return 8.5, Ladder(site).tread.d


def use(site: Site, row: Row) -> Pair:
    """200 ft2 of floor (IRC 2021, R311.7.12), its openings left off."""

    def area(ring: list) -> float:
        xy = [tuple(read(v) for v in p) for p in ring]
        return abs(sum(a * d - c * b for (a, b), (c, d) in zip(xy, xy[1:] + xy[:1], strict=True))) / 2 / 144

    plan = site.file["platform"]
    return area(plan["outline"]) - sum(area(ring) for ring in plan.get("openings", [])), 200.0


# --------------------------------------------------------------------------------------------------------- hatch


def sides(site: Site) -> tuple[float, float]:
    hatch = site.file["hatch"]
    return read(hatch.get("length"), 36.0), read(hatch.get("width"), 30.0)


def cover(site: Site, row: Row) -> Pair:
    """One board of the deck's over the hole's width; one person in its middle, or the floor's load (NDS 2018, 3.3)."""
    t = timber.timber(site.file["decking"])
    _, l = sides(site)
    S, D = t.d * t.b**2 / 6, t.b / 12 * timber.WET_PCF
    L, snow = read(site.file["loads"]["live"]), read(site.file["site"]["ground_snow"])
    cases = [(D + L, 0.0, 1.0), (D + snow, 0.0, 1.15), (D + 0.75 * (L + snow), 0.0, 1.15), (D, P, 1.0)]
    return worst([((q / 144 * t.d * l**2 / 8 + N * l / 4) / S, t.Fb * FLAT[t.d] * C) for q, N, C in cases])


def weight(site: Site, row: Row) -> Pair:
    """30 lb for one hand (common practice); boards and a fourth more for battens."""
    a, b = sides(site)
    boards = a * b * timber.size(site.file["decking"]["section"])[0] / 1728 * timber.WET_PCF
    return read(site.file["hatch"].get("cover_weight"), 1.25 * boards), 30.0


def held(site: Site, row: Row) -> Pair:
    """0.6 W on the open cover, half of it at the latch, its hinges take the other (ASCE 7-16, 26.10, 29.3).

    q = 0.00256 K_z K_d V^2, K_z = 2.01 (15 / 1200)^(2/7) in exposure B under 15 ft; G 0.85; C_f 1.95, the greatest of
    Figure 29.3-1.
    """
    place = site.file["site"]
    assert place["exposure"] == "B"
    a, b = sides(site)
    z = max((read(site.file["platform"]["floor_height"]) + b) / 12, 15.0)
    q = 0.00256 * 2.01 * (z / 1200) ** (2 / 7) * 0.85 * read(place["wind_speed"]) ** 2
    return 0.6 * q * 0.85 * 1.95 * a * b / 144 / 2, read(site.file["hatch"]["held_open"])


AUDIT = {
    "ladder.step_bending": step_bending,
    "ladder.step_fixing": step_fixing,
    "ladder.grip": grip,
    "ladder.rail": rail,
    "ladder.rail_slenderness": rail_slenderness,
    "ladder.rail_over": rail_over,
    "ladder.head": head,
    "ladder.soil": soil,
    "ladder.stairs_load": stairs_load,
    "ladder.over": over,
    "ladder.spacing": spacing,
    "ladder.clear": clear,
    "ladder.pitch": pitch,
    "ladder.height": height,
    "ladder.handrail": handrail,
    "ladder.tread_run": tread_run,
    "ladder.tread_depth": tread_depth,
    "ladder.use": use,
    "hatch.cover": cover,
    "hatch.weight": weight,
    "hatch.held": held,
}
