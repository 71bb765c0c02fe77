"""The lateral forces behind the checks: what pushes, how the deck moves on its supports, what comes to each of them."""

from __future__ import annotations

from collections.abc import Iterable
from string import ascii_uppercase

from bolewright.platform.analysis.lateral import LateralAnalysis
from bolewright.platform.results.results import Results
from bolewright.rendering.blocks import Block, Statement, StatementKind, Table
from bolewright.rendering.numbers import digits
from bolewright.sheets.knee_weights import knee_weight_blocks
from bolewright.sheets.lateral_cases import governing_pushes
from bolewright.sheets.lateral_loads import loads_note, shares_table, wind_blocks
from bolewright.sheets.lateral_springs import between_blocks, stiffness_blocks, trunk_blocks
from bolewright.sheets.lateral_weight import weight_blocks
from bolewright.sheets.overturning import overturning_table, overturning_units
from bolewright.sheets.printing import Page
from bolewright.sheets.unit_pushes import unit_push_blocks

COMPASS = " from +x to +y"  # said once over the table


def lateral_blocks(results: Results) -> tuple[Block, ...]:
    """Pushes that govern a check, movements, springs, and what they bring to the supports; none without lateral
    force.
    """
    lateral = results.lateral
    found = governing_pushes(results)
    if not found:
        return (Statement(StatementKind.NOTE, ("No lateral force enters a check of this platform.",)),)
    pushes = {place: f"{i}" for i, place in enumerate(found, start=1)}
    page = Page()
    return (
        _states(lateral, found),
        _pushes(lateral, found, pushes),
        overturning_table(lateral, found, pushes),
        shares_table(lateral, found, pushes),
        *wind_blocks(lateral),
        loads_note(),
        *trunk_blocks(lateral, page),
        _springs(lateral),
        *stiffness_blocks(lateral, page),
        Statement(StatementKind.NOTE, (BALANCE,)),
        _added(lateral, found, pushes),
        *overturning_units(results),
        *weight_blocks(results),
        *between_blocks(lateral, page),
        *unit_push_blocks(results),
        *knee_weight_blocks(results),
    )


BALANCE = (
    "The deck is stiff in plan and moves until the supports push back as much as is applied. A support at x, y moves "
    "along its direction (c, s) by δ = (u_x - θ y) c + (u_y + θ x) s, less what joints and beams between give (y in "
    "the next table), and pushes back with V = k times that, less the movement g of its trunk. These are as many "
    "equations as movements: any case can be put in and comes out. R_o is what overturning adds to a support, by the "
    "load path (table after the next). R_k is the upright part of the force in its knees with what the "
    "knees of all posts bring to it through the beam: of lateral force q Q a / r each, and of overturning what tight "
    "knees take up of it, which stands beside it. With slack knees R_k is the first part alone, less what they take "
    "up. The sums of V c, of V s and of V (x s - y c) over the supports are F_x, F_y and M_z, with what friction at "
    "sliding bearings takes and what the deck is pushed with by knees. Along x and y a support counts with both its "
    "directions."
)


def state_letters(found: Iterable[tuple[int, int]]) -> dict[int, str]:
    """Letter of every state of bases, joints and bolts that a listed case is taken in: A, B ..."""
    return dict(zip(sorted({number for _, number in found}), ascii_uppercase, strict=False))


def _states(lateral: LateralAnalysis, found: Iterable[tuple[int, int]]) -> Table:
    rows = tuple((letter, lateral.every[number].words) for number, letter in state_letters(found).items())
    return Table(("letter", "bases, joints and tree bolts"), rows, "How the supports are taken", "ll")


def _pushes(
    lateral: LateralAnalysis, found: Iterable[tuple[int, int]], names: dict[tuple[int, int], str]
) -> Table:
    rows = []
    letters = state_letters(found)
    for case, number in found:
        state = lateral.every[number]
        F_x, F_y, M_z = (float(v) for v in lateral.cases.load[:, case])
        u_x, u_y, theta = (float(v) for v in state.movement[:, case])
        words = lateral.cases.words[case].replace(COMPASS, "")
        rows.append(
            (
                names[case, number],
                f"{words[:1].upper()}{words[1:]}; {letters[number]}",
                lateral.cases.names[case],
                *(digits(round(v, 3)) for v in (F_x, F_y, M_z)),
                *(digits(v) for v in (u_x, u_y, theta)),
            )
        )
    columns = ("case", "lateral load", "combination", "F_x (lb)", "F_y (lb)", "M_z (lb·in)")
    moved = ("u_x (in)", "u_y (in)", "θ (rad)")
    return Table(
        (*columns, *moved),
        tuple(rows),
        "Movement of the deck in the lateral case of every row of the sheets that has one (column case there); "
        "directions are from +x to +y, letters as listed",
        "lllrrrrrr",
        (0, 1, 0, 0, 0, 0, 0, 0, 0),
    )


def _springs(lateral: LateralAnalysis) -> Table:
    rows: list[tuple[str, ...]] = []
    for state in lateral.every:
        for frame, spring in zip(lateral.frames, state.springs, strict=True):
            for k, (c, s) in zip(spring.k, spring.axes, strict=True):
                place = (digits(float(spring.x)), digits(float(spring.y)), digits(float(c)), digits(float(s)))
                row = frame.support.mark, state.taken(frame), *place, digits(float(k))
                rows += [row] if row not in rows else []
    columns = ("support", "base, or bolt", "x (in)", "y (in)", "c", "s", "k (lb/in)")
    return Table(columns, tuple(rows), "Stiffness of the supports, each in its two directions", "llrrrrr")


def _added(
    lateral: LateralAnalysis, found: Iterable[tuple[int, int]], names: dict[tuple[int, int], str]
) -> Table:
    rows = []
    moves = any(state.ground.any() for state in lateral.every)
    for case, number in found:
        state = lateral.every[number]
        for i, frame in enumerate(lateral.frames):
            brace_reaction, cap = state.brace_reaction[i, case], state.cap[i, case]
            taken = (state.picked[0, i, case], state.picked[1, i, case])
            V, y, g = (rows[i, :, case] for rows in (state.force, state.lag, state.ground))
            ways = [(V[w], y[w], g[w])[: 3 if moves else 2] for w in (0, 1)]
            cells = [*ways[0], *ways[1], state.over[i, case], brace_reaction, taken[0], cap, taken[1]]
            rows.append((names[case, number], frame.support.mark, *(digits(float(v)) for v in cells)))
    ground = ("g (in)",) if moves else ()
    columns = (
        "case",
        "support",
        "V, first way",
        "y (in)",
        *ground,
        "V, second way",
        "y (in)",
        *ground,
        "R_o",
        "R_k at the base",
        "of it taken up",
        "R_k at the cap",
        "of it taken up ",
    )
    caption = (
        "What lateral force adds to each support (lb): lateral in its two directions, where joints and beams give y"
        + (" and its trunk moves by g, and " if moves else ", and ")
        + "to its load"
    )
    return Table(columns, tuple(rows), caption, "ll" + "r" * (len(columns) - 2))
