"""The statics of a beam in print: its loads, and for each pattern that governs the reactions and what they come to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from bolewright.part_sheets.beam_hand import aside, by_hand, from_model
from bolewright.part_sheets.beam_patterns import Patterns
from bolewright.part_sheets.beam_pieces import NEAR, Acting, Term, total
from bolewright.part_sheets.beam_statics import LEFT, Worst
from bolewright.part_sheets.beam_supports import ALIKE, Supports
from bolewright.rendering.blocks import Block, Equations, Table
from bolewright.rendering.numbers import fmt
from bolewright.rendering.wording import plain
from bolewright.units import INCH, PLF, POUND, POUND_INCH

_NOISE = 1.0  # lb or lb·in
_REACTION = re.compile(r"\bR_\d|\bM_0\b")
_MOMENT = re.compile(r"\bM_\d")


@dataclass(frozen=True)
class Effect:
    """A value that the steps begin with: its symbol, its words, the pattern that makes it greatest, its sign there."""

    symbol: str
    words: str
    worst: Worst
    sign: int = 1


def before(patterns: Patterns, effects: Sequence[Effect], lifted: str) -> tuple[Block, ...]:
    """Blocks before the steps: the loads, and pattern by pattern reactions, moments and shear.

    ``lifted`` names the combination, with its source, where 0.6 of the dead load stands against what lifts.
    """
    groups: dict[tuple[tuple[int, ...], float], list[Effect]] = {}
    for effect in effects:
        if effect.worst.value > _NOISE and effect.worst.loads:
            groups.setdefault((effect.worst.loads, effect.worst.dead_share), []).append(effect)
    blocks: list[Block] = [_loads(patterns), aside(_places(patterns)), *patterns.opening]
    for group in groups.values():
        blocks += _pattern(patterns, group, lifted)
    return tuple(blocks)


def _places(patterns: Patterns) -> str:
    supports = patterns.statics.beam.supports
    if len(supports) == 1:
        stand = "It is held fast at its left end, x = 0."
    else:
        places = [f"{plain(f'a_{n}')} = {fmt(x, INCH)}" for n, x in enumerate(supports, 1)]
        spans = zip(supports, supports[1:], strict=False)
        places += [f"{plain(f'l_{n}')} = {fmt(b - a, INCH)}" for n, (a, b) in enumerate(spans, 1)]
        stand = f"Supports, from the left end, and spans: {'; '.join(places)}."
    return (
        f"{stand} Each value below is worked out for the loads that make it greatest; live load that would relieve it "
        "is left off. Which loads those are, and at which section, was found by the beam model, which tries them all."
    )


def _loads(patterns: Patterns) -> Table:
    rows = []
    for p in patterns.pieces:
        bay = patterns.statics.bays[p.bay]
        words = f"{p.part.words}, {bay.name}" if p.spread else p.part.words
        at = (fmt(p.part.start, INCH), fmt(p.part.end, INCH) if p.spread else "")
        if p.couple:
            turn = "clockwise" if p.part.couple > 0 else "counterclockwise"
            size = f"{fmt(abs(p.part.couple), POUND_INCH)} {turn}"
        elif not p.spread:
            size = fmt(abs(p.part.total), POUND)
        else:
            size = " to ".join(dict.fromkeys((fmt(abs(p.part.first), PLF), fmt(abs(p.part.last), PLF))))
        symbol = plain(f"C_{p.n}" if p.couple else f"W_{p.n}")
        rows.append((symbol, words, size + (" up" if p.part.lifts else ""), *at))
    heading = ("mark", "load", "size", "from", "to")
    return Table(heading, tuple(rows), "Loads, cut at the supports, from the left end", "llrrr")


def _pattern(patterns: Patterns, group: Sequence[Effect], lifted: str) -> list[Block]:
    """One pattern: its loads, its reactions where a line wants them, and every value that it makes greatest."""
    acting = patterns.acting(group[0].worst)
    supports = patterns.supports(group[0].worst, ", ".join(plain(e.symbol) for e in group))
    named = [f"{e.words} {plain(e.symbol)}" for e in group]
    greatest = " and ".join((", ".join(named[:-1]), named[-1])) if named[1:] else named[0]
    words = f"Loads that act for the {greatest}: {patterns.said(acting)}."
    if group[0].worst.dead_share < 1:
        share = f"{group[0].worst.dead_share:g}"
        words += f" Of dead load {share} is counted against what lifts: {lifted}."
    elif "R_up" in {e.symbol for e in group} and any(
        acting.statics.loads[p.load].dead for p in acting.pieces
    ):
        words += " All of the dead load is counted for the uplift: it lifts there itself."
    values = [block for effect in group for block in _value(acting, supports, effect)]
    used = " ".join(b.alt for b in values if isinstance(b, Equations))
    blocks: list[Block] = [aside(words)]
    if _REACTION.search(used) or _MOMENT.search(used):
        of_reactions = len(acting.statics.beam.supports) == 3 and _REACTION.search(used)
        if of_reactions or _MOMENT.search(used):
            blocks += supports.moments
            supports.moments_printed = named[0]
        if _REACTION.search(used):
            blocks += supports.reactions
    return [*blocks, *values]


def _value(acting: Acting, supports: Supports, effect: Effect) -> list[Block]:
    worst, symbol = effect.worst, effect.symbol
    title = f"{effect.words[:1].upper()}{effect.words[1:]}"
    if supports.missing:
        return [from_model(f"{title} {plain(symbol)}", supports.missing)]
    shear = symbol == "V"
    unit = POUND_INCH if symbol in ("M", "M_n") else POUND
    if symbol in ("R", "R_up"):
        n = acting.statics.beam.supports.index(worst.x) + 1
        ways = [[f"{symbol} = {'-' if effect.sign < 0 else ''}R_{n}"]]
    else:
        ways = _ways(acting, effect, shear=shear)
    blocks = by_hand(ways, supports.names | {"x": INCH.of(worst.x)}, title, worst.value, unit)
    if not blocks:
        return [from_model(f"{title} {plain(symbol)}", ALIKE)]
    if symbol in ("R", "R_up"):
        return list(blocks)
    where = f"Section at x = {fmt(worst.x, INCH)} from the left end"
    if shear:
        where += f", just {worst.side} of it"
    elif any(p.couple and 0 < p.part.start - worst.x < 1e-3 for p in acting.pieces):
        where += ", just left of the moment that is applied there"
    return [aside(f"{where}."), *blocks]


def _ways(acting: Acting, effect: Effect, *, shear: bool) -> list[list[str]]:
    """The value from what stands left of the section, and from what stands right of it."""
    places = acting.statics.beam.supports
    x, symbol = effect.worst.x, effect.symbol
    turned_there = any(p.couple and abs(p.part.start - x) < 2 * NEAR for p in acting.pieces)
    if not shear and len(places) == 3 and abs(x - places[1]) < NEAR and not turned_there:
        return [[f"{symbol} = {'-' if effect.sign < 0 else ''}M_2  # over the middle support"]]
    past = effect.worst.side != LEFT if shear else True
    ways = []
    for left in (True, False):
        lines, loads = acting.section(x, left=left, shear=shear, past=past)
        held: list[Term] = []
        for n, a in enumerate(places, 1):
            is_left = a < x - NEAR or (past and a <= x + NEAR)
            if is_left is left and (shear or abs(a - x) > NEAR):
                arm = "" if shear else f" * ({f'x - a_{n}' if left else f'a_{n} - x'})"
                held.append(Term(1, f"R_{n}{arm}"))
        if len(places) == 1 and left and not shear:
            held.append(Term(1, "M_0"))
        terms = [*held, *(replace(t, sign=-t.sign) for t in loads)]
        turned = -1 if shear and not left else 1
        text = total(terms, effect.sign * turned)
        if text:
            side = "left" if left else "right"
            ways.append([*lines, f"{symbol} = {text}  # {'forces' if shear else 'moments'} {side} of x"])
    return ways
