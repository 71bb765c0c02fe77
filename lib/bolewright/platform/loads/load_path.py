"""The load path as a matrix: what one pound on any panel of deck does at every seat and along every member.

Sources are the deck panels; one for each member, its own dead weight with the guards on it; one for each action that a
part brings to a place, the pushes on guards last; and the spots where one heavy person may stand. The influence of
every source on every effect is solved once, from the joists down; dead load, the worst pattern of live load, snow and
the worst spot are then products with it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import pairwise
from typing import Any

import numpy as np

from bolewright.calculation import Calculation
from bolewright.mechanics.beam import Beam, respond
from bolewright.mechanics.loads import CoupleLoad, PointLoad, SpreadLoad, UnitLoad, pounds_of
from bolewright.platform.layout.actions import ActionKind, shares_of
from bolewright.platform.layout.coupling import Delivery, seat_drops, seat_forces
from bolewright.platform.layout.influence import Array, Influence, gather
from bolewright.platform.layout.layout import Layout, Member
from bolewright.platform.layout.tees import Tee, run_turn, stands_alone, tee_of
from bolewright.platform.layout.wood_weight import timber_density
from bolewright.platform.loads.balance import BalanceError, assert_members_balance
from bolewright.platform.loads.either import Either, on_either
from bolewright.platform.loads.guard_loads import guard_loads
from bolewright.platform.loads.load_areas import area_loads
from bolewright.platform.loads.panels import Deck, Panel, find_deck
from bolewright.platform.loads.spots import SAGS, Spot, find_spots
from bolewright.platform.project import Decking
from bolewright.timber.material import DesignValues
from bolewright.timber.sections import parse_section

_HAIR = 1e-6  # in: a length is whole but for rounding
_GRID = 4.0  # in: a moment that peaks between two stations is missed by w _GRID^2 / 8 at most
_BESIDE = (
    1e-5  # in: a couple steps the moment at its place: looked at so near to it that either side is whole
)


@dataclass(frozen=True)
class Effects:
    """Influence of every source (a column) on one member: at its stations (rows) and at its seats (rows).

    Moments in lb·in (sagging positive), shears and reactions in lb (reaction up positive), deflection in in.
    ``loads`` are what the member gets from above, each named in ``labels``; ``delivered`` is how much of every
    source (a column) arrives as each of them (a row). ``head`` is the moment of all weight about the post of a beam
    that stands on one alone, towards the beam's end; it goes into the post's head.
    """

    member: Member
    values: DesignValues
    stations: Array
    moment: Influence
    shear_left: Influence
    shear_right: Influence
    deflection: Influence
    reactions: Influence
    loads: tuple[UnitLoad, ...]
    labels: tuple[str, ...]
    delivered: Influence
    head: Influence | None = None


@dataclass(frozen=True)
class LoadPath:
    """Layout, sources, loads on them, and their influence on every member.

    The sources in order: ``panels``, then one for each member of the layout, then the layout's ``actions``, then
    ``spots``. ``own_weight`` is the
    dead weight of each member with the guards on it (lb); ``on_pieces`` live load and snow at the corners of all pieces
    of deck (lb; four rows). ``envelopes`` are those that :mod:`bolewright.platform.loads.combine` has found.
    """

    layout: Layout
    deck: Deck
    spots: tuple[Spot, ...]
    effects: dict[str, Effects]
    dead: Array
    live: Array
    snow: Array
    own_weight: dict[str, float]
    on_pieces: dict[str, Array]
    envelopes: dict[tuple[str, str], Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    @property
    def panels(self) -> tuple[Panel, ...]:
        """The deck's panels."""
        return self.deck.panels

    @property
    def first_spot(self) -> int:
        """Number of the first source that is a spot for one person."""
        return self.first_action + len(self.layout.actions)

    @property
    def first_action(self) -> int:
        """Number of the first source that is an action of a part."""
        return len(self.panels) + len(self.layout.members)

    @cached_property
    def first_push(self) -> int:
        """Number of the first source that is a push on a guard; these are the last of the actions."""
        pushes = sum(action.kind is ActionKind.PUSH for action in self.layout.actions)
        return self.first_spot - pushes

    @cached_property
    def either(self) -> tuple[Either, ...]:
        """Things that stand on either of some stretches of deck, their numbers among the actions."""
        return on_either(self.layout.actions)

    @cached_property
    def reactions(self) -> dict[str, Array]:
        """Influence of the sources on the reaction of each support (lb per lb)."""
        return {s.mark: self.seat_force(s.mark) for s in self.layout.supports}

    def seat_force(self, mark: str) -> Array:
        """Influence of the sources on the whole force that a support or beam gets from above."""
        rows = [self.effects[m.mark].reactions[i] for m, i in self.layout.seats_on(mark)]
        if not rows:  # a tree bolt under knee braces: their heads carry, it only holds their feet
            return np.zeros(self.dead.size)
        return np.asarray(np.sum(rows, axis=0), dtype=float)

    def load_on(self, mark: str) -> Array:
        """Influence of the sources on the load down on a support; on a tree bolt that of the braces standing on it."""
        braces = self.layout.braces_on(mark)
        return np.asarray(sum((self.reactions[b.mark] for b in braces), self.reactions[mark]), dtype=float)

    def balance(self) -> dict[str, tuple[float, float]]:
        """For each load D, L, S: what is applied, and the sum of the supports' reactions (lb).

        Raises :class:`BalanceError` when they differ by more than a millionth.
        """
        total = np.sum(list(self.reactions.values()), axis=0)
        sums = {}
        for name, load in (("D", self.dead), ("L", self.live), ("S", self.snow)):
            laid, carried = float(self.weights @ load), float(total @ load)
            if abs(laid - carried) > 1e-6 * max(1.0, abs(laid)):
                raise BalanceError(f"{name}: {laid:.3f} lb applied, {carried:.3f} lb carried")
            sums[name] = (laid, carried)
        return sums

    @cached_property
    def weights(self) -> Array:
        """Pounds that one unit of each source weighs: 1 for a panel or spot, all of a member's own and of an action."""
        own = [self.own_weight[m.mark] for m in self.layout.members]
        put = [action.weight for action in self.layout.actions]
        return np.concatenate([np.ones(len(self.panels)), own, put, np.ones(len(self.spots))])


def find_load_path(layout: Layout, deck: Deck | None = None) -> LoadPath:
    """Solve the influence of every source on every member, from the joists down.

    Raises :class:`BalanceError` where a member does not pass on all that arrives: a fault of the program.
    """
    deck = deck if deck is not None else find_deck(layout)
    panels = deck.panels
    spots = find_spots(layout)
    own = _own(layout)
    deliveries = _deliveries(layout, panels, spots, own)
    count = len(panels) + len(layout.members) + len(layout.actions) + len(spots)
    EI = {m.mark: member_values(m).E * m.section.I for m in layout.members}
    drops = seat_drops(layout, EI, deliveries, count)
    coupled = bool(drops)
    effects: dict[str, Effects] = {}
    tees = {m.mark: tee_of(layout.project, m) if stands_alone(m) else None for m in layout.members}
    for member in layout.members:
        arriving = deliveries[member.mark]
        forces = None
        if member.mark in drops:
            forces = seat_forces(member, EI[member.mark], arriving, drops.pop(member.mark))
        solved = _member_effects(member, arriving, count, forces, tees[member.mark], coupled=coupled)
        effects[member.mark] = solved
        for i, seat in enumerate(member.seats):
            if seat.below in deliveries:
                passed = solved.reactions
                row = passed[i][passed.columns]
                deliveries[seat.below].append(
                    Delivery(PointLoad(seat.below_at), member.mark, passed.columns, row)
                )
    assert_members_balance(layout, effects, tees)
    project = layout.project
    psf = {
        "dead": deck_dead(layout),
        "live": project.loads.live,
        "snow": project.site.ground_snow,
    }
    more = area_loads(layout, deck)
    on_pieces = {kind: deck.areas / 144 * load + more[kind] for kind, load in psf.items()}
    on_panels = {kind: deck.on_panels(pounds) for kind, pounds in on_pieces.items()}
    whole, nothing = np.ones(len(layout.members)), np.zeros(len(layout.members))
    unloaded = np.zeros(len(spots))
    there = {
        kind: np.array([float(action.kind is kind) / action.ways for action in layout.actions])
        for kind in (ActionKind.DEAD, ActionKind.LIVE, ActionKind.SNOW)
    }
    return LoadPath(
        layout=layout,
        deck=deck,
        spots=spots,
        effects=effects,
        dead=np.concatenate([on_panels["dead"], whole, there[ActionKind.DEAD], unloaded]),
        live=np.concatenate([on_panels["live"], nothing, there[ActionKind.LIVE], unloaded]),
        snow=np.concatenate([on_panels["snow"], nothing, there[ActionKind.SNOW], unloaded]),
        own_weight={mark: sum(load.pounds for load in loads) for mark, loads in own.items()},
        on_pieces={kind: on_pieces[kind] for kind in ("live", "snow")},
    )


def _deliveries(
    layout: Layout,
    panels: Sequence[Panel],
    spots: Sequence[Spot],
    own: dict[str, list[OwnLoad]],
) -> dict[str, list[Delivery]]:
    """What comes straight onto each member: deck, own weight with the guards, actions of parts, one person."""
    deliveries: dict[str, list[Delivery]] = {m.mark: [] for m in layout.members}

    def deliver(mark: str, load: UnitLoad, label: str, source: int, amount: float = 1.0) -> None:
        deliveries[mark].append(Delivery(load, label, np.array([source]), np.array([amount])))

    deck: dict[tuple[str, UnitLoad], list[tuple[int, float]]] = {}
    for source, panel in enumerate(panels):
        for share in panel.shares:
            deck.setdefault((share.member, share.load), []).append((source, share.part))
    for (mark, load), some in deck.items():
        sources, amounts = zip(*some, strict=True)
        deliveries[mark].append(Delivery(load, "deck", np.array(sources), np.array(amounts)))
    for source, member in enumerate(layout.members, start=len(panels)):
        for dead in own[member.mark]:
            deliver(member.mark, dead.load, dead.label, source, dead.pounds)
    for source, action in enumerate(layout.actions, start=len(panels) + len(layout.members)):
        for share in shares_of(layout, action):
            deliver(share.member, share.load, f"{action.part}, {action.what}", source, share.part)
    first_spot = len(panels) + len(layout.members) + len(layout.actions)
    for source, spot in enumerate(spots, start=first_spot):
        for share in spot.shares:
            deliver(share.member, share.load, "person", source, share.part)
    return deliveries


def deck_dead(layout: Layout) -> float:
    """Dead load of decking and hardware (psf); gaps between boards are neglected."""
    return deck_weight(layout.project.decking) + layout.project.loads.hardware


def deck_weight(decking: Decking) -> float:
    """Weight of the boards (psf): that of their maker's sheet, or of their wood."""
    if decking.weight is not None:
        return decking.weight
    section = parse_section(decking.section)
    return timber_density(decking.values(section), decking.wet) * section.b / 12


def member_values(member: Member) -> DesignValues:
    """Reference design values of a member's timber."""
    return member.timber.values(member.section)


def line_weight(member: Member) -> float:
    """Own weight of a member (lb/in)."""
    rho = timber_density(member_values(member), member.timber.wet)
    return rho * member.width * member.section.d / 1728


@dataclass(frozen=True)
class OwnLoad:
    """A dead load that counts as a member's own: its weight, or what it gets of a guard."""

    label: str
    load: UnitLoad
    pounds: float


def _own(layout: Layout) -> dict[str, list[OwnLoad]]:
    """Dead loads that belong to a member: its own weight and what it gets of the guards."""
    own = {
        m.mark: [OwnLoad("own weight", SpreadLoad(0.0, m.line.length), line_weight(m) * m.line.length)]
        for m in layout.members
    }
    for guard in guard_loads(layout):
        own[guard.member].append(OwnLoad("guard", guard.load, guard.pounds))
    return own


def stations_of(member: Member, loads: Sequence[UnitLoad]) -> Array:
    """Stations along a member: seats, loads, the section at its depth from each seat, and an even grid."""
    length = member.line.length
    places = set(np.linspace(0.0, length, max(12, int((length + _HAIR) // _GRID)) + 1))
    for seat in member.seats:
        places.update((seat.at, seat.at - member.section.d, seat.at + member.section.d))
    for one, other in pairwise(sorted(seat.at for seat in member.seats)):
        places.update(one + part * (other - one) for part in SAGS)
    for load in loads:
        places.update((load.x,) if isinstance(load, PointLoad) else ())
        places.update((load.x - _BESIDE, load.x + _BESIDE) if isinstance(load, CoupleLoad) else ())
    inside = np.array(sorted(p for p in places if 0 <= p <= length))
    kept: Array = inside[np.concatenate([[True], np.diff(inside) > 1e-6])]
    return kept


def _member_effects(
    member: Member,
    deliveries: Sequence[Delivery],
    count: int,
    forces: Influence | None,
    tee: Tee | None,
    *,
    coupled: bool,
) -> Effects:
    """Effects of all that comes onto a member. ``forces`` at its seats, where its supports give way.

    ``coupled``: some members give way, so that sources far off reach others.

    With these the member is a beam on its outer seats, pushed up at the inner ones by what they give. A beam on
    one post (``tee``) is pushed up there by all its weight, so that its knees, as outer seats, give a couple alone.
    """
    values = member_values(member)
    places = tuple(seat.at for seat in member.seats)
    rows = [(delivery.sources, delivery.amounts) for delivery in deliveries]
    loads = [delivery.load for delivery in deliveries]
    inner: list[UnitLoad] = []
    if forces is not None:
        inner = [PointLoad(place) for place in places[1:-1]]
        rows += [(forces.columns, -forces.values[i]) for i in range(1, len(places) - 1)]
        places = (places[0], places[-1])
    if tee is not None:
        whole = gather(rows, count)
        inner, places = [PointLoad(tee.own)], tee.places
        weigh = np.array([pounds_of(load) for load in loads])
        rows.append((whole.columns, -(weigh @ whole.values)))
    delivered = gather(rows, count, apart=coupled)
    beam = Beam(member.line.length, places, values.E * member.section.I)
    looked_at = [delivery.load for delivery in deliveries if delivery.label != "deck"]
    stations = stations_of(member, [*looked_at, *(PointLoad(x) for x in (tee.looked_at if tee else ()))])
    response = respond(beam, [*loads, *inner], stations)

    def passed(by_load: Array) -> Influence:
        return delivered.after(by_load)

    reactions = passed(response.reactions)
    if forces is not None:
        by_seat = np.zeros((len(member.seats), len(rows)))
        by_seat[[0, -1]] = response.reactions
        by_seat[np.arange(1, len(by_seat) - 1), np.arange(len(loads), len(rows))] = -1.0
        reactions = passed(by_seat)
    deflection, head = passed(response.deflection), None
    if tee is not None:
        head = replace(reactions, values=reactions.values[1:] * sum(tee.runs))
        bent, past = deflection.values, stations[:, None] - tee.own
        at_post = bent[np.argmin(np.abs(past))]
        turned = run_turn(Calculation().run, tee, 1.0) * past * head.values
        deflection = replace(deflection, values=bent - at_post + turned)
        reactions = replace(reactions, values=-delivered.values[len(loads) :])
    return Effects(
        member=member,
        values=values,
        stations=stations,
        moment=passed(response.moment),
        shear_left=passed(response.shear_left),
        shear_right=passed(response.shear_right),
        deflection=deflection,
        reactions=reactions,
        loads=tuple(loads),
        labels=tuple(delivery.label for delivery in deliveries),
        delivered=delivered[np.arange(len(loads))],
        head=head,
    )
