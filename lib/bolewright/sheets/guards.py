"""Inputs and tables of the sheet of guards."""

from __future__ import annotations

from bolewright.drawings.gates import gate_details
from bolewright.drawings.guards import guard_details
from bolewright.platform.layout.guard_sizes import post_length
from bolewright.platform.layout.guard_ways import covered_edges, ground_beside, ways_on
from bolewright.platform.layout.guards import (
    along_asked,
    height_of,
    line_load,
    push_on,
)
from bolewright.platform.loads.load_path import LoadPath
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Figure, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.rendering.svg import to_svg
from bolewright.timber.sections import parse_section
from bolewright.units import feet_inches

Pairs = tuple[tuple[str, str], ...]
NONE = (("Guard", "the file has no guard as a part ([[guard]])"),)
WHERE = (
    "IRC 2021, R312.1.1: where the floor is more than 30 in. over the lowest ground within 36 in. of the edge"
)


def guard_inputs(path: LoadPath) -> Pairs:
    """What the file says of guards, and which loads its code asks."""
    project = path.layout.project
    if not project.guards:
        return NONE
    pairs: list[tuple[str, str]] = [
        ("Code", project.code.words or "none named: the stricter of IRC and IBC is taken"),
        ("Top of the guard", f"{feet_inches(height_of(project))} over the deck"),
        (
            "At the top",
            f"200 lb at any post{', or 50 plf, not both' if line_load(project) else '; 50 plf not asked'}",
        ),
        ("On the infill", "50 lb on a square foot"),
    ]
    for guard in project.guards:
        section = parse_section(guard.section)
        values = guard.values(section)
        asked, why = along_asked(project, guard)
        pairs += [
            (
                f"Guard {guard.mark}",
                f"edges {', '.join(map(str, guard.edges))}; posts {section.name} {values.species} {values.grade}, "
                f"{'wet' if guard.wet else 'dry'} service, at most {feet_inches(guard.spacing)} apart; cap {guard.cap} "
                f"flat, rails {guard.top_rail} and {guard.bottom_rail} on edge, {guard.infill}",
            ),
            (
                f"Joint of {guard.mark}",
                f"{guard.lever}; bolts {feet_inches(guard.bolt_diameter)}, {feet_inches(guard.bolt_edge)} from the "
                f"edges; plates {feet_inches(guard.plate)}; {guard.hold_down_note or 'no source of ratings given'}",
            ),
            (f"Along the rail of {guard.mark}", f"{'asked' if asked else 'not asked'}: {why}"),
        ]
    for gate in project.gates:
        hung = "a wheel on the deck bears its free edge" if gate.wheeled else "it hangs on its hinges alone"
        pairs.append(
            (
                f"Gate {gate.mark}",
                f"edge {gate.edge}, way {feet_inches(gate.width)}, opens {gate.swing}; {hung}; frame {gate.section}; "
                f"hinges {feet_inches(gate.hinge_spacing)} apart; {gate.hardware_note or 'no source of ratings given'}",
            )
        )
    return tuple(pairs)


def posts_table(results: Results) -> Table | Statement:
    """Setting out of the posts: where each stands, what takes it, its length and its push."""
    layout = results.path.layout
    rows = [
        (
            post.mark,
            str(run.edge) if run.guard.opening is None else f"{run.edge} of opening {run.guard.opening}",
            feet_inches(post.along),
            post.receiver.mark if post.receiver is not None else "nothing",
            feet_inches(post_length(layout, post)),
            feet_inches(post.holds),
            digits(push_on(layout, post)),
        )
        for run in layout.guards
        for post in run.posts
    ]
    if not rows:
        return Statement(StatementKind.NOTE, ("No guard of the file is a part with posts ([[guard]]).",))
    columns = ("post", "edge", "from its first corner", "tied to", "length", "rail it holds", "push, lb")
    return Table(
        columns, tuple(rows), "Setting out of the guard's posts, on centre along each edge", "lrllrrr"
    )


def edges_table(results: Results) -> Table:
    """Every edge: the height of the floor over the lowest ground beside it, and the guard on it."""
    project = results.project
    covered = covered_edges(project)
    names = _names(results)
    rows = []
    for edge in range(1, len(project.platform.outline) + 1):
        low, mark = ground_beside(project, edge)
        drop = project.platform.floor_height - low
        by = mark or "grade"
        guard = names.get(edge, "none") if edge in covered else f"{names.get(edge, 'none')}, not all of it"
        if edge not in covered and edge not in names:
            guard = "by others" if edge in project.loads.guard_edges else "none"
        rows.append((str(edge), feet_inches(drop), by, "yes" if drop > 30 else "no", guard))
    return Table(
        ("edge", "floor over ground", "decided by", "guard needed", "guard"), tuple(rows), WHERE, "lrlll"
    )


def _names(results: Results) -> dict[int, str]:
    """What stands on each edge of the outline: its guards and the ways through them."""
    found: dict[int, list[str]] = {}
    for run in results.path.layout.guards:
        if run.guard.opening is None and (name := f"{run.guard.mark} on edge {run.edge}") not in found.get(
            run.edge, ()
        ):
            found.setdefault(run.edge, []).append(name)
    for edge, names in found.items():
        names += [way.what for way in ways_on(results.project, edge)]
    return {edge: ", ".join(names) for edge, names in found.items()}


def detail_blocks(results: Results) -> tuple[Block, ...]:
    """The joint of a post of each guard, and every gate."""
    drawings = [*guard_details(results), *gate_details(results)]
    return tuple(Figure(to_svg(drawing, 150.0, 110.0), "", drawing.alt) for drawing in drawings)
