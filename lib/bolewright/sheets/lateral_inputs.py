"""Inputs of the sheets of braces, of clearance and growth, and of lateral stability."""

from __future__ import annotations

from bolewright.bracing.wind import DIRECTIONALITY, GUST, terrain
from bolewright.platform.analysis.lateral import find_lateral
from bolewright.platform.analysis.lateral_supports import BoltFrame, PostFrame
from bolewright.platform.layout.trunk_braces import TrunkBrace, trunk_braces
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Brace, CrossedRods, Site
from bolewright.platform.project.bearing import SupportKind
from bolewright.rendering.numbers import fmt
from bolewright.units import MPH, PLI, POUND, SQUARE_FOOT, feet_inches

Pairs = tuple[tuple[str, str], ...]


def wind_words(site: Site) -> str:
    """The wind of the place, and what of it was entered or is assumed."""
    hills = f"K_zt {site.K_zt:g}" + (
        "" if "K_zt" in site.model_fields_set else " (not entered: no hill or ridge)"
    )
    return f"{fmt(site.wind_speed, MPH)}, exposure {site.exposure}, {hills}, risk category II (assumed)"


def _wind_rows(site: Site) -> Pairs:
    ground = terrain(site.exposure)
    return (
        (
            "Wind of the place",
            f"{wind_words(site)}; V is read off the map of that category (ASCE 7-16, Figure 26.5-1B and Table 1.5-1, "
            "from memory); K_zt by 26.8",
        ),
        (
            "Factors of wind",
            f"z_g {ground.z_g:,.0f} ft and α {ground.alpha:g} of exposure {site.exposure} (Table 26.11-1); K_d "
            f"{DIRECTIONALITY:g} (Table 26.6-1); G {GUST:g} (26.11.1); {site.elevation:,.0f} ft above sea level",
        ),
    )


def lateral_inputs(path: LoadPath) -> Pairs:
    """Wind on every face, sway, and the lateral stiffness of every support."""
    lateral = find_lateral(path)
    loads = path.layout.project.loads
    pairs = list(_wind_rows(path.layout.project.site))
    for axis, d in (("x", (1.0, 0.0)), ("y", (0.0, 1.0))):
        wind = lateral.winds.towards(d)
        faces = ", ".join(f"{f.name} {f.force:,.0f} lb (C_f {f.C_f:g})" for f in wind.faces)
        pairs.append((f"Wind along {axis}", f"{fmt(wind.force, POUND)}: {faces}"))
    pairs.append(("Sway of people", f"{loads.sway_share:.0%} of the live load, lateral, in every direction"))
    said = set()
    for state in lateral.states:
        for frame, spring in zip(lateral.frames, state.springs, strict=True):
            how = (
                "along, across the beam on it"
                if isinstance(frame, PostFrame)
                else "along, across the bolt"
                if isinstance(frame, BoltFrame)
                else "along, across its beam"
            )
            stiff = " and ".join(fmt(k, PLI) for k in spring.k)
            pair = (
                f"Lateral stiffness of {frame.support.mark}",
                f"{stiff} ({'; '.join(filter(None, (how, state.taken(frame))))})",
            )
            if pair not in said:
                said.add(pair)
                pairs.append(pair)
    return tuple(pairs)


def brace_inputs(path: LoadPath) -> Pairs:
    """Knee braces, crossed rods and plan diagonals."""
    project = path.layout.project
    knees = tuple((f"Brace {b.mark}", _brace(b)) for b in project.braces)
    straps = tuple(
        (
            f"Diagonal {d.mark}",
            f"rated {d.rated_load:,.0f} lb; {d.note}" if d.rated_load else "rated load not given",
        )
        for d in project.diagonals
    )
    trunk = tuple((f"Knee brace {b.mark}", _trunk_brace(b)) for b in trunk_braces(path.layout))
    rods = tuple((f"Crossed rods {r.mark}", _rods(r)) for r in project.crossed_rods)
    return knees + rods + trunk + straps or (("Braces", "none"),)


def _brace(brace: Brace) -> str:
    ends = f"rated {brace.rated_load or 0:,.0f} lb"
    if brace.bolts is not None:
        ends = f"{brace.bolts} bolts {brace.bolt_diameter:g} in at each end"
    return (
        f"{brace.plies}-{brace.section} {' '.join(brace.bought_as)}, from {brace.support} to {brace.beam} towards "
        f"its {brace.towards}, rise {feet_inches(brace.rise)}, run {feet_inches(brace.run)}, {ends}"
    )


def _rods(rods: CrossedRods) -> str:
    ends = (
        "rating of their ends not given"
        if rods.rated_load is None
        else f"ends rated {rods.rated_load:,.0f} lb"
    )
    return (
        f"{rods.diameter:g} in, F_y {rods.F_y:,.0f} psi, between {rods.from_post} and {rods.to_post}, "
        f"{feet_inches(rods.below_beam)} below the beams, {feet_inches(rods.above_grade)} above grade, {ends}"
    )


def _trunk_brace(brace: TrunkBrace) -> str:
    strut = brace.strut
    bolts = f"{strut.head_bolts or 'no'} bolts at its head, {strut.foot_bolts or 'no'} at its foot"
    thick = f", {strut.bolt_diameter:g} in" if strut.bolt_diameter else ""
    return (
        f"{strut.section} {' '.join(strut.bought_as)}, from tree bolt {brace.foot.mark} to {brace.beam.mark}, rise "
        f"{feet_inches(brace.a)}, run {feet_inches(brace.r)}, {bolts}{thick}"
    )


def clearance_inputs(path: LoadPath) -> Pairs:
    """What is known of every tree's movement and growth, and how its bearings meet a lateral force."""
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
    for opening in project.trunk_openings:
        gap = f"{opening.gap:g} in from the bark at rest" if opening.gap is not None else "gap not given"
        lies = f", {opening.overlap:g} in on the deck or slack" if opening.overlap is not None else ""
        pairs.append((f"{opening.mark}, opening round {opening.around}", f"{opening.cover}, {gap}{lies}"))
    for limb in project.limbs:
        pairs.append(
            (
                f"{limb.mark}, limb of {limb.tree}",
                f"{limb.start_diameter:g} in at {feet_inches(limb.start_level)}, {limb.end_diameter:g} in at "
                f"{feet_inches(limb.end_level)}, sway {'not seen' if limb.sway is None else f'{limb.sway:g} in'}",
            )
        )
    for support in project.supports:
        if support.mark in project.feet:
            pairs.append((f"{support.mark} lateral", "hinged under its knee braces"))
        elif support.kind == SupportKind.TREE_BOLT:
            pairs.append((f"{support.mark} lateral", support.lateral or "not given"))
    return tuple(pairs)
