"""Faults that would hurt someone, each by name: what stands in the program, what a tired hand might write."""

from __future__ import annotations

from mutation.covering import functions
from mutation.operators import LIBRARY, Mutant

_MEMBERS = "platform/checks/members.py"
_FOOTINGS = "platform/checks/footings.py"
_CONCRETE = "platform/checks/concrete.py"
_BOLTS = "platform/checks/tree_bolts.py"
_SEATS = "platform/checks/seats.py"
# The term is 1 where it is left out; the name is imported so that the program still runs.
_NO_R_D = "from bolewright.fasteners.reduction import ReductionTerms; R_d = ReductionTerms(1.0, 1.0, 1.0)"

# name: file, what stands there (once), what the fault is
_LISTED: dict[str, tuple[str, str, str]] = {
    "deflection by L/240 for L/360": (_MEMBERS, "l=span, n=limits.live)", "l=span, n=limits.total)"),
    "L/240 where nothing is entered": ("platform/project/place.py", "live: Divisor = 360.0", "live: Divisor = 240.0"),
    "K_cr off": (_MEMBERS, "K_cr=K_cr, delta_LT", "K_cr=1.0, delta_LT"),
    "shear at d for loads hung on the side": (_MEMBERS, "not member.hung_loads and all(", "all("),
    "shear at d for a beam that hangs": (
        _MEMBERS,
        "not member.hung_loads and all(seat.bearing is Bearing.RESTS for seat in member.seats)",
        "not member.hung_loads",
    ),
    "hanger seat always 3 in.": (_MEMBERS, "hanger.seat_length if hanger else LEAST_BEARING, 0.0", "3.0, 0.0"),
    "beams fully braced": (
        _MEMBERS,
        "if sagging and member.kind is not Kind.BEAM:\n        return 0.0",
        "if sagging or member.kind is Kind.BEAM:\n        return 0.0",
    ),
    "beams fully braced by what they carry": (_MEMBERS, "if np.any(l_u > 0):", "if np.any(l_u < 0):"),
    "post weight left off the soil": (_FOOTINGS, "[None, :] + D * post_weight(path, support)", "[None, :]"),
    "a circle's bearing area as B²": (
        _FOOTINGS,
        'run(round_footing_area, d_f=side) if footing.shape == "round" else side**2',
        "side**2",
    ),
    "a round pad's concrete as a square of its diameter": (
        _CONCRETE,
        'float(equal_area_square(d_c=footing.width)) if footing.shape == "round" else footing.width',
        "footing.width",
    ),
    "no live load in the concrete": (
        _CONCRETE,
        "return max(float(env.L_most[0] + env.guard_most[0]), float(env.person_most[0]), 0.0)",
        "return 0.0",
    ),
    "R_d left out": ("fasteners/yield_limit.py", "R_d = reduction_terms(D, nominal, theta, run)", _NO_R_D),
    "R_d left out with a gap": ("fasteners/general_dowel.py", "R_d = reduction_terms(D, nominal, theta, run)", _NO_R_D),
    "D245 left off the service bearing stress": (
        _BOLTS,
        "X_05=X_05, K=cut.divisor, R_s=1.0)",
        "X_05=X_05, K=1.0, R_s=1.0)",
    ),
    "D245 left off the lateral bearing stress": (
        "platform/checks/tree_bolt_service.py",
        "X_05=X_05, K=cut.divisor, R_s=1.0)",
        "X_05=X_05, K=1.0, R_s=1.0)",
    ),
    "bolt bending at F_u": (_BOLTS, "bolt_moment_first_yield, F_y=bolt.F_y,", "bolt_moment_first_yield, F_y=bolt.F_u,"),
    "K_e 0.7": ("platform/checks/posts.py", "K_e=post.K_e,", "K_e=0.7,"),
    "K_e 0.7 where nothing is entered": (
        "platform/project/bearing.py",
        "most=2.5)] = 2.1",
        "most=2.5)] = 0.7",
    ),
    "snow duration on a rated hanger": (_SEATS, "min(case.C_D, 1.0) for case in CASES", "case.C_D for case in CASES"),
    "C_D 1.6 in all cases on a bolt": (_BOLTS, "C_D=np.array([c.C_D for c in CASES])", "C_D=np.full(len(CASES), 1.6)"),
    "wet factor of hangers lost": (_SEATS, "return 1.0 if dry else WET_CONNECTION", "return 1.0"),
    "not is_held turned": (
        "platform/checks/post_forces.py",
        "(axis.n and not is_held(frame, state))",
        "(axis.n and is_held(frame, state))",
    ),
    "P/a for P·a": ("timber/deflection.py", "w * a**2 / 2 + P * a", "w * a**2 / 2 + P / a"),
    "P/a for P·a on a prop": ("mechanics/lever.py", "R_far: Force = P * a / l", "R_far: Force = P / a / l"),
    "2/D for D/2": ("tree/seating.py", "D / 2 * t_phi", "2 / D * t_phi"),
    "2/D for D/2 at a bolt": ("platform/checks/tree_lateral.py", "is not None else D / 2", "is not None else 2 / D"),
    "half a timber's width beside a measured trunk": (
        "platform/checks/tree_clearance.py",
        "off = bark.distance(LineString([m.line.start, m.line.end])) - m.width / 2",
        "off = bark.distance(LineString([m.line.start, m.line.end]))",
    ),
    "trees away from the origin": (
        "platform/checks/tree_clearance.py",
        '"x": tree.at[0], "y": tree.at[1]',
        '"x": 0.0, "y": 0.0',
    ),
}  # fmt: skip
FAULTS = tuple(_LISTED)
# Those seen killed by a test that passes without them: the daily gate takes its turn among these. The others are to
# join as their tests are written: `python -m mutation --named` tells which live.
HELD = (
    "deflection by L/240 for L/360",
    "L/240 where nothing is entered",
    "K_cr off",
    "shear at d for loads hung on the side",
    "beams fully braced",
    "R_d left out",
    "R_d left out with a gap",
    "K_e 0.7 where nothing is entered",
    "wet factor of hangers lost",
    "2/D for D/2",
)


def fault(name: str) -> Mutant:
    """The named fault as a mutant; ValueError where the program no longer says what it changes."""
    path, before, after = _LISTED[name]
    data = (LIBRARY / path).read_bytes()
    if not data.count(before.encode()):
        raise ValueError(f"{name}: {path} does not say {before!r}; write the fault anew where it now stands")
    start = data.index(before.encode())
    first = data[:start].count(b"\n") + 1
    last = first + before.count("\n")
    inside = [of for of, (low, high) in functions(LIBRARY / path).items() if low <= first and last <= high]
    return Mutant(
        path,
        max(inside, key=len, default=""),
        "named",
        start,
        start + len(before.encode()),
        before,
        after,
        first,
        last,
        name,
    )
