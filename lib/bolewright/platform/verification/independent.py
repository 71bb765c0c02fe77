"""The independent check under weight: the effects of every part by the hand calculation and by the frame model.

Each effect is the greatest over all combinations, patterns of live load and places of one person, at the worst place of
either model; the two share the list of combinations and nothing of the shares, statics or patterns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
import numpy.typing as npt

from bolewright.platform.checks.blocking import by_fasteners, either_way, on_fasteners
from bolewright.platform.checks.members import CASES, SHORT_TERM, Look, at_depth, prefix
from bolewright.platform.checks.seats import held_by_fasteners
from bolewright.platform.layout.parts import Member, Seat
from bolewright.platform.layout.tees import stands_alone
from bolewright.platform.limit_states import limit_state
from bolewright.platform.loads.combine import (
    Array,
    Envelope,
    envelope,
    member_envelope,
    support_envelope,
    uplift_cases,
)
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.loads.strength import Strength
from bolewright.platform.project.bearing import SupportKind
from bolewright.platform.verification.compared import Compared
from bolewright.platform.verification.frame_gravity import FrameGravity
from bolewright.platform.verification.frame_grillage import Influenced

BOLT = ("steel_bending", "steel_shear", "wood_yield", "wood_pressure", "rated")
BRACE = ("buckling", "net_compression", "head_bearing", "foot_bolts", "foot_rated")
FOOTING = ("soil", "concrete_bending", "concrete_shear", "concrete_punching", "concrete_bearing")
Flags = npt.NDArray[np.bool_]
NEAR = 1e-6  # in
Rows = tuple[tuple[str, str, str], ...]


def compare_gravity(path: LoadPath, frame: FrameGravity, looks: Sequence[Look]) -> Iterator[Compared]:
    """Every effect by both models."""
    for look in looks:
        yield from _member(look, frame)
    for support in path.layout.project.seated:
        mark = support.mark
        hand = support_envelope(path, mark)
        yield from _reaction(
            mark, "load on it", hand, _on_support(path, frame, mark), _on(mark, support.kind)
        )


def _on_support(path: LoadPath, frame: FrameGravity, mark: str) -> Envelope:
    """Envelope of the load on a support by the frame model."""
    return _together(frame, path.layout.seats_on(mark))


def _together(frame: FrameGravity, seats: Sequence[tuple[Member, int]]) -> Envelope:
    """Envelope of what some seats of members bear together by the frame model."""
    rows = [(frame.frame.found[m.mark].columns, frame.frame.found[m.mark].reactions[i]) for m, i in seats]
    columns = np.unique(np.concatenate([c for c, _ in rows]))
    total = np.zeros((1, len(columns)))
    for own, row_ in rows:
        total[0, np.searchsorted(columns, own)] += row_
    return frame.envelope(total, columns)


def _on(mark: str, kind: SupportKind) -> tuple[Rows, Rows]:
    """Checks that rest on the load of a support, and on its uplift."""
    if kind == SupportKind.POST:
        most = [row(mark, "post.buckling", at) for at in ("", "strong-axis ", "weak-axis ")]
        most.append(row(mark, "post.end_bearing"))
        return (*most, *(row(mark, f"footing.{name}") for name in FOOTING)), (row(mark, "post.uplift"),)
    if kind == SupportKind.KNEE_BRACE:
        return tuple(row(mark, f"trunk_brace.{name}") for name in BRACE), (row(mark, "trunk_brace.uplift"),)
    return tuple(row(mark, f"tree_bolt.{name}") for name in BOLT), (row(mark, "tree_bolt.uplift"),)


def row(part: str, key: str, at: str = "") -> tuple[str, str, str]:
    """A check by its part, the key of its limit state, and what is printed of that."""
    return part, key, limit_state(key).at(at)


def _reaction(
    part: str,
    quantity: str,
    hand: Envelope,
    frame: Envelope,
    rests: tuple[Rows, Rows],
    factored: tuple[Strength, Rows] | None = None,
) -> Iterator[Compared]:
    most, least = rests
    down, up = (float(e.most(CASES).max()) for e in (hand, frame))
    yield Compared(part, f"greatest {quantity}", down, up, "lb", most)
    if factored:
        by_hand, by_frame = (float(e.most(factored[0].cases).max()) for e in (hand, frame))
        yield Compared(part, f"greatest factored {quantity}", by_hand, by_frame, "lb", factored[1])
    low, lower = (max(0.0, -float(e.least(uplift_cases()).min())) for e in (hand, frame))
    yield Compared(part, f"uplift, {quantity}", low, lower, "lb", least, beside=max(down, up))


def _member(look: Look, frame: FrameGravity) -> Iterator[Compared]:
    member, found = look.member, frame.frame.found[look.member.mark]
    kind = prefix(member)
    of_frame = _of_frame(frame, found)
    for i, seat in enumerate(member.seats):
        hand, other = _one(look.reactions, i), _one(of_frame("reactions"), i)
        most, least = _under(kind, member, seat)
        own, basis = most[:1], look.strength
        apart = (basis, own) if basis.cases is not CASES else None
        rests = (most[1:] if apart else most), least
        yield from _reaction(member.mark, f"load at {seat.below}", hand, other, rests, apart)
    if held_by_fasteners(member):
        yield from _fastened(look, frame)
    alone = stands_alone(member)
    if alone:
        yield _head(look, frame, found)
    x = frame.frame.bars[member.mark].x
    for (quantity, key, unit), hand_, frame_ in zip(
        _QUANTITIES,
        _greatest(look, look.effects.stations, _of_hand(look), lumped=False),
        _greatest(look, x, of_frame, lumped=True),
        strict=True,
    ):
        rows = (row(member.mark, f"{kind}.{key}"),)
        yield Compared(member.mark, quantity, hand_, frame_, unit, rows, bound=alone)


def _fastened(look: Look, frame: FrameGravity) -> Iterator[Compared]:
    """Share of what its nails or screws carry that is on them at the worse end: at a joist, of both pieces there."""
    path, member = look.path, look.member
    hand, other = 0.0, 0.0
    for i in range(len(member.seats)):
        held = by_fasteners(path, member, i)
        if held.open:
            return
        seats = on_fasteners(path, member, i)
        at_end = np.sum([path.effects[piece.mark].reactions[k] for piece, k in seats], axis=0)
        by_hand, by_frame = (
            either_way(e) / held.capacity for e in (envelope(path, at_end[None, :]), _together(frame, seats))
        )
        hand, other = max(hand, float(by_hand.max())), max(other, float(by_frame.max()))
    rows = (row(member.mark, "blocking.fastening"),)
    yield Compared(member.mark, "load on its fasteners over what they carry", hand, other, "", rows)


def _head(look: Look, frame: FrameGravity, found: Influenced) -> Compared:
    """Moment of weight on one arm into the post of a T-frame."""
    assert look.effects.head is not None
    assert found.head is not None
    by_hand, by_frame = (
        max(float(e.most(CASES).max()), -float(e.least(CASES).min()))
        for e in (envelope(look.path, look.effects.head), frame.envelope(found.head, found.columns))
    )
    mark = look.member.seats[0].below
    rows = (row(mark, "post.one_arm"), row(mark, "footing.embedment_one_arm"))
    return Compared(mark, "greatest moment of unbalanced load", by_hand, by_frame, "lb·in", rows)


_QUANTITIES = (
    ("greatest bending moment", "bending", "lb·in"),
    ("greatest negative moment", "negative_bending", "lb·in"),
    ("greatest shear", "shear", "lb"),
    ("deflection over length, live", "live_deflection", ""),
    ("deflection over length, total", "total_deflection", ""),
)


def _under(kind: str, member: Member, seat: Seat) -> tuple[Rows, Rows]:
    mark, below = member.mark, seat.below
    most = (
        row(mark, f"{kind}.bearing", below),
        row(below, "beam.bearing_under", mark),
        row(mark, "hanger.rated", below),
        row(mark, f"{kind}.edge_together", below),
    )
    return most, (row(mark, f"{kind}.uplift", below),)


def _one(e: Envelope, i: int) -> Envelope:
    return e.at(slice(i, i + 1))


Effects = Callable[[str], Envelope]


def _of_hand(look: Look) -> Effects:
    return lambda name: member_envelope(look.path, look.member.mark, name)


KINDS = ("moment", "shear_left", "shear_right", "deflection", "reactions")


def _of_frame(frame: FrameGravity, found: Influenced) -> Effects:
    """Envelopes of a member, all found at once."""
    rows = [getattr(found, name) for name in KINDS]
    whole = frame.envelope(np.vstack(rows), found.columns)
    ends = np.cumsum([0] + [len(r) for r in rows])
    parts = {name: whole.at(slice(a, b)) for name, a, b in zip(KINDS, ends, ends[1:], strict=False)}
    return parts.__getitem__


def _greatest(
    look: Look, x: Array, effect: Effects, *, lumped: bool
) -> tuple[float, float, float, float, float]:
    """Greatest moment, negative moment and shear (each over C_D or lambda), both deflections over their lengths."""
    member, cases, weight = look.member, look.strength.cases, look.strength.weight[:, None]
    moment = effect("moment")
    shear = max(
        float((np.maximum(e.most(cases), -e.least(cases))[:, counted] / weight).max(initial=0.0))
        for e, counted in zip(
            (effect("shear_left"), effect("shear_right")), _counted(member, x, lumped), strict=True
        )
    )
    deflection = effect("deflection")
    live = np.maximum(deflection.L_most, -deflection.L_least)
    total = 2.0 * deflection.D + np.max(
        [l * deflection.L_most + s * deflection.S_most for l, s in SHORT_TERM], axis=0
    )
    lengths = _lengths(member, x)
    return (
        float((moment.most(cases) / weight).max()),
        float((-moment.least(cases) / weight).max()),
        shear,
        float((live / lengths).max()),
        float((np.maximum(total, 0.0) / lengths).max()),
    )


def _counted(member: Member, x: Array, lumped: bool) -> tuple[Flags, Flags]:
    """Places where shear counts, just before and just past each: a depth from the seats and on.

    Where loads are ``lumped`` on nodes, not on the seat's side of the node at that depth: half of what lies between it
    and the node before is on it.
    """
    away = NEAR if lumped else -NEAR
    before, past = np.ones(x.size, dtype=bool), np.ones(x.size, dtype=bool)
    if at_depth(member):
        for seat in member.seats:
            off = x - seat.at
            before &= (off > member.section.d + away) | (off <= NEAR - member.section.d)
            past &= (off >= member.section.d - NEAR) | (off < -away - member.section.d)
    if not (before.any() or past.any()):
        before[:], past[:] = True, True
    return before, past


def _lengths(member: Member, x: Array) -> Array:
    """Length that the limit of deflection is taken of, at every place: the span, or twice the overhang (in)."""
    ends = [0.0, *(seat.at for seat in member.seats), member.line.length]
    lengths = np.full(x.size, np.inf)
    for i, (a, b) in enumerate(zip(ends, ends[1:], strict=False)):
        if b - a >= 1.0:
            over = 2 * (b - a) if i in (0, len(ends) - 2) else b - a
            here = (x >= a - 1e-6) & (x <= b + 1e-6)
            lengths[here] = np.minimum(lengths[here], over)
    return lengths
