"""The inputs that matter on each sheet, as label and text, and what rests on memory."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from bolewright.platform.analysis.bolts import BoltInPlace, bolt_in_place
from bolewright.platform.checks.blocking import driven
from bolewright.platform.checks.footings import allowable_bearing
from bolewright.platform.layout.blocking import entry_of
from bolewright.platform.layout.joists import counts_along
from bolewright.platform.layout.parts import Bearing
from bolewright.platform.limit_states.check import Topic
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.project import Decking, Post, Timber
from bolewright.platform.project.bearing import SupportKind
from bolewright.reference import CONFIDENCE
from bolewright.rendering.numbers import fmt
from bolewright.setting_out.decking import lie
from bolewright.sheets.access import access_inputs
from bolewright.sheets.guards import guard_inputs
from bolewright.sheets.lateral_inputs import brace_inputs as _braces
from bolewright.sheets.lateral_inputs import clearance_inputs as _room
from bolewright.sheets.lateral_inputs import lateral_inputs
from bolewright.take_off.cut_list import run_of
from bolewright.timber.adjustment import Service, factors
from bolewright.timber.material import OWN, DesignValues, Factor
from bolewright.timber.sections import parse_section
from bolewright.units import PSF, PSI, feet_inches

Pairs = tuple[tuple[str, str], ...]


def _held_by(path: LoadPath, beam: str) -> str:
    """What a beam rests on and hangs from, by marks."""
    seats = path.layout.member(beam).seats
    below = {how: dict.fromkeys(s.below for s in seats if s.bearing is how) for how in Bearing}
    return "; ".join(f"{how} {' and '.join(marks)}" for how, marks in below.items() if marks)


def inputs_of(path: LoadPath, topic: Topic) -> Pairs:
    """Inputs of a sheet."""
    project = path.layout.project
    loads: Pairs = (
        ("Live load", "; ".join(filter(None, (fmt(project.loads.live, PSF), project.loads.live_note)))),
        ("Ground snow", fmt(project.site.ground_snow, PSF)),
    )
    if topic is Topic.DECKING:
        return (
            *_boards(project.decking),
            ("Direction of the boards", lie(project.decking)),
            *loads,
            ("One person", f"{project.loads.person:g} lb on one board"),
        )
    if topic is Topic.JOISTS:
        return (
            tuple(
                pair
                for field in project.joists
                for pair in (
                    (
                        f"Joists {field.mark}",
                        f"{field.section}, {feet_inches(field.spacing)} on centre, {field.bearing}",
                    ),
                    (
                        f"Positions of joists {field.mark}",
                        f"{feet_inches(field.first)} to {feet_inches(field.last)}, counted {counts_along(field)}",
                    ),
                    *_timber(field),
                )
            )
            + tuple(_blocking(path))
            + loads
        )
    if topic is Topic.BEAMS:
        marks = tuple(
            (f"Beam {c.mark}", f"{c.plies}-{c.section}, {_held_by(path, c.mark)}") for c in project.beams
        )
        return marks + tuple(dict.fromkeys(pair for c in project.beams for pair in _timber(c)))
    if topic is Topic.HANGERS:
        return tuple(
            (f"Connection {name}", f"{c.rated_load or 0:,.0f} lb, {c.load_duration} duration; {c.note}")
            for name, c in project.connections.items()
        )
    if topic is Topic.TREE_BOLTS:
        return _tree_bolts(path)
    if topic is Topic.POSTS:
        return tuple(pair for name, post in project.posts.items() for pair in _post(name, post))
    if topic is Topic.FOOTINGS:
        return _footings(path)
    if topic is Topic.BRACES:
        return _braces(path)
    if topic is Topic.GUARDS:
        return guard_inputs(path)
    if topic is Topic.ACCESS:
        return access_inputs(path)
    if topic is Topic.CLEARANCE:
        return _room(path)
    return loads + lateral_inputs(path)


def _boards(decking: Decking) -> Pairs:
    if decking.span_limit is None:
        return _timber(decking)
    section = parse_section(decking.section)
    ends = "none given" if decking.end_limit is None else feet_inches(decking.end_limit)
    return (
        ("Boards", f"{section.name}, {' '.join(decking.bought_as)}, {section.b:g} x {section.d:g} in"),
        ("Limit of span", f"{feet_inches(decking.span_limit)} {decking.span_measured}, {decking.span_note}"),
        ("At a load of", fmt(decking.span_load or 0.0, PSF)),
        ("Limit of their ends", ends),
        ("Weight", fmt(decking.weight or 0.0, PSF)),
    )


def _blocking(path: LoadPath) -> Iterator[tuple[str, str]]:
    """Rims, rows of blocking and spacers, with their fastening."""
    for entry in path.layout.project.blocking:
        marks = [m.mark for m in path.layout.blocking if entry_of(m).mark == entry.mark]
        if entry.hanger is not None:
            held = f"hanger {entry.hanger}"
        elif entry.fasteners:
            at = "joist" if entry.kind == "rim" else "end"
            held = f"{driven(entry)} at each {at}"
        else:
            held = "no fastening given"
        yield f"{entry.kind.capitalize()} {run_of(marks)}", f"{entry.section}; {held}"
        yield from _timber(entry)


def _timber(piece: Timber) -> Pairs:
    section = parse_section(piece.section)
    values = piece.values(section)
    service = "wet service" if piece.wet else "dry service"
    return (
        (
            "Timber",
            f"{section.name}, {values.species} {values.grade}, {service}{_incised(piece)}",
        ),
        ("Section", f"{section.b:.4g} x {section.d:.4g} in"),
        ("Reference values", _values(values)),
        ("Source", f"{values.source}; {CONFIDENCE[values.confidence]}"),
        *((("What they hold", _held(values)),) if values.table == OWN else ()),
        *(("Factors", note) for note in factors(values, _service(piece)).notes),
    )


def _post(name: str, post: Post) -> Pairs:
    """Timber of a kind of post, and how its load and its ends are taken."""
    said = "as entered" if "eccentricity" in post.model_fields_set else "common practice, not entered"
    held = {"fixed": "fixed in the ground", "pinned": "held by nothing in the ground"}[post.base]
    return (
        *_timber(post),
        (
            f"Load on {name}",
            f"e_1 {post.eccentricity:g} in off its axis, across the beam ({said}); e_2 0 along it",
        ),
        (f"Ends of {name}", f"K_e {post.K_e:g}, base {held}"),
    )


def _held(values: DesignValues) -> str:
    """Which factors a user's own values hold."""
    wet = Factor.INCLUDED if values.wet_values else Factor.APPLIED
    return (
        f"normal load duration; factor of wet service {wet.value}, of size {values.size.value}, of repetitive members "
        f"{values.repetitive.value}; flat use not counted"
    )


def _incised(piece: Timber) -> str:
    """Whether it was incised, and whether that was said or is the safe reading of nothing said."""
    if piece.incising_open:
        return ", counted as incised (the file does not say)"
    return ", incised" if piece.incised else ""


def _service(piece: Timber) -> Service:
    return Service(wet=piece.wet, incised=piece.counts_incised)


def _values(values: DesignValues) -> str:
    labels = {"F_b": "F_b", "F_v": "F_v", "F_c_perp": "F_c⊥", "F_c": "F_c", "E": "E", "E_min": "E_min"}
    shown = "; ".join(f"{label} {fmt(getattr(values, name), PSI)}" for name, label in labels.items())
    return f"{shown}; G {values.G:g}"


def _beside(placed: BoltInPlace) -> str:
    """The line of a bolt that is not bored straight at the trunk's axis."""
    if not placed.line.a:
        return ""
    return f"; bored at {placed.support.direction:g}° in plan, {placed.a:.2f} in. beside the axis"


def _tree_bolts(path: LoadPath) -> Pairs:
    found: list[tuple[str, str]] = []
    for support in path.layout.supports:
        if support.kind == SupportKind.TREE_BOLT:
            placed = bolt_in_place(path, support)
            found += [
                (
                    f"Bolt {support.mark}",
                    f"{placed.bolt.diameter:g} in. at the root, {placed.bolt.embedment:g} in. in sound wood, "
                    f"F_y {placed.bolt.F_y:,.0f} psi, F_u {placed.bolt.F_u:,.0f} psi; bearing {placed.e:.2f} in. "
                    f"outside sound wood{_beside(placed)}",
                ),
            ]
    for tree in path.layout.project.trees:
        bearing = next(
            (s for s in path.layout.supports if s.kind == SupportKind.TREE_BOLT and s.tree == tree.mark), None
        )
        if bearing is None:
            continue
        placed = bolt_in_place(path, bearing)
        wood = placed.wood
        found += [
            (
                f"Tree {tree.mark}",
                f"{wood.species}, girth {feet_inches(placed.girth)}, bark {tree.bark:g} in., sound radius "
                f"{placed.r:.2f} in.",
            ),
            (
                "Green wood",
                f"G {wood.G_green:g}, crushing along the grain {fmt(wood.C_par, PSI)}, E {fmt(wood.MOE, PSI)}; "
                f"{CONFIDENCE[wood.confidence]}",
            ),
            ("Condition noted", tree.condition or "none given"),
        ]
    return tuple(dict.fromkeys(found))


def _footings(path: LoadPath) -> Pairs:
    project = path.layout.project
    site = project.site
    kind = site.soil.values
    rows: Iterable[tuple[str, str]] = (
        (
            f"Footing {name}",
            f"{f.shape}, {feet_inches(f.width)} wide, {feet_inches(f.depth)} deep, {feet_inches(f.pad)} pad, "
            f"filled with {f.fill}, f'_c {f.f_c:,.0f} psi",
        )
        for name, f in project.footings.items()
    )
    return (
        *rows,
        (
            "Soil",
            f"{site.soil}: {kind.name}; {fmt(allowable_bearing(path), PSF)} allowed; {CONFIDENCE[kind.confidence]}",
        ),
        ("Frost depth", feet_inches(site.frost_depth)),
    )
