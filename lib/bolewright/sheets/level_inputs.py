"""Inputs of the sheets of braces, of the room for the tree, and of standing still sideways."""

from __future__ import annotations

from bolewright.platform.level_supports import PostFrame
from bolewright.platform.load_path import LoadPath
from bolewright.platform.project import Brace
from bolewright.platform.sideways import find_sideways
from bolewright.rendering.numbers import fmt
from bolewright.units import PLI, POUND, SQUARE_FOOT, feet_inches

Pairs = tuple[tuple[str, str], ...]


def level_inputs(path: LoadPath) -> Pairs:
    """Wind on every face, sway, and the level stiffness of every support."""
    sideways = find_sideways(path)
    loads = path.layout.project.loads
    pairs: list[tuple[str, str]] = []
    for axis, d in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
        wind = sideways.winds.towards(d)
        faces = ", ".join(f"{f.name} {f.force:,.0f} lb (C_f {f.C_f:g})" for f in wind.faces)
        pairs.append((f"Wind along {axis}", f"{fmt(wind.force, POUND)}: {faces}"))
    pairs.append(("Sway of people", f"{loads.sway_share:.0%} of the live load, level, in every direction"))
    for state in {state.foot: state for state in sideways.states}.values():
        for frame, spring in zip(sideways.frames, state.springs, strict=True):
            how = (
                "along, across the carrier on it"
                if isinstance(frame, PostFrame)
                else "along, across the bolt"
            )
            stiff = " and ".join(fmt(k, PLI) for k in spring.k)
            pairs.append((f"Level stiffness of {frame.support.mark}", f"{stiff} ({how}; {state.foot.value})"))
    return tuple(pairs)


def brace_inputs(path: LoadPath) -> Pairs:
    """Knee braces and plan diagonals."""
    project = path.layout.project
    knees = tuple((f"Brace {b.mark}", _brace(b)) for b in project.braces)
    straps = tuple(
        (
            f"Diagonal {d.mark}",
            f"rated {d.rated_load:,.0f} lb; {d.note}" if d.rated_load else "rated load not given",
        )
        for d in project.diagonals
    )
    return knees + straps or (("Braces", "none"),)


def _brace(brace: Brace) -> str:
    ends = f"rated {brace.rated_load or 0:,.0f} lb"
    if brace.bolts is not None:
        ends = f"{brace.bolts} bolts {brace.bolt_diameter:g} in at each end"
    return (
        f"{brace.plies}-{brace.section} {' '.join(brace.bought_as)}, from {brace.support} to {brace.carrier} towards "
        f"its {brace.towards}, rise {feet_inches(brace.rise)}, run {feet_inches(brace.run)}, {ends}"
    )


def room_inputs(path: LoadPath) -> Pairs:
    """What is known of every tree's movement and growth, and how its bearings meet a level force."""
    project = path.layout.project
    pairs: list[tuple[str, str]] = []
    for tree in project.trees:
        seen = "not observed"
        if tree.sway_seen is not None:
            at = f" at {feet_inches(tree.sway_seen_at)}" if tree.sway_seen_at is not None else " at the bolts"
            seen = f"{tree.sway_seen:g} in to one side{at}"
        crown = f"{fmt(tree.crown_area, SQUARE_FOOT)}" if tree.crown_area is not None else "not given"
        pairs.append((f"{tree.mark}, sway seen", seen))
        pairs.append((f"{tree.mark}, crown", crown))
        pairs.append(
            (f"{tree.mark}, growth", f"{tree.growth:g} in/yr of the radius over {tree.service:g} years")
        )
    for support in project.supports:
        if support.kind == "tree bolt":
            pairs.append((f"{support.mark} sideways", support.sideways or "not given"))
    return tuple(pairs)
